"""Air, heat, fuel and why no opening is computed for a fire."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.air import carbon_monoxide_mg_m3, gas_limit, minimum_air_m3h
from bot.husbandry.figures import figure
from bot.husbandry.heat import bird_heat_w, fuel_kg, heat_needed, shell_w_k
from bot.husbandry.stress import heat_stress

LEVELS = ("none", "watch", "act", "danger")


def test_a_charcoal_fire_fills_a_closed_brooder_a_hundred_times_over_the_limit(
    h: Husbandry,
) -> None:
    # 2.17 kg a day x 189 g/kg (Akagi 2011, from memory) / 24 h into 17.02 m3/h: about 1000 mg/m3
    found = carbon_monoxide_mg_m3(2.17, 17.02, h)
    assert found == pytest.approx(1005, abs=10)
    assert found / gas_limit("co", "people", h).value == pytest.approx(100, abs=2)


@given(weight=st.floats(30, 5000), warm=st.floats(0, 44))
def test_a_warmer_house_takes_less_heat_from_a_bird(
    h: Husbandry, weight: float, warm: float
) -> None:
    here, warmer = (bird_heat_w(weight, t, h) for t in (warm, warm + 1))
    assert warmer.total_w < here.total_w
    assert 0 <= warmer.sensible_w <= here.sensible_w <= here.total_w


@given(outside=st.floats(-10, 29), count=st.integers(50, 2000))
def test_a_colder_night_needs_more_heat(h: Husbandry, outside: float, count: int) -> None:
    air = minimum_air_m3h(60, count, h).value_m3h
    now, colder = (heat_needed(32, t, 40, air, count, 60, h).need_w for t in (outside, outside - 1))
    assert colder > now


def test_walls_in_the_order_a_builder_expects(h: Husbandry) -> None:
    loss = {walls: shell_w_k(5, 4, 2, walls, h) for walls in h.wall_loss}
    assert loss["mud"] < loss["brick"] < loss["plank"] < loss["curtain2"] < loss["curtain"]
    assert loss["curtain"] < loss["sheet"]


def test_a_house_loss_by_hand(h: Husbandry) -> None:
    # walls 2 x (5 + 4) x 2 = 36 m2 x 3.0; floor and roof 20 m2 x (6.5 + 0.5)
    assert shell_w_k(5, 4, 2, "curtain2", h) == pytest.approx(36 * 3 + 20 * 7)


@given(heat=st.floats(1, 20_000), kind=st.sampled_from(["charcoal", "gas", "kerosene", "wood"]))
def test_fuel_lies_within_its_own_range_and_doubles_with_time(
    h: Husbandry, heat: float, kind: str
) -> None:
    day = fuel_kg(heat, 24, kind, h)
    assert day.low_kg < day.value_kg < day.high_kg
    assert fuel_kg(heat, 48, kind, h).value_kg == pytest.approx(2 * day.value_kg)


def test_with_a_share_given_the_fuel_follows_it(h: Husbandry) -> None:
    half, whole = (fuel_kg(500, 24, "charcoal", h, share).value_kg for share in (0.5, 1.0))
    assert half == pytest.approx(2 * whole)
    with pytest.raises(OutsideRange, match="share"):
        fuel_kg(500, 24, "charcoal", h, 50)


@given(warm=st.floats(10, 44), humidity=st.floats(20, 95), age=st.integers(21, 56))
def test_heat_stress_only_rises_with_warmth(
    h: Husbandry, warm: float, humidity: float, age: int
) -> None:
    now, warmer = (heat_stress(t, humidity, age, h) for t in (warm, warm + 1))
    assert now.index_c < warmer.index_c
    assert LEVELS.index(now.level) <= LEVELS.index(warmer.level)


@pytest.mark.parametrize("age", [0, 7, 20])
def test_chicks_have_no_heat_index(h: Husbandry, age: int) -> None:
    with pytest.raises(OutsideRange, match="21 to"):
        heat_stress(35, 60, age, h)


def test_the_smoke_of_charcoal_inside_is_shown_as_the_reason_for_a_flue(h: Husbandry) -> None:
    asked = {"outside_c": "18", "inside_c": "32", "shell_w_k": "25", "count": "200"}
    found = figure("heat-needed", {**asked, "weight_g": "60"}, h)
    # 2.17 kg a day x 189 g/kg / 24 h into 17.02 m3/h, as above; the limit is 10 (WHO, 8 hours)
    assert found.extra["carbon_monoxide_mg_m3"] == pytest.approx(1005, abs=10)
    assert "flue" in found.basis
    flued = figure("heat-needed", {**asked, "weight_g": "60", "fire": "flued"}, h)
    assert "carbon_monoxide_mg_m3" not in flued.extra
