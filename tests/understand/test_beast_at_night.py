"""What came in the night is told by what it left: bent wire, feathers, heads; and a question about
this evening takes none of it back. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "some animal bent the wire at the door and two are gone"),
        ("en", "a dog tore the net and took 3"),
        ("fr", "l'animal a tordu le grillage en bas de la porte"),
        ("fr", "une bete a souleve la planche de la porte cette nuit"),
        ("sw", "mnyama amepinda waya wa mlango"),
        ("sw", "manyoya yametapakaa na damu, wawili hawaonekani"),
        ("sw", "nimekuta vichwa viwili vimeng'atwa"),
    ],
)
def test_what_it_left_tells_of_a_beast(thinking: Thinking, language: str, text: str) -> None:
    assert "rats_or_predator" in read(thinking, text, language, age_days=19)["signals"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "i bent the wire at the door so it closes"),
        ("fr", "j'ai ouvert le grillage pour aerer"),
        ("sw", "nimefungua mlango wa waya asubuhi"),
    ],
)
def test_who_works_at_the_wire_is_none(thinking: Thinking, language: str, text: str) -> None:
    assert "rats_or_predator" not in read(thinking, text, language, age_days=19)["signals"]


def test_asking_what_to_do_this_evening_takes_nothing_back(thinking: Thinking) -> None:
    text = "cette nuit une bete est entree, il manque 3 poussins. comment on fait ce soir"
    assert "rats_or_predator" in read(thinking, text, "fr", age_days=19)["signals"]
