"""A danger told beside a drug that is left of another batch or another's: of then, or of others, is
the drug and not the danger. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "blood in the droppings, i have medicine of the last batch, how much do i mix?"),
        ("en", "heads are swollen, got tablets from my neighbour, how many do i give?"),
        ("fr", "il y a du sang dans les crottes, j'ai le produit de la bande passee, combien?"),
        (
            "fr",
            "du sang dans les fientes, il me reste un produit de l'autre bande, je mets combien?",
        ),
        ("sw", "damu kwenye mavi, nina dawa ya kundi lililopita, niweke kiasi gani?"),
        ("sw", "vichwa vimevimba wengi, nina vidonge vya kundi la zamani, niwape vingapi?"),
    ],
)
def test_the_danger_is_of_now(thinking: Thinking, language: str, text: str) -> None:
    assert read(thinking, text, language, age_days=24)["red_flag"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "en",
            "the last batch had blood in droppings, i have medicine left, how much if it comes?",
        ),
        ("en", "what medicine is good for blood in droppings?"),
        ("fr", "la bande passee avait du sang dans les fientes, j'ai le produit, si ca revient?"),
        ("sw", "kundi lililopita lilikuwa na damu kwenye mavi, nina dawa, niweke wakianza?"),
        ("sw", "dawa gani ya damu kwenye mavi?"),
    ],
)
def test_what_was_of_then_is_none(thinking: Thinking, language: str, text: str) -> None:
    assert not read(thinking, text, language, age_days=24)["red_flag"]
