"""The fits and forecasts against published fits and data; their sources stand beside each check."""

from __future__ import annotations

import pytest

from bot.husbandry.linear import quantile
from tests.husbandry.chicks import all_chicks, foretold, score, whole_chicks
from tests.husbandry.curves import fit, gompertz, logistic


def test_the_data_are_the_578_weights_of_50_chicks() -> None:
    # R, datasets::ChickWeight: 578 rows, 50 chicks; 45 of them were weighed to day 21
    assert (len(all_chicks()), sum(map(len, all_chicks())), len(whole_chicks())) == (50, 578, 45)


def test_the_logistic_rival_is_that_of_the_r_manual() -> None:
    # R manual, ChickWeight, nls with SSlogis on chick 1: Asym 937.03, xmid 35.223, scal 11.405
    # (from memory; the same from scipy 1.x curve_fit)
    points = [(float(day), w) for day, w in all_chicks()[0].items()]
    found = fit(logistic, points).parameters
    assert found == pytest.approx((937.02, 35.223, 11.405), rel=1e-3)


def test_the_logistic_rival_finds_a_certified_fit() -> None:
    # NIST StRD, Rat42 (growth of pasture): 72.462237576, 2.6180768402, 0.067359200066; residual
    # sum of squares 8.0565229338. The exponent there is b2 - b3 x: half at b2 / b3
    ages = (9.0, 14.0, 21.0, 28.0, 42.0, 57.0, 63.0, 70.0, 79.0)
    grown = (8.93, 10.80, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08)
    found = fit(logistic, list(zip(ages, grown, strict=True)))
    top, half, scale = found.parameters
    wanted = (72.462237576, 2.6180768402, 0.067359200066)
    assert (top, half / scale, 1 / scale) == pytest.approx(wanted, rel=1e-5)
    assert found.left == pytest.approx(8.0565229338, rel=1e-7)


def test_the_gompertz_rival_is_that_of_scipy() -> None:
    # scipy.optimize.curve_fit on chick 21 of ChickWeight: 451.518, 2.94662, 0.109400
    points = [(float(day), w) for day, w in all_chicks()[20].items()]
    found = fit(gompertz, points).parameters
    assert found == pytest.approx((451.518, 2.94662, 0.1094), rel=1e-3)


# Student's t, 0.9 quantiles: any printed table.
@pytest.mark.parametrize(
    ("freedom", "printed"), [(5, 1.476), (10, 1.372), (30, 1.310), (None, 1.2816)]
)
def test_quantiles_are_those_of_the_printed_table(freedom: float | None, printed: float) -> None:
    assert quantile(0.9, freedom) == pytest.approx(printed, abs=0.002)


def test_day_21_is_foretold_better_from_day_10_than_by_any_curve_on_the_chick_alone() -> None:
    found = score(10)
    assert found.ratio <= 0.9  # measured 0.73
    assert min(found.rivals_g, key=lambda name: found.rivals_g[name]) == "logistic"


@pytest.mark.parametrize("from_day", [6, 8, 10])
def test_of_ten_chicks_about_eight_lie_within_the_interval(from_day: int) -> None:
    chicks = whole_chicks()
    told = [foretold(chicks, i, from_day) for i in range(len(chicks))]
    inside = sum(
        one.low_g <= chick[21] <= one.high_g for one, chick in zip(told, chicks, strict=True)
    )
    assert 0.7 <= inside / len(chicks) <= 0.9
