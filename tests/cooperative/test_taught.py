"""Words that a cooperative taught: where they stand for others, and what they never change."""

from __future__ import annotations

import pytest

from bot.cooperative.taught import instead, makes_less, words_of, wrong_with
from bot.facts.farm import TaughtWord
from bot.facts.talk import Intent, Meaning, Slots

TAUGHT = (
    TaughtWord("en", "frimbling", "panting"),
    TaughtWord("en", "frimbling a lot", "all panting"),
    TaughtWord("sw", "wanafrimba", "wanahema"),
)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("they are Frimbling again", "they are panting again"),
        ("FRIMBLING A LOT, 3 dead", "all panting, 3 dead"),
        ("unfrimbling frimblings", "unfrimbling frimblings"),
        ("wanafrimba", "wanafrimba"),
        ("", ""),
    ],
)
def test_whole_words_of_the_language_are_replaced(text: str, read: str) -> None:
    assert instead(text, TAUGHT, "en") == read


def test_what_was_put_in_is_not_looked_at_again() -> None:
    circle = (TaughtWord("en", "abc", "xyz"), TaughtWord("en", "xyz", "abc"))
    assert instead("abc xyz", circle, "en") == "xyz abc"


GRAVE = frozenset({"smoke"})


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (Meaning(Intent.STOP), Meaning(Intent.OBSERVE)),
        (Meaning(Intent.OBSERVE), Meaning(Intent.STOP)),
        (Meaning(Intent.OBSERVE, signals=("smoke",)), Meaning(Intent.OBSERVE, signals=("cold",))),
        (Meaning(Intent.DEATHS, Slots(deaths=3)), Meaning(Intent.DEATHS, Slots(deaths=2))),
        (
            Meaning(Intent.MULTI, parts=(Meaning(Intent.DEATHS, Slots(deaths=3)),)),
            Meaning(Intent.OTHER),
        ),
    ],
)
def test_no_taught_word_makes_less_of_a_danger(before: Meaning, after: Meaning) -> None:
    assert makes_less(before, after, GRAVE)


def test_a_danger_may_be_seen_by_a_taught_word() -> None:
    assert not makes_less(Meaning(Intent.OTHER), Meaning(Intent.OBSERVE, signals=("smoke",)), GRAVE)


@pytest.mark.parametrize(
    ("word", "means", "why"),
    [
        ("frimbling", "panting", None),
        ("les yeux collés", "yeux fermes", None),
        ("ng'ombe", "cow", None),
        ("ab", "x", "word"),
        ("3 dead", "none", "word"),
        ("one two three four", "x", "word"),
        ("a.*b", "x", "word"),
        ("frimbling", "", "means"),
        ("frimbling", "x" * 61, "means"),
        ("frimbling", "they are Frimbling", "same"),
    ],
)
def test_what_can_not_be_taught_says_why(word: str, means: str, why: str | None) -> None:
    found = wrong_with(word, means)
    assert (found.key if found else None) == why


def test_the_words_of_a_text_are_offered_once_each() -> None:
    assert words_of("They, they frimble: 3 of ng'ombe x") == ["they", "frimble", "ng'ombe"]
