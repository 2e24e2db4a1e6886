"""A sign of danger with a cry for help behind it is told, not asked about: "their droppings are
white, what do I do". Rules: practice (Danger)."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("language", "text", "sign"),
    [
        ("sw", "bwana, mavi meupe nifanye nini?", "white_or_green_diarrhoea"),
        ("sw", "habari, kuku wanahara nifanye nini", "white_or_green_diarrhoea"),
        ("sw", "kuku wangu wanachechemea nifanye nini?", "limping_or_down"),
        ("fr", "au secours! les poulets boitent tous que faire?", "limping_or_down"),
        ("en", "sir, the chicks have greenish watery droppings what do i do?",
         "white_or_green_diarrhoea"),
    ],
)  # fmt: skip
def test_a_danger_with_a_cry_for_help_is_told(
    thinking: Thinking, language: str, text: str, sign: str
) -> None:
    got = read(thinking, text, lang=language)
    assert sign in got["signals"]
    assert got["red_flag"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "if i see white droppings what do i do?"),
        ("en", "what do i do when chicks limp?"),
        ("fr", "si les poulets ont la diarrhee que faire?"),
        ("sw", "kuku wakihara nifanye nini?"),
    ],
)
def test_what_is_only_asked_about_is_not(thinking: Thinking, language: str, text: str) -> None:
    assert not read(thinking, text, lang=language)["red_flag"]
