"""What is warned of before the eye sees it: feed or water that falls, a hot day foretold.

In: where a batch stands. Out: codes of shape_calendar.WARNINGS. Whole days count, so today's half
day never does. Pure; the science is in bot.husbandry.feed_water. Called by conditions and morning.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from datetime import date

from bot.day.standing import Standing, strains
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.feed_water import intake_falls, water_ml
from bot.husbandry.growth import feed_intake_g

COMPARED_DAYS = 8  # so far back reports are compared
FRESH_DAYS = 2  # the last report is of yesterday or the day before
FIRST_AGE, TABLE_LAST = 2, 49  # the feed of the first days is spilt as much as eaten


def warnings(at: Standing) -> frozenset[str]:
    """Every warning that holds this morning."""
    found = {
        code for code, (kind, name, usual) in _REPORTED.items() if _falls(at, kind, name, usual)
    }
    foretold = at.case.cooperative.forecast.get(at.today)
    hot = {"hot_day"} if foretold is not None and strains(foretold[0], at) else set()
    return frozenset(found | hot)


def _falls(at: Standing, kind: str, name: str, usual: Callable[[int, Husbandry], float]) -> bool:
    """Whether the last reported day fell against the table for the birds alive and against the days
    reported before it."""
    days = _by_day(at, kind, name)
    if not days or (at.today - max(days)).days > FRESH_DAYS:
        return False
    shares = [
        days[day] * 1000 / (alive_on(at, day) * usual(_age_on(at, day), at.calendar.book))
        for day in sorted(days)
    ]
    return intake_falls(shares, at.calendar.book)


def _by_day(at: Standing, kind: str, name: str) -> dict[date, float]:
    """What was reported of each whole day lately, entries of a day added up."""
    found: dict[date, float] = defaultdict(float)
    for one in at.batch.live_events(kind):
        value = one.values.get(name)
        ago = (at.today - one.on_date).days
        grown = FIRST_AGE <= _age_on(at, one.on_date) <= TABLE_LAST
        if 1 <= ago <= COMPARED_DAYS and grown and isinstance(value, int | float):
            found[one.on_date] += float(value)
    return {day: kg for day, kg in found.items() if alive_on(at, day)}


def alive_on(at: Standing, day: date) -> int:
    """The birds alive on the evening of a day."""
    since = [
        one
        for kind in ("deaths", "dead_on_arrival", "culled", "sold")
        for one in at.batch.live_events(kind)
        if one.on_date > day
    ]
    return at.batch.alive + sum(int(str(one.values.get("n", 0))) for one in since)


def _age_on(at: Standing, day: date) -> int:
    return at.age - (at.today - day).days


def _water(age: int, book: Husbandry) -> float:
    return water_ml(age, book).value_ml


_REPORTED: dict[str, tuple[str, str, Callable[[int, Husbandry], float]]] = {
    "feed_falls": ("feed_eaten", "kg", feed_intake_g),
    "water_falls": ("water", "litres", _water),
}
