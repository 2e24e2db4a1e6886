"""The stand-in gateway: what it keeps, what it posts, and that its misbehaving repeats."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from collections.abc import Iterator
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qs

import pytest
import requests

from bot.clock import FixedClock
from bot.doors.twiml import answer
from bot.gateway.client import Outgoing, TwilioCompatible
from bot.gateway.faults import Fault, Faults, Receipts, faults_from
from bot.gateway.phones import Service
from bot.gateway.pretend import PretendGateway
from bot.gateway.signature import HEADER, Signed, is_genuine

NOW = datetime(2026, 3, 1, 6, 0, tzinfo=UTC)
FARMER, OURS = "+15005550009", "+15005550006"
PUBLIC = "https://chicks.example"


class _FakeService(ThreadingHTTPServer):
    """A service that remembers what was posted to it and says back what it was told."""

    def __init__(self) -> None:
        self.heard: list[tuple[str, dict[str, list[str]], str]] = []
        super().__init__(("127.0.0.1", 0), _Hearing)


class _Hearing(BaseHTTPRequestHandler):
    server: _FakeService

    def do_POST(self) -> None:
        posted = self.rfile.read(int(self.headers["Content-Length"])).decode()
        form = parse_qs(posted, keep_blank_values=True)
        self.server.heard.append((self.path, form, self.headers.get(HEADER, "")))
        body = form.get("Body", [""])[0]
        said = answer(*([f"You said {body}"] if body else [])).encode()
        self.send_response(200)
        self.send_header("Content-Length", str(len(said)))
        self.end_headers()
        self.wfile.write(said)

    def log_message(self, format: str, *args: object) -> None:
        """Keeps the test's output clean."""


@pytest.fixture
def service() -> Iterator[_FakeService]:
    server = _FakeService()
    threading.Thread(target=server.serve_forever, args=(0.05,), daemon=True).start()
    yield server
    server.shutdown()
    server.server_close()


@pytest.fixture
def pretend(service: _FakeService) -> Iterator[PretendGateway]:
    there = Service(f"http://127.0.0.1:{service.server_port}", PUBLIC, "ACtest", "secret", OURS)
    with PretendGateway(there, clock=FixedClock(NOW)) as gateway:
        yield gateway


def _send(pretend: PretendGateway, text: str = "Day 3", to: str = FARMER) -> str:
    receipts = f"{PUBLIC}/sms/receipt"
    client = TwilioCompatible(pretend.url, "ACtest", "secret", OURS, receipts)
    return client.send(Outgoing(to, text, "17")).sid


def _statuses(service: _FakeService) -> list[str]:
    return [form["MessageStatus"][0] for path, form, _ in service.heard if "receipt" in path]


def _own(pretend: PretendGateway, path: str, said: dict[str, Any]) -> dict[str, Any]:
    answered = requests.post(f"{pretend.url}/pretend/{path}", json=said, timeout=10)
    assert answered.status_code == 200
    found: dict[str, Any] = answered.json()
    return found


def test_a_phone_texts_the_service_signed_and_gets_its_reply(
    pretend: PretendGateway, service: _FakeService
) -> None:
    said = _own(pretend, "text", {"from": FARMER, "body": "vifaranga 200 & <leo>"})
    assert (said["status"], said["replies"]) == (200, ["You said vifaranga 200 & <leo>"])
    ((path, form, signature),) = service.heard
    assert path == "/sms"
    assert (form["From"], form["To"]) == ([FARMER], [OURS])
    assert is_genuine(Signed(f"{PUBLIC}/sms", form, signature), ["secret"])
    assert not is_genuine(Signed(f"{PUBLIC}/sms", form, signature), ["other"])


def test_an_empty_text_and_a_chosen_id_go_through(
    pretend: PretendGateway, service: _FakeService
) -> None:
    said = _own(pretend, "text", {"from": FARMER, "body": "", "id": "one", "unsigned": True})
    assert (said["id"], said["replies"]) == ("one", [])
    ((_, form, signature),) = service.heard
    assert (form["MessageSid"], form["Body"], signature) == (["one"], [""], "")


@pytest.mark.parametrize(
    ("how", "statuses"),
    [
        (Receipts.PLAIN, ["sent", "delivered"]),
        (Receipts.DOUBLED, ["sent", "sent", "delivered", "delivered"]),
        (Receipts.REORDERED, ["delivered", "sent"]),
        (Receipts.EARLY, ["sent", "delivered"]),
        (Receipts.LOST, []),
    ],
)
def test_receipts_come_signed_and_as_badly_as_asked(
    pretend: PretendGateway, service: _FakeService, how: Receipts, statuses: list[str]
) -> None:
    pretend.faults.receipts = {how: 1.0}
    sid = _send(pretend)
    if how is Receipts.EARLY:
        assert _statuses(service)[:1] == ["sent"]  # before the answer
    assert _own(pretend, "settle", {}) == {"told": True}
    assert _statuses(service) == statuses
    for path, form, signature in service.heard:
        assert path == "/sms/receipt?ref=17"
        assert form["MessageSid"] == [sid]
        assert is_genuine(Signed(PUBLIC + path, form, signature), ["secret"])


def test_a_phone_that_is_off_is_told_with_its_code(
    pretend: PretendGateway, service: _FakeService
) -> None:
    pretend.faults.undelivered = {FARMER: 30003}
    _send(pretend)
    _own(pretend, "settle", {})
    assert _statuses(service) == ["sent", "undelivered"]
    assert service.heard[-1][1]["ErrorCode"] == ["30003"]


def test_what_was_sent_since_is_told_with_its_cost_and_time(pretend: PretendGateway) -> None:
    _send(pretend, "one")
    sid = _send(pretend, "°" * 71)
    seen = requests.get(f"{pretend.url}/pretend/messages?since=1", timeout=10).json()
    (message,) = seen["messages"]
    assert (message["sid"], message["parts"], message["encoding"]) == (sid, 2, "ucs2")
    assert message["at"] == "2026-03-01T06:00:00+00:00"
    assert seen["last"] == 2
    later = requests.get(f"{pretend.url}/pretend/messages?since=2", timeout=10).json()
    assert later == {"messages": [], "last": 2}


def test_faults_set_from_outside_are_used_and_a_wrong_one_is_named(
    pretend: PretendGateway,
) -> None:
    _own(pretend, "faults", {"planned": ["busy"], "rates": {"slow": 0.5}, "slow_seconds": 0})
    assert pretend.faults.next_fault() is Fault.BUSY
    wrong = requests.post(f"{pretend.url}/pretend/faults", json={"sloow": 1}, timeout=10)
    assert (wrong.status_code, "sloow" in wrong.text) == (400, True)
    broken = requests.post(f"{pretend.url}/pretend/text", data=b"{", timeout=10)
    assert broken.status_code == 400


def test_the_same_seed_misbehaves_alike() -> None:
    rates = {"busy": 0.2, "reset_after": 0.2, "error_after": 0.2}
    runs = [
        [faults.next_fault() for _ in range(200)]
        for faults in (faults_from({"seed": seed, "rates": rates}) for seed in (7, 7, 8))
    ]
    assert runs[0] == runs[1] != runs[2]
    assert 60 < runs[0].count(Fault.NONE) < 100
    assert Faults().next_fault() is Fault.NONE


def test_it_runs_as_a_process_of_its_own() -> None:
    command = [sys.executable, "-m", "bot.gateway.pretend", "--service", "http://127.0.0.1:9"]
    with subprocess.Popen(command, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        url = json.loads(process.stdout.readline())["url"]
        client = TwilioCompatible(url, "ACpretend", "pretend", OURS, "http://127.0.0.1:9/sms/x")
        assert client.send(Outgoing(FARMER, "hello", "1")).sid
        seen = requests.get(f"{url}/pretend/messages", timeout=10).json()
        assert [one["body"] for one in seen["messages"]] == ["hello"]
        process.terminate()
