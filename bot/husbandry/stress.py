"""Heat stress of grown birds. Pure; called by temperature, the diagnosis and `figures`.

The index is the temperature-humidity index for still air of Tao and Xin (2003), published for
market-size broilers of 46 days and 2.8 kg; psychrometrics by PsychroLib (ASHRAE 2017).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import psychrolib

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.limits import LAST_AGE, check

psychrolib.SetUnitSystem(psychrolib.SI)

SEA_LEVEL_PA = 101_325.0
Level = Literal["none", "watch", "act", "danger"]


@dataclass(frozen=True, slots=True)
class Stress:
    """How hard the air is on grown birds: the level and the index [C]."""

    level: Level
    index_c: float


def wet_bulb_c(
    temperature_c: float, humidity_pct: float, pressure_pa: float = SEA_LEVEL_PA
) -> float:
    """Wet-bulb temperature [C] (PsychroLib). Valid for 0-50 C and 5-100 % humidity."""
    _check_air(temperature_c, humidity_pct)
    return float(psychrolib.GetTWetBulbFromRelHum(temperature_c, humidity_pct / 100, pressure_pa))


def stress_index_c(temperature_c: float, humidity_pct: float, h: Husbandry) -> float:
    """0.85 dry bulb + 0.15 wet bulb [C] (Tao and Xin 2003, still air)."""
    wet = wet_bulb_c(temperature_c, humidity_pct)
    return h.stress_dry.value * temperature_c + h.stress_wet.value * wet


@lru_cache(maxsize=2048)
def heat_stress(temperature_c: float, humidity_pct: float, age_days: int, h: Husbandry) -> Stress:
    """The level at an age. Below age 21 OutsideRange: no class was published for chicks."""
    first = int(h.stress_from_age.value)
    why = "days old; no heat index was made for chicks: ask spot-temperature"
    check("age_days", age_days, first, LAST_AGE, why)
    index = stress_index_c(temperature_c, humidity_pct, h)
    if index >= h.stress_danger.value:
        return Stress("danger", index)
    if index >= h.stress_act.value:
        return Stress("act", index)
    return Stress("watch" if index >= h.stress_watch.value else "none", index)


def _check_air(temperature_c: float, humidity_pct: float) -> None:
    check("temperature_c", temperature_c, 0, 50, "degrees C; a reading in F must be converted")
    check("humidity_pct", humidity_pct, 5, 100, "percent")
