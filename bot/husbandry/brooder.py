"""A brooder's own heat loss, learnt from fuel and readings, in fuel. Pure; kg, W, C, hours.

In a steady brooder loss x (inside - outside) = stove share x heat of the fuel + heat of the birds.
Readings can't tell a leaky brooder from a poor stove, so the two are one figure: the fuel that a
degree of difference takes, in kg an hour and K. It begins at a prior from the walls; each fill of
fuel with its readings moves it (weighted least squares on logarithms). Called by `night`, the
answers and `figures`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log, sqrt
from statistics import fmean

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.heat import SECONDS_AN_HOUR
from bot.husbandry.limits import check
from bot.husbandry.linear import quantile
from bot.husbandry.temperature import spot_temperature_c

LEAST_READINGS = 4  # below this the prior is used, and said so (common practice)
LEAST_DIFFERENCE_C = 3.0  # a smaller one tells nothing of the loss (common practice)
INTERVAL = 0.8


@dataclass(frozen=True, slots=True)
class Reading:
    """Inside and outside [C] at one moment, outside as the mean of the last hours. sd_c: how far
    inside may be off; None: as a thermometer."""

    inside_c: float
    outside_c: float
    sd_c: float | None = None


@dataclass(frozen=True, slots=True)
class Fill:
    """One fill of fuel [kg] that burnt for some hours, the sensible heat of the birds then [W], and
    the readings taken while it burnt, from four hours after it was filled. days_ago: how long ago;
    an old one tells less of the brooder of today."""

    fuel_kg: float
    hours: float
    birds_w: float
    readings: tuple[Reading, ...]
    days_ago: float = 0.0


@dataclass(frozen=True, slots=True)
class Loss:
    """Fuel for a degree of difference [kg an hour and K]: likely, and the 80 % interval. sd: spread
    of its logarithm. readings: how many it was learnt from; learnt: False while it is the prior."""

    value: float
    low: float
    high: float
    sd: float
    kind: str
    readings: int
    learnt: bool


def usual_loss(shell_w_k: float, air_w_k: float, kind: str, h: Husbandry) -> Loss:
    """The prior: loss of shell and air [W/K] by the heat that a kilogram of this fuel usually gives
    the brooder. Valid for 0.1-20,000 W/K and the fuels of content (else OutsideRange)."""
    check("shell_w_k", shell_w_k, 0.1, 20_000, "W/K")
    check("air_w_k", air_w_k, 0, 20_000, "W/K")
    value = (shell_w_k + air_w_k) / _watts_of_kg_h(kind, h)
    return _loss(log(value), h.loss_sd.value, kind, 0, False)


def practice_loss(
    limit_c: float, night_c: float, fuel_kg_h: float, birds_w: float, kind: str, h: Husbandry
) -> Loss:
    """The prior where the walls are not known: the usual fire [kg an hour] and birds [W] hold a low
    limit down to a usual night outside. OutsideRange where the limit is not warmer, or no fire."""
    check("limit_c", limit_c, night_c + LEAST_DIFFERENCE_C, 36, "degrees C, warmer than the night")
    check("fuel_kg_h", fuel_kg_h, 0.001, 50, "kilograms an hour")
    rate = fuel_kg_h + birds_as_fuel_kg_h(birds_w, kind, h)
    return _loss(log(rate / (limit_c - night_c)), h.loss_sd.value, kind, 0, False)


def stoves_as_fuel_kg_h(stoves: int, kind: str, h: Husbandry) -> float:
    """The fuel [kg an hour] that so many stoves usually burn."""
    check("stoves", stoves, 0, 100, "stoves")
    return stoves * h.stove_heat.value / _watts_of_kg_h(kind, h)


def learn_loss(prior: Loss, fills: Sequence[Fill], h: Husbandry) -> Loss:
    """The loss after these fills, oldest or newest first alike. With fewer than 4 readings the
    prior comes back, its count of readings told.

    Each fill gives the logarithm of fuel an hour (birds counted as fuel) over the mean difference;
    its variance is that of the fuel (20 % a fill) and of the readings (1 C, outside 1.5 C). Method:
    weighted least squares, the prior as one more measurement (normal conjugate)."""
    told = [one for one in (_told(fill, prior.kind, h) for fill in fills) if one is not None]
    readings = sum(count for _, _, count in told)
    if readings < LEAST_READINGS:
        return Loss(prior.value, prior.low, prior.high, prior.sd, prior.kind, readings, False)
    known = [(log(prior.value), prior.sd**2), *((value, variance) for value, variance, _ in told)]
    middle, sd = _pooled(known)
    return _loss(middle, sd, prior.kind, readings, True)


def piling_reading(age_days: int, outside_c: float, h: Husbandry) -> Reading:
    """What chicks piled at night tell of the temperature: 2 C below the low limit of their age,
    give or take 2. Valid at ages 0-20."""
    low = spot_temperature_c(age_days, h).low_c
    return Reading(low - h.piling_below.value, outside_c, h.piling_sd.value)


def calm_reading(age_days: int, outside_c: float, h: Husbandry) -> Reading:
    """What chicks spread out and quiet at night tell: the target of their age, give or take 2.5 C.
    Valid at ages 0-20."""
    return Reading(spot_temperature_c(age_days, h).value_c, outside_c, h.calm_sd.value)


@dataclass(frozen=True, slots=True)
class Lag:
    """How much the rise over the outside air still grows from the evening's reading to dawn [C],
    and its spread: the night's fire has only begun to warm the brooder."""

    value_c: float
    sd_c: float


def usual_lag(h: Husbandry) -> Lag:
    """The prior of a brooder of which no night is known: 4 C, give or take 2.5."""
    return Lag(h.evening_lag.value, h.evening_lag_sd.value)


def learn_lag(nights: Sequence[tuple[Reading, Reading]], h: Husbandry) -> Lag:
    """The lag after nights with a reading in the evening and one at dawn: the mean growth of the
    rise, weighed with the prior by their variances."""
    usual = usual_lag(h)
    known = [(usual.value_c, usual.sd_c**2)]
    for evening, dawn in nights:
        variance = _reading_variance(evening, h) + _reading_variance(dawn, h)
        known.append((_rise_c(dawn) - _rise_c(evening), variance))
    return Lag(*_pooled(known))


def _pooled(known: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """The mean of values weighed by their variances, and its spread. known: (value, variance)."""
    total = sum(1 / variance for _, variance in known)
    return sum(value / variance for value, variance in known) / total, sqrt(1 / total)


def _rise_c(reading: Reading) -> float:
    return reading.inside_c - reading.outside_c


def birds_as_fuel_kg_h(birds_w: float, kind: str, h: Husbandry) -> float:
    """The fuel [kg an hour] that the birds' own heat [W] stands for."""
    check("birds_w", birds_w, 0, 1_000_000, "watts")
    return birds_w / _watts_of_kg_h(kind, h)


def _told(fill: Fill, kind: str, h: Husbandry) -> tuple[float, float, int] | None:
    """Logarithm of the loss by one fill, its variance and its count of readings; None when the
    difference is too small to tell."""
    check("fuel_kg", fill.fuel_kg, 0, 500, "kilograms")
    check("hours", fill.hours, 0.5, 48, "hours")
    if not fill.readings:
        return None
    difference = fmean(one.inside_c - one.outside_c for one in fill.readings)
    fuel = fill.fuel_kg / fill.hours
    rate = fuel + birds_as_fuel_kg_h(fill.birds_w, kind, h)
    if difference < LEAST_DIFFERENCE_C or fuel <= 0:
        return None
    count = len(fill.readings)
    air = sum(_reading_variance(one, h) for one in fill.readings) / count**2
    burnt = (h.fill_sd.value * fuel / rate) ** 2
    drift = fill.days_ago * h.loss_drift_sd.value
    variance = burnt + air / difference**2 + h.weather_sd.value**2 + drift**2
    return log(rate / difference), variance, count


def _reading_variance(one: Reading, h: Husbandry) -> float:
    inside = h.reading_sd.value if one.sd_c is None else one.sd_c
    return inside**2 + h.outside_sd.value**2


def _watts_of_kg_h(kind: str, h: Husbandry) -> float:
    """The heat [W] that a kilogram an hour usually gives the brooder."""
    if kind not in h.fuels:
        raise OutsideRange(f"kind {kind} is not a fuel that we know", ", ".join(h.fuels))
    fuel = h.fuels[kind]
    return fuel.heating_mj_kg * 1e6 * fuel.share[1] / SECONDS_AN_HOUR


def _loss(middle: float, sd: float, kind: str, readings: int, learnt: bool) -> Loss:
    z = quantile((1 + INTERVAL) / 2)
    low, high = exp(middle - z * sd), exp(middle + z * sd)
    return Loss(exp(middle), low, high, sd, kind, readings, learnt)
