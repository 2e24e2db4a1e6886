"""The countdown: each step asked about, asked again where it was not yet done, and what the adviser
is told of one that is late."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.day.countdown import STEPS as STEPS_MARK
from bot.day.countdown import is_late, step_told
from bot.day.due import due
from bot.facts.farm import Batch, Event
from tests.day.farms import (
    PLACED,
    Play,
    Told,
    batch,
    calendar,
    case,
    event,
    local,
    play,
    rows,
)

PLANNED = batch(state="planned", arrived_at=None)
STEPS = [one for one in calendar().all_rows if one.by is not None]


def _day(age: int) -> date:
    return PLACED + timedelta(days=age)


def steps_on(told: Told) -> list[str]:
    """The steps that a text names."""
    steps = {row.id for row in STEPS}
    return [row for row in told.rows if row in steps]


def answer(row: str, age: int, *, done: bool, number: int = 1) -> Event:
    on = _day(age)
    return Event(number, "step", on, local(on, 7), {"row": row, "done": done})


def answering(mine: Batch, *, done: bool) -> Play:
    """A farmer who answers every step, an hour after it came."""
    played = Play(case(mine), mine, [], [])
    for age in range(-28, 0):
        before = len(played.told)
        played.until(local(_day(age), 7), local(_day(age), 6, 30))
        for one in played.told[before:]:
            step = one.question.about.get("step") if one.question else None
            if step is not None:
                told = answer(step, age, done=done, number=len(played.batch.events) + 1)
                events = (*played.batch.events, told)
                played.batch = replace(played.batch, events=events)
    return played


def test_every_step_is_asked_about_in_the_text_that_names_it() -> None:
    steps = {row.id for row in STEPS}
    for heat in (("charcoal",), ("gas",), ("bulb",), ()):
        for begun in (-28, -6, -4, -3, -2, -1):
            mine = replace(PLANNED, heat=heat)
            told = Play(case(mine), mine, [], []).until(local(PLACED, 0), local(_day(begun), 5))
            for one in told.of_slot("morning"):
                named = steps.intersection(one.rows)
                assert named, one.text
                assert one.question is not None, one.text
                assert set(one.question.about["step"].split(STEPS_MARK)) == named
                assert one.text.endswith("1 done 2 not yet")


def test_two_long_steps_never_share_a_text() -> None:
    for done in (True, False):
        for one in answering(PLANNED, done=done).of_slot("morning"):
            assert len(steps_on(one)) == 1 or set(steps_on(one)) == {"litter_in", "water_ready"}


def test_stoves_are_tried_before_disinfecting_is_asked_about_again() -> None:
    """Cleaned late, disinfecting asked about and unanswered: two days before it is the stoves'."""
    mine = PLANNED
    told = Play(case(mine), mine, [], []).until(local(PLACED, 0), local(_day(-4), 5))
    assert [steps_on(one) for one in told.of_slot("morning")] == [
        ["clean_house"], ["try_stoves"], ["disinfect"], ["litter_in", "water_ready"]]  # fmt: skip


def test_fuel_that_was_told_as_bought_is_not_asked_about() -> None:
    told = event("fuel_in", _day(-12), kg=50)
    mine = replace(PLANNED, events=(told,))
    assert play(PLANNED, 0).saying("buy_fuel")
    assert not play(mine, 0).saying("buy_fuel")


def test_the_last_step_told_may_be_answered_until_the_next_one_comes() -> None:
    told = Play(case(PLANNED), PLANNED, [], []).until(local(_day(-15), 0), local(_day(-28), 5))
    asked = step_told(replace(told.case, now=local(_day(-15), 9)), calendar())
    assert asked is not None
    assert asked.about["step"] == "order_feed"
    told.until(local(PLACED, 12), local(_day(-15), 0))
    assert step_told(replace(told.case, now=local(PLACED, 12)), calendar()) is None


def test_no_step_is_left_out_for_a_farmer_who_never_answers() -> None:
    said = {row for one in play(PLANNED, 0).told for row in one.rows}
    elsewhere = {"try_gas", "try_bulbs", "power_ready"}
    assert {row.id for row in STEPS} - elsewhere <= said


def test_a_step_that_is_done_is_never_named_again() -> None:
    told = answering(PLANNED, done=True)
    for row in STEPS:
        assert len(told.saying(row.id)) <= 1
    assert [one for one in told.noted if one[1].kind == "late"] == []


def test_a_step_that_is_not_yet_done_comes_again_after_three_days() -> None:
    told = answering(PLANNED, done=False)
    ages = told.saying("order_chicks")
    assert ages[:3] == [-28, -25, -22]
    assert ages[-1] <= rows()["order_chicks"].expires


def test_who_never_answers_is_asked_twice_for_the_essential_steps_and_once_for_the_rest() -> None:
    told = play(PLANNED, 0)
    assert told.saying("clean_house") == [-7, -4]
    assert told.saying("order_chicks") == [-28]


def test_a_late_essential_step_is_told_to_the_adviser_once() -> None:
    told = play(PLANNED, 0)
    reasons = [one.reason for _, one in told.noted if one.kind == "late"]
    assert [one for one in reasons if "clean house" in one] == [
        "no word that it is done, chicks in 3 days: clean house"
    ]


def test_a_late_step_that_is_not_essential_is_no_matter_for_the_adviser() -> None:
    told = play(PLANNED, 0)
    assert not [one for _, one in told.noted if "order" in one.reason]
    assert not is_late("order_chicks", -1, calendar())
    assert is_late("clean_house", rows()["clean_house"].by, calendar())


def test_what_was_done_stays_done_when_the_day_is_moved() -> None:
    moved = replace(
        PLANNED,
        placed_on=_day(5),
        placement_version=2,
        events=(answer("clean_house", -7, done=True),),
    )
    for age in range(-7, 5):
        for one in due(case(moved), moved, calendar(), local(_day(age), 6, 30)):
            assert "clean_house" not in one.rows


def test_who_joins_two_days_before_still_hears_what_can_be_done() -> None:
    told = Play(case(PLANNED), PLANNED, [], []).until(local(PLACED, 0), local(_day(-2), 5))
    assert {"clean_house", "litter_in", "water_ready", "fire_before", "warm_brooder"} <= {
        row for one in told.told for row in one.rows
    }
