"""Who sleeps away from a fire, or by one that is out, is not dulled by it; who lies flat in a
corner, so many of them, is dead; who may visit is asked; "not this, it is that"."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BATCH = {"has_batch": True, "age_days": 8, "count": 300, "today": "2026-03-04"}
DROWSY = "drowsy_people_or_birds_near_stove"


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("chicks sleep along the west wall far from the stove and cry", "en"),
        ("they sleep at the edges away from the heater and make noise", "en"),
        ("stove was off, the boy slept off, the rest shiver", "en"),
        ("les poussins dorment contre le mur loin du feu et piaillent", "fr"),
        ("le feu etait eteint le gardien s etait endormi", "fr"),
        ("vifaranga wanalala ukutani mbali na jiko wanalia", "sw"),
    ],
)
def test_asleep_away_from_the_fire_is_no_bad_air(thinking: Thinking, text: str, lang: str) -> None:
    assert DROWSY not in read(thinking, text, lang, **BATCH)["signals"]


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("the watchman fell asleep near the stove and does not wake", "en"),
        ("they sleep around the stove and dont wake", "en"),
        ("chicks asleep by the stove, air heavy", "en"),
        ("le gardien est endormi pres du feu on n arrive pas a le reveiller", "fr"),
        ("mlinzi amelala karibu na jiko haamki", "sw"),
    ],
)
def test_asleep_by_the_fire_is_bad_air(thinking: Thinking, text: str, lang: str) -> None:
    assert DROWSY in read(thinking, text, lang, **BATCH)["signals"]


@pytest.mark.parametrize(
    ("text", "lang", "dead"),
    [
        ("35 flat in the corner this morning", "en", 35),
        ("found 20 squashed in a corner", "en", 20),
        ("the fire went out, 30 flattened in the corner", "en", 30),
        ("35 aplatis dans le coin ce matin", "fr", 35),
        ("le feu s est eteint, 30 ecrases dans le coin", "fr", 30),
    ],
)
def test_flat_in_the_corner_in_numbers_is_dead(
    thinking: Thinking, text: str, lang: str, dead: int
) -> None:
    got = read(thinking, text, lang, **BATCH)
    told = got["slots"].get("parts", [got])
    assert [one["slots"]["deaths"] for one in told if one["intent"] == "deaths"] == [dead]
    assert got["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "pupils want to visit the house tomorrow, 30 children, is it ok",
        "a teacher wants to bring 30 pupils to see the birds, can they enter",
    ],
)
def test_who_may_come_in_is_asked(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", **BATCH)
    assert (got["intent"], got["slots"].get("topic")) == ("ask", "biosecurity")


@pytest.mark.parametrize(
    ("text", "lang", "told", "denied"),
    [
        ("it is not coughing it is gasping", "en", "gasping", "sneezing_or_rattle"),
        ("its not diarrhoea its blood", "en", "bloody_droppings", "white_or_green_diarrhoea"),
        ("ce n est pas une diarrhee normale c est du sang", "fr", "bloody_droppings", ""),
        ("si kuhara tu ni damu", "sw", "bloody_droppings", ""),
    ],
)
def test_not_this_but_that_is_that(
    thinking: Thinking, text: str, lang: str, told: str, denied: str
) -> None:
    signs = read(thinking, text, lang, **BATCH)["signals"]
    assert told in signs
    assert denied not in signs


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("it is not blood its red paint on the droppings", "en"),
        ("no cough it is only dust", "en"),
        ("not huddling, it is nothing", "en"),
        ("si damu ni rangi", "sw"),
        ("ce n est pas du sang c est de la peinture dans les fientes", "fr"),
    ],
)
def test_not_this_but_nothing_stays_denied(thinking: Thinking, text: str, lang: str) -> None:
    assert not read(thinking, text, lang, **BATCH)["red_flag"]
