"""Weather foretold: what is read of an answer of the recorded shape, and of one that fails."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import pytest

from bot.gateway.weather import DailyWeather, read_daily

NOBODY = "http://127.0.0.1:9"  # the discard port: nothing listens there
MARCH = [date(2026, 3, day) for day in (4, 5, 6)]
# The shape of a public weather service's daily answer, recorded; the figures are invented.
RECORDED: dict[str, Any] = {
    "latitude": -1.25,
    "longitude": 36.875,
    "utc_offset_seconds": 10800,
    "timezone": "Africa/Nairobi",
    "daily_units": {"time": "iso8601", "temperature_2m_max": "C", "temperature_2m_min": "C"},
    "daily": {
        "time": ["2026-03-04", "2026-03-05", "2026-03-06"],
        "temperature_2m_max": [27.4, 28.1, 26.0],
        "temperature_2m_min": [14.2, 12.9, 13.5],
    },
}


@contextmanager
def answering(status: int, body: str) -> Iterator[str]:
    """The address of a service that always gives this answer."""

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            self.send_response(status)
            self.end_headers()
            self.wfile.write(body.encode())

        def log_message(self, format: str, *args: object) -> None:
            del format, args

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    thread = threading.Thread(target=server.serve_forever, args=(0.01,))
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/daily?latitude=-1.25"
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


def test_a_day_goes_with_the_night_that_follows_it() -> None:
    with answering(200, json.dumps(RECORDED)) as url:
        found = DailyWeather(url).foretell()
    assert found == {MARCH[0]: (27.4, 12.9), MARCH[1]: (28.1, 13.5)}


@pytest.mark.parametrize(
    ("status", "body"),
    [(500, json.dumps(RECORDED)), (302, ""), (200, "<html>"), (200, "[]"), (200, "null"),
     (200, '{"daily": null}'), (200, '{"daily": {"time": ["soon", "later"],'
      ' "temperature_2m_max": [1, 2], "temperature_2m_min": [1, 2]}}')],
)  # fmt: skip
def test_a_service_that_fails_foretells_nothing(status: int, body: str) -> None:
    with answering(status, body) as url:
        assert DailyWeather(url).foretell() == {}


def test_a_service_that_is_not_there_foretells_nothing() -> None:
    assert DailyWeather(NOBODY, (0.3, 0.3)).foretell() == {}


def test_days_without_a_figure_or_with_an_impossible_one_are_left_out() -> None:
    lists = {
        "time": ["2026-03-04", "2026-03-05", "2026-03-06", "2026-03-07"],
        "temperature_2m_max": [None, 28.0, 900.0, 25.0],
        "temperature_2m_min": [14.0, 15.0, 13.0],
    }
    assert read_daily({"daily": lists}) == {MARCH[1]: (28.0, 13.0)}
