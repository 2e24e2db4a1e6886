"""Staying with a trouble: the named hour has passed, the heap at night, the end of what we know, a
danger that was none. Common practice of brooding trainers, no source."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from bot.doors.context import read_context
from bot.doors.rehearsal import Rehearsal
from bot.doors.scene import set_the_scene
from bot.facts.talk import Decision
from tests.decide.scene import at_age
from tests.diagnosis.talking import Farm, answers, denied, seen

HEAP = seen("piled_near_heat", "noisy_distress")


def keys(found: Decision) -> list[str]:
    return [line.key for line in found.lines]


def asked(found: Decision) -> str | None:
    return found.question.name if found.question else None


def line(found: Decision, key: str) -> Any:
    return next(one for one in found.lines if one.key == key)


# The named hour


def test_before_the_named_hour_it_says_to_go_on_and_how_many_minutes_are_left() -> None:
    farm = Farm(5)
    farm.tell(HEAP)
    farm.wait(minutes=9)
    found = farm.tell(HEAP)
    assert keys(found) == ["go_on"]
    assert line(found, "go_on").values["n"] == 20


@pytest.mark.parametrize("hour", [9, 22, 3])
@pytest.mark.parametrize("cause", ["piled_near_heat", "stove_out"])
def test_past_the_named_hour_nothing_is_ever_answered_with_go_on(hour: int, cause: str) -> None:
    farm = Farm(5, hour=hour)
    farm.tell(seen(cause, "noisy_distress"))
    for _ in range(6):
        farm.wait(minutes=45)
        assert "go_on" not in keys(farm.tell(seen(cause, "noisy_distress")))


def test_the_same_sign_past_the_hour_counts_as_a_try_that_failed() -> None:
    farm = Farm(7, hour=22, heat=("bulb",))
    farm.tell(HEAP)
    farm.wait(minutes=31)
    found = farm.tell(HEAP)
    assert keys(found) == ["taken_same", "heap_apart"]
    assert asked(found) == "cold_spot"
    assert farm.complaint is not None
    assert "worked:cold:same" in farm.complaint.asked


@pytest.mark.parametrize(
    ("answer", "heat", "key"),
    [
        ("spot_wet", "charcoal", "cold_damp"),
        ("spot_wet", "bulb", "cold_damp_hang"),
        ("spot_out", "charcoal", "relight_fire"),
        ("spot_out", "bulb", "relight_bulb"),
        ("spot_wind", "charcoal", "draught"),
        ("spot_none", "charcoal", "cold_more"),
    ],
)
def test_what_is_found_where_they_lie_is_acted_on_at_once(answer: str, heat: str, key: str) -> None:
    farm = Farm(7, hour=22, heat=(heat,))
    farm.tell(HEAP)
    farm.checked_back()
    assert asked(farm.tell(answers("same"))) == "cold_spot"
    found = farm.tell(answers(answer))
    assert key in keys(found)
    assert found.question is None


def test_what_is_found_there_may_be_told_in_words_too() -> None:
    farm = Farm(7, hour=22)
    farm.tell(HEAP)
    farm.checked_back()
    farm.tell(answers("worse"))
    assert "draught" in keys(farm.tell(seen("rain_or_wind_in")))


def test_worse_by_a_digit_and_then_a_place_is_no_go_on() -> None:
    farm = Farm(6, hour=21, heat=("gas",))
    farm.tell(seen("piled_near_heat", "crowded_one_side"))
    farm.checked_back()
    farm.tell(answers("worse"))
    farm.wait(minutes=40)
    assert "go_on" not in keys(farm.tell(seen("crowded_one_side")))


# The heap


@pytest.mark.parametrize("age", [2, 9, 18])
def test_a_heap_at_night_is_parted_by_hand_and_looked_at_soon(age: int) -> None:
    farm = Farm(age, hour=23)
    found = farm.tell(HEAP)
    assert keys(found)[0] == "heap_apart"
    assert farm.complaint is not None
    assert farm.complaint.check_at is not None
    left = farm.complaint.check_at - farm.case.now
    assert timedelta(minutes=15) <= left <= timedelta(minutes=20)


def test_a_heap_by_day_is_parted_at_once_and_again() -> None:
    farm = Farm(5)
    assert keys(farm.tell(HEAP))[0] == "heap_apart"
    farm.checked_back()
    assert "heap_apart" in keys(farm.tell(answers("same")))


def test_a_heap_at_night_is_asked_about_in_the_night(rehearsal: Rehearsal) -> None:
    context = {"has_batch": True, "age_days": 7, "count": 120, "today": "2026-06-24",
               "heat": "bulb", "now": "2026-06-24T23:10:00+03:00"}  # fmt: skip
    set_the_scene(rehearsal, read_context("en", context))
    first = " ".join(rehearsal.say("all heaped together crying loud")[0].texts)
    assert "by hand" in first
    assert "23:30" in first
    rehearsal.wait(timedelta(minutes=31))
    assert "How are they now?" in rehearsal.heard()[-1].text


# The end of what we know


@pytest.mark.parametrize("signs", [("panting",), ("piled_near_heat",), ("litter_wet",)])
def test_worse_at_the_end_names_the_vet_and_what_to_do_until_then(signs: tuple[str, ...]) -> None:
    farm = Farm(9)
    farm.tell(seen(*signs))
    found = Decision()
    for _ in range(6):
        farm.checked_back()
        found = farm.tell(answers("worse"))
        while found.question is not None:
            found = farm.tell(answers(found.question.options[-1]))
        if found.referred:
            break
    assert any(key.startswith("all_tried") for key in keys(found))
    assert found.referred


def test_hot_bulbs_in_the_shut_house_go_off_by_day_and_both_sides_open(
    rehearsal: Rehearsal,
) -> None:
    context = {"has_batch": True, "age_days": 9, "count": 120, "today": "2026-02-11",
               "heat": "bulb", "now": "2026-02-11T12:40:00+03:00"}  # fmt: skip
    set_the_scene(rehearsal, read_context("en", context))
    said = " ".join(rehearsal.say("chicks open mouth far from the bulb")[0].texts)
    assert all(one in said for one in ("Bulbs off", "both sides", "cool water"))


# One stove, one bird


@pytest.mark.parametrize(("age", "hour"), [(4, 12), (11, 20)])
def test_the_only_stove_stays_with_young_chicks_and_by_night(age: int, hour: int) -> None:
    farm = Farm(age, hour=hour)
    farm.case = replace(farm.case, batches=(replace(farm.batch, heat_count=1),))
    farm.tell(seen("panting"))
    said = list(farm.complaint.tried) if farm.complaint else []
    for _ in range(3):
        farm.checked_back()
        farm.tell(answers("same"))
        said += farm.complaint.tried if farm.complaint else ()
    assert not {"hot_stove_first", "hot_stove_out", "hot_by_day"}.intersection(said)


def test_hanging_wings_of_an_ill_bird_do_not_change_the_heat_of_all() -> None:
    farm = Farm(11, hour=12, heat=("kerosene",))
    found = farm.tell(seen("lethargic", "eyes_swollen_or_closed", "wings_spread"))
    said = [*keys(found), *(one.key for text in found.more for one in text)]
    assert not any(key.startswith(("hot", "cold")) for key in said)


# A danger that was none


def test_birds_that_were_only_asleep_take_the_danger_and_the_sale_stop_back() -> None:
    farm = Farm(5, heat=("bulb",), hour=20)
    assert farm.tell(seen("sleepy_all_birds")).referred
    assert asked(farm.tell(seen("spread_evenly"))) == "wake"
    found = farm.tell(answers("up"))
    assert keys(found)[-1] == "danger_over"
    assert farm.batch.open_alarm(farm.case.today) is None


def test_beside_a_fire_people_go_out_before_the_clap_and_good_news_ends_the_danger() -> None:
    farm = Farm(5, hour=14)
    first = farm.tell(seen("sleepy_all_birds"))
    assert (keys(first), asked(first)) == (["danger_dull_look"], "wake")
    assert "danger_over" in keys(farm.tell(answers("up")))


@pytest.mark.parametrize("sign", ["bloody_droppings", "twisted_neck_or_paralysis", "gasping"])
def test_what_only_a_vet_can_clear_is_not_taken_back_by_a_spread_flock(sign: str) -> None:
    farm = Farm(9)
    assert farm.tell(seen(sign, many=True)).referred
    farm.wait(minutes=5)
    found = farm.tell(seen("spread_evenly", "quiet_content"))
    assert "danger_over" not in keys(found)
    assert "comfortable" not in keys(found)
    assert farm.batch.open_alarm(farm.case.today) is not None


def test_an_illness_that_is_denied_word_by_word_is_taken_back() -> None:
    farm = Farm(9)
    farm.tell(seen("white_or_green_diarrhoea", many=True))
    farm.wait(minutes=5)
    farm.tell(denied("white_or_green_diarrhoea"))
    found = farm.tell(seen("spread_evenly", "quiet_content"))
    assert "danger_over" in keys(found)


@pytest.mark.parametrize(
    ("language", "trouble", "done"),
    [
        ("en", "the chicks pant", "ok done"),
        ("fr", "les poussins haletent", "c est fait"),
        ("sw", "vifaranga wanahema", "nimefanya"),
    ],
)
def test_who_says_it_is_done_is_asked_how_they_are_and_not_told_off(
    rehearsal: Rehearsal, language: str, trouble: str, done: str
) -> None:
    at_age(rehearsal, 5, language=language)
    rehearsal.say(trouble)
    rehearsal.heard()
    assert not rehearsal.say(done)[0].texts
    rehearsal.wait(timedelta(hours=1))
    assert any("1 " in one.text and "3 " in one.text for one in rehearsal.heard())
