"""A bag that got wet, that somebody offers or that stands in the store was not eaten: nothing of
it is taken down. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one bag got wet, can i still give it?"),
        ("en", "the shop lends me one bag till friday"),
        ("en", "a friend offers two bags"),
        ("fr", "un sac est mouille, je peux le donner?"),
        ("fr", "ma soeur me prete un sac"),
        ("sw", "ushirika unanikopesha mfuko mmoja"),
        ("sw", "mfuko mmoja umelowa, naweza kuwapa?"),
        ("sw", "jirani ana mifuko 2 ya kuniuzia"),
        ("sw", "nina mifuko 3 ya chakula stoo"),
    ],
)
def test_it_is_no_record_of_feed(thinking: Thinking, language: str, text: str) -> None:
    assert read(thinking, text, language, age_days=25)["intent"] != "feed"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they ate one bag today"),
        ("en", "bought 2 bags, the road was wet"),
        ("fr", "j'ai donne un sac ce matin"),
        ("sw", "wamekula mfuko mmoja leo"),
    ],
)
def test_what_they_ate_and_what_was_bought_is(thinking: Thinking, language: str, text: str) -> None:
    assert read(thinking, text, language, age_days=25)["intent"] == "feed"


@pytest.mark.parametrize(
    "text", ["dawa ya mifupa ipo? wanakula vizuri", "wanakula, dawa ya miguu je?"]
)
def test_a_medicine_asked_for_was_not_given(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "sw", age_days=25)["intent"] != "treated"
