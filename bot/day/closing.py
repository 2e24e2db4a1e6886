"""The closing of a batch in a few texts: how it did, its money, beside others, what to change.

In: the batch, the earlier ones of its farm and of the cooperative, the figures. Out: lines, one a
text. Pure; called by `turn.take` when a batch ends, and by the report. Nothing that the record does
not tell is said; of other farms only the middle, and only where it hides each of them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from bot.facts.farm import Batch, Event
from bot.facts.talk import Line, Value
from bot.facts.writes import AddEvent, UndoEvents, Write
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.budget import rough
from bot.ledger.closing import LEAST_FARMS, Closing, Middle, closing_of, middle_of
from bot.ledger.lessons import lessons_of


@dataclass(frozen=True, slots=True)
class Past:
    """Batches that ended before: of this farm, and one or more of each other farm."""

    own: tuple[Batch, ...] = ()
    others: tuple[Batch, ...] = ()

    def mine(self, h: Husbandry) -> Middle:
        """The middle of this farm's earlier batches."""
        return middle_of(_closings(self.own, h))

    def theirs(self, h: Husbandry) -> Middle:
        """The middle of the others, of figures that enough of them tell."""
        return middle_of(_closings(self.others, h), LEAST_FARMS)


def batch_after(batch: Batch, writes: Iterable[Write], now: datetime) -> Batch:
    """The batch as its record will be once these writes are carried out."""
    events = list(batch.events)
    number = max((one.id for one in events), default=0)
    for one in writes:
        if isinstance(one, AddEvent) and one.batch_id == batch.id:
            number += 1
            events.append(Event(number, one.kind, one.on_date, now, one.values))
        if isinstance(one, UndoEvents):
            events = [replace(e, undone=True) if e.id in one.event_ids else e for e in events]
    return replace(batch, events=tuple(events))


def _closings(batches: Iterable[Batch], h: Husbandry) -> tuple[Closing, ...]:
    return tuple(found for one in batches if (found := closing_of(one, h)).sold)


def closing_lines(batch: Batch, past: Past, h: Husbandry) -> tuple[Line, ...]:
    """The texts of a closing, each of one part; of a batch that died out only what to change."""
    found = closing_of(batch, h)
    if not found.sold:
        change = next_time(lessons_of(batch, h))
        return () if change is None else (change,)
    lines = (
        _result(found),
        _money(found),
        _beside(found, past.mine(h), "closing_mine"),
        _beside(found, past.theirs(h), "closing_others"),
        next_time(lessons_of(batch, h)),
    )
    return tuple(line for line in lines if line is not None)


def next_time(lessons: tuple[str, ...]) -> Line | None:
    """What to change, in one text; None where the record shows nothing."""
    if not lessons:
        return None
    told: dict[str, Value] = dict(zip("abc", lessons, strict=False))
    return Line(f"next_time_{len(lessons)}", told)


def _result(found: Closing) -> Line:
    told: dict[str, Value] = {"n": found.placed, "sold": found.sold, "lived": _pct(found)}
    if found.weight_g is None or found.age_days is None:
        return Line("closing_birds", told)
    told |= {"g": round(found.weight_g), "day": round(found.age_days) + 1}
    if found.conversion is None or found.index is None:
        return Line("closing_grown", told)
    told |= {"ratio": f"{found.conversion:.2f}", "index": round(found.index)}
    return Line("closing_result", told)


def _pct(found: Closing) -> int:
    return round(found.livability_pct or 0)


def _money(found: Closing) -> Line | None:
    if found.margin is None or found.spent is None or found.cost_bird is None:
        return None
    told: dict[str, Value] = {"spent": rough(found.spent), "income": rough(found.income or 0)}
    told |= {"money": rough(abs(found.margin)), "bird": rough(found.cost_bird)}
    key = "closing_over" if found.margin >= 0 else "closing_short"
    if found.cost_kg is None:
        return Line(f"{key}_bird", told)
    return Line(key, {**told, "kilo": rough(found.cost_kg)})


def _beside(found: Closing, middle: Middle, key: str) -> Line | None:
    """This batch beside a middle; what is not known is left out."""
    if middle.livability_pct is None:
        return None
    told: dict[str, Value] = {"n": middle.many, "lived": round(middle.livability_pct)}
    told["now"] = _pct(found)
    if middle.conversion is None or found.conversion is None:
        return Line(f"{key}_birds", told)
    told |= {"ratio": f"{middle.conversion:.2f}", "ratio_now": f"{found.conversion:.2f}"}
    if middle.index is None or found.index is None:
        return Line(f"{key}_feed", told)
    return Line(key, {**told, "index": round(middle.index), "index_now": round(found.index)})
