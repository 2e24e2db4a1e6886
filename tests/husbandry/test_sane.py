"""Figures over their whole range: each goes the way that the trade knows, without a jump back."""

from __future__ import annotations

from itertools import pairwise

import pytest

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.figures import figure

RISING = [
    ("weight age_days={}", range(50), "value"),
    ("weight strain=cobb500-2022 age_days={}", range(50), "value"),
    ("weight strain=vencobb400 age_days={}", range(7, 43), "value"),
    ("feed-intake age_days={}", range(50), "value"),
    ("feed-total age_days={}", range(50), "value"),
    ("feed-conversion age_days={}", range(1, 50), "value"),
    ("water temperature_c=30 age_days={}", range(50), "value"),
    ("water age_days=30 temperature_c={}", range(5, 46), "value"),
    ("brooder-area age_days=3 count={}", range(1, 1500, 9), "value"),
    ("brooder-area count=500 age_days={}", range(57), "value"),
    ("capacity age_days=28 house_m2={}", range(1, 300, 3), "low"),
    ("feeders age_days=20 count={}", range(1, 1500, 9), "value"),
    ("drinkers kind=bell count=500 age_days={}", range(57), "value"),
    ("light age_days={}", range(57), "longest_dark_h"),
    ("crop-full hours={}", range(2, 49), "value"),
    ("minimum-air count=10 weight_g={}", range(25, 6000, 50), "value"),
    ("bird-heat temperature_c=28 weight_g={}", range(25, 6000, 50), "sensible"),
    (
        "heat-needed outside_c=5 shell_w_k=25 count=200 weight_g=60 inside_c={}",
        range(5, 41),
        "value",
    ),
    ("heat-stress humidity_pct=60 age_days=30 temperature_c={}", range(51), "index"),
    ("heat-stress temperature_c=30 age_days=30 humidity_pct={}", range(5, 101), "index"),
    ("deaths-expected age_days=5 dead=4 count={}", range(4, 2000, 13), "tail_probability"),
    ("sell-crates count=1000 weight_g={}", range(200, 5001, 20), "value"),
    ("fuel heat_w=500 kind=wood hours={}", range(1, 200), "value"),
]
FALLING = [
    ("space age_days={}", range(57), "value"),
    ("spot-temperature age_days={}", range(21), "value"),
    ("air-temperature humidity_pct=55 age_days={}", range(28), "value"),
    ("air-temperature age_days=5 humidity_pct={}", range(40, 71), "value"),
    ("capacity house_m2=30 age_days={}", range(57), "low"),
    ("light age_days={}", range(57), "value"),
    ("bird-heat weight_g=500 temperature_c={}", range(46), "value"),
    ("bird-heat weight_g=500 temperature_c={}", range(46), "sensible"),
    (
        "heat-needed inside_c=32 shell_w_k=25 count=200 weight_g=60 outside_c={}",
        range(-20, 33),
        "value",
    ),
    ("deaths-expected count=500 age_days=5 dead={}", range(0, 501, 5), "tail_probability"),
    ("uniformity cv_pct={}", range(2, 41), "value"),
    ("sample-size cv_pct=10 error_pct={}", range(1, 21), "value"),
    ("gas-limit gas=co who=people minutes={}", range(1, 1441, 7), "value"),
]


def values(h: Husbandry, line: str, over: range, key: str) -> list[float]:
    """What the figure says at each step of the input that is left open in the line."""
    found = []
    for at in over:
        name, *words = line.format(at).split()
        shown = figure(name, dict(word.split("=", 1) for word in words), h).as_dict()
        value = shown[key]
        assert isinstance(value, int | float)
        found.append(float(value))
    return found


@pytest.mark.parametrize(("line", "over", "key"), RISING)
def test_it_never_falls(h: Husbandry, line: str, over: range, key: str) -> None:
    found = values(h, line, over, key)
    assert all(later >= before for before, later in pairwise(found))
    assert found[-1] > found[0]


@pytest.mark.parametrize(("line", "over", "key"), FALLING)
def test_it_never_rises(h: Husbandry, line: str, over: range, key: str) -> None:
    found = values(h, line, over, key)
    assert all(later <= before for before, later in pairwise(found))
    assert found[-1] < found[0]


def test_fuel_is_in_proportion_to_time_and_heat(h: Husbandry) -> None:
    by_hours = values(h, "fuel heat_w=500 kind=charcoal hours={}", range(1, 100), "value")
    by_heat = values(h, "fuel hours=10 kind=charcoal heat_w={}", range(100, 10000, 100), "value")
    for found in (by_hours, by_heat):
        assert found == pytest.approx([found[0] * (i + 1) for i in range(len(found))], rel=1e-4)


def test_the_warm_part_of_a_birds_heat_is_never_more_than_all_of_it(h: Husbandry) -> None:
    line = "bird-heat weight_g=500 temperature_c={}"
    total, sensible = (values(h, line, range(46), key) for key in ("value", "sensible"))
    assert all(0 <= part <= whole for part, whole in zip(sensible, total, strict=True))
