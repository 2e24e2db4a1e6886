"""What a tired farmer types, and what must never be read into it."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.facts.talk import Hearing, Intent
from bot.wiring import Thinking, build_thinking
from tests.understand.reading import read

READER = build_thinking().reader
TODAY = date(2026, 3, 4)


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("2 dead", 2),
        ("3 chicks dead", 3),
        ("none died", 0),
        ("no deaths today", 0),
        ("wamekufa 2", 2),
        ("hakuna kifo", 0),
        ("2 morts", 2),
        ("aucun mort", 0),
        ("mmoja amekufa", 1),
    ],
)
def test_deaths_are_counted(thinking: Thinking, text: str, dead: int) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["slots"].get("deaths")) == ("deaths", dead)


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("not piling any more", "piled_near_heat"),
        ("they are no longer panting", "panting"),
        ("no smell", "ammonia_smell"),
        ("hawahemi", "panting"),
        ("pas de sang dans les fientes", "bloody_droppings"),
    ],
)
def test_a_denied_sign_is_no_sign_but_evidence(thinking: Thinking, text: str, sign: str) -> None:
    got = read(thinking, text)
    assert sign in got["not_signals"]
    assert sign not in got["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "my neighbour's birds have blood, mine are fine",
        "i need a blood test",
        "red feeder broke",
        "dead battery",
        "stop giving mash?",
        "if they pant what do i do?",
    ],
)
def test_a_harmless_look_alike_raises_no_alarm_and_stops_nothing(
    thinking: Thinking, text: str
) -> None:
    got = read(thinking, text)
    assert not got["red_flag"]
    assert got["intent"] != "stop"


@pytest.mark.parametrize(
    "text",
    [
        "blood in droppings",
        "twisted necks",
        "many are sneezing and gasping",
        "my head is paining since i lit the charcoal",
        "12 died overnight",
        "kinyesi kina damu",
        "du sang dans les fientes",
    ],
)
def test_danger_is_sent_to_a_vet_in_the_same_turn(thinking: Thinking, text: str) -> None:
    assert read(thinking, text)["red_flag"]


@pytest.mark.parametrize("text", ["stop", "STOP please", "please stop sending me messages", "acha"])
def test_stop_is_honoured_by_meaning(thinking: Thinking, text: str) -> None:
    assert read(thinking, text)["intent"] == "stop"


@pytest.mark.parametrize("shape", ["2", "2.", "(2)", " 2 ", "no 2", "two", "mbili", "deux"])
def test_a_menu_digit_is_taken_in_every_shape(thinking: Thinking, shape: str) -> None:
    got = read(thinking, shape, last_prompt="behaviour")
    assert got["signals"] == ["piled_near_heat"]


@pytest.mark.parametrize("prompt", ["deaths", "crop", "feed", "water", "count", "temperature"])
@pytest.mark.parametrize("figure", range(21))
def test_a_figure_for_a_number_question_is_never_a_menu_digit(prompt: str, figure: int) -> None:
    meaning = READER.read(str(figure), Hearing(TODAY, "en", True, 5, 300, prompt))
    slots = meaning.slots
    said = {
        "deaths": slots.deaths,
        "crop": slots.crops_full,
        "feed": slots.kg,
        "water": slots.litres,
        "count": slots.count,
    }
    assert meaning.slots.answer is None
    assert meaning.intent not in (Intent.CALL_ME, Intent.NOT_ME, Intent.OBSERVE)
    if prompt in said and not (prompt == "crop" and figure > 10):
        assert said[prompt] == figure


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=200))
def test_no_text_breaks_the_reader(text: str) -> None:
    assert READER.read(text, Hearing(TODAY)).intent in Intent


def test_a_very_long_text_is_cut_and_said_so() -> None:
    assert READER.read("chicks pile at the stove " * 400, Hearing(TODAY, has_batch=True)).cut


@pytest.mark.parametrize("bait", ["a" * 1600, "no " * 533, "1 " * 800, "not piled " * 160])
def test_bait_for_slow_patterns_is_read_with_bounded_work(bait: str) -> None:
    assert READER.read(bait, Hearing(TODAY, has_batch=True, age_days=5, count=300)) is not None
