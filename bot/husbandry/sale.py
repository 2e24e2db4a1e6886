"""The best day to sell: what each day of waiting brings and costs. Pure; money in any one currency.

In: birds alive, the weights foretold for today and the days after, what buyers pay and what things
cost. Out: each day's money, the best day, the days that are as good. Whoever raises batch after
batch keeps the next one waiting, so his best day is the one with the most money a day of the whole
round, empty days included; else it is the most money of this batch. Called by the answers and
`figures`; a held batch is never asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log, sqrt
from statistics import NormalDist

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.forecast import Prior, Weighing, WeightForecast, forecast_weight
from bot.husbandry.growth import HOT_STRAIN, feed_conversion, feed_total_g, weight_g
from bot.husbandry.limits import LAST_TABLE_AGE, check, check_count, check_weight, straight
from bot.husbandry.losses import death_rate_a_day

AS_GOOD = 0.01  # days within this share of the best day's revenue are called as good
MOST_MONEY = 1e12


@dataclass(frozen=True, slots=True)
class Price:
    """What buyers pay: for a kilogram live, for a bird by size, or both together. grades: (from
    weight [g], price of the bird), rising; a bird below the first brings nothing by size."""

    a_kg: float = 0.0
    grades: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Costs:
    """feed_kg: price of a kilogram of feed; house_day: house, heat and hands for a day; spent: what
    this batch has cost so far (chicks, feed); again: whether another batch follows."""

    feed_kg: float
    house_day: float = 0.0
    spent: float = 0.0
    again: bool = True


@dataclass(frozen=True, slots=True)
class SaleOption:
    """Selling at an age: birds then alive, their mean weight [g], what they bring, and what is left
    after all costs of the batch. behind: how much less than the best day, in money."""

    age_days: int
    birds: float
    weight_g: float
    revenue: float
    margin: float
    behind: float = 0.0


@dataclass(frozen=True, slots=True)
class SaleDay:
    """The best day, the days as good (within 1 % of what the birds bring), and every option."""

    best: SaleOption
    as_good: tuple[int, ...]
    options: tuple[SaleOption, ...]

    def behind(self, age_days: int) -> float:
        """How much less [money] selling at this age brings than the best day."""
        return next(one.behind for one in self.options if one.age_days == age_days)


def growth_ahead(
    weighings: Sequence[Weighing], from_age_days: int, prior: Prior
) -> tuple[WeightForecast, ...]:
    """The weights foretold for every age from one on to the last that the tables know (49)."""
    last = min(LAST_TABLE_AGE, prior.ages[-1])
    check("age_days", from_age_days, 1, last, "days old; the tables end there")
    return tuple(forecast_weight(weighings, age, prior) for age in range(from_age_days, last + 1))


def best_sale_day(
    birds: int, growth: Sequence[WeightForecast], price: Price, costs: Costs, h: Husbandry
) -> SaleDay:
    """The best of the ages in growth, of which the first is today. OutsideRange for no birds, no
    price, or money below 0. Deaths as the hot-climate manual expects, feed as its conversion."""
    _check(birds, growth, price, costs)
    options = [_option(birds, growth, at, price, costs, h) for at in range(len(growth))]
    a_day = _most_a_day(options, h) if costs.again else 0.0
    worth = [one.margin - a_day * _round_days(one, h) for one in options]
    most = max(worth)
    told = tuple(
        SaleOption(o.age_days, o.birds, o.weight_g, o.revenue, o.margin, most - w)
        for o, w in zip(options, worth, strict=True)
    )
    best = min(told, key=lambda one: one.behind)
    near = AS_GOOD * best.revenue
    return SaleDay(best, tuple(one.age_days for one in told if one.behind <= near), told)


def bird_revenue(weight: WeightForecast, price: Price, h: Husbandry) -> float:
    """What a bird brings on average [money]: birds of a batch differ (CV 12 %), and the forecast
    may be off, so that only some have reached a size (both lognormal)."""
    mean_kg = weight.value_g * exp(weight.sd**2 / 2) / 1000
    curve = NormalDist(log(weight.value_g), sqrt(weight.sd**2 + (h.bird_cv.value / 100) ** 2))
    by_size, below = 0.0, 0.0
    for from_g, paid in price.grades:
        by_size += (paid - below) * (1 - curve.cdf(log(from_g)))
        below = paid
    return price.a_kg * mean_kg + by_size


def _option(
    birds: int,
    growth: Sequence[WeightForecast],
    at: int,
    price: Price,
    costs: Costs,
    h: Husbandry,
) -> SaleOption:
    today, then = growth[0], growth[at]
    alive = float(birds)
    for age in range(today.age_days, then.age_days):
        alive *= 1 - death_rate_a_day(age, h)
    feed = (birds + alive) / 2 * (_feed_g(then, h) - _feed_g(today, h)) / 1000
    revenue = alive * bird_revenue(then, price, h)
    waiting = max(0.0, feed) * costs.feed_kg + at * costs.house_day
    return SaleOption(then.age_days, alive, then.value_g, revenue, revenue - waiting - costs.spent)


def _feed_g(weight: WeightForecast, h: Husbandry) -> float:
    """Feed [g a bird] eaten to an age: the daily table, by this batch's weight and by how much more
    feed a kilogram takes in the hot-climate table."""
    age = weight.age_days
    more = [
        (float(row.age_days), (row.feed_conversion or 1) / feed_conversion(row.age_days, h))
        for row in h.growth[HOT_STRAIN].rows
    ]
    share = weight.value_g / weight_g(age, h).value_g
    return feed_total_g(age, h) * share * straight(tuple(more), age)


def _most_a_day(options: Sequence[SaleOption], h: Husbandry) -> float:
    """The most money a day of a round; 0 where no round earns any: nobody waits for a loss."""
    return max(0.0, *(one.margin / _round_days(one, h) for one in options))


def _round_days(one: SaleOption, h: Husbandry) -> float:
    return one.age_days + h.empty_days.value


def _check(birds: int, growth: Sequence[WeightForecast], price: Price, costs: Costs) -> None:
    check_count(birds)
    if not growth:
        raise OutsideRange("no day to sell on was given", "one or more days")
    money = {"price_kg": price.a_kg, "feed_price_kg": costs.feed_kg, "house_day": costs.house_day}
    for name, value in {**money, "spent": costs.spent}.items():
        check(name, value, 0, MOST_MONEY, "money")
    if price.a_kg == 0 and not price.grades:
        raise OutsideRange("no price was given", "a price a kilogram, or by size")
    for from_g, paid in price.grades:
        check_weight(from_g)
        check("the price of a size", paid, 0, MOST_MONEY, "money a bird")
    if any(
        a[0] >= b[0] or a[1] > b[1] for a, b in zip(price.grades, price.grades[1:], strict=False)
    ):
        raise OutsideRange("sizes and their prices must rise", "1200:300, 1500:380")
