"""The plan of a batch: its parts agree with the figures they come from, and add up."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.errors import OutsideRange
from bot.handbook.husbandry import load_husbandry
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.plan import Prices, birds_of_house, plan_batch
from tests.husbandry.conftest import CONTENT

BOOK = load_husbandry(CONTENT)
KINDS = ("charcoal", "gas", "kerosene", "wood", "bulb", "none")
PRICED = Prices(3200, 100)


@settings(max_examples=30, deadline=None)
@given(count=st.integers(1, 2000), kind=st.sampled_from(KINDS), age=st.integers(21, 42))
def test_cash_and_bags_of_the_weeks_add_up_to_the_whole(count: int, kind: str, age: int) -> None:
    plan = plan_batch(count, kind, BOOK, prices=PRICED, sale_age=age)
    cash = plan.cash(0, 6)
    assert plan.budget is not None
    assert cash == pytest.approx((plan.budget.low, plan.budget.high))
    assert sum(sum(week.bags.values()) for week in plan.weeks) == plan.bags


def test_feed_is_bought_before_it_is_eaten(h: Husbandry) -> None:
    plan = plan_batch(500, "charcoal", h)
    # ROSS-PO-2019: 170 g of starter a chick by day 7, so 85 kg or 2 bags before they come
    assert plan.weeks[0].bags == {"starter": 2}
    assert plan.weeks[-1].bags == {}


def test_the_price_that_comes_out_even_pays_for_all_of_it(h: Husbandry) -> None:
    plan = plan_batch(300, "charcoal", h, prices=PRICED)
    assert plan.budget is not None
    assert plan.budget.bird_high * plan.sold == pytest.approx(plan.budget.high)
    assert plan.budget.kg_low * plan.kg == pytest.approx(plan.budget.low)


def test_warm_nights_take_less_fuel_and_end_sooner(h: Husbandry) -> None:
    cold, warm = (plan_batch(300, "charcoal", h, dawn_c=c).heat for c in (12, 22))
    assert cold.fuel is not None
    assert warm.fuel is not None
    assert warm.fuel.high_kg < cold.fuel.low_kg * 2
    assert (warm.to_age, cold.to_age) == (14, 21)


def test_fuel_is_a_range_of_at_least_a_factor_two(h: Husbandry) -> None:
    for kind in KINDS[:4]:
        fuel = plan_batch(300, kind, h).heat.fuel
        assert fuel is not None
        assert fuel.high_kg >= 2 * fuel.low_kg


def test_without_prices_there_is_no_cash(h: Husbandry) -> None:
    for prices in (Prices(), Prices(chick=100), Prices(feed_bag=3200)):
        plan = plan_batch(300, "gas", h, prices=prices)
        assert plan.cash(0, 6) is None


def test_a_house_holds_what_the_plan_of_so_many_needs(h: Husbandry) -> None:
    birds = birds_of_house(30, h)
    assert plan_batch(birds, "gas", h).weeks[-1].floor_m2 <= 30
    assert plan_batch(birds + 1, "gas", h).weeks[-1].floor_m2 > 30


def test_impossible_plans_are_refused(h: Husbandry) -> None:
    for count, age in ((0, 42), (300, 10), (300, 60)):
        with pytest.raises(OutsideRange):
            plan_batch(count, "gas", h, sale_age=age)
