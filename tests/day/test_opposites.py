"""No farmer is told two opposite things on one day: every kind of heat, house, night and weather is
played through, and a pair that is planted is caught. The pairs: content/calendar/opposites.yaml.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from functools import cache
from itertools import product

import pytest

from bot.day.due import due
from bot.facts.farm import Cooperative
from bot.handbook.shape_calendar import Calendar, Row
from bot.proof.opposites import check_acts, opposed
from tests.day.farms import NAIROBI, PLACED, Play, batch, calendar, case, event, local, play

HEATS: dict[str, dict[str, object]] = {
    "one charcoal stove": {"heat": ("charcoal",), "count": 100},
    "charcoal": {"heat": ("charcoal",)},
    "gas": {"heat": ("gas",), "thermometer": True},
    "bulbs": {"heat": ("bulb",)},
    "nothing": {"heat": ("none",)},
    "not said": {"heat": ()},
}
NIGHTS: dict[str, dict[str, object]] = {
    "unanswered": {},
    "warm and feathered": {"nights": "warm", "feathered": True},
    "warm": {"nights": "warm", "feathered": False},
    "cold": {"nights": "cold", "feathered": True},
}
AIR: dict[str, Cooperative] = {
    "no forecast": NAIROBI,
    "every night cold": replace(NAIROBI, normals=((18.0, 7.0),) * 12),
    "every day hot": replace(
        NAIROBI,
        forecast={PLACED + timedelta(days=age): (36.0, 22.0) for age in range(60)},
    ),
}
RECORDS: dict[str, dict[str, object]] = {
    "held": {"held": True},
    "treated": {"events": (event("treated", PLACED + timedelta(days=24), days=12),)},
    "treated, days not known": {"events": (event("treated", PLACED + timedelta(days=24)),)},
    "late in the evening": {"arrived_at": local(PLACED, 21)},
}


def found(played: Play, book: Calendar | None = None) -> list[tuple[int, str, str]]:
    return list(opposed([(one.age, one.due) for one in played.told], book or calendar()))


@cache
def lived(heat: str, night: str, air: str) -> Play:
    return play(batch(**{**HEATS[heat], **NIGHTS[night]}), coop=AIR[air])


every_farm = pytest.mark.parametrize(("heat", "night", "air"), list(product(HEATS, NIGHTS, AIR)))


@every_farm
def test_no_day_contradicts_itself(heat: str, night: str, air: str) -> None:
    assert found(lived(heat, night, air)) == []


@every_farm
def test_silence_costs_at_most_75_parts_and_one_routine_text_a_day(
    heat: str, night: str, air: str
) -> None:
    told = [one for one in lived(heat, night, air).told if 0 <= one.age < 42]
    assert len(told) <= 75
    mornings = [one.age for one in told if one.due.slot == "morning"]
    assert len(mornings) == len(set(mornings))
    nights = {one.age for one in told if one.due.slot == "night"}
    assert nights <= set(range(21))


@pytest.mark.parametrize("record", RECORDS)
@pytest.mark.parametrize("heat", ["charcoal", "bulbs"])
def test_nor_does_one_with_a_record(heat: str, record: str) -> None:
    assert found(play(batch(**{**HEATS[heat], **RECORDS[record]}))) == []


def planted(row: str, *acts: str) -> Calendar:
    """The calendar with a row that also tells to do something else."""
    rows = tuple(
        replace(one, does=(*one.does, *acts)) if one.id == row else one
        for one in calendar().all_rows
    )
    return replace(calendar(), all_rows=rows)


@pytest.mark.parametrize(
    ("row", "act", "other"),
    [
        ("harden", "day:heat_more", "harden"),  # beside its own less heat by day
        ("fire_weekly", "night:heat_less", "night_dark"),  # beside the night's stoves
        ("move_cool", "stay", "move_cool"),
        ("curtains_open", "day:close", "curtains_open"),
        ("find_buyer", "hold", "find_buyer"),
    ],
)
def test_a_planted_pair_is_caught(row: str, act: str, other: str) -> None:
    caught = found(lived("charcoal", "unanswered", "no forecast"), planted(row, act))
    assert {row, other} <= {name for _, *pair in caught for name in pair}


def test_a_row_that_adds_heat_must_say_so() -> None:
    silent = tuple(_without(one) for one in calendar().all_rows)
    faults = {fault.key for fault in check_acts(replace(calendar(), all_rows=silent))}
    assert {"night_first", "move_cool", "warm_brooder"} <= faults
    assert list(check_acts(calendar())) == []


def _without(row: Row) -> Row:
    return replace(row, does=())


def test_treated_birds_are_held_and_their_sale_is_not_named() -> None:
    told = play(batch(**RECORDS["treated"]))
    held = told.saying("hold_treated")
    assert held
    assert max(held) < 36
    assert all(age > 36 for age in told.saying("feed_off"))


def test_no_vaccine_is_named_unless_the_cooperatives_vet_has_set_a_day() -> None:
    told = lived("charcoal", "unanswered", "no forecast")
    assert not told.saying("vaccine_tomorrow") + told.saying("vaccine_today")


def test_a_vaccine_day_is_said_the_day_before_and_on_the_day() -> None:
    set_by_vet = replace(calendar(), vaccines=(7, 14))
    mine = batch()
    said = {
        age: due(case(mine), mine, set_by_vet, local(PLACED + timedelta(days=age), 6, 30))[0].rows
        for age in (5, 6, 7, 8, 13, 14)
    }
    assert [age for age, rows in said.items() if "vaccine_tomorrow" in rows] == [6, 13]
    assert [age for age, rows in said.items() if "vaccine_today" in rows] == [7, 14]


def test_a_cut_of_water_and_of_power_is_prepared_for() -> None:
    for heat, step in (("charcoal", "power_torch"), ("bulb", "power_ready")):
        told = play(batch(state="planned", arrived_at=None, heat=(heat,)), 42)
        assert told.saying("water_drum")
        assert told.saying(step)
        assert told.saying("water_store")
    assert play(batch(heat=("bulb",)), 10).saying("power_cut_bulbs")
