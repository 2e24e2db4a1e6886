"""A question about another beast is no question of the trade, unless the birds are in it."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "mbuzi wangu anakohoa nimpe nini"),
        ("sw", "ng'ombe hataki kula nifanyeje"),
        ("sw", "kondoo wangu anaharisha nimpe dawa gani"),
        ("en", "my goat is coughing what do i give it"),
    ],
)
def test_no_question_of_ours(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] == "other"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "naweza kufuga mbuzi na kuku pamoja?"),
        ("sw", "mbuzi akiingia bandani ni hatari?"),
        ("en", "can goats stay with my chicks"),
    ],
)
def test_beside_the_birds_it_is(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] == "ask"
