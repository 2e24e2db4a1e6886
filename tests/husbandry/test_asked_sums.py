"""The sums behind questions by text, against worked examples: geometry, the published growth table,
and arithmetic by hand, named beside each."""

from __future__ import annotations

from math import pi

import pytest

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.budget import batch_budget, cost_so_far
from bot.husbandry.feed_water import feed_by_phase, feed_lasts, feed_left_kg
from bot.husbandry.fuel_plan import (
    bulbs_tonight,
    fuel_tonight,
    fuel_until,
    second_curtain_saves,
)
from bot.husbandry.growth import sample_error_pct, sample_size
from bot.husbandry.losses import birds_left
from bot.husbandry.space import ring_across_m, strip_length_m


def test_a_ring_and_a_strip_have_the_floor_they_were_made_for() -> None:
    across = ring_across_m(8.76)
    assert pi * (across / 2) ** 2 == pytest.approx(8.76)
    assert strip_length_m(8.76, 2.0) * 2.0 == pytest.approx(8.76)


def test_no_house_is_twenty_one_metres_wide() -> None:
    with pytest.raises(OutsideRange):
        strip_length_m(8.76, 21)


def test_feed_by_phase_adds_up_to_the_published_total(h: Husbandry) -> None:
    """Ross 308 performance objectives 2019, as hatched: 358 g by day 11, 1673 by 25, 4702 by 42."""
    phases = feed_by_phase(100, 0, 42, h)
    assert [one.phase for one in phases] == ["starter", "grower", "finisher"]
    assert [one.kg for one in phases] == pytest.approx([35.8, 131.5, 302.9])
    assert [one.bags for one in phases] == [1, 3, 7]
    assert [one.last_age for one in phases] == [10, 24, 41]


def test_feed_from_the_middle_of_a_phase_counts_only_the_rest(h: Husbandry) -> None:
    """By the same table 1075 g at 20 and 1673 g at 25: 59.8 kg of grower for 100 birds."""
    grower = feed_by_phase(100, 20, 42, h)[0]
    assert grower.phase == "grower"
    assert grower.kg == pytest.approx(59.8)


def test_a_stock_lasts_as_many_days_as_the_table_eats(h: Husbandry) -> None:
    """Ages 20, 21, 22 eat 102, 108 and 114 g: 100 birds take 32.4 kg in three days."""
    assert feed_lasts(32.4, 100, 20, h).days == 3
    assert feed_lasts(32.3, 100, 20, h).days == 2
    assert feed_lasts(0, 100, 20, h).days == 0


def test_who_eats_more_runs_out_earlier(h: Husbandry) -> None:
    lasts = feed_lasts(500, 300, 20, h)
    assert lasts.low < lasts.days < lasts.high


def test_what_was_reported_eaten_goes_before_the_table(h: Husbandry) -> None:
    """50 kg bought at age 20; 12 kg told of the first day, 108 g x 100 by the table the second."""
    assert feed_left_kg(50, 20, 22, {20: 12.0}, 100, h) == pytest.approx(50 - 12 - 10.8)
    assert feed_left_kg(5, 20, 22, {}, 100, h) == 0


def test_birds_left_fall_as_the_manual_expects(h: Husbandry) -> None:
    """Vencobb 400: the cumulative row for day 42, taken day by day."""
    row = next(one for one in h.growth["vencobb400"].rows if one.age_days == 42)
    assert row.deaths_pct is not None
    assert birds_left(1000, 0, 42, h) == pytest.approx(1000 * (1 - row.deaths_pct / 100), rel=0.01)


def test_ten_birds_tell_the_mean_to_seven_percent(h: Husbandry) -> None:
    """1.96 x 12 / sqrt(10) = 7.44; and as many as sample-size asks for tell it as closely."""
    assert sample_error_pct(10, 12, h) == pytest.approx(7.44, abs=0.01)
    assert sample_error_pct(sample_size(12, 5, h), 12, h) <= 5


def test_a_night_without_a_difference_needs_no_fuel(h: Husbandry) -> None:
    assert fuel_tonight(300, 20, 35, "charcoal", h).fuel.value_kg == 0


def test_a_night_s_charcoal_is_the_heat_of_twelve_hours(h: Husbandry) -> None:
    """By hand, 300 chicks of 3 days, 14 C at dawn: 8.76 m2, 2.96 m a side, walls 17.8 m2 x 6 W/K,
    roof and floor 8.76 x 7, air 13.1 m3 x 3 x 0.335 W/K: 181 W/K; the night's mean outside is about
    18.6 C, the target 31, 12.4 C over twelve hours: 27 kWh, less the birds' 12 x 0.15; a kilogram
    gives 29.5 MJ x 0.5 = 4.1 kWh."""
    fuel = fuel_tonight(300, 3, 14, "charcoal", h).fuel
    assert fuel.value_kg == pytest.approx((181 * 12.4 * 12 / 1000 - 1.8) / 4.1, rel=0.1)


@pytest.mark.parametrize("kind", ["charcoal", "gas", "kerosene", "wood"])
@pytest.mark.parametrize(("count", "age"), [(50, 0), (300, 3), (1000, 9), (5000, 20)])
def test_fuel_is_always_a_range_of_a_factor_two(
    h: Husbandry, kind: str, count: int, age: int
) -> None:
    fuel = fuel_tonight(count, age, 12, kind, h).fuel
    assert fuel.low_kg <= fuel.value_kg <= fuel.high_kg
    assert fuel.high_kg >= 2 * fuel.low_kg


def test_a_colder_night_never_takes_less(h: Husbandry) -> None:
    nights = [fuel_tonight(300, 3, dawn, "charcoal", h) for dawn in (25, 20, 15, 10, 5, 0)]
    assert [one.fuel.high_kg for one in nights] == sorted(one.fuel.high_kg for one in nights)
    assert [one.stoves for one in nights] == sorted(one.stoves for one in nights)
    assert nights[0].stoves == 2  # one for 250 chicks, however warm


def test_fuel_until_a_day_is_the_sum_of_its_days(h: Husbandry) -> None:
    whole = fuel_until(300, 0, 14, 15, "charcoal", h)
    parts = [fuel_until(300, a, b, 15, "charcoal", h) for a, b in ((0, 5), (5, 14))]
    assert whole.value_kg == pytest.approx(sum(one.value_kg for one in parts))


def test_grown_birds_need_no_fire(h: Husbandry) -> None:
    with pytest.raises(OutsideRange):
        fuel_tonight(300, 21, 14, "charcoal", h)


def test_a_bulb_count_gives_the_heat_of_the_coldest_hour(h: Husbandry) -> None:
    low, high = bulbs_tonight(300, 3, 14, h)
    assert high >= 2 * low
    # 181 W/K x about 16.5 C are 3.0 kW less 0.15 kW of the birds: 11 bulbs of 250 W
    assert low <= 11 <= high


def test_a_second_curtain_saves_half_the_walls_loss(h: Husbandry) -> None:
    """17.8 m2 of wall at 6 and at 3 W/(m2 K): 53 of 181 W/K."""
    saved = second_curtain_saves(300, 3, h)
    assert saved.value_pct == pytest.approx(100 * 53 / 181, abs=1)
    assert saved.low_pct < saved.value_pct < saved.high_pct


def test_a_budget_by_the_price_of_feed_alone_is_a_range(h: Husbandry) -> None:
    """300 birds to 42 days: 30 bags x 3200 = 96,000, which is 60 to 75 % of all."""
    found = batch_budget(300, 42, h, feed_bag=3200, chick=None)
    assert (found.bags, found.feed) == (30, 96_000)
    assert (found.low, found.high) == pytest.approx((128_000, 160_000))
    assert found.bird_low == pytest.approx(128_000 / birds_left(300, 0, 42, h))


def test_a_budget_with_both_prices_adds_ten_to_twenty_percent(h: Husbandry) -> None:
    """96,000 of feed and 30,000 of chicks are 126,000; / 0.9 and / 0.8."""
    found = batch_budget(300, 42, h, feed_bag=3200, chick=100)
    assert (found.low, found.high) == pytest.approx((140_000, 157_500))


def test_no_budget_is_made_without_a_price(h: Husbandry) -> None:
    with pytest.raises(OutsideRange):
        batch_budget(300, 42, h, feed_bag=None, chick=100)


def test_what_a_bird_has_cost_is_what_was_spent_less_what_came_in() -> None:
    """45,000 - 9,000 over 240 birds of 1.5 kg: 150 a bird, 100 a kilogram."""
    found = cost_so_far(45_000, 9_000, 240, 1500)
    assert (found.total, found.bird, found.kg) == (36_000, 150, 100)


def test_money_below_nothing_is_refused() -> None:
    with pytest.raises(OutsideRange):
        cost_so_far(-1, 0, 240)
    with pytest.raises(OutsideRange):
        cost_so_far(1, 0, 0)
