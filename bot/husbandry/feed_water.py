"""Which feed, how much water, how full the crops. Pure; ages in days.
Called by the calendar, the answers and `figures`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from statistics import median

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.growth import feed_intake_g, feed_total_g
from bot.husbandry.limits import check, check_age, check_count, straight


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
