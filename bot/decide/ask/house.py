"""Figures of the house: how many birds, how much floor, the ring, drinkers, feeders, litter, light,
temperature and heat stress. Pure; called by `answer`."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil

from bot.decide.ask.asked import Answer, Asked, tell
from bot.decide.common import say
from bot.facts.talk import Decision
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.space import (
    birds_per_m2,
    capacity_with_equipment,
    default_drinker,
    default_feeder,
    drinkers_needed,
    feeders_needed,
    floor_needed,
    light,
    litter_bags,
    litter_m3,
    ring_across_m,
    strip_length_m,
)
from bot.husbandry.stress import heat_stress
from bot.husbandry.temperature import spot_temperature_c

LAST_SPOT_AGE = 20
GROWN_AGE = 28  # the floor of the last step, 10 a square metre
RING_AGES = 13
USUAL_WIDTH_M = 2.0  # of a brooder that does not lie in a ring; 4 where it would be very long
LONG_M = 12.0
HUMID_PCT = 80.0  # "humid", where no figure was said (common practice, no source)


def _capacity(asked: Asked, h: Husbandry) -> Decision:
    area = asked.slots.house_m2
    if not area:
        return _floor(asked, h)
    holds = capacity_with_equipment(area, GROWN_AGE, h)
    young = capacity_with_equipment(area, 0, h)
    said = asked.slots.count
    if said is not None:
        key = "house_enough" if said <= holds else "house_too_small"
        return tell(say(key, area=area, n=holds, said=said))
    return tell(say("house_holds", area=area, n=holds, young=young))


def _floor(asked: Asked, h: Husbandry) -> Decision:
    if asked.count is None:
        return tell(say("on_space"))
    if asked.age is None or asked.age < 0:
        grown = floor_needed(asked.count, GROWN_AGE, h).total_m2
        young = floor_needed(asked.count, 0, h).total_m2
        return tell(say("floor_for_life", n=asked.count, area=grown, young=young))
    floor = floor_needed(asked.count, asked.age, h)
    dense = int(birds_per_m2(asked.age, h))
    return tell(say("space_at", n=asked.count, day=asked.age + 1, area=floor.total_m2, dense=dense))


def _ring(asked: Asked, h: Husbandry) -> Decision:
    if asked.count is None:
        return tell(say("on_space"))
    said = asked.slots.age_days
    age = said if said is not None else min(max(0, asked.age or 0), RING_AGES)
    area = floor_needed(asked.count, age, h).total_m2
    width = asked.slots.width_m or USUAL_WIDTH_M
    if asked.slots.width_m is None and strip_length_m(area, width) > LONG_M:
        width *= 2
    return tell(
        say(
            "ring_for",
            n=asked.count,
            day=age + 1,
            area=area,
            across=ring_across_m(area),
            width=width,
            length=strip_length_m(area, width),
        )
    )


def _pieces(
    name: str,
    default: Callable[[int, Husbandry], str],
    needed: Callable[[int, int, Husbandry], int],
) -> Answer:
    """How many drinkers or feeders, of the kind that fits the age."""

    def answer(asked: Asked, h: Husbandry) -> Decision:
        if asked.count is None:
            return tell(say(f"on_{name}"))
        age = max(0, asked.age or 0)
        pieces = needed(asked.count, age, h)
        kind = default(age, h)
        return tell(say(f"{name}_for", n=asked.count, day=age + 1, pieces=pieces, kind=kind))

    return answer


_drinkers = _pieces("drinkers", default_drinker, drinkers_needed)
_feeders = _pieces("feeders", default_feeder, feeders_needed)


def _litter(asked: Asked, h: Husbandry) -> Decision:
    area = asked.slots.house_m2
    if not area:
        if asked.count is None:
            return tell(say("on_litter"))
        area = floor_needed(asked.count, max(0, asked.age or 0), h).total_m2
    volume = litter_m3(area, h.litter_depth.value)
    return tell(
        say("litter_for", area=area, cm=round(h.litter_depth.value), bags=litter_bags(volume, h))
    )


def _light(asked: Asked, h: Husbandry) -> Decision:
    if asked.age is None or asked.age < 0:
        return tell(say("on_light"))
    hours = light(asked.age, h).light_h
    return tell(say("light_at", day=asked.age + 1, hours=round(hours), dark=round(24 - hours)))


def _temperature(asked: Asked, h: Husbandry) -> Decision:
    if asked.age is None or asked.age < 0:
        return tell(say("on_temperature"))
    if asked.age > LAST_SPOT_AGE:
        return tell(say("temperature_grown"))
    target = spot_temperature_c(asked.age, h)
    return tell(say("temperature_at", day=asked.age + 1, target=target.value_c))


def _heat_stress(asked: Asked, h: Husbandry) -> Decision:
    if asked.slots.value_c is None or asked.age is None:
        return tell(say("on_heat_stress"))
    humid = asked.slots.rh_pct or HUMID_PCT
    found = heat_stress(asked.slots.value_c, humid, asked.age, h)
    return tell(say(f"stress_{found.level}", c=ceil(asked.slots.value_c), rh=round(humid)))


FIGURES: dict[str, Answer] = {
    "capacity": _capacity,
    "floor": _floor,
    "ring": _ring,
    "drinkers": _drinkers,
    "feeders": _feeders,
    "litter": _litter,
    "light": _light,
    "temperature": _temperature,
    "heat_stress": _heat_stress,
}
