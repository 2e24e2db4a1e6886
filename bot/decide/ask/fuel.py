"""Stoves and fuel: tonight, until a day, and what a second curtain saves. Pure; called by `answer`.

Every figure is a range of a factor two and more, rounded up to the farmer's measure, and every text
on a fire keeps the top open on two sides: nothing here calls a fire inside safe.
"""

from __future__ import annotations

from math import ceil

from bot.decide.ask.asked import Answer, Asked, tell
from bot.decide.common import say
from bot.facts.talk import Decision, Value
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.fuel_plan import (
    LAST_HEATED_AGE,
    FuelRange,
    bulbs_tonight,
    fuel_tonight,
    fuel_until,
    second_curtain_saves,
)

WARM_DAWN_C = 27.0  # from here on a dawn is about as warm as the last line asks (practice)
BROODED_DAYS = 14


def _tonight(asked: Asked, h: Husbandry) -> Decision:
    if asked.count is None:
        return tell(say("on_heating"))
    age = max(0, asked.age or 0)
    if age > LAST_HEATED_AGE:
        return tell(say("temperature_grown"))
    dawn, kind = _dawn(asked, h), _kind(asked)
    if dawn >= WARM_DAWN_C:
        return tell(say("no_fire_tonight", c=round(dawn)))
    told: dict[str, Value] = {"n": asked.count, "c": round(dawn), "day": age + 1}
    if kind == "bulb":
        low, high = bulbs_tonight(asked.count, age, dawn, h)
        return tell(say("bulbs_tonight", **told, low=low, high=high))
    found = fuel_tonight(asked.count, age, dawn, kind, h)
    low, high = _rounded(found.fuel)
    measure = h.fuel_measure.get(kind)
    told |= {"stoves": found.stoves}
    if kind == "charcoal" and measure is not None:
        tins = ceil(found.fuel.high_kg / measure.value)
        return tell(say("charcoal_tonight", **told, low=low, high=high, tins=tins))
    if kind == "kerosene" and measure is not None:
        low, high = ceil(low / measure.value), ceil(high / measure.value)
        return tell(say("kerosene_tonight", **told, low=low, high=high))
    return tell(say("fuel_tonight", **told, low=low, high=high, fuel=kind))


def _until(asked: Asked, h: Husbandry) -> Decision:
    """From today to the end of the day asked for; the slot counts the days up to there."""
    if asked.count is None:
        return tell(say("on_heating"))
    start = asked.batch_age or 0
    end = min(LAST_HEATED_AGE + 1, asked.slots.age_days or BROODED_DAYS)
    if start >= end:
        return tell(say("temperature_grown"))
    dawn, kind = _dawn(asked, h), _kind(asked)
    if kind == "bulb" or dawn >= WARM_DAWN_C:
        return tell(say("on_heating"))
    found = fuel_until(asked.count, start, end, dawn, kind, h)
    low, high = _rounded(found)
    told: dict[str, Value] = {"n": asked.count, "c": round(dawn), "day": end}
    if kind == "charcoal":
        sack = h.charcoal_sack.value
        sacks = (ceil(found.low_kg / sack), ceil(found.high_kg / sack))
        return tell(say("charcoal_until", **told, low=sacks[0], high=sacks[1]))
    if kind == "kerosene":
        litre = h.fuel_measure[kind].value
        return tell(say("kerosene_until", **told, low=ceil(low / litre), high=ceil(high / litre)))
    return tell(say("fuel_until", **told, low=low, high=high, fuel=kind))


def _curtain(asked: Asked, h: Husbandry) -> Decision:
    age = min(LAST_HEATED_AGE, max(0, asked.age or 0))
    saved = second_curtain_saves(asked.count or 300, age, h)
    pct = [round(one / 5) * 5 for one in (saved.low_pct, saved.value_pct, saved.high_pct)]
    return tell(say("curtain_saves", low=pct[0], pct=pct[1], high=pct[2]))


def _dawn(asked: Asked, h: Husbandry) -> float:
    """How cold the night gets [C]: as said, else by the cooperative's forecast or normals, else by
    what the farmer said of the nights, else a guess; the answer names it."""
    if asked.slots.value_c is not None:
        return asked.slots.value_c
    coop, today = asked.case.cooperative, asked.today
    if today in coop.forecast:
        return coop.forecast[today][1]
    if coop.normals:
        return coop.normals[today.month - 1][1]
    word = h.nights_low.get((asked.batch.nights if asked.batch else None) or "")
    return word.value if word else h.guessed_night.value


def _kind(asked: Asked) -> str:
    """The fuel named, else the batch's, else charcoal."""
    said = (asked.slots.heat or "").split("+")[0]
    own = asked.batch.heat[0] if asked.batch and asked.batch.heat else ""
    kind = said or own
    return kind if kind in ("charcoal", "gas", "kerosene", "wood", "bulb") else "charcoal"


def _rounded(fuel: FuelRange) -> tuple[int, int]:
    """Whole kilograms, up, so that a range of a factor two stays one."""
    low = max(1, ceil(fuel.low_kg))
    return low, max(2 * low, ceil(fuel.high_kg))


FIGURES: dict[str, Answer] = {
    "fuel_night": _tonight,
    "fuel_until": _until,
    "curtain": _curtain,
}
