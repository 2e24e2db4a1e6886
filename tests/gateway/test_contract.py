"""What every gateway keeps, over real HTTP: the Twilio-compatible one and those of a dialect of
their own. Whether a text may have been accepted is what keeps it from being sent twice."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs

import pytest

from bot.errors import SendError
from bot.gateway.client import Gateway, Outgoing, TwilioCompatible
from bot.gateway.plain_http import Dialect, PlainHttp

FARMER, OURS = "+254700000001", "+254700000100"
TEXT = "Feed & water: 50%? + é 'now'"
OUTGOING = Outgoing(FARMER, TEXT, "17", valid_seconds=3600)
NOWHERE = "http://127.0.0.1:9"  # the discard port: nothing listens there


@dataclass
class Counter:
    """A gateway counter: keeps what was posted and answers as it is told. hangs_up: it takes the
    text and closes the connection without a word."""

    status: int = 201
    body: str = '{"sid": "SM1", "id": "SM1", "messages": [{"id": 7}], "status": "queued"}'
    hangs_up: bool = False
    posts: list[tuple[str, str, str]] = field(default_factory=list)  # type, authorization, body
    url: str = ""


@pytest.fixture
def counter() -> Iterator[Counter]:
    found = Counter()

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["Content-Length"])).decode()
            kind, who = self.headers["Content-Type"], self.headers["Authorization"] or ""
            found.posts.append((kind, who, body))
            if found.hangs_up:
                self.close_connection = True
                return
            said = found.body.encode()
            self.send_response(found.status)
            self.send_header("Content-Type", "application/json")
            self.send_header("Content-Length", str(len(said)))
            self.send_header("Location", NOWHERE)
            self.end_headers()
            self.wfile.write(said)

        def log_message(self, format: str, *args: object) -> None:
            """Keep the test run quiet."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    found.url = f"http://127.0.0.1:{server.server_port}"
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield found
    server.shutdown()
    server.server_close()


Made = Callable[[str], Gateway]
SHORT = (0.5, 5.0)
GATEWAYS: dict[str, Made] = {
    "twilio-compatible": lambda url: TwilioCompatible(url, "AC1", "t", OURS, url + "/r", SHORT),
    "own dialect, form": lambda url: PlainHttp(url, "me", "t", OURS, Dialect(), SHORT),
    "own dialect, JSON": lambda url: PlainHttp(url, "", "t", OURS, Dialect("json"), SHORT),
}


@pytest.fixture(params=GATEWAYS)
def made(request: pytest.FixtureRequest) -> Made:
    return GATEWAYS[str(request.param)]


def _failed(gateway: Gateway) -> SendError:
    with pytest.raises(SendError) as caught:
        gateway.send(OUTGOING)
    return caught.value


def _fields(post: tuple[str, str, str]) -> dict[str, str]:
    kind, _, body = post
    if kind.startswith("application/json"):
        return {str(name): str(value) for name, value in json.loads(body).items()}
    return {name: values[0] for name, values in parse_qs(body).items()}


def test_a_text_is_handed_over_word_for_word_and_its_id_comes_back(
    made: Made, counter: Counter
) -> None:
    assert made(counter.url).send(OUTGOING).sid == "SM1"
    (post,) = counter.posts
    said = _fields(post)
    assert TEXT in said.values()
    assert FARMER in said.values()
    assert OURS in said.values()
    assert post[1].startswith(("Basic ", "Bearer "))
    assert any("17" in value for value in said.values())  # our own reference


@pytest.mark.parametrize(
    ("status", "permanent", "unknown"),
    [
        (400, True, False),
        (422, True, False),
        (401, False, False),
        (404, False, False),
        (429, False, False),
        (500, False, True),
        (502, False, True),
        (503, False, True),
        (302, False, False),
    ],
)
def test_a_refusal_is_told_from_an_answer_that_may_be_lost(
    made: Made, counter: Counter, status: int, permanent: bool, unknown: bool
) -> None:
    counter.status, counter.body = status, "{}"
    failed = _failed(made(counter.url))
    assert (failed.permanent, failed.unknown) == (permanent, unknown)
    assert len(counter.posts) == 1  # nothing is followed and nothing tried again
    assert FARMER not in str(failed)


def test_a_connection_cut_after_the_text_was_taken_is_unknown(made: Made, counter: Counter) -> None:
    counter.hangs_up = True
    failed = _failed(made(counter.url))
    assert (failed.permanent, failed.unknown) == (False, True)


@pytest.mark.parametrize("body", ["", "OK", "{}", "[]", '{"id": null, "sid": null}', "<html>"])
def test_an_answer_without_an_id_is_unknown(made: Made, counter: Counter, body: str) -> None:
    counter.body = body
    assert _failed(made(counter.url)).unknown


@pytest.mark.parametrize("url", [NOWHERE, "http://nobody.invalid", "nonsense"])
def test_a_gateway_that_cannot_be_reached_was_not_sent_to(made: Made, url: str) -> None:
    failed = _failed(made(url))
    assert (failed.permanent, failed.unknown) == (False, False)
    assert FARMER not in str(failed)


# What only a dialect has


def test_the_operator_names_the_fields_and_where_the_id_stands(counter: Counter) -> None:
    dialect = Dialect(
        "form", {"to": "recipient", "text": "message"}, {"type": "plain"}, "messages.0.id"
    )
    assert PlainHttp(counter.url, "", "", OURS, dialect).send(OUTGOING).sid == "7"
    assert _fields(counter.posts[0]) == {"recipient": FARMER, "message": TEXT, "type": "plain"}
    assert counter.posts[0][1] == ""


def test_a_gateway_that_gives_no_id_is_known_by_our_reference(counter: Counter) -> None:
    counter.body = "OK"
    gateway = PlainHttp(counter.url, "", "t", OURS, Dialect(id_at=""))
    assert gateway.send(OUTGOING).sid == "17"


def test_a_gateway_without_a_list_cannot_be_asked(counter: Counter) -> None:
    gateway = PlainHttp(counter.url, "", "t", OURS, Dialect())
    with pytest.raises(SendError):
        gateway.find(FARMER, TEXT, datetime(2026, 3, 1, tzinfo=UTC))
    assert counter.posts == []
