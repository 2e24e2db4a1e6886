"""Preparation with a coming date, the day they are expected, and the sale."""

from __future__ import annotations

from datetime import date, timedelta

from bot.day.due import due
from tests.day.farms import PLACED, Play, batch, calendar, case, event, local, play


def _day(age: int) -> date:
    return PLACED + timedelta(days=age)


PLANNED = batch(state="planned", arrived_at=None)


def test_preparation_runs_from_four_weeks_before() -> None:
    told = play(PLANNED, 0)
    for row, age in (
        ("order_chicks", -28),
        ("find_vet", -14),
        ("clean_house", -7),
        ("disinfect", -6),
        ("try_stoves", -3),
        ("litter_in", -1),
        ("water_ready", -1),
    ):
        assert told.saying(row)[0] == age, row
    assert told.day(-1, "night").rows == ("warm_brooder",)


def test_fire_is_told_of_in_the_evening_before_the_stoves_are_lit() -> None:
    told = play(PLANNED, 0)
    assert [one.age for one in told.of_slot("fire")] == [-2]
    assert [one.age for one in told.of_slot("fumes")] == [-2]


def test_days_without_a_task_have_no_text() -> None:
    assert len(play(PLANNED, 0).told) < 20


def test_a_batch_planned_late_still_gets_what_has_not_passed() -> None:
    mine = PLANNED
    told = Play(case(mine), mine, [], []).until(local(PLACED, 0), local(_day(-3), 5))
    said = {row for one in told.told for row in one.rows}
    assert {"clean_house", "try_stoves", "litter_in", "fire_before"} <= said
    assert "order_chicks" not in said


def test_each_morning_from_the_planned_day_asks_whether_they_have_come() -> None:
    told = play(PLANNED, 6)
    for age in range(6):
        question = told.day(age).question
        assert question is not None
        assert question.name == "arrived"


def test_unanswered_the_days_go_on_from_eight_oclock_of_the_planned_day() -> None:
    told = play(PLANNED, 5)
    assert "paper_off" in told.day(3).rows
    assert not told.of_slot("feed")


def test_selling_is_not_named_while_a_withdrawal_runs_nor_when_its_days_are_unknown() -> None:
    known = batch(events=(event("treated", _day(30), days=10, product="a"),))
    for age in range(31, 41):
        found = due(case(known), known, calendar(), local(_day(age), 6, 30))
        assert not {"feed_off", "catch_calm"} & set(found[0].rows)
    unknown = play(batch(events=(event("treated", _day(20), product="a"),)))
    assert unknown.saying("feed_off") == []
    assert unknown.saying("sell_tomorrow") == []
    assert play(batch()).saying("feed_off")


def test_on_the_last_day_of_a_withdrawal_the_sale_is_said_for_tomorrow() -> None:
    told = play(batch(events=(event("treated", _day(28), days=7, product="a"),)))
    assert told.saying("sell_tomorrow") == [35]
    assert "Feed off at 20:00" in told.day(35).text


def test_no_text_names_what_was_given() -> None:
    told = play(batch(events=(event("treated", _day(5), days=3, product="oxybrand"),)))
    assert not any("oxybrand" in one.text for one in told.told)


def test_the_daily_texts_end_with_the_calendar() -> None:
    mine = batch()
    old = local(_day(60), 6, 30)
    assert due(case(mine), mine, calendar(), old) == ()
