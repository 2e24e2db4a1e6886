"""Fresh air and gases. Pure. Called by heat, the desk and `figures`.

No opening is ever computed from these figures: minimum ventilation can't make a fire inside safe
(see carbon_monoxide_mg_m3, which is shown as the reason).
"""

from __future__ import annotations

from dataclasses import dataclass

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import GasLimit, Husbandry
from bot.husbandry.limits import check, check_count, check_weight

POWER = 0.75  # metabolic body weight
DAY_MINUTES = 1440.0


@dataclass(frozen=True, slots=True)
class Air:
    """Air for a batch [m3/h] and the lower figure of another source."""

    value_m3h: float
    low_m3h: float


@dataclass(frozen=True, slots=True)
class Limit:
    """The most of a gas, and the exposure [minutes] it was published for (0: none given)."""

    value: float
    minutes: float
    entry: GasLimit


def minimum_air_m3h(weight_g: float, count: int, h: Husbandry) -> Air:
    """Minimum ventilation [m3/h]: 0.702 W^0.75 a bird, W in kg (Ross handbook); low: 0.54 (Charles
    and others 1981). Not enough for a fire inside. Valid for birds of 25-6000 g."""
    check_weight(weight_g)
    check_count(count)
    metabolic = count * (weight_g / 1000) ** POWER
    low = h.minimum_air.low
    value = h.minimum_air.value
    return Air(value * metabolic, (value if low is None else low) * metabolic)


def carbon_monoxide_mg_m3(charcoal_kg_day: float, air_m3h: float, h: Husbandry) -> float:
    """Carbon monoxide [mg/m3] once a charcoal fire in a closed room has burnt for hours: all of it
    (189 g a kg, Akagi 2011) goes into the fresh air. Valid for 0-50 kg a day, 1-100,000 m3/h."""
    check("charcoal_kg_day", charcoal_kg_day, 0, 50, "kilograms a day")
    check("air_m3h", air_m3h, 1, 100_000, "cubic metres an hour")
    return charcoal_kg_day * h.charcoal_co.value * 1000 / 24 / air_m3h


def gas_limit(gas: str, who: str, h: Husbandry, minutes: float | None = None) -> Limit:
    """The most of co, co2 or nh3: for people [mg/m3] by minutes breathed, for birds [ppm].

    An exposure between two published times takes the longer time, which is stricter. Without
    minutes: 8 hours for people.
    """
    entry = h.gas_limits.get(f"{gas}-{who}")
    if entry is None:
        raise OutsideRange(
            f"gas {gas} for {who} has no limit here", "gas co, co2 or nh3; who people or birds"
        )
    without_time = len(entry.points) == 1 and entry.points[0][0] == 0
    longest = DAY_MINUTES if without_time else entry.points[-1][0]
    asked = 480.0 if minutes is None else minutes
    check("minutes", asked, 1, longest, "minutes of breathing it")
    if without_time:
        return Limit(entry.points[0][1], 0, entry)
    for time, limit in entry.points:
        if asked <= time:
            return Limit(limit, time, entry)
    return Limit(entry.points[-1][1], longest, entry)
