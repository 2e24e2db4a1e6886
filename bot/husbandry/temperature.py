"""Which temperature applies at an age, and how a reading is judged. Pure; ages in days, degrees C
at chick height. Called by the daily text, the diagnosis and `figures`.

The smallholder's line hangs under the edge of the heat (practice of the trade, no source); the
table by humidity is for a whole brooder warmed evenly (Ross Broiler Management Handbook).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.limits import check, check_age, straight
from bot.husbandry.stress import heat_stress

Judgement = Literal["cold", "low", "comfortable", "high", "hot"]
Rule = Literal["line", "cold-nights"]
JUDGED_HUMIDITY_PCT = 60.0  # smallholders are not asked for humidity
EPSILON = 1e-6  # a reading exactly on a limit counts as within


@dataclass(frozen=True, slots=True)
class Target:
    """A target temperature [C] with its comfortable band, and why it applies.

    rule: "line" (falls a degree a day) or "cold-nights" (only where nights are cold).
    """

    value_c: float
    low_c: float
    high_c: float
    rule: Rule


@lru_cache(maxsize=256)
def spot_temperature_c(age_days: int, h: Husbandry) -> Target:
    """The smallholder's line: 34 - age, not below 28.5, 1.5 either side, ages 0-13; at ages 14-20
    27.25 (26 to 28.5). Valid at ages 0-20: older birds need no warm spot."""
    check_age(
        age_days,
        int(h.late_spot_ages.high or 0),
        "days old; older birds need no warm spot: ask heat-stress",
    )
    if age_days >= h.late_spot_ages.value:
        low, high = h.late_spot.low, h.late_spot.high
        value = h.late_spot.value
        return Target(
            value, value if low is None else low, value if high is None else high, "cold-nights"
        )
    value = max(h.spot_floor.value, h.spot_start.value - h.spot_fall.value * age_days)
    return Target(value, value - h.spot_band.value, value + h.spot_band.value, "line")


def is_hardening(age_days: int, h: Husbandry) -> bool:
    """Whether this is an age at which less heat by day makes them hardy (10-13)."""
    return (h.hardening_ages.low or 0) <= age_days <= (h.hardening_ages.high or 0)


def judge_temperature(
    value_c: float, age_days: int | None, h: Husbandry, *, night: bool = False
) -> Judgement:
    """What a bare reading means. Within 1.5 C of the spot line comfortable, more than 3.5 off cold
    or hot, between low or high: there a question (where does the thermometer hang?) is as right.

    At ages 10-13 a day reading down to 25 is no cold. From age 21, or without an age, by
    heat-stress at 60 % humidity and cold below 15. Valid for readings of -10 to 50 C.
    """
    check("value_c", value_c, -10, 50, "degrees C; is it a reading in F, or a slip?")
    if age_days is None or age_days > (h.late_spot_ages.high or 0):
        return _judge_grown(value_c, age_days, h)
    off = value_c - spot_temperature_c(age_days, h).value_c
    if abs(off) <= h.spot_band.value + EPSILON:
        return "comfortable"
    if off > 0:
        return "hot" if off > h.spot_far.value + EPSILON else "high"
    if is_hardening(age_days, h) and not night and value_c >= h.hardening_low.value:
        return "comfortable"
    return "cold" if off < -h.spot_far.value - EPSILON else "low"


def _judge_grown(value_c: float, age_days: int | None, h: Husbandry) -> Judgement:
    if value_c < h.grown_cold.value:
        return "cold"
    if value_c < h.grown_low.value:
        return "low"
    age = int(h.stress_from_age.value) if age_days is None else age_days
    stress = heat_stress(value_c, JUDGED_HUMIDITY_PCT, age, h)
    if stress.level in ("act", "danger"):
        return "hot"
    return "high" if stress.level == "watch" else "comfortable"


def air_temperature_c(age_days: int, humidity_pct: float, h: Husbandry) -> float:
    """Air temperature [C] for a brooder warmed evenly, by relative humidity [%]; straight lines
    between the rows and columns of the handbook's table. Valid at ages 0-27, 40-70 %."""
    table = h.air_temperature
    check_age(age_days, int(table.rows[-1][0]), "days old; the table ends there")
    check(
        "humidity_pct",
        humidity_pct,
        table.columns[0],
        table.columns[-1],
        "percent; the published table has no other columns",
    )
    by_age = tuple(
        (age, straight(tuple(zip(table.columns, row, strict=True)), humidity_pct))
        for age, row in table.rows
    )
    return straight(by_age, age_days)
