"""Many deaths told without a figure, by what carries them, covers the floor or is left; and what
only sounds so. Rule: contract, danger. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "two buckets full of dead chicks this morning"),
        ("en", "the ground is littered with carcasses"),
        ("en", "death has visited my flock"),
        ("en", "the whole pen is wiped out"),
        ("en", "one in four is dead today"),
        ("fr", "trois bassines de poussins morts ce matin"),
        ("fr", "la litiere est couverte de cadavres"),
        ("fr", "une poule sur quatre est morte"),
        ("fr", "le lot est decime depuis hier"),
        ("sw", "ndoo mbili za vifaranga waliokufa"),
        ("sw", "banda limekuwa makaburi"),
        ("sw", "nusu ya kuku wamekufa usiku"),
    ],
)
def test_many_dead_are_heard_without_a_figure(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang=lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "two buckets full of water this morning"),
        ("en", "a sack of dead rats in the store"),
        ("en", "i wiped out the drinkers"),
        ("en", "the floor is covered with shavings"),
        ("fr", "deux bassines de sciure ce matin"),
        ("fr", "un seau plein de souris mortes"),
        ("sw", "ndoo mbili za maji leo"),
        ("sw", "gunia la panya waliokufa"),
    ],
)
def test_what_only_sounds_like_many_dead_is_no_danger(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert not read(thinking, text, lang=lang, age_days=20)["red_flag"]
