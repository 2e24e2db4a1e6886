"""Floor, equipment, light, litter and crates."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.money import birds_a_crate, crates_needed
from bot.husbandry.space import (
    birds_per_m2,
    capacity_birds,
    capacity_with_equipment,
    drinkers_needed,
    feeders_needed,
    floor_needed,
    light,
    litter_bags,
    litter_m3,
)

COUNTS = st.integers(1, 3000)
AGES = st.integers(0, 56)


@pytest.mark.parametrize(
    ("age", "birds"),
    [
        (0, 40),
        (6, 40),
        (7, 30),
        (13, 30),
        (14, 20),
        (20, 20),
        (21, 15),
        (27, 15),
        (28, 10),
        (49, 10),
    ],
)  # common practice; 40 at placement: Aviagen tip 2020
def test_floor_widens_in_steps(h: Husbandry, age: int, birds: int) -> None:
    assert birds_per_m2(age, h) == birds


def test_a_brooder_of_300_chicks_by_hand(h: Husbandry) -> None:
    need = floor_needed(300, 0, h)
    assert (need.feeders, need.drinkers, need.stoves) == (3, 6, 2)
    # 300 / 40 = 7.5; 3 x 0.12 + 6 x 0.05 + 2 x 0.3 = 1.26
    assert need.total_m2 == pytest.approx(8.76)


def test_equipment_that_the_farmer_has_counts_instead_of_the_default(h: Husbandry) -> None:
    none = floor_needed(300, 0, h, feeders=0, drinkers=0, stoves=0)
    assert none.total_m2 == pytest.approx(7.5)


@given(count=COUNTS, age=AGES)
def test_what_fits_with_equipment_really_fits(h: Husbandry, count: int, age: int) -> None:
    house = max(0.5, count / 15)
    fits = capacity_with_equipment(house, age, h)
    assert fits <= capacity_birds(house, age, h)
    assert fits == 0 or floor_needed(fits, age, h).total_m2 <= house


@given(count=COUNTS, age=AGES, kind=st.sampled_from(["tray", "tube", "trough"]))
def test_more_birds_never_need_fewer_feeders(h: Husbandry, count: int, age: int, kind: str) -> None:
    now, more = (feeders_needed(n, age, h, kind) for n in (count, count + 50))
    assert 1 <= now <= more


def test_three_hundred_chicks_have_six_founts_and_an_unknown_kind_is_refused(h: Husbandry) -> None:
    assert drinkers_needed(300, 2, h) == 6  # one of 2 litres for 50: CPDO, read
    with pytest.raises(OutsideRange, match="fount, bell, nipple"):
        drinkers_needed(300, 2, h, "bucket")


@given(age=st.integers(0, 55))
def test_nights_grow_longer_and_never_past_the_law(h: Husbandry, age: int) -> None:
    today, tomorrow = light(age, h), light(age + 1, h)
    assert tomorrow.light_h <= today.light_h
    assert today.dark_piece_h <= 24 - today.light_h
    assert age < 7 or today.light_h <= 18


def test_the_first_nights_are_lit_and_the_first_dark_hour_is_at_age_4(h: Husbandry) -> None:
    assert [light(age, h).light_h for age in (0, 3, 4)] == [24, 24, 23]


def test_litter_for_9_square_metres_at_8_cm(h: Husbandry) -> None:
    assert litter_m3(9, 8) == pytest.approx(0.72)
    assert litter_bags(0.72, h) == 8


def test_crates_by_the_transport_rule(h: Husbandry) -> None:
    # EU 1/2005 (from memory): 160 cm2 a kg from 1.6 kg; 4100 / (160 x 2) = 12.8
    assert birds_a_crate(2000, h) == 12
    assert crates_needed(300, 2000, h) == 25
    assert crates_needed(1, 2000, h) == 1


def test_a_crate_never_holds_more_heavy_birds_than_light_ones(h: Husbandry) -> None:
    # the rule's space a kg falls at 1.6 and at 3 kg; read to the letter 12 birds of 1.59 kg would
    # fill a crate that takes 16 of 1.6 kg
    held = [birds_a_crate(grams, h) for grams in range(200, 5001, 10)]
    assert held == sorted(held, reverse=True)
