"""A whole conversation in simulated time, through the real turn, clock, database and outbox.

In: texts and spans of time. Out: what was sent, and when. The database is in memory, the clock
moves only when told to, the gateway takes everything. Called by `broodpost rehearse` and tests.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import count

from sqlalchemy import insert, select, update

from bot.clock import FixedClock
from bot.facts.farm import Case
from bot.facts.talk import Incoming
from bot.gateway.client import Outgoing, Sent
from bot.outbox.dispatch import send_waiting
from bot.records import tables as t
from bot.records.case import cases_of_phones, next_due_of_all
from bot.records.session import MEMORY, Database
from bot.settings import Settings
from bot.turn.invite import Guest, invite
from bot.turn.take import Taken, take_turn
from bot.turn.tick import tick
from bot.wiring import Thinking, cooperative_values

SENDER = "+254700000001"
SERVICE = "+254700000100"
VET = "+254700000099"


@dataclass(frozen=True, slots=True)
class Heard:
    """One text on the farmer's phone, at its simulated moment (UTC)."""

    at: datetime
    text: str


class Ear:
    """A gateway that takes everything and remembers it."""

    def __init__(self, clock: FixedClock) -> None:
        self._clock = clock
        self.heard: list[Heard] = []
        self._numbers = count(1)

    def send(self, outgoing: Outgoing) -> Sent:
        self.heard.append(Heard(self._clock.moment, outgoing.text))
        return Sent(f"SM{next(self._numbers)}", "sent", at=self._clock.moment)

    def find(self, to: str, text: str, since: datetime) -> tuple[Sent, ...]:
        del to, text, since
        return ()


class Rehearsal:
    """One conversation after another on one database in memory; `begin` wipes it."""

    def __init__(self, thinking: Thinking) -> None:
        self.thinking = thinking
        self.db = Database(MEMORY)
        self.db.create_all()
        self.clock = FixedClock(datetime(2026, 1, 1, tzinfo=UTC))
        self.ear = Ear(self.clock)
        self._messages = count(1)

    def begin(self, now: datetime, settings: Settings | None = None) -> None:
        """An empty service with one cooperative, at `now`."""
        self.clock.moment = now.astimezone(UTC)
        self.ear.heard.clear()
        chosen = settings or Settings(name="Broodpost", vet=VET)
        with self.db.write() as connection:
            for table in reversed(t.metadata.sorted_tables):
                connection.execute(table.delete())
            connection.execute(insert(t.cooperative).values(id=1, **cooperative_values(chosen)))

    def belong_to(self, values: Mapping[str, object]) -> None:
        """The one cooperative is as a real one: its name, numbers, hours, words."""
        with self.db.write() as connection:
            connection.execute(update(t.cooperative).values(**values))

    def ask_to_join(self, language: str) -> None:
        """A phone that a cooperative's list invites."""
        guest = Guest(1, SENDER, language)
        with self.db.write() as connection:
            invite(connection, self.thinking.handbook, guest, b"", self.clock.moment)
        send_waiting(self.db, self.ear, self.clock.moment, threads=1)

    def join(self, language: str) -> None:
        """A person who is known and opted in."""
        now = self.clock.moment
        with self.db.write() as connection:
            connection.execute(
                insert(t.person).values(id=1, cooperative_id=1, language=language, created_at=now)
            )
            connection.execute(
                insert(t.phone).values(
                    id=1,
                    cooperative_id=1,
                    person_id=1,
                    number=SENDER,
                    consent="active",
                    heard_at=now,
                    created_at=now,
                )
            )

    def write(self, table: str, rows: list[Mapping[str, object]]) -> None:
        """Put rows straight into a table: what happened before the rehearsal begins."""
        if rows:
            with self.db.write() as connection:
                connection.execute(insert(t.metadata.tables[table]), rows)

    def say(self, text: str, after: timedelta = timedelta(minutes=1)) -> tuple[Taken, list[Heard]]:
        """The farmer texts, one simulated minute later; what came since, the answer last."""
        self.wait(after)
        incoming = Incoming(
            f"SMrehearsal{next(self._messages)}", "AC", SENDER, SERVICE, text, self.clock.moment
        )
        taken = take_turn(self.db, self.thinking.handbook, self.thinking.reader, incoming)
        self.ear.heard += [Heard(self.clock.moment, text) for text in taken.texts]
        return taken, self._take_heard()

    def wait(self, step: timedelta) -> None:
        """Time passes, from due moment to due moment."""
        until = self.clock.moment + step
        while True:
            with self.db.read() as connection:
                due = next_due_of_all(connection)
            if due is None or due >= until:
                break
            self.clock.moment = max(due, self.clock.moment)
            self._round()
        self.clock.moment = until
        self._round()

    def sleep_through(self, step: timedelta) -> None:
        """An outage: nothing happens for that long, then the clock goes on."""
        self.clock.moment += step
        self._round()

    def _round(self) -> None:
        said = tick(self.db, self.thinking.handbook, self.clock.moment)
        if said:
            send_waiting(self.db, self.ear, self.clock.moment, threads=1)

    def heard(self) -> list[Heard]:
        """What came since the last call."""
        return self._take_heard()

    def _take_heard(self) -> list[Heard]:
        found = list(self.ear.heard)
        self.ear.heard.clear()
        return found

    def case(self) -> Case:
        """All that is known of the phone just now."""
        with self.db.read() as connection:
            phone_id = connection.execute(select(t.phone.c.id)).scalar_one()
            return cases_of_phones(connection, [phone_id], self.clock.moment)[phone_id]
