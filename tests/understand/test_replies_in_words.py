"""Answers to our menus in the farmer's own words: every question, option and language, with
wordings that were written apart from the lists (replies.yaml beside this file)."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
import yaml

from bot.decide.common import BEHAVIOUR
from bot.decide.danger import LOOK, LOOKS
from bot.decide.entries import BEHIND
from bot.diagnosis.question import LITTER, LITTER_SIGNS, SIGN
from bot.diagnosis.story import DEAD, DEADS, ONE_LOOK, ONE_LOOKS, SPOT, SPOTS, WAKE, WAKES, WORKED
from bot.facts.talk import Hearing, Meaning
from bot.wiring import Thinking

ASKED = yaml.load((Path(__file__).parent / "replies.yaml").read_text(), yaml.BaseLoader)
MENUS = {
    "behaviour": ("behaviour", BEHAVIOUR),
    "litter": ("litter", LITTER),
    "check_back": ("worked", WORKED),
    SPOT: ("yes_no", SPOTS),
    WAKE: ("yes_no", WAKES),
    ONE_LOOK: ("yes_no", ONE_LOOKS),
    DEAD: ("yes_no", DEADS),
    LOOK: ("yes_no", LOOKS),
    "vet_reached": ("yes_no", ("yes", "not_yet")),
    "nights": ("yes_no", ("warm", "cool", "cold")),
    "behind": ("yes_no", BEHIND),
}
WORDINGS = [
    (question, option, language, text)
    for question, options in ASKED.items()
    for option, languages in options.items()
    for language, texts in languages.items()
    for text in texts
]


def heard(thinking: Thinking, question: str, language: str, text: str) -> Meaning:
    prompt, options = MENUS.get(question, ("yes_no", ("yes", "no")))
    hearing = Hearing(date(2026, 3, 4), language, has_batch=True, age_days=6, count=300)
    asked = replace(hearing, prompt=prompt, options=options, asked=question)
    return thinking.reader.read(text, asked)


@pytest.mark.parametrize(("question", "option", "language", "text"), WORDINGS)
def test_words_that_restate_an_option_are_that_option(
    thinking: Thinking, question: str, option: str, language: str, text: str
) -> None:
    meaning = heard(thinking, question, language, text)
    if question == "behaviour":
        assert option in meaning.signals
    elif question == "litter" and option != "dry":
        assert LITTER_SIGNS[option] in meaning.signals
    else:
        seen = option == "yes" and question.removeprefix(SIGN) in meaning.signals
        assert seen or meaning.slots.answer == option


@pytest.mark.parametrize(
    ("question", "language", "text", "answer"),
    [
        ("sign:not_drinking", "en", "not full", "yes"),
        ("sign:not_drinking", "fr", "ils ne sont pas pleins", "yes"),
        ("sign:not_drinking", "sw", "havijajaa vyote", "yes"),
        ("sign:not_drinking", "en", "no they are all full", "no"),
        ("sign:stove_out", "en", "no all are burning", "no"),
        ("sign:rain_or_wind_in", "en", "no wind", "no"),
        ("sign:feed_mouldy", "sw", "hakina ukungu", "no"),
        ("sign:panting", "en", "not open", "no"),
        ("check_back", "fr", "pas mieux", "same"),
        ("check_back", "en", "not worse", "same"),
        ("check_back", "en", "smell less but heap deeper", "worse"),
        ("check_back", "en", "a bit better but still piled at the stove", "same"),
        ("wake", "en", "all get up but 3 stay down", "few"),
    ],
)
def test_a_denied_option_is_its_contrary_and_of_two_the_graver_counts(
    thinking: Thinking, question: str, language: str, text: str, answer: str
) -> None:
    assert heard(thinking, question, language, text).slots.answer == answer


@pytest.mark.parametrize(
    ("question", "language", "text", "answer"),
    [
        ("cold_spot", "en", "litter is soaked and wind too", "spot_wet+spot_wind"),
        ("cold_spot", "fr", "litiere mouillee et l'ampoule est grillee", "spot_wet+spot_out"),
        ("dead_look", "sw", "wana alama za meno na chakula kina ukungu", "dead_bitten+dead_feed"),
    ],
)
def test_two_options_told_are_both_taken(
    thinking: Thinking, question: str, language: str, text: str, answer: str
) -> None:
    assert heard(thinking, question, language, text).slots.answer == answer


def test_words_that_answer_are_no_other_sign(thinking: Thinking) -> None:
    wind = heard(thinking, "sign:rain_or_wind_in", "fr", "oui ca souffle en bas cote sud")
    hole = heard(thinking, "sign:rats_or_predator", "en", "a hole in the wall")
    assert (wind.slots.answer, wind.signals) == ("yes", ())
    assert (hole.slots.answer, hole.signals) == ("yes", ())


def test_a_sign_of_danger_beside_an_answer_stands(thinking: Thinking) -> None:
    told = heard(thinking, "sign:not_drinking", "en", "all full but there is blood in droppings")
    assert told.slots.answer == "no"
    assert "bloody_droppings" in told.signals


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "1 mort"),
        ("fr", "2 sont morts depuis"),
        ("sw", "1 amekufa"),
        ("en", "3 dead"),
        ("en", "2 are dead"),
    ],
)
def test_a_count_of_dead_is_no_digit_of_the_check_back(
    thinking: Thinking, language: str, text: str
) -> None:
    meaning = heard(thinking, "check_back", language, text)
    assert meaning.slots.answer in (None, "worse")
    assert any(one.slots.deaths for one in meaning.facts())


@pytest.mark.parametrize(
    ("question", "language", "text"),
    [
        ("behaviour", "en", "5 have droppings stuck"),
        ("sign:not_drinking", "en", "2 drinkers are dry"),
        ("deaths_look", "en", "two look sleepy"),
    ],
)
def test_a_figure_before_what_it_counts_is_no_digit(
    thinking: Thinking, question: str, language: str, text: str
) -> None:
    meaning = heard(thinking, question, language, text)
    assert meaning.slots.answer not in ("no", "heap")
    assert "at_edges_or_walls" not in meaning.signals


def test_a_record_is_no_answer(thinking: Thinking) -> None:
    text = "bought 50 kg dry feed for 3000"
    assert heard(thinking, "sign:not_drinking", "en", text).slots.answer is None


@pytest.mark.parametrize("text", ["wanne", "wawili", "viwili", "mmoja"])
def test_a_number_word_that_agrees_with_what_it_counts_is_no_digit(
    thinking: Thinking, text: str
) -> None:
    """ "nne" is the digit; "wanne" are four chicks, drinkers, people."""
    assert heard(thinking, "behaviour", "sw", text).signals == ()
    assert heard(thinking, "cold_spot", "sw", text).slots.answer is None
    assert heard(thinking, "behaviour", "sw", "nne").signals == ("crowded_one_side",)


@pytest.mark.parametrize(
    ("language", "text", "full", "of"),
    [
        ("fr", "4 durs et secs, 6 vides", 4, 10),
        ("en", "6 full 4 empty", 6, 10),
        ("en", "4 empty, 6 full", 6, 10),
        ("en", "4 empty", 6, 10),
        ("sw", "4 matupu 6 yamejaa", 6, 10),
        ("sw", "6 yamejaa, 4 matupu", 6, 10),
        ("fr", "3 vides", 7, 10),
        ("en", "6 of 10", 6, 10),
    ],
)
def test_full_and_empty_crops_are_counted_together(
    thinking: Thinking, language: str, text: str, full: int, of: int
) -> None:
    hearing = Hearing(date(2026, 3, 4), language, has_batch=True, age_days=1, count=300)
    asked = replace(hearing, prompt="crop", asked="crop")
    slots = thinking.reader.read(text, asked).slots
    assert (slots.crops_full, slots.crops_of) == (full, of)
