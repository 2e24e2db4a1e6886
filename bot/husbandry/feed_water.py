"""Which feed, how much water, how full the crops. Pure; ages in days.
Called by the calendar, the answers and `figures`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from statistics import median

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.growth import feed_intake_g, feed_total_g
from bot.husbandry.limits import LAST_TABLE_AGE, check, check_age, check_count, straight


def feed_phase(age_days: int, h: Husbandry) -> str:
    """starter, grower or finisher, unless the bag says otherwise. Valid at ages 0-56."""
    check_age(age_days)
    return [name for start, name in h.feed_phases.points if start <= age_days][-1]


def feed_to_buy_kg(count: int, from_age: int, to_age: int, h: Husbandry) -> float:
    """Feed [kg] that a batch eats from one age to another, daily table. Valid at ages 0-49."""
    check_count(count)
    check("from_age", from_age, 0, to_age, "days old, not after to_age")
    return count * (feed_total_g(to_age, h) - feed_total_g(from_age, h)) / 1000


def feed_bags(kg: float, h: Husbandry) -> int:
    """Bags of 50 kg, rounded up."""
    check("kg", kg, 0, 1_000_000, "kilograms")
    return ceil(kg / h.feed_bag.value - 1e-9)


def intake_falls(shares: Sequence[float], h: Husbandry) -> bool:
    """Whether the last of some days' feed or water, each as a share of the table, has fallen by a
    fifth against the days before it (the middle one of them, not above the table). Two days at
    least; with fewer there is nothing to compare with."""
    if len(shares) < 2:
        return False
    usual = min(1.0, median(shares[:-1]))
    return shares[-1] < h.intake_fall.value * usual


@dataclass(frozen=True, slots=True)
class PhaseFeed:
    """Feed of one phase: its name, the kilograms, bags of 50 kg rounded up, and the last age [days]
    on which it is eaten."""

    phase: str
    kg: float
    bags: int
    last_age: int


def feed_by_phase(count: int, from_age: int, to_age: int, h: Husbandry) -> tuple[PhaseFeed, ...]:
    """What a batch eats from one age up to another (not included), phase by phase. Valid at ages
    0-49."""
    check("from_age", from_age, 0, to_age - 1, "days old, before to_age")
    starts = [(start, name) for start, name in h.feed_phases.points if start < to_age]
    ends = [*(start for start, _ in starts[1:]), to_age]
    found = []
    for (start, name), end in zip(starts, ends, strict=True):
        first = max(start, from_age)
        if first < end:
            kg = feed_to_buy_kg(count, first, end, h)
            found.append(PhaseFeed(name, kg, feed_bags(kg, h), end - 1))
    return tuple(found)


def feed_left_kg(
    bought_kg: float,
    since_age: int,
    age_days: int,
    eaten: Mapping[int, float],
    count: int,
    h: Husbandry,
) -> float:
    """What is left [kg] of feed bought from since_age on: less what was reported eaten (age -> kg),
    and on days without a report less what the table expects. Never below 0. Valid at ages 0-49."""
    check("since_age", since_age, 0, age_days, "days old, not after today")
    gone = eaten.get(age_days, 0.0)
    for age in range(since_age, age_days):
        gone += eaten.get(age, count * feed_intake_g(min(age, LAST_TABLE_AGE), h) / 1000)
    return max(0.0, bought_kg - gone)


@dataclass(frozen=True, slots=True)
class Lasts:
    """Whole days that feed lasts: usual, and where the birds eat more (low) or less (high)."""

    days: int
    low: int
    high: int


def feed_lasts(stock_kg: float, count: int, age_days: int, h: Husbandry) -> Lasts:
    """How many days of feed a stock is, today the first; after the table's end its last day goes
    on. The range: a farm's birds eat 15 % more or less. Valid for 0-100,000 kg, ages 0-49."""
    usual, spread = feed_days(stock_kg, count, age_days, h), h.feed_spread.value
    more, less = (
        _days_of(stock_kg / share, count, age_days, h) for share in (1 + spread, 1 - spread)
    )
    return Lasts(usual, more, less)


def feed_days(stock_kg: float, count: int, age_days: int, h: Husbandry) -> int:
    """The usual days of `feed_lasts` alone."""
    check("stock_kg", stock_kg, 0, 100_000, "kilograms of feed")
    check_count(count)
    check_age(age_days, LAST_TABLE_AGE)
    return _days_of(stock_kg, count, age_days, h)


def _days_of(stock_kg: float, count: int, age_days: int, h: Husbandry) -> int:
    days, left = 0, stock_kg + 1e-9
    while days < 365:
        left -= count * feed_intake_g(min(age_days + days, LAST_TABLE_AGE), h) / 1000
        if left < 0:
            break
        days += 1
    return days


@dataclass(frozen=True, slots=True)
class Water:
    """Water of a day [ml a bird]: usual, with nipples (low) and with bells (high)."""

    value_ml: float
    low_ml: float
    high_ml: float


def water_ml(age_days: int, h: Husbandry, temperature_c: float = 21.0) -> Water:
    """Water [ml a bird and day]: ratio x feed of that day; above 21 C 6.5 % more a degree, not
    compounded. Valid at ages 0-49 and 5-45 C."""
    check("temperature_c", temperature_c, 5, 45, "degrees C")
    feed = feed_intake_g(age_days, h)
    warmer = max(0.0, temperature_c - h.water_rise_from.value)
    rise = 1 + warmer * h.water_rise.value / 100
    ratio = h.water_ratio
    low = ratio.value if ratio.low is None else ratio.low
    high = ratio.value if ratio.high is None else ratio.high
    return Water(feed * ratio.value * rise, feed * low * rise, feed * high * rise)


def crop_full_pct(hours: float, h: Husbandry) -> float:
    """Chicks that should have a full crop [%], hours after the first feed; straight between the
    published hours. Valid for 2-48 h."""
    points = h.crop_fill.points
    check("hours", hours, points[0][0], points[-1][0], "hours after the first feed")
    return straight(points, hours)
