"""What was so then and is so now: the sign of now stands, the sign of then is over."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BATCH = {"has_batch": True, "age_days": 8, "count": 300, "today": "2026-03-04"}


@pytest.mark.parametrize(
    ("text", "lang", "sign"),
    [
        ("yesterday they were fine now they all cough", "en", "sneezing_or_rattle"),
        ("this morning all was good now all of them pant", "en", "panting"),
        ("yesterday no cough today they cough", "en", "sneezing_or_rattle"),
        ("before they slept well now they scream", "en", "noisy_distress"),
        ("hier tout allait bien maintenant ils toussent tous", "fr", "sneezing_or_rattle"),
        ("hier ils allaient bien et maintenant ils haletent", "fr", "panting"),
        ("jana walikuwa sawa sasa wote wanakohoa", "sw", "sneezing_or_rattle"),
        ("asubuhi walikuwa wazima sasa wanahema", "sw", "panting"),
    ],
)
def test_what_is_so_now_stands(thinking: Thinking, text: str, lang: str, sign: str) -> None:
    assert sign in read(thinking, text, lang, **BATCH)["signals"]


@pytest.mark.parametrize(
    ("text", "lang", "sign"),
    [
        ("yesterday they coughed now they are fine", "en", "sneezing_or_rattle"),
        ("was panting now ok", "en", "panting"),
        ("we had smoke last night now none", "en", "smoke_or_fumes"),
        ("hier il y avait du sang maintenant c est fini", "fr", "bloody_droppings"),
        ("jana walikuwa wanahema sasa wametulia", "sw", "panting"),
        ("yesterday they were weak today they hop and chirp", "en", "limping_or_down"),
        ("last night noise now all sleep", "en", "sleepy_all_birds"),
    ],
)
def test_what_was_so_then_is_over(thinking: Thinking, text: str, lang: str, sign: str) -> None:
    assert sign not in read(thinking, text, lang, **BATCH)["signals"]


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("two years ago rats ate many of my chicks", "en"),
        ("long ago i had 100 birds and they died", "en"),
        ("before i joined you disease killed all my birds", "en"),
        ("il y a deux ans des rats ont mange mes poussins", "fr"),
        ("il y a longtemps j ai perdu 100 poussins", "fr"),
        ("mwaka jana kuku wangu wote walikufa", "sw"),
    ],
)
def test_what_befell_birds_of_long_ago_is_no_alarm(
    thinking: Thinking, text: str, lang: str
) -> None:
    got = read(thinking, text, lang, **BATCH)
    assert (got["signals"], got["red_flag"]) == ([], False)


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("cause of bloody droppings", "disease"),
        ("meaning of withdrawal period", "withdrawal"),
        ("what is brooding", "heating"),
        ("explain how vaccination is done", "vaccination"),
    ],
)
def test_what_a_thing_is_or_comes_from_is_asked(thinking: Thinking, text: str, topic: str) -> None:
    got = read(thinking, text, "en", **BATCH)
    assert (got["intent"], got["slots"].get("topic"), got["red_flag"]) == ("ask", topic, False)


@pytest.mark.parametrize(
    "text",
    [
        "add 100kg feed to my store",
        "the dealer supplied 150 kg",
        "my brother carried 2 bags feed to the farm",
        "topped up my feed store with 75kg",
    ],
)
def test_feed_that_came_was_not_eaten(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", **BATCH)
    assert (got["intent"], got["slots"].get("feed_move")) == ("feed", "in")


@pytest.mark.parametrize(
    "text",
    [
        "my broilers are finished, all sold to one hotel",
        "during my training the teacher showed us birds with swollen heads",
        "in the seminar the trainer taught us about bloody droppings",
    ],
)
def test_sold_out_and_shown_in_class_is_no_alarm(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", **{**BATCH, "age_days": 38})
    assert (got["signals"], got["red_flag"]) == ([], False)


@pytest.mark.parametrize(
    "text",
    [
        "my birds are finished, none is left to be sold",
        "in the training they said cold kills, my chicks are gasping",
    ],
)
def test_what_befell_the_own_birds_is_an_alarm(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", **BATCH)["red_flag"]


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("i lost no chick this week", "en"),
        ("we have lost no birds", "en"),
        ("j ai perdu aucun poussin", "fr"),
    ],
)
def test_to_lose_none_is_no_death(thinking: Thinking, text: str, lang: str) -> None:
    got = read(thinking, text, lang, **BATCH)
    assert (got["intent"], got["slots"]) == ("deaths", {"deaths": 0})
