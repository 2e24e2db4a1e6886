"""What is told of a bird that died, as it was before: no illness of those that live. Worded for
this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("fr", "1 poule morte ce matin elle etait la plus faible", 1),
        ("fr", "un seul mort, il etait malade depuis le debut", 1),
        ("fr", "1 mort il etait deja fatigue depuis hier", 1),
        ("fr", "2 morts ce matin ils etaient deja faibles", 2),
        ("en", "2 dead they were weak already", 2),
        ("en", "1 died it was the weakest", 1),
        ("sw", "amekufa mmoja alikuwa dhaifu", 1),
    ],
)
def test_the_weak_one_that_died_is_one_death(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    found = read(thinking, text, lang=lang)
    assert (found["intent"], found["slots"]) == ("deaths", {"deaths": dead})
    assert not found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "1 mort et les autres sont tres faibles"),
        ("fr", "1 morte, toutes les autres sont fatiguees"),
        ("en", "1 dead and the others are weak"),
        ("en", "1 died all of them were dull since morning"),
        ("sw", "amekufa mmoja na wengine wote wamezubaa"),
    ],
)
def test_the_weak_that_live_are_danger(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang=lang)["red_flag"]
