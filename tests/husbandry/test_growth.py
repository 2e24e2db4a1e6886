"""Growth, feed, water, crops and groups of weights."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.feed_water import (
    crop_full_pct,
    feed_bags,
    feed_phase,
    feed_to_buy_kg,
    water_ml,
)
from bot.husbandry.growth import (
    cv_pct,
    feed_conversion,
    feed_intake_g,
    feed_total_g,
    sample_size,
    uniformity_pct,
    weight_g,
)


@given(
    age=st.integers(7, 41), strain=st.sampled_from(["ross308-2019", "cobb500-2022", "vencobb400"])
)
def test_a_bird_is_heavier_tomorrow(h: Husbandry, age: int, strain: str) -> None:
    assert weight_g(age, h, strain).value_g < weight_g(age + 1, h, strain).value_g


@given(age=st.integers(2, 48))
def test_the_daily_feed_adds_up_to_the_total(h: Husbandry, age: int) -> None:
    added = feed_total_g(age + 1, h) - feed_total_g(age, h)
    assert added == pytest.approx(feed_intake_g(age + 1, h), abs=1.01)  # the booklet rounds


@pytest.mark.parametrize("age", [0, 1])
def test_the_first_day_eats_the_total_of_day_1(h: Husbandry, age: int) -> None:
    assert feed_intake_g(age, h) == 13  # Ross 308 2019: 13 g so far at day 1, none printed a day


@given(age=st.integers(1, 49))
def test_feed_conversion_is_feed_by_live_weight(h: Husbandry, age: int) -> None:
    ours = feed_total_g(age, h) / weight_g(age, h).value_g
    assert feed_conversion(age, h) == pytest.approx(ours, abs=0.012)  # rounding of small chicks


@pytest.mark.parametrize(("strain", "age"), [("ross308-2019", 50), ("ross308-2019", 90),
                                             ("vencobb400", 3), ("vencobb400", 43)])  # fmt: skip
def test_no_weight_outside_a_table(h: Husbandry, strain: str, age: int) -> None:
    with pytest.raises(OutsideRange, match=strain):
        weight_g(age, h, strain)


def test_an_unknown_strain_names_the_known_ones(h: Husbandry) -> None:
    with pytest.raises(OutsideRange, match="vencobb400"):
        weight_g(7, h, "of-our-own")


@pytest.mark.parametrize(
    ("age", "phase"),
    [(0, "starter"), (10, "starter"), (11, "grower"), (24, "grower"), (25, "finisher")],
)  # Ross nutrition specifications, from memory
def test_feed_phase_by_age(h: Husbandry, age: int, phase: str) -> None:
    assert feed_phase(age, h) == phase


def test_feed_for_a_batch_in_bags(h: Husbandry) -> None:
    # 100 birds from placement to 42 days: 4702 g each (Ross 308 2019)
    assert feed_to_buy_kg(100, 0, 42, h) == pytest.approx(470.2)
    assert feed_bags(470.2, h) == 10


def test_water_is_more_in_heat_and_never_less_than_at_21(h: Husbandry) -> None:
    cool, mild, warm = (water_ml(30, h, t).value_ml for t in (15, 21, 30))
    assert cool == mild < warm


@given(hours=st.floats(2, 47))
def test_crops_only_fill(h: Husbandry, hours: float) -> None:
    assert 75 <= crop_full_pct(hours, h) <= crop_full_pct(hours + 1, h) <= 100


def test_cv_of_a_weighed_group_by_hand() -> None:
    # 90, 100, 110: mean 100, deviation 10 with n - 1
    assert cv_pct([90, 100, 110]) == pytest.approx(10)
    with pytest.raises(OutsideRange):
        cv_pct([100])


@given(cv=st.floats(2, 39))
def test_a_more_even_flock_is_more_uniform_and_needs_fewer_weighed(h: Husbandry, cv: float) -> None:
    assert uniformity_pct(cv, h) >= uniformity_pct(cv + 1, h)
    assert sample_size(cv, 3, h) <= sample_size(cv + 1, 3, h)
