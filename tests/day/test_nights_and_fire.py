"""Night texts on the right evenings, fire in texts of its own, and the move as a decision."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta

import pytest

from bot.day.due import due
from bot.facts.farm import Batch, Complaint
from tests.day.farms import PLACED, Play, batch, calendar, case, event, local, play


def _ages(told: Play, slot: str) -> list[int]:
    return [one.age for one in told.of_slot(slot)]


def test_nights_of_the_first_week_and_three_after_the_move() -> None:
    assert _ages(play(batch()), "night") == [*range(8), 14, 15, 16]


def test_where_nights_are_cold_there_is_a_night_text_to_the_end_of_heat() -> None:
    assert _ages(play(batch(nights="cold")), "night") == list(range(21))


def test_the_night_text_goes_at_half_past_five() -> None:
    assert {f"{one.local:%H:%M}" for one in play(batch()).of_slot("night")} == {"17:30"}


def test_the_night_text_counts_the_stoves_of_this_farm() -> None:
    assert "2 stoves" in play(batch(), 2).day(1, "night").text
    assert "1 stove " in play(batch(heat_count=1), 2).day(1, "night").text


def test_the_night_text_tells_when_to_look() -> None:
    for one in play(batch()).of_slot("night"):
        assert "21:00" in one.text
        assert "04:00" in one.text


def test_dark_hours_grow_from_one_to_six_by_age_seven() -> None:
    told = play(batch(), 9)
    hours = [told.day(age, "night").text.split(" h dark")[0][-1] for age in (4, 5, 6, 7)]
    assert hours == ["1", "2", "4", "6"]


@pytest.mark.parametrize("slot", ["fire", "fumes"])
def test_fire_has_texts_of_its_own_on_the_first_evening_and_weekly(slot: str) -> None:
    assert _ages(play(batch()), slot) == [0, 7, 14]


def test_without_heat_after_the_move_fire_is_not_named_any_more() -> None:
    assert _ages(play(batch(nights="warm", feathered=True)), "fire") == [0, 7]


def test_bulbs_have_no_fire_texts_and_gas_has_its_own() -> None:
    assert _ages(play(batch(heat=("bulb",))), "fire") == []
    gas = play(batch(heat=("gas",)))
    assert "soapy water" in gas.day(0, "fire").text
    assert _ages(gas, "fumes") == [0, 7, 14]


def test_a_farmer_who_joins_on_the_third_day_hears_of_fire_on_the_first_evening() -> None:
    mine = batch(arrived_at=None)
    told = Play(case(mine), mine, [], []).until(
        local(PLACED.replace(month=4, day=5), 0), local(PLACED.replace(month=4, day=3), 9)
    )
    assert told.of_slot("fire")[0].age == 3


def test_no_text_tells_to_close_everything() -> None:
    for one in play(batch(nights="cold")).told:
        assert "close all" not in one.text.lower()
        assert "close everything" not in one.text.lower()


def test_warm_nights_and_feathers_move_on_the_morning_of_14_without_heat() -> None:
    told = play(batch(nights="warm", feathered=True))
    assert told.saying("move_tell") == [13]
    assert told.saying("move_ready") == [14]
    assert _ages(told, "night") == [*range(8), 14, 15, 16]
    assert "stove" not in told.day(14, "night").text


@pytest.mark.parametrize(
    "known", [{}, {"nights": "cool"}, {"nights": "warm"}, {"nights": "warm", "feathered": False}]
)
def test_unanswered_cool_or_unfeathered_keeps_heat_at_night_until_21(
    known: dict[str, object],
) -> None:
    told = play(batch(**known))
    assert told.saying("move_cool") == [14]
    assert told.saying("heat_end") == [21]
    assert "one stove" in told.day(14, "night").text


def test_the_move_is_noted_in_the_batch() -> None:
    told = play(batch(), 16)
    assert told.batch.house == "open"
    assert told.batch.moved_on == PLACED.replace(month=4, day=14)


def test_the_move_is_announced_on_the_day_before_with_corners_and_water() -> None:
    text = play(batch()).day(13).text
    assert "tomorrow" in text
    assert "dawn" in text
    assert "water first" in text
    assert "corners" in text


def test_a_held_batch_is_neither_moved_nor_sold() -> None:
    told = play(batch(held=True))
    for one in told.told:
        assert not any(row.startswith("move") for row in one.rows)
        assert not {"find_buyer", "feed_off", "catch_calm", "visitors"} & set(one.rows)
        assert "plan_cleaning" not in one.rows
        assert not {"buyer", "traders", "crates"} & set(re.findall(r"\w+", one.text.lower()))
    assert told.batch.house == "brooder"
    assert _ages(told, "night") == [*range(8), 14, 15, 16]


def test_feathers_and_nights_are_asked_on_different_days_from_12_and_once_more() -> None:
    told = play(batch())
    feathers, nights = told.saying("ask:feathers"), told.saying("ask:nights")
    assert feathers[0] == 12
    assert nights[0] == 13
    assert len(feathers) == len(nights) == 2
    assert not set(feathers) & set(nights)


def test_an_answered_question_is_not_asked_again() -> None:
    told = play(batch(nights="cool", feathered=True))
    assert told.saying("ask:feathers") == []
    assert told.saying("ask:nights") == []


@pytest.mark.parametrize(
    "phone", [{"consent": "stopped"}, {"consent": "invited"}, {"suspended": True}]
)
def test_stopped_invited_and_suspended_phones_get_nothing(phone: dict[str, object]) -> None:
    mine = batch()
    known = case(mine)
    barred = replace(known.phone, **phone)  # type: ignore[arg-type]  # names and types of Phone
    started = Play(replace(known, phone=barred), mine, [], [])
    assert started.until(local(PLACED.replace(month=4, day=10), 0), local(PLACED, 8)).told == []


def test_a_muted_phone_gets_nothing_until_the_mute_ends() -> None:
    mine = batch()
    muted = case(mine, muted_until=local(PLACED, 20))
    assert due(muted, mine, calendar(), local(PLACED, 17, 30)) == ()
    later = case(mine, muted_until=local(PLACED, 17))
    assert due(later, mine, calendar(), local(PLACED, 17, 30)) != ()


def test_a_draft_has_nothing_due() -> None:
    mine = batch(state="draft")
    assert due(case(mine), mine, calendar(), local(PLACED, 17, 30)) == ()


def test_an_evening_has_one_night_text_even_when_the_heat_changes_meanwhile() -> None:
    mine = batch()
    told = Play(case(mine), mine, [], [])
    told.at(local(PLACED, 17, 30))
    told.batch = replace(told.batch, heat=("bulb",))
    told.at(local(PLACED, 18))
    assert len(told.of_slot("night")) == 1


def _night(mine: Batch, age: int) -> str:
    """The night text of that age."""
    return play(mine, age + 1).day(age, "night").text


def _trouble(cause: str, age: int, hour: int) -> Complaint:
    return Complaint(1, 1, cause, local(PLACED + timedelta(days=age), hour))


def test_no_stove_is_lit_by_a_night_text_while_smoke_is_not_over() -> None:
    text = _night(batch(complaint=_trouble("fumes", 3, 10)), 3)
    assert "no fire in there that smokes" in text
    assert "stoves lit" not in text
    assert "stoves lit" in _night(batch(complaint=_trouble("fumes", 1, 5)), 3)  # long ago


def test_a_night_text_adds_no_heat_while_they_are_too_warm() -> None:
    text = _night(batch(complaint=_trouble("hot", 2, 16)), 2)
    assert "too warm? No more heat" in text
    assert "Drawn together? Heat on again" in text


def test_chicks_that_piled_last_night_have_no_less_heat_the_next() -> None:
    seen = replace(
        event("observed", PLACED + timedelta(days=2), 23), values={"signals": ["piled_near_heat"]}
    )
    text = _night(batch(heat_count=1, events=(seen,)), 3)
    assert "no less heat than now" in text
    assert "1 stove" not in text


def test_a_trouble_makes_no_night_text_of_its_own() -> None:
    told = play(batch(complaint=_trouble("hot", 9, 16)), 12)
    assert not [one for one in told.of_slot("night") if one.age in (9, 10)]


def test_a_danger_with_which_no_vet_was_reached_holds_the_move_and_the_sale() -> None:
    alarm = replace(event("alarm", PLACED + timedelta(days=13), 8), values={"kind": "ill"})
    told = play(batch(events=(alarm,)), 19)
    assert told.saying("move_cool") == [17]  # nobody said that a vet was reached
    assert "2 stoves lit" in told.day(14, "night").text  # they are still in the brooder
