"""Farms to play through, and the player: it goes from due moment to due moment, as the clock does,
and keeps what was said. English only; nothing is sent."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from pathlib import Path

from bot.day.due import Due, due, next_moment
from bot.facts.farm import Batch, Case, Cooperative, Event, Person, Phone, Said
from bot.facts.talk import Question
from bot.facts.writes import ChangeBatch, TellAdviser
from bot.handbook.calendar import load_calendar
from bot.handbook.husbandry import load_husbandry
from bot.handbook.shape_calendar import Calendar, Row
from bot.handbook.shape_texts import Texts
from bot.handbook.texts import load_texts
from bot.say.render import Voice, compose

CONTENT = Path(__file__).resolve().parents[2] / "content"
NAIROBI = Cooperative(1, "Example", "Africa/Nairobi", "KE")
PLACED = date(2026, 3, 31)
Stop = Callable[[datetime], bool]


@cache
def texts() -> Texts:
    """The English texts, read from a copy of content/ that holds English only."""
    with tempfile.TemporaryDirectory() as folder:
        copied = Path(folder) / "content"
        shutil.copytree(CONTENT / "texts", copied / "texts")
        shutil.copytree(CONTENT / "languages" / "en", copied / "languages" / "en")
        return load_texts(copied)


@cache
def calendar() -> Calendar:
    return load_calendar(CONTENT, load_husbandry(CONTENT), texts())


@cache
def rows() -> dict[str, Row]:
    """Every row of the calendar by its id."""
    return {row.id: row for row in calendar().all_rows}


def local(day: date, hour: int, minute: int = 0, coop: Cooperative = NAIROBI) -> datetime:
    return datetime.combine(day, time(hour, minute), coop.zone).astimezone(UTC)


def batch(**changes: object) -> Batch:
    """300 chicks on charcoal that came at 08:00."""
    known = Batch(1, "running", count=300, placed_on=PLACED, arrived_at=local(PLACED, 8),
                  heat=("charcoal",))  # fmt: skip
    return replace(known, **changes)  # type: ignore[arg-type]  # names and types of Batch


def case(*batches: Batch, coop: Cooperative = NAIROBI, **phone: object) -> Case:
    held = replace(Phone(1, "+15005550001", "active"), **phone)  # type: ignore[arg-type]  # Phone
    return Case(local(PLACED, 8), coop, held, Person(1, "en"), "en", tuple(batches))


@dataclass(frozen=True)
class Told:
    """One text as the farmer had it. age: of the batch. local: on the farm's clock."""

    age: int
    local: datetime
    due: Due
    text: str

    @property
    def rows(self) -> tuple[str, ...]:
        return self.due.rows

    @property
    def question(self) -> Question | None:
        return self.due.question


@dataclass
class Play:
    """A batch being played. told: all its texts; noted: the adviser's lines."""

    case: Case
    batch: Batch
    told: list[Told]
    noted: list[tuple[int, TellAdviser]]

    def at(self, now: datetime) -> tuple[Due, ...]:
        """One tick of the clock."""
        self.case = replace(self.case, now=now, batches=self._with_mine())
        found = due(self.case, self.batch, calendar(), now)
        for one in found:
            self._keep(one, now)
        self.case = replace(self.case, batches=self._with_mine())
        return found

    def _with_mine(self) -> tuple[Batch, ...]:
        return tuple(self.batch if one.id == self.batch.id else one for one in self.case.batches)

    def _keep(self, one: Due, now: datetime) -> None:
        where = now.astimezone(self.case.cooperative.zone)
        assert self.batch.placed_on is not None
        age = (where.date() - self.batch.placed_on).days
        more = tuple(Said(row, one.on_date, one.slot) for row in one.rows)
        self.batch = replace(self.batch, said=(*self.batch.said, *more))
        for write in one.writes:
            if isinstance(write, ChangeBatch):
                self.batch = replace(self.batch, **write.changes)  # type: ignore[arg-type]  # Batch
            if isinstance(write, TellAdviser):
                self.noted.append((age, write))
        voice = Voice("en", "M" * 11)
        text = compose(one.lines, one.question, voice, texts(), pushed=True)
        self.told.append(Told(age, where, one, text))

    def until(self, end: datetime, start: datetime, *, down: Stop = lambda _: False) -> Play:
        """Go from due moment to due moment; `down` tells when the machine is off."""
        now: datetime | None = start
        while now is not None and now <= end:
            if not down(now):
                self.at(now)
            now = next_moment(self.case, self.batch, calendar(), now)
        return self

    def of_slot(self, slot: str) -> list[Told]:
        return [one for one in self.told if one.due.slot == slot]

    def day(self, age: int, slot: str = "morning") -> Told:
        """The one text of a slot at an age."""
        found = [one for one in self.of_slot(slot) if one.age == age]
        assert len(found) == 1, f"{len(found)} {slot} texts at age {age}"
        return found[0]

    def saying(self, row: str) -> list[int]:
        """The ages at which a row was said."""
        return [one.age for one in self.told if row in one.rows]


def play(mine: Batch, days: int = 43, *, coop: Cooperative = NAIROBI, **phone: object) -> Play:
    """A batch from its arrival on, or from 28 days before, never answering."""
    assert mine.placed_on is not None
    start = mine.arrived_at or local(mine.placed_on - timedelta(days=28), 0, coop=coop)
    end = local(mine.placed_on + timedelta(days=days), 0, coop=coop)
    started = Play(case(mine, coop=coop, **phone), mine, [], [])
    return started.until(end, start)


def event(kind: str, day: date, hour: int = 9, **values: object) -> Event:
    return Event(1, kind, day, local(day, hour), values)
