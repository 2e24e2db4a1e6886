"""Tonight's cold hour: the outside air, and what this brooder will be in it. Pure; C and kg.

In: the normals of the month or a forecast, a reading of today, the brooder's `Loss`, the fuel meant
for the night. Out: how cold it gets, whether and when it falls below the target, and the fuel that
would hold it. No opening is ever computed. Called by the night text, the answers and `figures`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sqrt
from statistics import NormalDist, fmean

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.brooder import Lag, Loss, Reading, birds_as_fuel_kg_h
from bot.husbandry.limits import check
from bot.husbandry.linear import quantile

NIGHT_HOURS = (*range(19, 24), *range(7))
INTERVAL = 0.8
FACTOR_TWO = 2.0  # the fuel of an unvented fire is told as a range of at least this (practice)


@dataclass(frozen=True, slots=True)
class Outside:
    """The coming night outside [C]: its warmest at the afternoon before and its coldest at dawn,
    and how far the coldest may be off."""

    high_c: float
    low_c: float
    sd_c: float

    def at(self, hour: int, h: Husbandry) -> float:
        """The air [C] at a full hour (0-23): half a cosine from the warmest hour (15) to the
        coldest (6), and half a cosine back."""
        warm, cold = h.warmest_hour.value, h.coldest_hour.value
        fall = (cold - warm) % 24
        since = (hour - warm) % 24
        share = since / fall if since <= fall else 1 - (since - fall) / (24 - fall)
        return self.low_c + (self.high_c - self.low_c) * (1 + cos(pi * share)) / 2

    def felt(self, hour: int, h: Husbandry) -> float:
        """What a brooder feels of it at a full hour [C]: the mean of the three hours before."""
        return fmean(self.at((hour - back) % 24, h) for back in (1, 2, 3))


@dataclass(frozen=True, slots=True)
class Night:
    """What the brooder does tonight [C]: lowest inside temperature with its 80 % interval, the
    chance that it falls below the target, the first full hour at which it likely does (None: it
    holds), and whether to foretell a cold night."""

    lowest_c: float
    low_c: float
    high_c: float
    chance: float
    cold_from: int | None
    foretold: bool


@dataclass(frozen=True, slots=True)
class NightFuel:
    """Fuel that holds the target at the coldest hour [kg an hour]: usual, and a range of at least
    a factor two."""

    value_kg_h: float
    low_kg_h: float
    high_kg_h: float


def normal_night(
    high_c: float, low_c: float, h: Husbandry, read_c: float | None = None, read_hour: int = 17
) -> Outside:
    """The night by the month's normals, moved by today's outside reading where there is one: six
    tenths of how far it was off last until dawn. Valid for -20 to 45 C, low not above high."""
    _check_outside(high_c, low_c)
    normal = Outside(high_c, low_c, h.normal_sd.value)
    if read_c is None:
        return normal
    check("read_c", read_c, -20, 50, "degrees C")
    check("read_hour", read_hour, 0, 23, "the hour of the day")
    off = read_c - normal.at(read_hour, h)
    kept = h.persistence.value
    left = sqrt(h.normal_sd.value**2 * (1 - kept**2) + (kept * h.reading_sd.value) ** 2)
    return Outside(high_c + off, low_c + kept * off, left)


def forecast_night(high_c: float, low_c: float, h: Husbandry) -> Outside:
    """The night by a weather forecast or by what the farmer said. Valid for -20 to 45 C."""
    _check_outside(high_c, low_c)
    return Outside(high_c, low_c, h.outside_sd.value)


def foretell_night(
    loss: Loss,
    fuel_kg_h: float,
    birds_w: float,
    outside: Outside,
    target_low_c: float,
    h: Husbandry,
    evening: tuple[Reading, Lag] | None = None,
) -> Night:
    """The brooder tonight with this fuel [kg an hour; 0: no fire] and the birds' sensible heat [W].

    inside = outside (`felt`) + (fuel + birds counted as fuel) / loss, off by the loss, the fuel
    (20 %) and the weather together. A reading of the evening, two hours or more after tonight's
    fuel was filled, and how much the rise still grows until dawn (`learn_lag`) tell the same rise
    by themselves; the two are weighed by their variances. A cold night is foretold from a chance
    of 48 % on. Valid for 0-50 kg an hour, a target of 10-36 C."""
    check("fuel_kg_h", fuel_kg_h, 0, 50, "kilograms an hour")
    check("target_low_c", target_low_c, 10, 36, "degrees C")
    rise, sd = _rise(loss, fuel_kg_h, birds_w, h)
    if evening is not None:
        rise, sd = _weighed(rise, sd, *evening, h)
    spread = sqrt(sd**2 + outside.sd_c**2)
    by_hour = [(hour, outside.felt(hour, h) + rise) for hour in NIGHT_HOURS]
    lowest = min(inside for _, inside in by_hour)
    chance = NormalDist(lowest, spread).cdf(target_low_c)
    foretold = chance >= h.alarm_chance.value
    first = next((hour for hour, inside in by_hour if inside < target_low_c), NIGHT_HOURS[-1])
    z = quantile((1 + INTERVAL) / 2)
    low, high = lowest - z * spread, lowest + z * spread
    return Night(lowest, low, high, chance, first if foretold else None, foretold)


def coldest_held_c(
    loss: Loss, fuel_kg_h: float, birds_w: float, target_low_c: float, h: Husbandry
) -> float:
    """The night outside [C, felt at dawn] down to which this fire holds the target."""
    return target_low_c - _rise(loss, fuel_kg_h, birds_w, h)[0]


def night_fuel(
    loss: Loss,
    birds_w: float,
    outside: Outside,
    target_c: float,
    h: Husbandry,
    hour: int = NIGHT_HOURS[-1],
) -> NightFuel:
    """Fuel [kg an hour] that holds the target at an hour, the coldest by default; 0 where the
    birds do. The range
    is the interval of loss, weather and outside air, and at least a factor two: round it up to the
    farmer's measure. Valid for 10-36 C."""
    check("target_c", target_c, 10, 36, "degrees C")
    birds = birds_as_fuel_kg_h(birds_w, loss.kind, h)
    z = quantile((1 + INTERVAL) / 2)
    off = 1 + z * sqrt(loss.sd**2 + h.weather_sd.value**2)
    air = outside.felt(hour, h)
    rise = max(0.0, target_c - air)
    colder = max(0.0, target_c - air + z * outside.sd_c)
    usual, least, most = (
        max(0.0, kg - birds)
        for kg in (loss.value * rise, loss.value / off * rise, loss.value * off * colder)
    )
    factor = sqrt(FACTOR_TWO)
    return NightFuel(usual, min(least, usual / factor), max(most, usual * factor))


def _rise(loss: Loss, fuel_kg_h: float, birds_w: float, h: Husbandry) -> tuple[float, float]:
    """How far inside lies above outside [C] by fuel and loss, and its spread."""
    rate = fuel_kg_h + birds_as_fuel_kg_h(birds_w, loss.kind, h)
    burnt = h.fill_sd.value * fuel_kg_h / rate if rate else 0.0
    share = sqrt(loss.sd**2 + burnt**2 + h.weather_sd.value**2)
    return rate / loss.value, rate / loss.value * share


def _weighed(
    rise: float, sd: float, reading: Reading, lag: Lag, h: Husbandry
) -> tuple[float, float]:
    """The rise by fuel and by a reading together [C], and its spread."""
    if sd == 0:
        return rise, sd
    inside = h.reading_sd.value if reading.sd_c is None else reading.sd_c
    read = inside**2 + h.outside_sd.value**2 + lag.sd_c**2
    share = sd**2 / (sd**2 + read)
    seen = reading.inside_c - reading.outside_c + lag.value_c
    return rise + share * (seen - rise), sd * sqrt(1 - share)


def _check_outside(high_c: float, low_c: float) -> None:
    check("high_c", high_c, -20, 50, "degrees C by day")
    check("low_c", low_c, -20, high_c, "degrees C at night, not above the day's")
