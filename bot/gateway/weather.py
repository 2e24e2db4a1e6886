"""Asks a public weather service what it foretells for the cooperative. Off unless set.

In: the whole address of a service that answers with daily lists in JSON (`daily.time`, dates;
`daily.temperature_2m_max` and `_min`, C), the place within it. Out: for each local day the warmest
of the day and the coldest of the night that follows. Whatever goes wrong, nothing is foretold and
the month's normals stand. Called by wiring, never inside a transaction.
"""

from __future__ import annotations

import logging
from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any, Protocol

import requests

log = logging.getLogger(__name__)
TIMEOUTS = (3.05, 5.0)  # seconds to connect, seconds between bytes of the answer
COLDEST_C, HOTTEST_C = -20.0, 50.0  # beyond these it is no air that chicks are raised in
DAY = timedelta(days=1)
Forecast = Mapping[date, tuple[float, float]]


class Weather(Protocol):
    """Anything that foretells the air outside."""

    def foretell(self) -> Forecast:
        """Warmest of each day and coldest of the night after it [C]; empty where it can't tell.
        Never raises."""


class DailyWeather:
    """A weather service with daily lists, spoken to with `requests`."""

    def __init__(self, url: str, timeouts: tuple[float, float] = TIMEOUTS) -> None:
        self._url = url
        self._timeouts = timeouts

    def foretell(self) -> Forecast:
        """As in Weather."""
        try:
            answer = requests.get(self._url, timeout=self._timeouts, allow_redirects=False)
            return read_daily(answer.json()) if answer.status_code == 200 else {}
        except (requests.RequestException, ValueError) as lost:
            log.info("no weather foretold: %s", type(lost).__name__)
            return {}


def read_daily(said: Any) -> Forecast:
    """The forecast in an answer. Days without a figure, or with one that can't be, are left out."""
    daily = said.get("daily") if isinstance(said, dict) else None
    if not isinstance(daily, dict):
        return {}
    days = _list(daily, "time")
    highs = _by_day(days, _list(daily, "temperature_2m_max"))
    lows = _by_day(days, _list(daily, "temperature_2m_min"))
    return {
        day: (high, lows[day + DAY])
        for day, high in highs.items()
        if day + DAY in lows and lows[day + DAY] <= high
    }


def _list(daily: Mapping[str, Any], name: str) -> list[Any]:
    found = daily.get(name)
    return found if isinstance(found, list) else []


def _by_day(days: list[Any], figures: list[Any]) -> dict[date, float]:
    found = {}
    for day, figure in zip(days, figures, strict=False):
        real = isinstance(figure, int | float) and not isinstance(figure, bool)
        if real and COLDEST_C <= figure <= HOTTEST_C:
            found[date.fromisoformat(str(day))] = float(figure)
    return found
