"""Sender, clock and web killed with SIGKILL in the middle of their work, on both databases."""

from __future__ import annotations

import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from datetime import timedelta
from pathlib import Path

import pytest
import requests

from bot.clock import FixedClock
from bot.gateway.client import TwilioCompatible
from bot.gateway.phones import Service
from bot.gateway.pretend import PretendGateway
from bot.records.session import Database
from bot.turn.tick import tick
from tests.kill.clock import CHUNK
from tests.kill.plain import (
    ACCOUNT,
    MORNING,
    SERVICE,
    TOKEN,
    add_cooperative,
    add_farms,
    count,
    handbook,
    keys,
    number,
    told,
)
from tests.outbox.conftest import NOW, Outbox
from tests.serve.playing import free_port, inbound, until

ROOT = Path(__file__).resolve().parents[2]
NOBODY = "http://127.0.0.1:9"
TAKEN = {"sent", "delivered"}


def launch(module: str, *arguments: str) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-m", f"tests.kill.{module}", *arguments]
    return subprocess.Popen(command, cwd=ROOT)


def killed(module: str, *arguments: str) -> bool:
    """Whether the process ended by SIGKILL, as it was meant to."""
    return launch(module, *arguments).wait(30) == -signal.SIGKILL


# The sender


@pytest.fixture
def outbox(db: Database) -> Outbox:
    return Outbox(db)


@pytest.mark.parametrize("when", ["before", "after"])
def test_a_sender_killed_around_the_gateways_answer_loses_nothing_and_doubles_nothing(
    outbox: Outbox, when: str
) -> None:
    clock = FixedClock(NOW)
    phones = [number(index) for index in range(3)]
    for phone in phones:
        outbox.add("Day 3", phone)
    with PretendGateway(Service(NOBODY, NOBODY, ACCOUNT, TOKEN, SERVICE), clock=clock) as pretend:
        assert killed("sender", pretend.url, outbox.db.url, NOW.isoformat(), when)
        assert outbox.states() == ["leased", "waiting", "waiting"]
        client = TwilioCompatible(pretend.url, ACCOUNT, TOKEN, SERVICE, f"{NOBODY}/sms/receipt")
        for _ in range(6):  # within a minute
            clock.move(timedelta(seconds=10))
            outbox.now = clock.now()
            outbox.send(client)
        assert set(outbox.states()) <= TAKEN
        assert sorted(kept.to for kept in pretend.book.since(0)) == phones


# The clock


@pytest.mark.parametrize("dies_in", [1, 3])
def test_a_clock_killed_in_the_middle_of_a_tick_says_everything_once_when_it_is_back(
    db: Database, dies_in: int
) -> None:
    farms = 3 * CHUNK + 2
    add_cooperative(db)
    add_farms(db, farms)
    assert killed("clock", db.url, str(dies_in))
    whole, before = len(keys(db)), (dies_in - 1) * CHUNK
    # Where chunks go side by side, those that are not whole yet die with it.
    assert whole == before if db.is_sqlite else whole in range(0, before + 1, CHUNK)
    assert (told(db), count(db, "heartbeat")) == (whole, 0)
    assert tick(db, handbook(), MORNING + timedelta(seconds=30)) == farms - whole
    assert tick(db, handbook(), MORNING + timedelta(seconds=60)) == 0
    assert sorted(keys(db)) == sorted(f"{i}:1:2026-03-05:morning" for i in range(1, farms + 1))


# The web

Web = Callable[[str], AbstractContextManager[str]]


@pytest.fixture
def web(db: Database, tmp_path: Path) -> Web:
    """`with web("in_turn") as url`: the service, which dies there."""
    add_cooperative(db)
    clock = tmp_path / "clock"
    clock.write_text("0")

    @contextmanager
    def started(dies: str) -> Iterator[str]:
        port = free_port()
        url = f"http://127.0.0.1:{port}"
        process = launch("service", str(port), db.url, NOBODY, str(clock), dies)

        def listens() -> bool:
            try:
                return requests.get(f"{url}/no/door", timeout=2).status_code == 404
            except requests.RequestException:
                return False

        try:
            assert until(listens, 20), "the service does not answer"
            yield url
            assert dies == "never" or process.wait(10) == -signal.SIGKILL
        finally:
            process.kill()
            process.wait(10)

    return started


@pytest.mark.parametrize(("dies", "written"), [("in_turn", 0), ("answering", 1)])
def test_a_web_killed_in_a_turn_has_taken_the_text_whole_or_not_at_all(
    db: Database, web: Web, dies: str, written: int
) -> None:
    form = inbound(number(1), "new batch 300 chicks today", AccountSid=ACCOUNT)
    tables = ("turn", "phone", "batch", "consent_record")
    with web(dies) as url, pytest.raises(requests.ConnectionError):
        requests.post(f"{url}/sms", data=form, timeout=10)
    assert [count(db, table) for table in tables] == [written] * 4
    with web("never") as url:
        answers = [requests.post(f"{url}/sms", data=form, timeout=10) for _ in range(3)]
    assert {answer.status_code for answer in answers} == {200}
    assert len({answer.text for answer in answers}) == 1
    assert "<Message>" in answers[0].text
    assert [count(db, table) for table in tables] == [1] * 4
    assert sum(one.startswith("turn:") for one in keys(db)) == 1  # the evening has texts of its own
