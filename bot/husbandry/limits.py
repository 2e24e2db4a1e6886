"""Checks the range of an argument and reads tables. Pure; called by every formula here."""

from __future__ import annotations

from itertools import pairwise

from bot.errors import OutsideRange

Points = tuple[tuple[float, float], ...]

LAST_AGE = 56  # days; broilers are sold before this (common practice, no source)
LAST_TABLE_AGE = 49  # days; the end of the growth tables
MOST_BIRDS = 50_000  # above this a text adviser is the wrong help (common practice, no source)


def check(name: str, value: float, low: float, high: float, why: str = "") -> None:
    """OutsideRange when value is not within low to high; `why` is said to the reader."""
    if not low <= value <= high:
        tail = f" ({why})" if why else ""
        raise OutsideRange(
            f"{name} {value:g} is outside what we can answer for", f"{low:g} to {high:g}{tail}"
        )


def check_age(age_days: int, last: int = LAST_AGE, why: str = "days old") -> None:
    """OutsideRange unless 0 <= age <= last."""
    check("age_days", age_days, 0, last, why)


def check_count(count: int) -> None:
    """OutsideRange unless there is at least one bird."""
    check("count", count, 1, MOST_BIRDS, "birds")


def check_weight(weight_g: float) -> None:
    """OutsideRange unless a broiler can weigh that: chicks from 25 g, birds up to 6 kg."""
    check("weight_g", weight_g, 25, 6000, "grams a bird; 1 kilogram is 1000")


def straight(points: Points, x: float) -> float:
    """The value at x on the straight lines between points; the end values outside them."""
    if x <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]


def step(points: Points, x: float) -> float:
    """The value of the last step at or before x; the first one before all steps."""
    found = points[0][1]
    for start, value in points:
        if start <= x:
            found = value
    return found
