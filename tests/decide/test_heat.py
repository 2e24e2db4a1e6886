"""Readings of grown birds: what is said at each level of heat stress.

Outside the project: heat stress of grown birds begins at 26.7 C and is clear at 29.4 C and 60 %
humidity (Hot weather management of poultry, Farms.com); the index is that of Tao and Xin (2003).
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.context import read_context
from bot.doors.rehearsal import Rehearsal
from bot.doors.scene import set_the_scene
from bot.say.segments import measure
from tests.decide.scene import at_age

WATCH = {"en": "getting hot", "sw": "linaanza kuwazidi", "fr": "chaud pour eux"}
ACT = {"en": "too hot. Open all", "sw": "Labda ni joto kali. Fungua", "fr": "Trop chaud. Ouvrez"}
DANGER = {"en": "Deadly heat", "sw": "Joto la kuua", "fr": "Chaleur mortelle"}


@pytest.mark.parametrize("language", ["en", "sw", "fr"])
@pytest.mark.parametrize(
    ("said", "level"),
    [("27C", WATCH), ("29C", WATCH), ("30C", ACT), ("32C", ACT), ("34C", DANGER), ("38C", DANGER)],
)
def test_each_level_of_heat_says_what_to_do(
    rehearsal: Rehearsal, language: str, said: str, level: dict[str, str]
) -> None:
    at_age(rehearsal, 28, language=language)
    text = rehearsal.say(said)[0].texts[0]
    assert level[language] in text
    assert text.startswith(said[:2] + " C")
    assert measure(text).parts == 1


def test_below_the_first_level_the_reading_is_good(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 28)
    assert rehearsal.say("26C")[0].texts == ("26 C is good.",)


def test_deadly_heat_names_the_vet_and_is_looked_at_again_in_half_an_hour(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 28)
    taken, _ = rehearsal.say("34C and panting")
    assert "+254700000099" in taken.texts[0]
    assert "We ask again at 09:30" in taken.texts[0]
    rehearsal.wait(timedelta(minutes=40))
    assert "How are they now?" in rehearsal.heard()[-1].text


def test_worse_after_deadly_heat_never_goes_back_to_saying_less(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 28)
    rehearsal.say("34C and panting")
    rehearsal.wait(timedelta(minutes=40))
    assert "Still too hot" in rehearsal.say("3")[0].texts[0]


def test_no_heat_index_is_taken_for_chicks(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 5)
    assert "Deadly" not in rehearsal.say("36C")[0].texts[0]


def test_a_shed_that_grows_hotter_is_told_the_next_level(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 28)
    said = [rehearsal.say(one)[0].texts[0] for one in ("27C", "30C", "35C")]
    assert [WATCH["en"] in said[0], ACT["en"] in said[1], DANGER["en"] in said[2]] == [True] * 3


@pytest.mark.parametrize("text", ["they pile up in the corner", "all heaped at the stove"])
def test_smothering_at_night_is_asked_about_at_the_hour_that_was_promised(
    rehearsal: Rehearsal, text: str
) -> None:
    now = "2026-07-09T03:10:00+03:00"
    context = {"has_batch": True, "age_days": 15, "count": 300, "today": "2026-07-09",
               "house": "open", "now": now}  # fmt: skip
    set_the_scene(rehearsal, read_context("en", context))
    assert "We ask again at 03:30" in rehearsal.say(text)[0].texts[0]
    rehearsal.wait(timedelta(minutes=31))
    assert "How are they now?" in rehearsal.heard()[-1].text
