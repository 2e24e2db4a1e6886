"""Birds that a beast took or killed: it is told how many, and by what. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text", "gone"),
    [
        ("en", "a genet killed three", 3),
        ("en", "a kite took 2", 2),
        ("en", "rats ate 4 chicks in the night", 4),
        ("en", "3 taken by a kite", 3),
        ("sw", "kicheche amechukua watatu", 3),
        ("sw", "wawili wameliwa na paka", 2),
        ("fr", "le chien a tue 4", 4),
        ("fr", "la genette en a pris trois", 3),
        ("fr", "2 poussins emportes par un epervier", 2),
        ("fr", "le chien de la voisine a saigne 3", 3),
        ("fr", "le serpent a avale 2 et l eau est finie", 2),
        ("fr", "la mangouste a fait 5 victimes", 5),
        ("fr", "souris ont perce le filet et mange 2 poussins", 2),
        ("fr", "le chat a bouffe 3", 3),
    ],
)
def test_what_a_beast_took_is_counted(thinking: Thinking, lang: str, text: str, gone: int) -> None:
    found = read(thinking, text, lang=lang, age_days=13)
    parts = {part["intent"]: part["slots"] for part in found["slots"]["parts"]}
    assert parts["deaths"]["deaths"] == gone
    assert "rats_or_predator" in found["signals"]
    assert not found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "the cat ate 3 bags of feed"),
        ("en", "what if a cat takes 3"),
        ("en", "neighbours dog took 3 of his"),
        ("en", "i saw a rat at 4"),
        ("fr", "et si le chat en prend 3"),
        ("fr", "le chien du voisin en a pris 3 chez lui"),
        ("fr", "les rats ont mange 2 sacs"),
        ("sw", "panya wamekula mifuko 2 ya chakula"),
    ],
)
def test_no_bird_is_gone_where_none_was_taken(thinking: Thinking, lang: str, text: str) -> None:
    assert "deaths" not in str(read(thinking, text, lang=lang, age_days=13)["slots"])
