"""Somebody came, or something else than chicks: the vet, a trainer, the electrician, guests. Only
where chicks are named, or were waited for and no other is named, chicks came. Worded for this
test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize("age", [0, 8, None])
@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "the vet came today"),
        ("en", "vet has come"),
        ("en", "doctor of animals came yesterday"),
        ("en", "the trainer came"),
        ("en", "visitors came today"),
        ("en", "officer has arrived"),
        ("en", "electrician came"),
        ("en", "my mother has come"),
        ("fr", "le veto est venu"),
        ("fr", "le veterinaire est arrive ce matin"),
        ("fr", "l'encadreur est venu"),
        ("fr", "des visiteurs sont venus"),
        ("fr", "l'electricien est la"),
        ("sw", "daktari amekuja leo"),
        ("sw", "daktari wa mifugo amefika"),
        ("sw", "wageni wamekuja"),
        ("sw", "mkufunzi amefika"),
        ("sw", "fundi umeme amekuja"),
    ],
)
def test_a_visitor_is_no_chicks(thinking: Thinking, age: int | None, lang: str, text: str) -> None:
    got = read(thinking, text, lang, age_days=age)
    assert got["intent"] != "arrived"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "they came today"),
        ("en", "chicks have come"),
        ("en", "the vet brought the chicks, 300 came"),
        ("en", "chicks came with the officer"),
        ("en", "they have come teacher"),
        ("sw", "wamefika sasa hivi mwalimu"),
        ("fr", "ils sont arrives ce matin"),
        ("fr", "les poussins sont venus avec le veterinaire"),
        ("sw", "wamefika leo"),
        ("sw", "vifaranga wamekuja na daktari"),
    ],
)
def test_chicks_that_came_did(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang, age_days=0)["intent"] == "arrived"
