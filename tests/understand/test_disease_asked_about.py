"""A disease called by its sign in a question is asked about; in one's own birds it is there. Worded
for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "la maladie de la tete enflee, ca vient d ou"),
        ("fr", "la maladie qui tord le cou, il y a un remede?"),
        ("fr", "la maladie du sang dans les fientes c est du a quoi"),
        ("fr", "remede contre la tete enflee ca existe?"),
        ("fr", "chez mon frere les poulets chient du sang, ca peut passer chez moi?"),
        ("en", "the disease of twisted necks, is there a vaccine?"),
    ],
)
def test_a_disease_is_asked_about(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang, age_days=18)
    assert found["intent"] == "ask"
    assert not found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "mes poulets ont la maladie du cou tordu, que faire?"),
        ("fr", "ils ont la maladie qui tord le cou, il y a un remede?"),
        ("fr", "5 ont la maladie de la tete enflee, quel remede?"),
        ("en", "my birds have the disease of twisted necks, is there a vaccine?"),
    ],
)
def test_in_the_own_birds_it_is_there(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang=lang, age_days=18)["red_flag"]


@pytest.mark.parametrize(
    "text", ["on nous a appris a reconnaitre le cou tordu", "au seminaire on a parle du cou tordu"]
)
def test_what_was_taught_is_not_here(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="fr", age_days=9)
    assert found["signals"] == []
    assert not found["red_flag"]
