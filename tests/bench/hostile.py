"""Fires hostile requests at every door of a running service, and says what it did wrong: an answer
that is not right, a fault of ours, an answer that took too long, a farm's record that changed,
memory that grows.

In: --full for 100,000 requests, else 5,000. Out: one JSON line. The service is `broodpost serve` in
a process of its own on SQLite, with its clock and its sender; its farms are there before the first
request and are never rightly texted afterwards. Requests are made anew from a seed and a number
(bench.shots). Run by scripts/bench.
"""

from __future__ import annotations

import argparse
import socket
import tempfile
from collections import Counter as Count
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from http.client import HTTPException, HTTPResponse
from itertools import pairwise
from pathlib import Path
from statistics import quantiles
from time import monotonic, perf_counter
from typing import Any
from xml.etree import ElementTree

from sqlalchemy import Column, Connection, Table, insert, select

from bot.records import tables as t
from bot.records.session import Database
from tests.bench.shots import Shot, World, shot
from tests.bench.sides import Line, line, show
from tests.serve.playing import Clock, Counter, Service, inbound, morning, parts, serving

FEW, MANY, SEED = 5_000, 100_000, 1
LOOKS = 20  # at memory, evenly over the run; the bar stands between the fourth and the last
CONNECTIONS = 3
SLOW_S, PATIENCE_S = 1.0, 5.0
SCREEN = 150
FARMS = tuple(f"+254700000{one:03d}" for one in range(1, 9))
BEGINNINGS = (
    ("new batch 300 today", "1", "2 dead"),
    ("vifaranga 400 walifika siku 3 zilizopita", "1", "wamekufa 2"),
    ("500 poussins arrives il y a 5 jours", "1", "1 mort"),
    ("new batch 250 arrived 9 days ago", "2", "temp 29"),
)
STATES = ("sent", "delivered", "undelivered", "failed")
INBOUND_SECRET = "another-invented-path-of-many-letters"
BAR = (
    "no 500, nothing wrong, no answer over 1 s, memory at the end at most 1.1 of a fifth of the way"
)


@dataclass
class Found:
    """What came of the requests. answers: by kind and status; 0 is none. seconds: of each answer.
    wrong: what should not have been, in words."""

    answers: Count[tuple[str, int]] = field(default_factory=Count)
    seconds: list[tuple[float, str]] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)

    def take_in(self, other: Found) -> None:
        self.answers.update(other.answers)
        self.seconds += other.seconds
        self.wrong += other.wrong


class Wire:
    """A connection that is kept while the service keeps it."""

    def __init__(self, port: int) -> None:
        self._port = port
        self._socket: socket.socket | None = None

    def ask(self, raw: bytes, *, alone: bool) -> tuple[int, str]:
        """Status and body; 0 where the service hung up without an answer."""
        kept = self._socket is not None and not alone
        if alone:
            self.close()
        found = self._once(raw)
        if found is None and kept:  # the service had closed a connection that we still kept
            found = self._once(raw)
        if alone:
            self.close()
        return found or (0, "")

    def hang_up(self, raw: bytes) -> None:
        """Send, and be gone before the answer."""
        self.close()
        with socket.create_connection(("127.0.0.1", self._port), PATIENCE_S) as gone:
            gone.sendall(raw)

    def close(self) -> None:
        if self._socket is not None:
            self._socket.close()
            self._socket = None

    def _once(self, raw: bytes) -> tuple[int, str] | None:
        try:
            if self._socket is None:
                self._socket = socket.create_connection(("127.0.0.1", self._port), PATIENCE_S)
            with suppress(BrokenPipeError, ConnectionResetError):  # refused before all was sent
                self._socket.sendall(raw)
            method = raw.split(b" ", 1)[0].decode("latin-1")
            answer = HTTPResponse(self._socket, method=method)
            answer.begin()
            body = answer.read().decode("utf-8", "replace")
        except (OSError, HTTPException):
            self.close()
            return None
        if answer.will_close:
            self.close()
        return answer.status, body


def fire(world: World, port: int, seed: int, numbers: range) -> Found:
    """The requests of these numbers, one after another."""
    wire, found = Wire(port), Found()
    for number in numbers:
        one = shot(world, seed, number)
        if one.hangs_up:
            wire.hang_up(one.raw)
            found.answers[one.kind, 0] += 1
            continue
        begun = perf_counter()
        status, body = wire.ask(one.raw, alone=one.alone)
        found.seconds.append((perf_counter() - begun, one.kind))
        found.answers[one.kind, status] += 1
        found.wrong += [f"{one.kind} {number}: {why}" for why in _faults(one, status, body)]
    wire.close()
    return found


def _faults(one: Shot, status: int, body: str) -> Iterator[str]:
    """What is wrong with an answer."""
    if status not in one.may:
        yield f"answered {status}" if status else "no answer"
    if status != 200:
        return
    if one.says == "twiml":
        yield from _texts_faults(body)
    if one.says == "screen" and not _is_screen(body):
        yield f"no screen: {body[:200]!r}"
    if one.same and body not in one.same:
        yield f"not the stored answer: {body[:200]!r}"


def _texts_faults(body: str) -> Iterator[str]:
    try:
        root = ElementTree.fromstring(body)
    except ElementTree.ParseError:
        yield f"not well-formed: {body[:200]!r}"
        return
    for node in root.iter("Message"):
        text = node.text or ""
        if not text.isascii() or "{" in text or parts(text) > 1:
            yield f"no plain part: {text[:200]!r}"


def _is_screen(body: str) -> bool:
    return body.startswith(("CON ", "END ")) and body.isascii() and len(body) <= SCREEN


# The farms, and what must not change


def settle(service: Service) -> World:
    """Farms that joined, told something and dialled; texts of theirs in each state."""
    told: list[tuple[Mapping[str, str], str]] = []
    for place, farm in enumerate(FARMS):
        for said in BEGINNINGS[place % len(BEGINNINGS)]:
            form = inbound(farm, said)
            told.append((form, service.signed("/sms", form).body))
    secret = service.settings["BROODPOST_USSD_SECRET"]
    sessions = [f"own{farm}" for farm in FARMS[:4]]
    for session, farm in zip(sessions, FARMS, strict=False):
        form = {"sessionId": session, "phoneNumber": farm, "text": ""}
        service.post(f"/ussd/{secret}", form, None)
    db = _database(service)
    with db.write() as connection:
        rows = dict(_planted(connection))
    db.close()
    if len(records(service)["event"]) < len(FARMS):
        raise AssertionError("the farms did not join")
    return World(service.url, secret, INBOUND_SECRET, FARMS, told, rows, sessions)


def _planted(connection: Connection) -> Iterator[tuple[str, tuple[str, int]]]:
    """A text a farm and state, as the sender would have left it."""
    now = datetime.now(UTC)
    for farm in FARMS:
        phone = connection.execute(
            select(t.phone.c.id).where(t.phone.c.number == farm)
        ).scalar_one()
        for state in STATES:
            sid = f"SM{state}{farm[-3:]}"
            row = {"business_key": f"hostile:{farm}:{state}", "phone_id": phone, "to_number": farm}
            row |= {"klass": "routine", "text": "Look at the litter.", "parts": 1}
            row |= {"encoding": "gsm7", "state": state, "attempt": 1, "gateway_sid": sid}
            row |= {"not_before": now, "created_at": now, "sent_at": now}
            done = connection.execute(insert(t.outbox).values(row).returning(t.outbox.c.id))
            yield sid, (state, done.scalar_one())


def records(service: Service) -> dict[str, list[tuple[object, ...]]]:
    """All that is kept of the farms, but for what the clock itself moves."""
    db = _database(service)
    with db.read() as connection:
        found = _records(connection)
    db.close()
    return found


def _records(connection: Connection) -> dict[str, list[tuple[object, ...]]]:
    phones = select(t.phone.c.id).where(t.phone.c.number.in_(FARMS))
    batches = select(t.batch.c.id).where(t.batch.c.phone_id.in_(phones))
    people = select(t.phone.c.person_id).where(t.phone.c.number.in_(FARMS))
    mine = {
        t.cooperative: t.cooperative.c.id.is_not(None),
        t.phone: t.phone.c.number.in_(FARMS),
        t.person: t.person.c.id.in_(people),
        t.contact: t.contact.c.person_id.in_(people),
        t.consent_record: t.consent_record.c.phone_id.in_(phones),
        t.batch: t.batch.c.phone_id.in_(phones),
        t.event: t.event.c.batch_id.in_(batches),
        t.complaint: t.complaint.c.batch_id.in_(batches),
        t.question: t.question.c.phone_id.in_(phones),
        t.turn: t.turn.c.sender.in_(FARMS),
        t.outbox: t.outbox.c.business_key.startswith("hostile:"),
        t.ussd_session: t.ussd_session.c.number.in_(FARMS),
        t.adviser: t.adviser.c.phone_id.in_(phones),
    }
    return {
        table.name: [
            tuple(row)
            for row in connection.execute(
                select(*_kept(table)).where(condition).order_by(table.c.id)
            )
        ]
        for table, condition in mine.items()
    }


def _kept(table: Table) -> list[Column[Any]]:
    moving = {"next_due", "said"} if table is t.batch else set()
    return [column for column in table.c if column.name not in moving]


def _database(service: Service) -> Database:
    return Database(f"sqlite:///{service.data / 'broodpost.db'}")


def changed(
    before: Mapping[str, Sequence[object]], after: Mapping[str, Sequence[object]]
) -> list[str]:
    """A line for each table whose rows are not what they were."""
    found = []
    for name, rows in before.items():
        gone = [one for one in rows if one not in after[name]]
        come = [one for one in after[name] if one not in rows]
        if gone or come:
            found.append(f"{name} changed: {gone[:2]} became {come[:2]}")
    return found


# The run


@contextmanager
def running(folder: Path) -> Iterator[Service]:
    """The service, at nine in the morning, with every door open."""
    counter = Counter()
    clock = Clock(folder / "clock", morning())
    try:
        with serving(
            folder / "data", counter.url, clock, BROODPOST_INBOUND_SECRET=INBOUND_SECRET
        ) as service:
            yield service
    finally:
        counter.close()


def attack(service: Service, many: int, seed: int = SEED) -> tuple[Found, list[int]]:
    """Fire so many requests; what came of them, and memory [kB] at each look."""
    world = settle(service)
    before, found, memory = records(service), Found(), []
    marks = [many * look // LOOKS for look in range(LOOKS + 1)]
    for first, last in pairwise(marks):
        with ThreadPoolExecutor(CONNECTIONS) as pool:
            fired = [
                pool.submit(fire, world, service.port, seed, range(first + one, last, CONNECTIONS))
                for one in range(CONNECTIONS)
            ]
            for one in fired:
                found.take_in(one.result())
        memory.append(service.memory_kb())
    found.wrong += changed(before, records(service))
    if not service.healthy():
        found.wrong.append("the service is not healthy at the end")
    log = service.stderr.read_text()
    found.wrong += [f"the log holds {word!r}" for word in ("Traceback", *FARMS) if word in log]
    return found, memory


def measure(many: int, seed: int = SEED) -> Line:
    """The JSON line."""
    begun = monotonic()
    with tempfile.TemporaryDirectory() as made, running(Path(made)) as service:
        found, memory = attack(service, many, seed)
    seconds = sorted(one for one, _ in found.seconds)
    slow = Count(kind for one, kind in found.seconds if one > SLOW_S)
    statuses: Count[int] = Count()
    for (_, status), number in found.answers.items():
        statuses[status] += number
    return line(
        "hostile", "sqlite", "kB", [memory[-1]], [memory[LOOKS // 5 - 1]], begun,
        requests=many, seed=seed, memory_mb=[round(one / 1024, 1) for one in memory],
        statuses={str(status): number for status, number in sorted(statuses.items())},
        wrong=len(found.wrong), wrong_first=found.wrong[:20],
        p99_ms=round(quantiles(seconds, n=100)[98] * 1000, 1),
        slowest_ms=round(seconds[-1] * 1000, 1), over_1_s=dict(slow), bar=BAR,
    )  # fmt: skip


def main() -> None:
    parser = argparse.ArgumentParser(prog="scripts/bench hostile")
    parser.add_argument("--full", action="store_true", help="100,000 requests")
    parser.add_argument("--requests", type=int, help="so many")
    parser.add_argument("--seed", type=int, default=SEED, help="another row of requests")
    parser.add_argument("--json", action="store_true", help="as always")
    asked = parser.parse_args()
    show(measure(asked.requests or (MANY if asked.full else FEW), asked.seed))


if __name__ == "__main__":
    main()
