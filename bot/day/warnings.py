"""What is warned of beforehand: feed or water that falls, feed or fuel that ends, a temperature
that is off for long, a hot day foretold.

In: where a batch stands. Out: codes of shape_calendar.WARNINGS. Whole days count, so today's half
day never does. Pure; the science is in bot.husbandry.feed_water. Called by conditions and morning.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from datetime import date

from bot.day.standing import Standing, strains
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.feed_water import feed_bags, feed_to_buy_kg, intake_falls, water_ml
from bot.husbandry.feed_water import feed_days as days_of_feed
from bot.husbandry.growth import feed_intake_g
from bot.husbandry.temperature import spot_temperature_c
from bot.ledger.birds import alive_on
from bot.ledger.stores import feed_left, fuel_nights

COMPARED_DAYS = 8  # so far back reports are compared
FRESH_DAYS = 2  # the last report is of yesterday or the day before
WEEK = 7
LAST_NIGHTS = 2
READ_DAYS, OFF_DAYS = 3, 2  # readings of so many days; off on so many of them; common practice
LAST_SPOT_AGE = 20
FIRST_AGE, TABLE_LAST = 2, 49  # the feed of the first days is spilt as much as eaten


def warnings(at: Standing) -> frozenset[str]:
    """Every warning that holds this morning."""
    if "warnings" not in at.memo:
        at.memo["warnings"] = _warnings(at)
    found: frozenset[str] = at.memo["warnings"]
    return found


def _warnings(at: Standing) -> frozenset[str]:
    found = {
        code for code, (kind, name, usual) in _REPORTED.items() if _falls(at, kind, name, usual)
    }
    foretold = at.case.cooperative.forecast.get(at.today)
    hot = {"hot_day"} if foretold is not None and strains(foretold[0], at) else set()
    return frozenset(found | hot | _feed_ends(at) | _fuel_ends(at) | _off_for_long(at))


def feed_days(at: Standing) -> int | None:
    """Whole days, today the first, that the feed told of lasts; None where none was told of."""
    if "feed_days" not in at.memo:
        book = at.calendar.book
        kg = feed_left(at.batch, at.today, book)
        days = None if kg is None else days_of_feed(kg, at.batch.alive, at.age, book)
        at.memo["feed_days"] = days
    found: int | None = at.memo["feed_days"]
    return found


def bags_for_a_week(at: Standing) -> int | None:
    """Bags for the seven days from the one on which the feed ends; None at the table's end."""
    days = feed_days(at)
    if days is None or at.age + days >= TABLE_LAST:
        return None
    first = at.age + days
    last = min(TABLE_LAST, first + WEEK)
    book = at.calendar.book
    return feed_bags(feed_to_buy_kg(at.batch.alive, first, last, book), book)


def _feed_ends(at: Standing) -> set[str]:
    """Two days before it ends, or on the day; once for all the feed bought so far."""
    days = feed_days(at)
    if days is None or days > 2:
        return set()
    last = max(_sums(at, "feed_in", "kg"))
    told = [at.said[row] for row in ("feed_two_days", "feed_today") if row in at.said]
    if told and max(told) >= last:
        return set()
    return {"feed_two_days" if days == 2 else "feed_today"}


def _fuel_ends(at: Standing) -> set[str]:
    """Two nights before it ends; once for all the fuel bought so far."""
    nights = fuel_nights(at.batch, at.today)
    if nights is None or nights > LAST_NIGHTS:
        return set()
    last = max(one.on_date for one in at.batch.live_events("fuel_in"))
    told = at.said.get("fuel_ends")
    return set() if told is not None and told >= last else {"fuel_ends"}


def _off_for_long(at: Standing) -> set[str]:
    """Every reading of the last days, on two of them at least, was too low, or every one too high,
    for its day's target."""
    sides: dict[date, set[int]] = defaultdict(set)
    for one in at.batch.live_events("temperature"):
        value, age = one.values.get("value_c"), _age_on(at, one.on_date)
        days_ago = (at.today - one.on_date).days
        if isinstance(value, int | float) and 1 <= days_ago <= READ_DAYS and age >= 0:
            sides[one.on_date].add(_side(float(value), age, at.calendar.book))
    found = set().union(*sides.values())
    if len(sides) < OFF_DAYS or len(found) != 1:
        return set()
    return {-1: {"cold_long"}, 1: {"hot_long"}}.get(found.pop(), set())


def _side(value_c: float, age: int, book: Husbandry) -> int:
    """-1 too cold, 1 too hot, 0 within the band about the target, or without one."""
    if age > LAST_SPOT_AGE:
        return 0
    target = spot_temperature_c(age, book)
    return -1 if value_c < target.low_c else 1 if value_c > target.high_c else 0


def _falls(at: Standing, kind: str, name: str, usual: Callable[[int, Husbandry], float]) -> bool:
    """Whether the last reported day fell against the table for the birds alive and against the days
    reported before it."""
    days = _by_day(at, kind, name)
    if not days or (at.today - max(days)).days > FRESH_DAYS:
        return False
    shares = [
        days[day] * 1000 / (alive_on(at.batch, day) * usual(_age_on(at, day), at.calendar.book))
        for day in sorted(days)
    ]
    return intake_falls(shares, at.calendar.book)


def _by_day(at: Standing, kind: str, name: str) -> dict[date, float]:
    """What was reported of each whole day lately."""
    return {
        day: told
        for day, told in _sums(at, kind, name).items()
        if 1 <= (at.today - day).days <= COMPARED_DAYS
        and FIRST_AGE <= _age_on(at, day) <= TABLE_LAST
        and alive_on(at.batch, day)
    }


def _sums(at: Standing, kind: str, name: str) -> dict[date, float]:
    """What was reported of each day up to today, its entries added up."""
    found: dict[date, float] = defaultdict(float)
    for one in at.batch.live_events(kind):
        value = one.values.get(name)
        if isinstance(value, int | float) and one.on_date <= at.today:
            found[one.on_date] += float(value)
    return found


def _age_on(at: Standing, day: date) -> int:
    return at.age - (at.today - day).days


def _water(age: int, book: Husbandry) -> float:
    return water_ml(age, book).value_ml


_REPORTED: dict[str, tuple[str, str, Callable[[int, Husbandry], float]]] = {
    "feed_falls": ("feed_eaten", "kg", feed_intake_g),
    "water_falls": ("water", "litres", _water),
}
