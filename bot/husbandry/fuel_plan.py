"""Stoves and fuel of a brooder that nobody measured: for tonight, until a day, and what a second
curtain saves. Pure; C, kg, W/K.

The brooder is taken as a square of the floor that the chicks need, with walls of one curtain and a
sheet as roof, its top open on two sides. So every figure is a range of a factor two and more, to
be rounded up to the farmer's measure, and none says that a fire inside is safe. Called by answers.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, sqrt

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.brooder import Loss, usual_loss
from bot.husbandry.growth import weight_g
from bot.husbandry.heat import SECONDS_AN_HOUR, air_of_changes_m3h, bird_heat_w, shell_w_k
from bot.husbandry.limits import check, check_age, check_count
from bot.husbandry.night import NIGHT_HOURS, Outside, forecast_night, night_fuel
from bot.husbandry.space import floor_needed, stoves_needed
from bot.husbandry.temperature import spot_temperature_c

ROOM_BIRDS = 1000  # more chicks than this stand in several brooders (common practice)
LAST_HEATED_AGE = 20


@dataclass(frozen=True, slots=True)
class FuelRange:
    """Fuel [kg]: likely, and a range of at least a factor two."""

    value_kg: float
    low_kg: float
    high_kg: float


@dataclass(frozen=True, slots=True)
class Tonight:
    """Stoves that must burn at the coldest hour, and the fuel of the night's twelve hours."""

    stoves: int
    fuel: FuelRange


@dataclass(frozen=True, slots=True)
class Saving:
    """The share of the fuel [%] that something saves: likely, and its range."""

    value_pct: float
    low_pct: float
    high_pct: float


def fuel_tonight(count: int, age_days: int, dawn_c: float, kind: str, h: Husbandry) -> Tonight:
    """Stoves and fuel for a night that falls to dawn_c. One stove for 250 chicks, or more where the
    fuel of the coldest hour asks for them. Valid at ages 0-20, -10 to 35 C, fuels of content."""
    loss, birds_w, target = _brooder(count, age_days, kind, h)
    outside = _night(dawn_c, h)
    coldest = night_fuel(loss, birds_w, outside, target, h).value_kg_h
    stoves = max(stoves_needed(count, h), ceil(coldest / h.stove_burn[kind].value))
    return Tonight(stoves, _summed(loss, birds_w, outside, target, NIGHT_HOURS, h))


def bulbs_tonight(count: int, age_days: int, dawn_c: float, h: Husbandry) -> tuple[int, int]:
    """Bulbs of 250 W that hold the coldest hour of such a night: at least, and at most. Valid as
    fuel_tonight."""
    loss, birds_w, target = _brooder(count, age_days, "charcoal", h)
    found = night_fuel(loss, birds_w, _night(dawn_c, h), target, h)
    fuel = h.fuels["charcoal"]
    watts = fuel.heating_mj_kg * 1e6 * fuel.share[1] / SECONDS_AN_HOUR
    low, high = (
        max(1, ceil(kg_h * watts / h.bulb_w.value)) for kg_h in (found.low_kg_h, found.high_kg_h)
    )
    return low, max(2 * low, high)


def fuel_until(
    count: int, from_age: int, to_age: int, dawn_c: float, kind: str, h: Husbandry
) -> FuelRange:
    """Fuel from one age up to another (not included), day and night, every night falling to dawn_c.
    Ages after 20 need no fire. Valid at ages 0-21, -10 to 35 C."""
    check("from_age", from_age, 0, LAST_HEATED_AGE, "days old; older birds need no fire")
    check("to_age", to_age, from_age + 1, LAST_HEATED_AGE + 1, "days old; older ones need no fire")
    outside = _night(dawn_c, h)
    found = []
    for age in range(from_age, to_age):
        loss, birds_w, target = _brooder(count, age, kind, h)
        found.append(_summed(loss, birds_w, outside, target, range(24), h))
    return FuelRange(
        sum(one.value_kg for one in found),
        sum(one.low_kg for one in found),
        sum(one.high_kg for one in found),
    )


def second_curtain_saves(count: int, age_days: int, h: Husbandry) -> Saving:
    """What a second sheet, a hand from the first, saves of the fuel: its share of the heat lost by
    walls, roof, floor and air. Low and high by the range of U-values. Valid at ages 0-20."""
    side = _side_m(count, age_days, h)
    one, two = h.wall_loss["curtain"], h.wall_loss["curtain2"]
    wall_m2 = 4 * side * h.brooder_height.value
    rest = side * side * (h.roof_loss.value + h.floor_loss.value) + _air_w_k(side, h)

    def saved(first: float | None, second: float | None) -> float:
        before, after = first or one.value, second or two.value
        return 100 * max(0.0, before - after) * wall_m2 / (before * wall_m2 + rest)

    usual = saved(one.value, two.value)
    return Saving(usual, saved(one.low, two.high), saved(one.high, two.low))


def _brooder(count: int, age_days: int, kind: str, h: Husbandry) -> tuple[Loss, float, float]:
    """Loss, the birds' sensible heat [W] and the target [C] of all brooders together."""
    check_age(age_days, LAST_HEATED_AGE, "days old; older birds need no fire")
    check_count(count)
    rooms = ceil(count / ROOM_BIRDS)
    side = _side_m(ceil(count / rooms), age_days, h)
    shell = shell_w_k(side, side, h.brooder_height.value, "curtain", h)
    loss = usual_loss(rooms * shell, rooms * _air_w_k(side, h), kind, h)
    target = spot_temperature_c(age_days, h).value_c
    birds = count * bird_heat_w(weight_g(age_days, h).value_g, target, h).sensible_w
    return loss, birds, target


def _side_m(count: int, age_days: int, h: Husbandry) -> float:
    return sqrt(floor_needed(min(count, ROOM_BIRDS), age_days, h).total_m2)


def _air_w_k(side_m: float, h: Husbandry) -> float:
    air = air_of_changes_m3h(side_m, side_m, h.brooder_height.value, h)
    return air * h.air_density.value * h.air_heat.value / SECONDS_AN_HOUR


def _night(dawn_c: float, h: Husbandry) -> Outside:
    check("dawn_c", dawn_c, -10, 35, "degrees C outside, at its coldest")
    return forecast_night(dawn_c + h.night_swing.value, dawn_c, h)


def _summed(
    loss: Loss,
    birds_w: float,
    outside: Outside,
    target_c: float,
    hours: tuple[int, ...] | range,
    h: Husbandry,
) -> FuelRange:
    """The fuel of these hours of the day, hour by hour."""
    found = [night_fuel(loss, birds_w, outside, target_c, h, hour) for hour in hours]
    return FuelRange(
        sum(one.value_kg_h for one in found),
        sum(one.low_kg_h for one in found),
        sum(one.high_kg_h for one in found),
    )
