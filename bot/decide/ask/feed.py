"""Feed and water: a day's, all until a day by phase, how long the rest lasts. Pure; called by
`answer`."""

from __future__ import annotations

from datetime import timedelta

from bot.decide.ask.asked import Answer, Asked, asked_of, tell
from bot.decide.common import about, number, say
from bot.facts.farm import Case
from bot.facts.talk import Decision, Meaning
from bot.facts.writes import CloseQuestion
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.feed_water import (
    feed_bags,
    feed_by_phase,
    feed_lasts,
    feed_phase,
    water_ml,
)
from bot.husbandry.growth import feed_intake_g
from bot.husbandry.limits import LAST_TABLE_AGE
from bot.ledger.stores import feed_stock

LAST_FEED_AGE = LAST_TABLE_AGE - 1
USUAL_END = 42  # days: to which feed is counted where no day was said (common practice)
COOL_C, WARM_C = 21.0, 32.0
BAG_KG = 50
PHASE_KEYS = ("feed_one_phase", "feed_two_phases", "feed_three_phases")


def _type(asked: Asked, h: Husbandry) -> Decision:
    if asked.age is None or asked.age < 0:
        return tell(say("on_feed_type"))
    if asked.age < 7:
        return tell(say("feed_crumble", day=asked.age + 1))
    return tell(say("feed_phase", day=asked.age + 1, phase=feed_phase(asked.age, h)))


def _day(asked: Asked, h: Husbandry) -> Decision:
    if asked.count is None:
        return tell(say("on_feed_amount"))
    if asked.age is None or not 0 <= asked.age <= LAST_FEED_AGE:
        return _until(asked, h)
    kg = asked.count * feed_intake_g(asked.age, h) / 1000
    return tell(say("feed_day", n=asked.count, day=asked.age + 1, kg=round(kg, 1)))


def _until(asked: Asked, h: Husbandry) -> Decision:
    """Bags by phase from today (or from day 1) to the end of the day asked for."""
    if asked.count is None:
        return tell(say("on_feed_amount"))
    start = asked.batch_age or 0
    end = min(LAST_TABLE_AGE, asked.slots.age_days or USUAL_END)
    if end <= start:
        start = 0
    phases = feed_by_phase(asked.count, start, end, h)
    told: dict[str, str | int] = {"n": asked.count, "day": end}
    told["kg"] = round(sum(one.kg for one in phases))
    told["bags"] = feed_bags(sum(one.kg for one in phases), h)
    for name, one in zip("abc", phases, strict=False):
        told[f"{name}_phase"], told[f"{name}_bags"] = one.phase, one.bags
        told[f"{name}_day"] = one.last_age + 1
    return tell(say(PHASE_KEYS[len(phases) - 1], **told))


def _left(asked: Asked, h: Husbandry) -> Decision:
    """The day on which the feed runs out, by what was reported; unknown: how much is left?"""
    stock = asked.slots.kg
    if stock is None and asked.slots.bags is not None:
        stock = asked.slots.bags * BAG_KG
    guessed = stock is None
    if stock is None and asked.batch is not None:
        told = feed_stock(asked.batch, asked.today, h)
        stock = None if told is None else told.kg
    if asked.count is None:
        return tell(say("on_feed_amount"))
    if stock is None:
        question = number("feed_left", "ask_feed_left", "feed", 0, 20_000)
        return Decision(question=about(question, count=str(asked.count)))
    return tell_left(asked, stock, h, guessed=guessed)


def tell_left(asked: Asked, stock_kg: float, h: Husbandry, *, guessed: bool) -> Decision:
    """How long a stock lasts these birds."""
    assert asked.count is not None
    age = min(LAST_FEED_AGE, max(0, asked.age or 0))
    lasts = feed_lasts(stock_kg, asked.count, age, h)
    if lasts.high == 0:
        return tell(say("feed_short", n=asked.count, kg=round(stock_kg)))
    ends = asked.today + timedelta(days=max(0, lasts.days - 1))
    key = "feed_lasts_guess" if guessed else "feed_lasts"
    return tell(
        say(
            key,
            kg=round(stock_kg),
            n=asked.count,
            day=age + 1,
            low=lasts.low,
            high=max(lasts.high, lasts.low + 1),
            date=ends,
        )
    )


def answer_left(meaning: Meaning, case: Case, h: Husbandry) -> Decision:
    """The kilos that are left, in answer to our question."""
    asked = asked_of(meaning.slots, case)
    kept = case.question.about.get("count") if case.question else None
    count = int(kept) if kept else asked.count
    asked = Asked(meaning.slots, case, asked.batch, asked.batch_age, count)
    if meaning.slots.kg is None or count is None:
        return Decision(question=number("feed_left", "ask_feed_left", "feed", 0, 20_000))
    told = tell_left(asked, meaning.slots.kg, h, guessed=False)
    return Decision(told.lines, (CloseQuestion(),))


def _water(asked: Asked, h: Husbandry) -> Decision:
    if asked.count is None or asked.age is None or not 0 <= asked.age <= LAST_FEED_AGE:
        return tell(say("on_water"))
    warm = WARM_C if asked.slots.value_c is None else asked.slots.value_c
    litres, hot = (
        asked.count * water_ml(asked.age, h, c).value_ml / 1000
        for c in (COOL_C, min(45.0, max(5.0, warm)))
    )
    told = {"n": asked.count, "day": asked.age + 1, "litres": round(litres)}
    return tell(say("water_day", **told, hot=round(hot), c=round(warm)))


FIGURES: dict[str, Answer] = {
    "feed_type": _type,
    "feed_day": _day,
    "feed_until": _until,
    "feed_left": _left,
    "water": _water,
}
