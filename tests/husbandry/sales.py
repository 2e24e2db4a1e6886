"""Simulated sales, seeded. A farmer weighs 20 birds at 21 and 28 days and then asks when to sell.

True: the batch grows faster or slower than usual (growth noise: one standard deviation is 6 % at 35
days), buyers pay a price that the farmer has only heard of (price noise: what he names is off by 5
or 15 %). Regret: what the day we name brings less than the truly best day, as a share of what the
birds bring; beside it that of always selling at 42 days.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import exp
from random import Random
from statistics import fmean

from bot.husbandry.forecast import (
    Prior,
    Weighing,
    WeightForecast,
    forecast_weight,
    published_prior,
)
from bot.husbandry.sale import Costs, Price, SaleDay, best_sale_day, growth_ahead
from tests.husbandry.brooders import book

ASKED_AT = 28
ALWAYS = 42
GROWTH_SD = 0.06


@cache
def prior() -> Prior:
    """The prior of a batch that nothing is known of."""
    return published_prior(book())


@dataclass(frozen=True)
class Score:
    """Mean regrets, shares of what the birds bring; inner: how often the best day is neither the
    first nor the last that can be chosen."""

    batches: int
    regret: float
    regret_at_42: float
    inner: float


@dataclass(frozen=True)
class Sale:
    """One batch: what was told, and what was true."""

    told: SaleDay
    true: SaleDay

    def regret(self, age_days: int) -> float:
        return self.true.behind(age_days) / self.true.best.revenue


def play(seed: int, price_sd: float, again: bool = True) -> Sale:
    """One batch. again: whether another batch follows, which most smallholders mean it to."""
    random, h = Random(seed), book()
    pace = random.gauss(0, GROWTH_SD)
    usual = [forecast_weight((), age, prior()) for age in range(50)]
    true = [_true(one, pace) for one in usual]
    seen = [_weighed(true[age], random) for age in (21, ASKED_AT)]
    birds = random.choice((100, 300, 900))
    price = _price(random)
    kilogram = 1.0
    feed = kilogram / random.uniform(3.2, 5)
    spent = birds * (random.uniform(0.3, 0.5) * kilogram + feed * random.uniform(2.0, 2.4))
    costs = Costs(feed, birds * random.uniform(0.001, 0.004), spent, again)
    heard = exp(random.gauss(0, price_sd))
    named = Price(price.a_kg * heard, tuple((g, p * heard) for g, p in price.grades))
    growth = growth_ahead(seen, ASKED_AT, prior())
    told = best_sale_day(birds, growth, named, costs, h)
    return Sale(told, best_sale_day(birds, true[ASKED_AT:], price, costs, h))


def score(seeds: Sequence[int], price_sd: float, again: bool = True) -> Score:
    """The mean over many batches."""
    played = [play(seed, price_sd, again) for seed in seeds]
    inner = sum(ASKED_AT < one.true.best.age_days < 49 for one in played)
    return Score(
        len(played),
        fmean(one.regret(one.told.best.age_days) for one in played),
        fmean(one.regret(ALWAYS) for one in played),
        inner / len(played),
    )


def _true(usual: WeightForecast, pace: float) -> WeightForecast:
    grams = usual.value_g * exp(pace * usual.age_days / 35)
    return WeightForecast(usual.age_days, grams, grams, grams, 0.0, 0)


def _weighed(true: WeightForecast, random: Random) -> Weighing:
    off = random.gauss(0, 0.02) + random.gauss(0, 0.12) / 20**0.5
    return Weighing(true.age_days, true.value_g * exp(off), 20)


def _price(random: Random) -> Price:
    """Half sell by the kilogram; the others by size, a larger bird a little less a kilogram."""
    if random.random() < 0.5:
        return Price(1.0)
    sizes = (1000, 1300, 1600, 1900, 2300)
    falls = random.uniform(0.01, 0.05)
    paid = [size / 1000 * 1.08 * (1 - falls * place) for place, size in enumerate(sizes)]
    return Price(0.0, tuple(zip((float(size) for size in sizes), paid, strict=True)))
