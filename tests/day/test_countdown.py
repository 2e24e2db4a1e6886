"""The countdown: each step asked about, asked again where it was not yet done, and what the adviser
is told of one that is late."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.day.countdown import is_late
from bot.day.due import due
from bot.facts.farm import Batch, Event
from tests.day.farms import PLACED, Play, batch, calendar, case, local, play, rows

PLANNED = batch(state="planned", arrived_at=None)
STEPS = [one for one in calendar().all_rows if one.by is not None]


def _day(age: int) -> date:
    return PLACED + timedelta(days=age)


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
    told = play(PLANNED, 0)
    steps = {row.id for row in STEPS}
    for one in told.of_slot("morning"):
        named = steps.intersection(one.rows)
        if len(named) == 1 and one.age < -2:
            assert one.question is not None
            assert one.question.about["step"] in named
            assert one.text.endswith("1 done 2 not yet")


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
    assert {"clean_house", "try_stoves", "litter_in", "water_ready"} <= {
        row for one in told.told for row in one.rows
    }
