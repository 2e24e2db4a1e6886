"""The numbers that are placed in the calendar's texts, counted for this batch's living birds.

In: the name of a figure and where the batch stands. Out: a value, or None where it can't be
counted (then the row waits). Pure; the science is in bot.husbandry.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from math import ceil

from bot.day.standing import Standing, heat_of, stoves_of
from bot.day.tonight import NEW_HOUSE_AGE, tonight
from bot.day.warnings import bags_for_a_week
from bot.facts.talk import Value
from bot.husbandry.feed_water import feed_to_buy_kg, water_ml
from bot.husbandry.growth import feed_intake_g
from bot.husbandry.space import (
    drinkers_needed,
    feeders_needed,
    floor_needed,
    light,
    litter_bags,
    litter_m3,
)
from bot.husbandry.temperature import spot_temperature_c

FEED_AFTER = timedelta(hours=2)  # water first, never longer than this
STARTER_DAYS = 11  # ages 0-10, from memory
GROWN_AGE = 28  # from here on the floor stays as it is
FEW, MANY, MANY_BIRDS = 10, 20, 500  # birds weighed together; common practice
LATE_ARRIVAL = 20  # o'clock: then the first morning still has the target of age 0
TABLE_LAST = 49  # days; the end of the growth tables


def figure(name: str, at: Standing) -> Value | None:
    """The value of a figure for this batch today."""
    return _COUNTED[name](at)


def target_c(at: Standing) -> float | None:
    """The target temperature under the edge of the heat [C], to the half degree."""
    age = at.age
    if not -1 <= age <= 20:
        return None
    if age == 1 and at.batch.arrived_at is not None:
        arrived = at.batch.arrived_at.astimezone(at.case.cooperative.zone)
        if arrived.hour >= LATE_ARRIVAL:
            age = 0
    found = spot_temperature_c(max(0, age), at.calendar.book).value_c
    return round(found * 2) / 2


def _birds(at: Standing) -> int:
    return at.batch.alive


def area_m2(at: Standing) -> float | None:
    """Floor for these birds at this age, equipment included, rounded up to the half square
    metre, from 10 to the whole one."""
    birds = _birds(at)
    if birds < 1:
        return None
    floor = floor_needed(birds, max(0, at.age), at.calendar.book).total_m2
    return float(ceil(floor)) if floor > 10 else ceil(floor * 2) / 2


def _stoves(at: Standing) -> int | None:
    return stoves_of(at) or None


def _burner(at: Standing) -> str:
    """What burns there: one gas heater, or one fire of any other kind."""
    return "gas" if heat_of(at.batch) == "gas" else "fire"


def _burners(at: Standing) -> str:
    """The same, one or several."""
    several = (_stoves(at) or 0) != 1
    return f"{_burner(at)}{'es' if _burner(at) == 'gas' else 's'}" if several else _burner(at)


def _stove(at: Standing) -> str:
    """The same, by the kind of heat."""
    return "kerosene" if at.batch.heat == ("kerosene",) else _burner(at)


def _dark(at: Standing) -> int:
    """Dark hours of the night."""
    return round(24 - light(max(0, at.age), at.calendar.book).light_h)


def _feeders(at: Standing) -> int | None:
    birds = _birds(at)
    return feeders_needed(birds, max(0, at.age), at.calendar.book) if birds else None


def _drinkers(at: Standing) -> int | None:
    birds = _birds(at)
    return drinkers_needed(birds, max(0, at.age), at.calendar.book) if birds else None


def _feed_kg(at: Standing) -> int | float | None:
    birds = _birds(at)
    if birds < 1 or not 0 <= at.age <= TABLE_LAST:
        return None
    return _handy(birds * feed_intake_g(at.age, at.calendar.book) / 1000)


def _starter_kg(at: Standing) -> int | float | None:
    birds = _birds(at)
    return _handy(feed_to_buy_kg(birds, 0, STARTER_DAYS, at.calendar.book)) if birds else None


def _litter_bags(at: Standing) -> int | None:
    """Sacks of litter for the whole floor of the grown birds."""
    birds = _birds(at)
    if birds < 1:
        return None
    book = at.calendar.book
    floor = floor_needed(birds, GROWN_AGE, book).total_m2
    return litter_bags(litter_m3(max(0.5, floor), book.litter_depth.value), book)


def _litres(at: Standing) -> int | float | None:
    birds = _birds(at)
    if birds < 1 or not 0 <= at.age <= TABLE_LAST:
        return None
    return _handy(birds * water_ml(at.age, at.calendar.book).value_ml / 1000)


def _handy(value: float) -> int | float:
    """A figure one can measure out: halves below 10, else whole, from 100 whole tens."""
    if value < 10:
        return max(0.5, ceil(value * 2) / 2)
    return ceil(value) if value < 100 else ceil(value / 10) * 10


def _sample(at: Standing) -> int:
    return MANY if _birds(at) > MANY_BIRDS else FEW


def _hour(at: Standing) -> datetime | None:
    """When the first feed is due, local."""
    if at.batch.arrived_at is None:
        return None
    return (at.batch.arrived_at + FEED_AFTER).astimezone(at.case.cooperative.zone)


def _brooder(at: Standing) -> str | None:
    """Whose brooder or house it is that gets cold tonight."""
    kind = tonight(at).kind
    if kind not in ("yours", "most"):
        return None
    return f"{kind}_house" if at.age >= NEW_HOUSE_AGE else kind


def _cold(at: Standing) -> datetime | None:
    """The hour, local, at which it gets too cold tonight."""
    hour = tonight(at).cold_from
    return None if hour is None else at.local.replace(hour=hour, minute=0)


def _hot(at: Standing) -> int | None:
    """The warmest air foretold for today [C]."""
    foretold = at.case.cooperative.forecast.get(at.today)
    return None if foretold is None else round(foretold[0])


def _programme(at: Standing) -> str | None:
    """What the vet's programme has today, as the vet calls it."""
    days = at.case.cooperative.programme
    return next((one.words for one in days if one.age == at.age), None)


def _days_to_go(at: Standing) -> int:
    return -at.age


_COUNTED: dict[str, Callable[[Standing], Value | None]] = {
    "age": lambda at: at.age + 1,
    "days": _days_to_go,
    "burner": _burner,
    "burners": _burners,
    "stove": _stove,
    "n": lambda at: _stoves(at) if at.age >= 0 else _days_to_go(at),
    "target": target_c,
    "area": area_m2,
    "alive": _birds,
    "count": _birds,
    "feeders": _feeders,
    "drinkers": _drinkers,
    "kg": _feed_kg,
    "starter_kg": _starter_kg,
    "litres": _litres,
    "sample": _sample,
    "hour": _hour,
    "dark": _dark,
    "brooder": _brooder,
    "cold": _cold,
    "look": lambda at: at.local.replace(hour=tonight(at).look, minute=0),
    "before": lambda at: at.local.replace(hour=tonight(at).before, minute=0),
    "hot": _hot,
    "bags": bags_for_a_week,
    "litter_bags": _litter_bags,
    "programme": _programme,
    "degrees": lambda at: tonight(at).degrees,
    "name": lambda at: at.case.label(at.batch),
}
