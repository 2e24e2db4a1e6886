"""The first day, by the hour, and the answer to "arrived"."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, time, timedelta

from bot.day.arrival import arrival_lines, arrival_rows_said, arrival_texts
from bot.facts.farm import Cooperative
from bot.say.render import Voice, compose
from bot.say.segments import measure
from tests.day.farms import NAIROBI, PLACED, batch, calendar, case, local, play, texts


def _answer(hour: int, told: int | None = None, coop: Cooperative = NAIROBI) -> list[str]:
    mine = batch(arrived_at=local(PLACED, hour))
    found = arrival_texts(case(mine, coop=coop), mine, calendar(), local(PLACED, told or hour))
    return [compose(one, None, Voice("en"), texts(), pushed=False) for one in found]


def test_the_answer_says_water_now_and_feed_two_hours_later_without_waiting() -> None:
    first = _answer(8)[0]
    assert "Clean lukewarm water now" in first
    assert "Feed at 10:00" in first
    assert "do not wait" in first


def test_told_late_the_answer_skips_the_hours_already_gone() -> None:
    first = _answer(8, told=12)[0]
    assert "10:00" not in first
    assert "feed now" in first


def test_glucose_is_named_without_an_amount_and_can_be_switched_off() -> None:
    assert "glucose and vitamins as the packet or your vet says" in _answer(8)[0]
    plain = replace(NAIROBI, water_mix=False)
    assert "glucose" not in _answer(8, coop=plain)[0]
    assert "Feed at 10:00" in _answer(8, coop=plain)[0]


def test_before_three_the_night_is_left_to_the_evening() -> None:
    assert len(_answer(14)) == 1
    assert [one.due.slot for one in play(batch(arrived_at=local(PLACED, 14)), 1).told] == [
        "feed", "night", "fire", "fumes"]  # fmt: skip


def test_after_three_the_night_and_the_fire_stand_in_the_answer_and_are_not_pushed_again() -> None:
    answer = _answer(16)
    assert any(one.startswith("Night:") for one in answer)
    assert any(one.startswith("Fire:") for one in answer)
    assert all(measure(one).parts == 1 for one in answer)
    told = play(batch(arrived_at=local(PLACED, 16)), 8)
    assert [one.due.slot for one in told.told if one.age == 0] == ["feed"]
    assert told.saying("fire_first") == []
    assert told.saying("fire_weekly") == [7]


def test_arriving_at_22_the_rows_of_the_first_day_go_next_morning_with_its_target() -> None:
    told = play(batch(arrived_at=local(PLACED, 22)), 3)
    assert [one.age for one in told.told if one.age == 0] == []
    morning = told.day(1)
    assert "34 C" in morning.text
    assert "count_boxes" in morning.rows
    assert morning.question is not None
    assert morning.question.name == "crop"
    assert "33 C" not in morning.text
    assert "32 C" in told.day(2).text


def test_the_reminder_comes_two_hours_after_arrival_and_crops_six_hours_after_the_feed() -> None:
    told = play(batch(), 1)
    assert [(one.due.slot, one.local.time()) for one in told.told[:2]] == [
        ("feed", time(10)),
        ("crop", time(16)),
    ]
    assert told.told[1].question is not None
    assert told.told[1].question.about["hours"] == "6"


def test_crops_that_would_be_asked_in_the_night_are_asked_in_the_morning() -> None:
    told = play(batch(arrived_at=local(PLACED, 15)), 2)
    assert not told.of_slot("crop")
    assert told.saying("ask:crop") == [1]


def test_a_reminder_is_never_sent_late() -> None:
    mine = batch()
    told = play(mine, 1).__class__(case(mine), mine, [], [])
    told.at(local(PLACED, 11, 30))
    assert not told.of_slot("feed")


def test_a_strict_operator_has_the_first_day_hours_in_the_answer_only() -> None:
    strict = replace(NAIROBI, allowed_from=time(8), allowed_to=time(18))
    told = play(batch(), 9, coop=strict)
    assert not told.of_slot("feed")
    assert all(time(8) <= one.local.time() < time(18) for one in told.told)


def test_the_rows_that_the_answer_says_are_named() -> None:
    mine = batch(arrived_at=local(PLACED, 16))
    said = arrival_rows_said(case(mine), mine, calendar(), local(PLACED, 16))
    assert {"arrival_mix", "night_first", "fire_first", "fumes_first"} <= set(said)
    assert arrival_lines(case(mine), mine, calendar(), local(PLACED, 16))[0].key == "arrival_mix"


def test_the_day_of_arrival_has_no_second_routine_text() -> None:
    mine = batch(arrived_at=local(PLACED, 5))
    assert not [one for one in play(mine, 1).told if one.due.slot == "morning"]


def test_light_burns_all_the_first_night() -> None:
    assert "light on" in play(batch(), 1).day(0, "night").text


def test_moments_are_in_utc() -> None:
    told = play(batch(), 2)
    assert all(one.due.expires_at.utcoffset() == timedelta(0) for one in told.told)
    assert isinstance(told.told[0].local, datetime)
    assert local(PLACED, 8).tzinfo is UTC


def test_told_three_days_late_the_answer_says_which_day_it_is() -> None:
    mine = batch(arrived_at=local(PLACED, 9))
    told = local(PLACED.replace(month=4, day=3), 10)
    [first] = arrival_texts(case(mine), mine, calendar(), told)
    text = compose(first, None, Voice("en"), texts(), pushed=False)
    assert text.startswith("Day 4. About 31 C")


def test_the_answer_is_never_empty() -> None:
    for changes in ({"state": "draft", "count": None}, {"placed_on": PLACED.replace(year=2025)}):
        mine = batch(**changes)
        assert arrival_texts(case(mine), mine, calendar(), local(PLACED, 9))


def test_whoever_comes_in_the_night_hears_of_the_night_and_of_fire_at_once() -> None:
    answer = _answer(2)
    assert any(one.startswith("Night:") for one in answer)
    assert any(one.startswith("Fire:") for one in answer)
