"""Birds that ran away or flew out are gone and not dead. Worded for this test."""

from __future__ import annotations

import pytest

from bot.facts.talk import Intent
from bot.wiring import Thinking
from tests.understand.reading import heard


@pytest.mark.parametrize(
    ("lang", "text", "count"),
    [
        ("en", "2 escaped", 2),
        ("en", "3 chicks ran away", 3),
        ("en", "two birds flew out over the wall", 2),
        ("en", "5 of them got out last night", 5),
        ("en", "escaped 4 today", 4),
        ("en", "4 birds strayed into the bush", 4),
        ("fr", "2 se sont echappes", 2),
        ("fr", "deux poussins se sont enfuis", 2),
        ("fr", "3 poulets se sont sauves", 3),
        ("sw", "2 wametoroka", 2),
        ("sw", "kuku 3 wametoroka", 3),
        ("sw", "wawili wameponyoka", 2),
    ],
)
def test_they_are_gone_and_not_dead(thinking: Thinking, lang: str, text: str, count: int) -> None:
    got = heard(thinking, text, lang=lang, age_days=20)
    assert (got.intent, got.slots.way, got.slots.count) == (Intent.TAKEN, "escaped", count)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "2 escaped from the dog, 5 died"),
        ("en", "heat escaped through 2 holes"),
        ("en", "they ran away from the stove"),
        ("en", "20 ran to the feeder"),
        ("en", "2 escaped death"),
        ("en", "none escaped"),
        ("fr", "la chaleur s'echappe par 2 trous"),
        ("sw", "wamekimbia moto"),
    ],
)
def test_nobody_left_the_flock(thinking: Thinking, lang: str, text: str) -> None:
    got = heard(thinking, text, lang=lang, age_days=20)
    assert all(one.intent is not Intent.TAKEN for one in got.facts())
