"""What a question is about, and what makes it one that has no answer. Pure; used by the files
beside it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from bot.decide.common import answer, say
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Line, Slots
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.limits import LAST_TABLE_AGE, MOST_BIRDS

MOST_LENGTH_M, MOST_WIDTH_M = 40.0, 20.0  # a smallholder's house; beyond, feet were meant
OF_THIS_BATCH = ("crates", "sale_day", "feed_left", "cost", "profit", "reach", "sample")
LEAST_C, MOST_C = -10.0, 50.0  # of any air that a farmer measures


@dataclass(frozen=True, slots=True)
class Asked:
    """What a question is about: age in days and number of birds from the question, else from the
    batch; what else the text named is in `slots`."""

    slots: Slots
    case: Case
    batch: Batch | None
    age: int | None
    count: int | None

    @property
    def today(self) -> date:
        return self.case.today

    @property
    def batch_age(self) -> int | None:
        """Days since placement of the batch that has its birds; else None."""
        if self.batch is None:
            return None
        age = self.batch.age(self.today)
        return age if age is not None and age >= 0 else None


Answer = Callable[[Asked, Husbandry], Decision]


def asked_of(slots: Slots, case: Case) -> Asked:
    """The question with what is known of the batch put in; where it names more birds, or other
    ones, than the batch has, it is about another batch, and begins on day 1."""
    batch = case.batch
    if batch is not None and slots.figure not in OF_THIS_BATCH and _others(slots.count, batch):
        batch = None
    known = batch.age(case.today) if batch else None
    own = (batch.alive or None) if batch else None
    return Asked(
        slots=slots,
        case=case,
        batch=batch,
        age=slots.age_days if slots.age_days is not None else known,
        count=slots.count if slots.count is not None else own,
    )


def _others(count: int | None, batch: Batch) -> bool:
    return count is not None and count not in (batch.count, batch.alive)


def tell(line: Line) -> Decision:
    """An answer of one line."""
    return answer(line)


def impossible(asked: Asked) -> Line | None:
    """What is wrong with the figures of the question, in words; None where all may be."""
    slots = asked.slots
    if slots.count is not None and not 1 <= slots.count <= MOST_BIRDS:
        return say("bad_birds", n=slots.count)
    if slots.age_days is not None and slots.age_days < 0:
        return say("bad_day")
    if slots.age_days is not None and slots.age_days > LAST_TABLE_AGE:
        return say("bad_age", last=LAST_TABLE_AGE + 1)
    if slots.value_c is not None and not LEAST_C <= slots.value_c <= MOST_C:
        return say("bad_degrees", c=round(slots.value_c))
    if slots.rh_pct is not None and not 5 <= slots.rh_pct <= 100:
        return say("bad_humidity")
    if min(slots.kg or 0, slots.avg_g or 0) < 0:
        return say("bad_kilos")
    return _impossible_house(asked)


def _impossible_house(asked: Asked) -> Line | None:
    length, width, area = asked.slots.length_m, asked.slots.width_m, asked.slots.house_m2
    if length is not None and width is not None:
        long, short = max(length, width), min(length, width)
        if long > MOST_LENGTH_M or short > MOST_WIDTH_M:
            return say("bad_house", length=round(length), width=round(width))
    elif width is not None and not 0 < width <= MOST_WIDTH_M:
        return say("bad_width", width=round(width))
    if area is not None and not 0.5 <= area <= MOST_LENGTH_M * MOST_WIDTH_M:
        return say("bad_area", area=round(area))
    return None
