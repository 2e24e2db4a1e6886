"""Danger told in the words of the village: chicks that refuse to wake, clots in the mess, a rattle
from every corner, small bodies counted twice a day. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    "text",
    [
        "so many chicks refuse to wake, the charcoal burned all night",
        "most of them are refusing to wake up this morning",
        "plenty chicks fail to wake since the jiko burned till dawn",
        "all the chicks refused to wake up when i opened",
        "many refuse to get up they just lie flat",
        "the chicks refuse to wake, stove was on all night with curtains closed",
    ],
)
def test_chicks_that_refuse_to_wake_are_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", age_days=4)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "one chick refuses to wake",
        "my son refused to wake up for school",
        "they refuse the new feed",
        "i refuse to wake at night for them",
        "they wake up when i touch the box",
    ],
)
def test_who_else_refuses_is_no_danger(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "en", age_days=9)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "when i cut the mess in two there is clotted blood",
        "i broke open the mess, blood clots inside",
        "cut open their dirt and see blood",
        "i tear the mess open with a stick and its blood",
        "if i cut what they drop i see clots of blood",
        "scratched the mess with a knife, red clots",
    ],
)
def test_blood_in_what_was_cut_open_is_of_the_droppings(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", age_days=25)
    assert "bloody_droppings" in got["signals"]
    assert got["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "i cut my finger and there was blood",
        "cut one open for supper, plenty blood on the knife",
        "the wire cut a leg, blood came out",
        "i cut the toe and blood came",
        "the house is a mess today",
    ],
)
def test_blood_of_a_cut_is_not_of_the_droppings(thinking: Thinking, text: str) -> None:
    assert "bloody_droppings" not in read(thinking, text, "en", age_days=25)["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "khrrr khrrr from every corner of the house at night",
        "at night i hear krrr krrr from all corners of the house",
        "on every side of the house they sneeze",
        "all corners i hear rattling in the chests",
        "coughing comes from all sides of the pen",
        "each corner of the house i hear them wheeze",
    ],
)
def test_heard_from_every_corner_is_of_many(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", age_days=26)
    assert "sneezing_or_rattle" in got["signals"]
    assert got["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "one sneezes in a corner of the house",
        "i hear a cough from one corner",
        "i swept every corner of the house, one sneezed",
        "1 of them goes khrrr at night",
    ],
)
def test_heard_from_one_corner_is_asked_about(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "en", age_days=26)["red_flag"]


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("eight small bodies at six then five more by lunch time, thirteen altogether today", 13),
        ("12 little bodies at dawn and 6 more by supper", 18),
        ("picked 4 bodies at dawn then 3 more after lunch", 7),
        ("9 cold bodies this morning", 9),
        ("found seven tiny bodies under the hover", 7),
        ("five bodies at 6am, six more at noon, total eleven", 11),
    ],
)
def test_bodies_are_counted_dead(thinking: Thinking, text: str, dead: int) -> None:
    got = read(thinking, text, "en", age_days=11)
    assert got["intent"] == "deaths"
    assert got["slots"] == {"deaths": dead}
    assert got["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "their bodies are warm",
        "20 birds with small bodies",
        "six of them have small bodies and big heads",
        "bodies are fine, 6 feathered",
        "everybody is fine, 5 bought feed",
    ],
)
def test_bodies_of_the_living_are_nobodys_count(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", age_days=11)
    parts = [got["intent"], *(one["intent"] for one in got["slots"].get("parts", []))]
    assert "deaths" not in parts
