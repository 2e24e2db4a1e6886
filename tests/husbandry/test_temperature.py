"""Which temperature applies, and what a bare reading means."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.temperature import (
    Judgement,
    air_temperature_c,
    judge_temperature,
    spot_temperature_c,
)

RANK: tuple[Judgement, ...] = ("cold", "low", "comfortable", "high", "hot")


@pytest.mark.parametrize(
    ("age", "value", "low", "high"),
    [(0, 34, 32.5, 35.5), (3, 31, 29.5, 32.5), (5, 29, 27.5, 30.5), (6, 28.5, 27, 30),
     (13, 28.5, 27, 30), (14, 27.25, 26, 28.5), (20, 27.25, 26, 28.5)],
)  # fmt: skip
def test_the_smallholders_line_falls_a_degree_a_day_to_its_floor(
    h: Husbandry, age: int, value: float, low: float, high: float
) -> None:  # common practice of the trade, no source
    target = spot_temperature_c(age, h)
    assert (target.value_c, target.low_c, target.high_c) == (value, low, high)


@pytest.mark.parametrize("age", [-1, 21, 90])
def test_no_warm_spot_outside_ages_0_to_20(h: Husbandry, age: int) -> None:
    with pytest.raises(OutsideRange, match="0 to 20"):
        spot_temperature_c(age, h)


@pytest.mark.parametrize(
    ("age", "reading", "judged"),
    [
        (3, 31, "comfortable"),
        (3, 29.5, "comfortable"),
        (3, 32.5, "comfortable"),
        (3, 29.4, "low"),
        (3, 27.5, "low"),
        (3, 27.4, "cold"),
        (3, 33, "high"),
        (3, 34.5, "high"),
        (3, 34.6, "hot"),
        (8, 29.8, "comfortable"),
        (16, 26, "comfortable"),
        (25, 14, "cold"),
        (25, 16, "low"),
        (25, 22, "comfortable"),
        (25, 27, "high"),
        (25, 31, "hot"),
        (None, 31, "hot"),
        (None, 23, "comfortable"),
        (None, 14.9, "cold"),
    ],
)
def test_a_reading_is_judged_by_how_far_it_is_off(
    h: Husbandry, age: int | None, reading: float, judged: str
) -> None:
    assert judge_temperature(reading, age, h) == judged


@pytest.mark.parametrize("age", [10, 11, 12, 13])
def test_while_hardening_a_day_at_25_is_no_cold_but_a_night_is(h: Husbandry, age: int) -> None:
    assert judge_temperature(25, age, h) == "comfortable"
    assert judge_temperature(25, age, h, night=True) == "low"
    assert judge_temperature(24.9, age, h) == "cold"


def test_before_hardening_25_is_low_by_day_too(h: Husbandry) -> None:
    assert judge_temperature(25, 9, h) == "low"


@pytest.mark.parametrize("reading", [-20, 70, 87, 340])
def test_an_impossible_reading_is_refused(h: Husbandry, reading: float) -> None:
    with pytest.raises(OutsideRange, match="degrees C"):
        judge_temperature(reading, 5, h)


@given(age=st.integers(0, 40), a=st.floats(-5, 48), b=st.floats(-5, 48), night=st.booleans())
def test_a_warmer_reading_is_never_judged_colder(
    h: Husbandry, age: int, a: float, b: float, night: bool
) -> None:
    low, high = sorted((a, b))
    first, second = (judge_temperature(x, age, h, night=night) for x in (low, high))
    assert RANK.index(first) <= RANK.index(second)


@given(age=st.integers(0, 26), humidity=st.floats(40, 70))
def test_air_temperature_falls_with_age_and_with_humidity(
    h: Husbandry, age: int, humidity: float
) -> None:
    here = air_temperature_c(age, humidity, h)
    assert 19.3 <= here <= 36.0
    assert air_temperature_c(age + 1, humidity, h) <= here
    assert air_temperature_c(age, min(70, humidity + 5), h) <= here


def test_air_temperature_between_rows_lies_half_way(h: Husbandry) -> None:
    # between age 24 (21.7) and 27 (20.7) at 60 %: a third of the way
    assert air_temperature_c(25, 60, h) == pytest.approx(21.7 - 1 / 3, abs=0.01)


@pytest.mark.parametrize(("age", "humidity"), [(28, 60), (-1, 60), (3, 39), (3, 71)])
def test_air_temperature_ends_with_its_table(h: Husbandry, age: int, humidity: float) -> None:
    with pytest.raises(OutsideRange):
        air_temperature_c(age, humidity, h)
