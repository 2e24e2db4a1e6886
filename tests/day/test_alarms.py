"""After a danger we come back and ask whether a vet was reached."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from bot.day.alarms import alarm_back
from bot.day.due import due, next_moment
from bot.day.standing import standing
from bot.doors.context import read_context
from bot.doors.rehearsal import Rehearsal
from bot.doors.scene import set_the_scene
from bot.facts.farm import Batch, Event, Said
from tests.day.farms import PLACED, batch, calendar, case, local

DAY = PLACED + timedelta(days=9)


def alarmed(at: datetime, *more: Event) -> Batch:
    return batch(events=(Event(7, "alarm", DAY, at, {"kind": "blood"}), *more))


def asks(one: Batch, at: datetime) -> list[str]:
    found = due(replace(case(one), now=at), one, calendar(), at)
    return [text.question.name for text in found if text.question is not None]


@pytest.mark.parametrize(
    ("told", "asked"),
    [
        (local(DAY, 9), local(DAY, 13)),
        (local(DAY, 19), local(DAY + timedelta(days=1), 6, 30)),
        (local(DAY, 1), local(DAY, 6, 30)),
    ],
    ids=["by day four hours on", "in the evening next morning", "at night the same morning"],
)
def test_the_vet_is_asked_about_hours_later_and_never_at_night(
    told: datetime, asked: datetime
) -> None:
    one = alarmed(told)
    assert "vet_reached" not in asks(one, asked - timedelta(minutes=1))
    assert "vet_reached" in asks(one, asked)


def test_the_clock_wakes_for_it() -> None:
    one = alarmed(local(DAY, 9))
    assert next_moment(case(one), one, calendar(), local(DAY, 9)) == local(DAY, 13)


def test_it_is_asked_on_three_days_at_most_and_no_routine_question_stands_beside_it() -> None:
    one = alarmed(local(DAY, 9))
    named = []
    for days, hour in ((0, 13), (1, 7), (2, 7), (3, 7)):
        at = local(DAY + timedelta(days=days), hour)
        named.append(asks(one, at))
        told = standing(replace(case(one), now=at), one, calendar(), at)
        assert told is not None
        text = alarm_back(told)
        rows = () if text is None else text.rows
        one = replace(one, said=(*one.said, *(Said(row, told.today, "vet-7") for row in rows)))
    assert named[:3] == [["vet_reached"]] * 3
    assert "vet_reached" not in named[3]


def test_once_the_vet_was_reached_it_is_not_asked_again() -> None:
    one = alarmed(local(DAY, 9), Event(8, "vet", DAY, local(DAY, 10), {}))
    assert "vet_reached" not in asks(one, local(DAY, 14))


def test_an_alarm_that_was_taken_back_is_not_asked_about() -> None:
    one = batch(events=(Event(7, "alarm", DAY, local(DAY, 9), {"kind": "blood"}, undone=True),))
    assert "vet_reached" not in asks(one, local(DAY, 14))


def test_while_a_danger_is_open_no_routine_text_changes_the_heat_of_the_day(
    rehearsal: Rehearsal,
) -> None:
    context = {"has_batch": True, "age_days": 10, "count": 150, "today": "2026-10-09",
               "heat": "bulb", "now": "2026-10-09T06:15:00+03:00"}  # fmt: skip
    set_the_scene(rehearsal, read_context("en", context))
    assert "DANGER" in rehearsal.say("4 dead today")[0].texts[0]
    rehearsal.wait(timedelta(minutes=30))
    morning = rehearsal.heard()[-1].text
    assert "Day 11." in morning
    assert "less heat" not in morning
    assert "28.5" not in morning
