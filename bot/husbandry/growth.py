"""Growth, feed and groups of weights. Pure; ages in days, weights and feed in g a bird, as hatched.
Called by the answers, the desk and `figures`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, erf, sqrt
from statistics import fmean, stdev

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Growth, GrowthRow, Husbandry
from bot.husbandry.limits import check, check_weight, straight

DAILY_STRAIN = "ross308-2019"
HOT_STRAIN = "vencobb400"  # the curve that farmers are compared with by default


@dataclass(frozen=True, slots=True)
class Weight:
    """A target weight [g]; interpolated between two printed rows or printed itself."""

    value_g: float
    interpolated: bool


@lru_cache(maxsize=512)
def weight_g(age_days: int, h: Husbandry, strain: str = DAILY_STRAIN) -> Weight:
    """Live weight [g] by a strain's table; a day between weekly rows lies on a straight line.
    Valid from the table's first to its last age (0-49 for the daily one, 7-42 for vencobb400)."""
    rows = _table(strain, h).rows
    first, last = rows[0].age_days, rows[-1].age_days
    check("age_days", age_days, first, last, f"days old in the table of {strain}")
    points = tuple((float(row.age_days), row.weight_g) for row in rows)
    printed = any(row.age_days == age_days for row in rows)
    return Weight(straight(points, age_days), not printed)


@lru_cache(maxsize=256)
def feed_intake_g(age_days: int, h: Husbandry) -> float:
    """Feed [g a bird] of that day, daily table. The table prints none for the first 24 hours: there
    (ages 0 and 1) it is the total of day 1. Valid at ages 0-49."""
    row = _daily_row(max(age_days, 1), age_days, h)
    return row.feed_day_g if row.feed_day_g is not None else feed_total_g(1, h)


def feed_total_g(age_days: int, h: Husbandry) -> float:
    """Feed [g a bird] from placement to that age, daily table. Valid at ages 0-49."""
    return _daily_row(age_days, age_days, h).feed_total_g or 0.0


def feed_conversion(age_days: int, h: Husbandry) -> float:
    """Feed / live weight as the handbook prints it: the chick's own weight is not taken off.
    Valid at ages 1-49."""
    check("age_days", age_days, 1, 49, "days old; there is no feed eaten before")
    found = _daily_row(age_days, age_days, h).feed_conversion
    return found if found is not None else 0.0


def seven_day_weight_g(chick_g: float, h: Husbandry) -> float:
    """Target weight [g] at 7 days: 4 times the weight at placement. Valid for 25-60 g."""
    check("chick_g", chick_g, 25, 60, "grams a day-old chick")
    return chick_g * h.chick_multiple.value


def cv_pct(weights_g: Sequence[float]) -> float:
    """Coefficient of variation [%]: standard deviation (n - 1) / mean. Needs two weights."""
    if len(weights_g) < 2:
        raise OutsideRange("one weight says nothing about how even they are", "2 weights or more")
    for one in weights_g:
        check_weight(one)
    return 100 * stdev(weights_g) / fmean(weights_g)


def uniformity_pct(cv: float, h: Husbandry) -> float:
    """Share of birds [%] within 10 % of the mean, on a normal curve. Valid for CV 2-40 %."""
    check("cv_pct", cv, 2, 40, "percent")
    return 100 * erf(h.uniformity_band.value / cv / sqrt(2))


def sample_size(cv: float, error_pct: float, h: Husbandry) -> int:
    """Birds to weigh so that the mean is within error_pct, 95 times in 100: (1.96 CV / error)^2.
    Valid for CV 2-40 % and an error of 0.5-20 %."""
    check("cv_pct", cv, 2, 40, "percent")
    check("error_pct", error_pct, 0.5, 20, "percent")
    return max(1, ceil((h.confidence_z.value * cv / error_pct) ** 2 - 1e-9))


def sample_error_pct(birds: int, cv: float, h: Husbandry) -> float:
    """How far [%] the mean of so many birds may be off, 95 times in 100: 1.96 CV / sqrt(birds).
    Valid for 1-1000 birds and CV 2-40 %."""
    check("birds", birds, 1, 1000, "birds weighed")
    check("cv_pct", cv, 2, 40, "percent")
    return h.confidence_z.value * cv / sqrt(birds)


def _table(strain: str, h: Husbandry) -> Growth:
    if strain not in h.growth:
        raise OutsideRange(f"strain {strain} has no table here", ", ".join(h.growth))
    return h.growth[strain]


def _daily_row(age_days: int, asked: int, h: Husbandry) -> GrowthRow:
    rows = h.growth[DAILY_STRAIN].rows
    check("age_days", asked, 0, rows[-1].age_days, "days old; the table ends there")
    return next(row for row in rows if row.age_days == age_days)
