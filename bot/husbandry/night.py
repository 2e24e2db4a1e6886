"""Tonight's cold hour: the outside air, and what this brooder will be in it. Pure; C and kg.

In: the normals of the month or a forecast, a reading of today, the brooder's `Loss`, the fuel meant
for the night. Out: how cold it gets, whether and when it falls below the target, and the fuel that
would hold it. No opening is ever computed. Called by the night text, the answers and `figures`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sqrt
from statistics import NormalDist

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.brooder import Loss, birds_as_fuel_kg_h
from bot.husbandry.limits import check
from bot.husbandry.linear import quantile

NIGHT_HOURS = (*range(19, 24), *range(7))  # from when the night's fuel burns until sunrise
HOURS_OF_NIGHT = 12.0
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
    """Fuel that holds the target until dawn [kg]: usual, and a range of at least a factor two."""

    value_kg: float
    low_kg: float
    high_kg: float


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
    loss: Loss, fuel_kg: float, birds_w: float, outside: Outside, target_low_c: float, h: Husbandry
) -> Night:
    """The brooder tonight with this fuel over 12 hours (0: no fire) and the birds' sensible heat
    [W]: inside = outside + fuel an hour, birds counted as fuel, / loss.

    Off by the loss, the fuel (20 %), the weather and the outside air together. A cold night is
    foretold from a chance of 45 % on. Valid for 0-500 kg and a target of 10-36 C."""
    check("fuel_kg", fuel_kg, 0, 500, "kilograms for the night")
    check("target_low_c", target_low_c, 10, 36, "degrees C")
    fuel = fuel_kg / HOURS_OF_NIGHT
    rate = fuel + birds_as_fuel_kg_h(birds_w, loss.kind, h)
    rise = rate / loss.value
    burnt = h.fill_sd.value * fuel / rate if rate else 0.0
    share = sqrt(loss.sd**2 + burnt**2 + h.weather_sd.value**2)
    spread = sqrt((rise * share) ** 2 + outside.sd_c**2)
    by_hour = [(hour, outside.at(hour, h) + rise) for hour in NIGHT_HOURS]
    lowest = min(inside for _, inside in by_hour)
    chance = NormalDist(lowest, spread).cdf(target_low_c)
    z = quantile((1 + INTERVAL) / 2)
    foretold = chance >= h.alarm_chance.value
    first = next((hour for hour, inside in by_hour if inside < target_low_c), None)
    coldest = int(h.coldest_hour.value)
    cold_from = (coldest if first is None else first) if foretold else None
    return Night(lowest, lowest - z * spread, lowest + z * spread, chance, cold_from, foretold)


def night_fuel(
    loss: Loss, birds_w: float, outside: Outside, target_c: float, h: Husbandry
) -> NightFuel:
    """Fuel [kg] for 12 hours that holds the target at the coldest hour; 0 where the birds do. The
    range is the interval of loss and weather, and at least a factor two. Valid for 10-36 C."""
    check("target_c", target_c, 10, 36, "degrees C")
    birds = birds_as_fuel_kg_h(birds_w, loss.kind, h)
    difference = max(0.0, target_c - outside.low_c)
    z = quantile((1 + INTERVAL) / 2)
    share = sqrt(loss.sd**2 + h.weather_sd.value**2)
    usual = max(0.0, loss.value * difference - birds) * HOURS_OF_NIGHT
    cold = max(0.0, target_c - outside.low_c + z * outside.sd_c)
    most = max(0.0, loss.value * (1 + z * share) * cold - birds) * HOURS_OF_NIGHT
    least = max(0.0, loss.value / (1 + z * share) * difference - birds) * HOURS_OF_NIGHT
    return NightFuel(
        usual, min(least, usual / sqrt(FACTOR_TWO)), max(most, usual * sqrt(FACTOR_TWO))
    )


def _check_outside(high_c: float, low_c: float) -> None:
    check("high_c", high_c, -20, 50, "degrees C by day")
    check("low_c", low_c, -20, high_c, "degrees C at night, not above the day's")
