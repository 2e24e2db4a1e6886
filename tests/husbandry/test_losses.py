"""What is danger, what is asked about, and how rare a number of deaths is."""

from __future__ import annotations

from fractions import Fraction
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.losses import (
    binomial_tail,
    death_rate_a_day,
    deaths_tail,
    deaths_verdict,
)


@pytest.mark.parametrize(
    ("dead", "alive", "verdict"),
    [
        (3, 100, "danger"),
        (3, 150, "danger"),
        (3, 151, "ask"),
        (6, 300, "danger"),
        (5, 300, "ask"),
        (3, 300, "ask"),
        (2, 50, "fine"),
        (2, 300, "fine"),
        (3, 375, "fine"),
        (3, 374, "ask"),
        (16, 2000, "fine"),
        (17, 2000, "ask"),
        (40, 2000, "danger"),
        (2, 0, "danger"),
        (0, 0, "fine"),
        (0, 500, "fine"),
    ],
)
def test_the_fixed_rule_of_danger(h: Husbandry, dead: int, alive: int, verdict: str) -> None:
    # danger at max(3, 2 %), fine below 3 or at 0.8 % or less, between a question: common practice
    assert deaths_verdict(dead, alive, h) == verdict


@given(alive=st.integers(1, 5000), dead=st.integers(0, 200))
def test_one_death_more_is_never_less_dangerous(h: Husbandry, alive: int, dead: int) -> None:
    rank = ("fine", "ask", "danger")
    now, more = (rank.index(deaths_verdict(n, alive, h)) for n in (dead, dead + 1))
    assert now <= more


def exact_tail(count: int, rate: Fraction, least: int) -> float:
    """By whole fractions, from the definition."""
    below = sum(comb(count, k) * rate**k * (1 - rate) ** (count - k) for k in range(least))
    return float(1 - below)


@given(count=st.integers(1, 400), least=st.integers(0, 12), rate=st.integers(1, 60))
def test_the_tail_is_the_exact_binomial(count: int, least: int, rate: int) -> None:
    least = min(least, count)
    share = Fraction(rate, 10_000)
    found = binomial_tail(count, float(share), least)
    assert found == pytest.approx(exact_tail(count, share, least), rel=1e-9, abs=1e-15)


def test_the_rate_of_the_first_week_is_the_tables_0_8_percent(h: Husbandry) -> None:
    # Vencobb 400 manual: cumulative 0.8 % at day 7, 1.25 at 14, 3.5 at 42
    assert 100 * sum(death_rate_a_day(age, h) for age in range(7)) == pytest.approx(0.8)
    assert 100 * sum(death_rate_a_day(age, h) for age in range(42)) == pytest.approx(3.5)


def test_more_deaths_than_birds_are_refused(h: Husbandry) -> None:
    with pytest.raises(OutsideRange):
        deaths_tail(10, 3, 11, h)
