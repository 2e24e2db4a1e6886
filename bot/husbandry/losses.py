"""Deaths: what is expected, what is danger. Pure. Called by decide, day and `figures`.

The fixed rule alone decides the danger text; the binomial tail only asks and lists the farm.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, lgamma, log, log1p
from typing import Literal

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.growth import HOT_STRAIN
from bot.husbandry.limits import MOST_BIRDS, check, check_age, check_count, straight

Verdict = Literal["danger", "ask", "fine"]
EPSILON = 1e-9


def death_rate_a_day(age_days: int, h: Husbandry) -> float:
    """Share of the birds expected to die on the day of that age: the cumulative row of the
    Vencobb 400 manual, straight between its weeks; after its last week that week's rate goes on.
    Valid at ages 0-56."""
    check_age(age_days)
    rows = h.growth[HOT_STRAIN].rows
    points = ((0.0, 0.0), *((float(row.age_days), row.deaths_pct or 0.0) for row in rows))
    day = min(float(age_days), points[-1][0] - 1)
    return (straight(points, day + 1) - straight(points, day)) / 100


def expected_deaths(count: int, age_days: int, h: Husbandry) -> float:
    """Deaths expected on one day among `count` birds alive."""
    check_count(count)
    return count * death_rate_a_day(age_days, h)


def birds_left(count: int, from_age: int, to_age: int, h: Husbandry) -> float:
    """Birds of `count` still alive at a later age, by the rates expected. Valid at ages 0-56."""
    check_count(count)
    check("from_age", from_age, 0, to_age, "days old, not after to_age")
    alive = float(count)
    for age in range(from_age, to_age):
        alive *= 1 - death_rate_a_day(age, h)
    return alive


def deaths_tail(count: int, age_days: int, dead: int, h: Husbandry) -> float:
    """Exact binomial probability of at least `dead` deaths on one day. Valid for dead <= count."""
    check_count(count)
    check("dead", dead, 0, count, "birds; not more than are alive")
    return binomial_tail(count, death_rate_a_day(age_days, h), dead)


@dataclass(frozen=True, slots=True)
class DeathsOfDay:
    """Birds alive on the morning of a day, their age [days], and how many died that day."""

    alive: int
    age_days: int
    dead: int


def are_unusual(today: DeathsOfDay, yesterday: DeathsOfDay, h: Husbandry) -> bool:
    """Whether more died than the expected rate explains: at least 3 with a binomial tail below
    0.001, or a tail below 0.01 today and yesterday. A reason to ask, never the danger itself."""
    tail = _tail(today, h)
    if today.dead >= h.danger_least.value and tail < h.unusual_chance.value:
        return True
    return max(tail, _tail(yesterday, h)) < h.unusual_chance_two.value


def _tail(day: DeathsOfDay, h: Husbandry) -> float:
    known = day.dead > 0 and day.age_days >= 0
    return deaths_tail(day.alive, day.age_days, day.dead, h) if known else 1.0


def binomial_tail(count: int, rate: float, least: int) -> float:
    """P(X >= least) for X binomial(count, rate), 0 < rate < 1; summed from the larger terms."""
    if least <= 0:
        return 1.0
    term = exp(
        lgamma(count + 1)
        - lgamma(least + 1)
        - lgamma(count - least + 1)
        + least * log(rate)
        + (count - least) * log1p(-rate)
    )
    total = 0.0
    for k in range(least, count + 1):
        total += term
        if k > count * rate and term < total * 1e-17:
            break
        term *= (count - k) / (k + 1) * rate / (1 - rate)
    return min(1.0, total)


def deaths_verdict(dead_today: int, alive: int, h: Husbandry) -> Verdict:
    """The fixed rule: danger at max(3, 2 % of the birds alive) or more; fine below 3 or at 0.8 %
    or less; between, one question (which age, where found, how do the others look)."""
    check("alive", alive, 0, MOST_BIRDS, "birds")
    check("dead_today", dead_today, 0, MOST_BIRDS, "birds")
    least = h.danger_least.value
    if (dead_today and not alive) or dead_today >= max(
        least, alive * h.danger_pct.value / 100 - EPSILON
    ):
        return "danger"
    if dead_today < least or dead_today <= alive * h.quiet_pct.value / 100 + EPSILON:
        return "fine"
    return "ask"
