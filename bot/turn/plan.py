"""Works out what a batch is told now, worded, and when to look at it again. In: a case, its batch,
the handbook, the moment. Out: `Planned`. Called by turn.tick for each batch of a chunk; no
database.

Farms that the calendar can't tell apart (day.alike) are worked out once.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from datetime import date, datetime

from bot.day.after import after
from bot.day.alike import alike, coarse
from bot.day.due import Due, due, next_moment
from bot.day.quiet import opens
from bot.day.weekly import SLOT as OWNER
from bot.decide.overview import weekly_lines
from bot.facts.farm import Batch, Case
from bot.facts.talk import Line, Question
from bot.facts.told import line_of
from bot.facts.writes import Write
from bot.handbook.shapes import Handbook
from bot.say.render import Voice, compose

MOST_KEPT = 20_000  # farms that differ; some 2 kB each


@dataclass(frozen=True, slots=True)
class Worded:
    """One text that is due. on_date, slot: its key within the placement. not_before: when it may
    go."""

    on_date: date
    slot: str
    klass: str
    text: str
    not_before: datetime
    expires_at: datetime
    question: Question | None


@dataclass(frozen=True, slots=True)
class Planned:
    """What a batch is told now. lines: what is noted as said. next_due: when to look again. owner:
    the weekly line of an owner who has other phones, not yet worded: () where it is not time."""

    texts: tuple[Worded, ...]
    lines: str
    writes: tuple[Write, ...]
    next_due: datetime | None
    owner: tuple[Line, ...] = ()


class Planner:
    """Plans one moment; threads may share it. Where a plan names its batch (in a question or a
    write), the id is that of the first farm like it: whoever writes it down puts the right one
    in."""

    def __init__(self, handbook: Handbook, now: datetime) -> None:
        self.now = now
        self._handbook = handbook
        self._known: dict[Hashable, Planned] = {}

    def plan(self, case: Case, batch: Batch) -> Planned:
        """The plan for one batch at this moment."""
        key = alike(case, batch)
        if key is None:
            return self._worked_out(case, batch)
        known = self._known.get(key)
        if known is None:
            if len(self._known) >= MOST_KEPT:
                self._known.clear()
            known = self._known[key] = self._worked_out(*coarse(case, batch))
        return known

    def _worked_out(self, case: Case, batch: Batch) -> Planned:
        calendar = self._handbook.calendar
        items = due(case, batch, calendar, self.now)
        then = after(case, batch, items) if items else (case, batch)
        to_owner = any(one.slot == OWNER for one in items)
        return Planned(
            texts=tuple(self._worded(case, one) for one in items if one.lines or one.question),
            lines="".join(line_of(one.on_date, one.slot, one.rows) for one in items if one.rows),
            writes=tuple(write for one in items for write in one.writes),
            next_due=next_moment(*then, calendar, self.now),
            owner=weekly_lines(case, batch, self._handbook.husbandry) if to_owner else (),
        )

    def worded(self, lines: tuple[Line, ...], case: Case, language: str) -> str:
        """Lines for another phone than the batch's, in the language of whoever reads it."""
        coop = case.cooperative
        voice = Voice(language, coop.name, coop.vet_number, case.today)
        return compose(lines, None, voice, self._handbook.texts, pushed=True)

    def _worded(self, case: Case, item: Due) -> Worded:
        coop = case.cooperative
        voice = Voice(case.language, coop.name, coop.vet_number, case.today)
        text = compose(item.lines, item.question, voice, self._handbook.texts, pushed=True)
        return Worded(
            on_date=item.on_date,
            slot=item.slot,
            klass=item.klass,
            text=text,
            not_before=opens(coop, case.now, item.klass),
            expires_at=item.expires_at,
            question=item.question,
        )
