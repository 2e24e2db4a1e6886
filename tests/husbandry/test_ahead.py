"""Forecasts: a batch's weight, a brooder's loss and its nights, the day to sell."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.brooder import (
    Fill,
    Reading,
    learn_lag,
    learn_loss,
    piling_reading,
    usual_lag,
    usual_loss,
)
from bot.husbandry.forecast import (
    Weighing,
    age_of_weight,
    forecast_weight,
    learnt_prior,
    published_prior,
)
from bot.husbandry.linear import solve
from bot.husbandry.night import Outside, forecast_night, foretell_night, night_fuel, normal_night
from bot.husbandry.sale import Costs, Price, best_sale_day, bird_revenue, growth_ahead
from tests.husbandry import brooders, sales


@pytest.mark.parametrize(("age", "grams"), [(7, 190), (28, 1375), (42, 2550)])
def test_without_a_weighing_the_forecast_is_the_hot_climate_table(
    h: Husbandry, age: int, grams: float
) -> None:  # Vencobb 400 manual, weekly table
    assert forecast_weight((), age, published_prior(h)).value_g == pytest.approx(grams)


def test_two_weighings_move_the_forecast_and_narrow_it(h: Husbandry) -> None:
    prior = published_prior(h)
    none = forecast_weight((), 35, prior)
    two = forecast_weight((Weighing(7, 165, 10), Weighing(14, 385, 10)), 35, prior)
    assert two.value_g < none.value_g
    assert two.value_g > 0.8 * none.value_g  # the weighings are 13 and 14 % behind the table
    assert two.high_g / two.low_g < none.high_g / none.low_g


@given(first=st.floats(120, 260), more=st.floats(1.02, 1.3))
def test_a_heavier_batch_is_never_foretold_lighter(h: Husbandry, first: float, more: float) -> None:
    prior = published_prior(h)
    one, other = (forecast_weight((Weighing(7, g, 10),), 35, prior) for g in (first, first * more))
    assert one.value_g < other.value_g
    assert one.low_g < one.value_g < one.high_g


def test_the_day_of_a_weight_lies_between_its_earliest_and_latest(h: Husbandry) -> None:
    found = age_of_weight((Weighing(21, 850, 20),), 1800, published_prior(h))
    assert found.value == 34  # the table has 1925 at 35 days, 79 g a day in that week
    assert found.earliest is not None
    assert found.latest is not None
    assert found.earliest < found.value < found.latest
    assert age_of_weight((), 5000, published_prior(h)).value is None


def test_a_forecast_refuses_what_no_bird_weighs(h: Husbandry) -> None:
    with pytest.raises(OutsideRange, match="weight_g"):
        forecast_weight((Weighing(7, -190, 10),), 35, published_prior(h))
    with pytest.raises(OutsideRange, match="age_days"):
        forecast_weight((), 90, published_prior(h))
    with pytest.raises(OutsideRange, match="too few"):
        learnt_prior([{7: 190.0}] * 4, 0.02)


def test_equations_by_hand() -> None:
    # 4x + 2y = 10, 2x + 3y = 11: x = 1, y = 3
    assert solve([[4, 2], [2, 3]], [10, 11]) == pytest.approx((1, 3))
    with pytest.raises(ValueError, match="positive"):
        solve([[1, 2], [2, 1]], [1, 1])


def fill(kg_h: float, rise: float) -> Fill:
    """A night of 12 hours without birds, read once at dawn."""
    return Fill(12 * kg_h, 12, 0, (Reading(14 + rise, 14),))


def test_below_four_readings_the_computed_loss_is_used_and_said(h: Husbandry) -> None:
    usual = usual_loss(110, 10, "charcoal", h)
    # 120 W/K by 29.5 MJ/kg x 0.5 / 3600 s = 4097 W a kg an hour
    assert usual.value == pytest.approx(120 / 4097, rel=1e-3)
    three = learn_loss(usual, [fill(0.4, 20)] * 3, h)
    assert (three.value, three.learnt, three.readings) == (usual.value, False, 3)
    four = learn_loss(usual, [fill(0.4, 20)] * 4, h)
    assert (four.learnt, four.readings) == (True, 4)


def test_readings_and_fuel_tell_the_loss_of_this_brooder(h: Husbandry) -> None:
    usual = usual_loss(110, 10, "charcoal", h)
    nights = [fill(0.4, 10)] * 8  # 0.4 / 10 = 0.04, more than the usual 0.029
    found = learn_loss(usual, nights, h)
    assert usual.value < found.value < 0.04
    assert found.low < 0.04 < found.high
    assert found.sd < usual.sd / 3


def test_old_nights_tell_less(h: Husbandry) -> None:
    usual = usual_loss(110, 10, "charcoal", h)
    now, old = (
        learn_loss(usual, [replace(fill(0.4, 10), days_ago=days)] * 5, h) for days in (0, 14)
    )
    assert usual.value < old.value < now.value


def test_a_night_without_difference_tells_nothing(h: Husbandry) -> None:
    usual = usual_loss(110, 10, "charcoal", h)
    assert not learn_loss(usual, [fill(0.4, 1)] * 9, h).learnt


def test_piled_chicks_stand_for_a_cold_reading(h: Husbandry) -> None:
    # age 3: 31 C, low limit 29.5; piled: about 2 C below (common practice)
    assert piling_reading(3, 12, h) == Reading(27.5, 12, 2)


def test_the_evenings_lag_is_learnt(h: Husbandry) -> None:
    night = (Reading(30, 22), Reading(27, 13))  # rises of 8 and 14: grown by 6
    assert usual_lag(h).value_c < learn_lag([night] * 4, h).value_c < 6
    assert learn_lag([night] * 4, h).sd_c < usual_lag(h).sd_c


def test_the_night_outside_falls_from_three_to_six(h: Husbandry) -> None:
    night = Outside(26, 12, 1)
    assert (night.at(15, h), night.at(6, h)) == (26, 12)
    assert night.at(22, h) > night.at(2, h) > night.at(5, h)
    assert night.felt(22, h) > night.at(22, h)


def test_a_cold_afternoon_makes_the_night_colder_than_normal(h: Husbandry) -> None:
    normal = normal_night(26, 12, h)
    cold = normal_night(26, 12, h, read_c=normal.at(17, h) - 5)
    assert cold.low_c == pytest.approx(12 - 0.6 * 5)
    assert cold.sd_c < normal.sd_c


def test_a_brooder_by_hand_is_cold_when_the_outside_is(h: Husbandry) -> None:
    loss = replace(usual_loss(110, 10, "charcoal", h), value=0.02, sd=0.05)
    # 0.36 kg an hour / 0.02 = 18 C above the outside of the hours before dawn
    mild, cold = (
        foretell_night(loss, 0.36, 0, forecast_night(28, low, h), 29.5, h) for low in (16, 6)
    )
    assert mild.lowest_c == pytest.approx(18 + Outside(28, 16, 0).felt(6, h))
    assert (mild.foretold, mild.cold_from) == (False, None)
    assert cold.foretold
    # felt at 4 h (the mean of 1, 2 and 3 h) is 9.7, below 29.5 - 18; at 3 h it is still 11.6
    assert cold.cold_from == 4
    assert cold.chance > 0.8


def test_a_warm_reading_of_the_evening_calms_and_a_cold_one_warns(h: Husbandry) -> None:
    loss, outside = usual_loss(110, 10, "charcoal", h), forecast_night(27, 13, h)
    lag = usual_lag(h)
    warm, cold = (
        foretell_night(loss, 0.4, 0, outside, 29.5, h, (Reading(inside, 24), lag))
        for inside in (44, 30)
    )
    assert not warm.foretold
    assert cold.foretold


@given(low=st.floats(0, 25), more=st.floats(0.5, 10))
def test_a_colder_night_takes_more_fuel_told_as_a_range_of_two(
    h: Husbandry, low: float, more: float
) -> None:
    loss = usual_loss(110, 10, "charcoal", h)
    here, colder = (
        night_fuel(loss, 100, forecast_night(30, t, h), 31, h) for t in (low, low - more)
    )
    assert here.value_kg_h < colder.value_kg_h
    assert here.high_kg_h >= 2 * here.low_kg_h


def test_simulated_brooders_are_learnt_and_their_cold_nights_foretold() -> None:
    found = brooders.score(range(80))
    assert found.median_error <= 0.15
    assert found.within_30_pct >= 0.9
    assert found.median_error < found.prior_median_error / 2
    assert found.foretold >= 0.8
    assert found.false_alarms <= 0.2


def test_a_bird_by_kilogram_and_by_size_by_hand(h: Husbandry) -> None:
    weight = forecast_weight((), 42, published_prior(h))
    sure = replace(weight, value_g=2000.0, sd=0.0)
    assert bird_revenue(sure, Price(250), h) == pytest.approx(500)
    # half the birds lie above the middle weight
    assert bird_revenue(sure, Price(0, ((1000, 300), (2000, 400))), h) == pytest.approx(350, abs=1)


def test_dear_feed_sells_early_and_dear_birds_late(h: Husbandry) -> None:
    growth = growth_ahead((), 28, published_prior(h))
    ages = [
        best_sale_day(300, growth, Price(250), Costs(feed, spent=50_000), h).best.age_days
        for feed in (125, 90, 50)
    ]
    assert ages == sorted(ages)
    assert ages[0] < ages[-1]


@settings(max_examples=25)
@given(price=st.floats(100, 500), feed=st.floats(20, 150), house=st.floats(0, 2000))
def test_no_day_beats_the_best(h: Husbandry, price: float, feed: float, house: float) -> None:
    growth = growth_ahead((Weighing(21, 800, 20),), 30, published_prior(h))
    found = best_sale_day(290, growth, Price(price), Costs(feed, house, 40_000), h)
    assert found.best.behind == 0
    assert all(one.behind >= 0 for one in found.options)
    assert found.best.age_days in found.as_good
    assert found.options[0].birds == 290


def test_the_day_to_sell_needs_a_price_and_sizes_that_rise(h: Husbandry) -> None:
    growth = growth_ahead((), 40, published_prior(h))
    with pytest.raises(OutsideRange, match="price"):
        best_sale_day(300, growth, Price(), Costs(65), h)
    with pytest.raises(OutsideRange, match="rise"):
        best_sale_day(300, growth, Price(0, ((1500, 300), (1200, 400))), Costs(65), h)


@pytest.mark.parametrize("price_sd", [0.05, 0.15])
def test_the_day_named_costs_less_than_one_percent_of_what_the_birds_bring(
    price_sd: float,
) -> None:
    found = sales.score(range(25), price_sd)
    assert found.regret <= 0.01
    assert found.regret < found.regret_at_42
