"""The cold hour foretold in the night text: from the air outside, this brooder's record, its fuel.

Temperatures are worked by hand from practice.md's line (34 - age, 1.5 either side) and from the
house rule that the usual stoves hold the first day's low limit down to 18 C outside (from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta

import pytest

from bot.facts.farm import Batch, Cooperative, Event
from bot.say.segments import measure
from tests.day.farms import NAIROBI, PLACED, Play, batch, event, play

COLD = replace(NAIROBI, normals=((19.0, 8.0),) * 12)
MILD = replace(NAIROBI, normals=((31.0, 20.0),) * 12)
MIDDLE = replace(NAIROBI, normals=((24.0, 13.0),) * 12)


def night(told: Play, age: int) -> str:
    return told.day(age, "night").text


def dawns(read: Callable[[int], float], ages: range = range(1, 6)) -> tuple[Event, ...]:
    """A reading at six in the morning of each of these ages."""
    return tuple(
        replace(event("temperature", _day(age), 6, value_c=read(age)), id=age) for age in ages
    )


def _day(age: int) -> date:
    return PLACED + timedelta(days=age)


def played(mine: Batch, coop: Cooperative, days: int = 8) -> Play:
    return play(mine, days, coop=coop)


def test_a_cold_night_is_foretold_with_its_hour_and_what_to_do_before_sleeping() -> None:
    text = night(played(batch(), COLD), 2)
    assert "most brooders get cold about 23:00" in text
    assert "2 stoves lit, fuel near" in text
    assert "top open on two sides" in text
    assert "Look 22:00, 04:00" in text


def test_below_four_readings_the_text_speaks_of_most_brooders_from_four_on_of_yours() -> None:
    three = batch(events=dawns(lambda _: 24.0, range(1, 4)))
    four = batch(events=dawns(lambda _: 24.0, range(1, 5)))
    assert "most brooders" in night(played(three, COLD), 5)
    assert "your brooder" in night(played(four, COLD), 5)


def test_a_brooder_that_held_its_warmth_in_such_nights_is_not_foretold_cold() -> None:
    warm = batch(events=dawns(lambda age: 34.0 - age))
    assert "cold about" in night(played(batch(), MIDDLE), 3)
    assert "cold about" not in night(played(warm, MIDDLE), 6)


def test_a_brooder_that_was_cold_at_dawn_is_foretold_cold_where_most_are_not() -> None:
    leaky = batch(events=dawns(lambda age: 29.0 - age))
    assert "cold about" not in night(played(batch(), MIDDLE), 6)
    assert "your brooder gets cold" in night(played(leaky, MIDDLE), 6)


def test_chicks_that_pile_at_night_tell_of_the_cold_without_a_thermometer() -> None:
    piled = tuple(
        replace(event("observed", _day(age), 4, signals=["piled_near_heat"]), id=age)
        for age in range(1, 5)
    )
    spread = tuple(replace(one, values={"signals": ["spread_evenly"]}) for one in piled)
    assert "your brooder gets cold" in night(played(batch(events=piled), MIDDLE), 4)
    assert "cold about" not in night(played(batch(events=spread), MIDDLE), 4)


def test_more_fuel_than_before_is_counted_in() -> None:
    nights = tuple(replace(event("fuel", _day(age), 18, kg=4.0), id=20 + age) for age in range(5))
    cold = batch(events=(*dawns(lambda age: 30.0 - age), *nights))
    tonight = replace(event("fuel", _day(5), 17, kg=7.0), id=40)
    more = replace(cold, events=(*cold.events, tonight))
    assert "your brooder gets cold" in night(played(cold, MIDDLE), 5)
    assert "cold about" not in night(played(more, MIDDLE), 5)


def test_on_mild_nights_the_night_text_names_no_cold_hour() -> None:
    told = played(batch(), MILD, 22)
    assert all("cold about" not in one.text for one in told.of_slot("night"))
    assert [one.age for one in told.of_slot("night")] == [*range(8), 14, 15, 16]


def test_any_evening_to_age_20_with_a_cold_night_foretold_has_one_night_text() -> None:
    assert [one.age for one in played(batch(), COLD, 23).of_slot("night")] == list(range(21))


def test_birds_that_need_no_heat_still_get_the_night_text_when_it_turns_cold() -> None:
    told = played(batch(nights="warm", feathered=True), COLD, 23)
    assert [one.age for one in told.of_slot("night")] == list(range(21))
    assert "stove" not in night(told, 18)
    assert "top open on two sides" in night(told, 18)


def test_no_more_than_a_routine_text_and_a_night_text_a_day_and_fire_weekly() -> None:
    told = played(batch(), COLD, 23)
    for age in range(1, 21):
        slots = [one.due.slot for one in told.told if one.age == age]
        assert sorted(set(slots)) == sorted(slots)
        assert set(slots) - {"fire", "fumes"} <= {"morning", "night"}


@pytest.mark.parametrize("heat", ["charcoal", "gas", "bulb", "none"])
def test_every_night_text_of_a_cold_month_is_one_part_and_leaves_the_top_open(heat: str) -> None:
    for one in played(batch(heat=(heat,)), COLD, 23).of_slot("night"):
        assert measure(one.text).parts == 1
        assert "top open on two sides" in one.text


def test_where_the_air_outside_is_unknown_no_hour_is_named() -> None:
    told = played(batch(), NAIROBI)
    assert all("cold about" not in one.text for one in told.of_slot("night"))


def test_with_a_thermometer_and_no_weather_the_text_speaks_of_a_night_of_so_many_degrees() -> None:
    # 32.5 C are held at 18 C outside, so on day 3 (30.5 C) some 2 C less, and the chicks' own heat.
    text = night(played(batch(thermometer=True), NAIROBI), 2)
    assert "At 15 C outside most brooders get cold." in text


def test_a_forecast_goes_before_the_normals_of_the_month() -> None:
    mild = replace(COLD, forecast={_day(2): (31.0, 21.0)})
    assert "cold about" not in night(played(batch(), mild), 2)
    assert "cold about" in night(played(batch(), mild), 3)


def test_what_the_farmer_said_of_a_night_in_degrees_goes_before_the_normals() -> None:
    told = batch(events=(event("night", _day(1), 9, low_c=8.0),))
    assert "cold about" in night(played(told, MILD), 2)
    assert "cold about" not in night(played(batch(), MILD), 2)


def test_after_the_move_the_old_brooder_says_nothing_of_the_new_house() -> None:
    told = played(batch(events=dawns(lambda _: 24.0, range(1, 12))), COLD, 19)
    assert "your brooder" in night(told, 12)
    assert "most houses get cold" in night(told, 17)


def test_a_reading_this_evening_moves_what_is_foretold_tonight() -> None:
    warm = replace(event("temperature", _day(3), 17, value_c=38.0), id=50)
    cold = replace(event("temperature", _day(3), 17, value_c=24.0), id=50)
    assert "cold about" not in night(played(batch(events=(warm,)), MIDDLE), 3)
    hour = night(played(batch(events=(cold,)), MIDDLE), 3).split("about ")[1][:5]
    usual = night(played(batch(), MIDDLE), 3).split("about ")[1][:5]
    assert (int(hour[:2]) - 12) % 24 < (int(usual[:2]) - 12) % 24
