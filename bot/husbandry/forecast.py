"""The weight of a batch on a later day, from few weighings, with an honest interval. Pure.

Weights are taken in logarithms, so a batch that is 10 % behind stays so. A `Prior` says how the
logarithms of past or published batches lie at each age and how ages go together; a batch's own
weighings move it (conditional normal distribution, the best linear predictor). Called by the
sale day, the answers and `figures`. Ages in days, weights in g a bird.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import exp, log, sqrt
from statistics import fmean

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.growth import DAILY_STRAIN, HOT_STRAIN
from bot.husbandry.growth import weight_g as table_weight_g
from bot.husbandry.limits import check, check_weight, straight
from bot.husbandry.linear import dot, quantile, solve

INTERVAL = 0.8  # the share of batches whose weight lies between low and high
LEAST_BATCHES = 5  # with fewer the published curve is the better prior (common practice)


@dataclass(frozen=True, slots=True)
class Weighing:
    """The mean of some birds [g] at an age [days]; birds: how many were on the scale."""

    age_days: int
    mean_g: float
    birds: int


def is_behind(one: Weighing, usual_g: float, h: Husbandry) -> bool:
    """Whether a weighing lies more than two standard errors below a usual weight [g]: the error of
    the scale, and of which birds were caught."""
    error = sqrt(h.scale_sd.value**2 + (h.bird_cv.value / 100) ** 2 / one.birds)
    return one.mean_g < usual_g * (1 - h.behind_errors.value * error)


@dataclass(frozen=True, slots=True)
class Prior:
    """How batches grow. log_mean: logarithm of the usual weight [log g] at each of the n ages;
    covariance: n x n, of the logarithms between ages; a weighing is off by the scale (scale_sd)
    and by which birds were caught (bird_cv / sqrt(birds)), both as shares. batches: how many it was
    learnt from; 0 where it stands on a published curve."""

    ages: tuple[int, ...]
    log_mean: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    scale_sd: float
    bird_cv: float
    batches: int = 0


@dataclass(frozen=True, slots=True)
class WeightForecast:
    """A weight [g]: as likely below as above value_g; between low_g and high_g in 80 of 100
    batches. sd: spread of its logarithm (about the share by which it is off)."""

    age_days: int
    value_g: float
    low_g: float
    high_g: float
    sd: float
    weighings: int


@dataclass(frozen=True, slots=True)
class AgeForecast:
    """The first age [days] at which a weight is reached: likely, and the ends of the 80 %
    interval. None: not within the ages of the prior."""

    value: int | None
    earliest: int | None
    latest: int | None


def published_prior(h: Husbandry) -> Prior:
    """The prior of a batch that nothing is known of: the hot-climate table (each day by the shape
    of the daily one), farms spread about it by content/husbandry/forecast.yaml. Ages 0-49."""
    days = tuple(range(h.growth[DAILY_STRAIN].rows[-1].age_days + 1))
    hot = h.growth[HOT_STRAIN].rows
    off = [
        (float(row.age_days), log(row.weight_g / table_weight_g(row.age_days, h).value_g))
        for row in hot
    ]
    ratios = ((0.0, 0.0), *off)
    mean = tuple(log(table_weight_g(day, h).value_g) + straight(ratios, day) for day in days)
    start, pace = h.growth_start_sd.value**2, h.growth_pace_sd.value**2
    wander = h.growth_wander_sd.value**2
    whole = hot[-1].age_days

    def together(a: int, b: int) -> float:
        return start + pace * a * b / whole**2 + wander * min(a, b)

    covariance = tuple(tuple(together(a, b) for b in days) for a in days)
    return Prior(days, mean, covariance, h.scale_sd.value, h.bird_cv.value / 100)


def learnt_prior(
    batches: Sequence[Mapping[int, float]], scale_sd: float, bird_cv: float = 0.0
) -> Prior:
    """The prior of batches that were weighed at the same ages: age [days] -> weight [g], each of
    them complete. OutsideRange below 5 batches, or when their ages differ."""
    if len(batches) < LEAST_BATCHES:
        raise OutsideRange(f"{len(batches)} batches are too few to learn from", "5 or more")
    ages = tuple(sorted(batches[0]))
    if any(tuple(sorted(one)) != ages for one in batches):
        raise OutsideRange("the batches were weighed at different ages", "the same ages in all")
    rows = [[log(one[age]) for age in ages] for one in batches]
    mean = tuple(fmean(column) for column in zip(*rows, strict=True))
    off = [[value - middle for value, middle in zip(row, mean, strict=True)] for row in rows]
    columns = list(zip(*off, strict=True))
    covariance = tuple(
        tuple(dot(one, other) / (len(batches) - 1) for other in columns) for one in columns
    )
    return Prior(ages, mean, covariance, scale_sd, bird_cv, len(batches))


def forecast_weight(
    weighings: Sequence[Weighing], at_age_days: int, prior: Prior
) -> WeightForecast:
    """The weight of this batch at an age, before or after its weighings; without any, the prior's.

    Valid within the ages of the prior, for means of 25-6000 g of 1-1000 birds (else OutsideRange).
    Method: conditional normal on the logarithms; where the prior was learnt from n batches the
    interval is the regression one, with Student's t and n - 1 - weighings degrees."""
    _check_weighings(weighings, prior)
    check("age_days", at_age_days, prior.ages[0], prior.ages[-1], "days old; no curve beyond")
    ages = [one.age_days for one in weighings]
    off = [log(one.mean_g) - _mean(prior, one.age_days) for one in weighings]
    among = [[_together(prior, a, b) for b in ages] for a in ages]
    for i, one in enumerate(weighings):
        among[i][i] += _noise(one, prior)
    across = [_together(prior, age, at_age_days) for age in ages]
    weights = solve(among, across)
    middle = _mean(prior, at_age_days) + dot(weights, off)
    rest = max(0.0, _together(prior, at_age_days, at_age_days) - dot(weights, across))
    distance = dot(off, solve(among, off))
    spread, z = _widened(sqrt(rest), distance, len(ages), prior.batches)
    low, high = exp(middle - z * spread), exp(middle + z * spread)
    return WeightForecast(at_age_days, exp(middle), low, high, spread, len(ages))


def age_of_weight(weighings: Sequence[Weighing], weight_g: float, prior: Prior) -> AgeForecast:
    """When the batch weighs so much on average. Valid for 25-6000 g (else OutsideRange)."""
    check_weight(weight_g)
    days = [forecast_weight(weighings, age, prior) for age in range(prior.ages[0], _last(prior))]
    return AgeForecast(
        next((day.age_days for day in days if day.value_g >= weight_g), None),
        next((day.age_days for day in days if day.high_g >= weight_g), None),
        next((day.age_days for day in days if day.low_g >= weight_g), None),
    )


def _last(prior: Prior) -> int:
    return prior.ages[-1] + 1


def _widened(spread: float, distance: float, told: int, batches: int) -> tuple[float, float]:
    """The spread and the quantile, wider where the prior was learnt from few batches."""
    share = (1 + INTERVAL) / 2
    if not batches:
        return spread, quantile(share)
    freedom = max(2, batches - 1 - told)
    factor = (batches - 1) / freedom * (1 + 1 / batches + distance / (batches - 1))
    return spread * sqrt(factor), quantile(share, freedom)


def _noise(one: Weighing, prior: Prior) -> float:
    return prior.scale_sd**2 + prior.bird_cv**2 / one.birds


def _check_weighings(weighings: Sequence[Weighing], prior: Prior) -> None:
    for one in weighings:
        check_weight(one.mean_g)
        check("birds", one.birds, 1, 1000, "birds weighed")
        check("age_days", one.age_days, prior.ages[0], prior.ages[-1], "days old when weighed")


def _mean(prior: Prior, age: int) -> float:
    return sum(share * prior.log_mean[at] for at, share in _places(prior, age))


def _together(prior: Prior, one: int, other: int) -> float:
    return sum(
        a * b * prior.covariance[i][j]
        for (i, a), (j, b) in product(_places(prior, one), _places(prior, other))
    )


def _places(prior: Prior, age: int) -> tuple[tuple[int, float], ...]:
    """Where an age lies among the prior's ages: (place, share), one place or two."""
    after = next(i for i, known in enumerate(prior.ages) if known >= age)
    if prior.ages[after] == age:
        return ((after, 1.0),)
    share = (age - prior.ages[after - 1]) / (prior.ages[after] - prior.ages[after - 1])
    return ((after - 1, 1 - share), (after, share))
