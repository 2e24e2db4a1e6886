"""Birds that a buyer took, with or without the word for a sale; and those that a beast or a thief
took, or that died, which are no sale. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

GROWN = {"age_days": 44, "count": 200}


@pytest.mark.parametrize(
    ("lang", "text", "told"),
    [
        ("fr", "le restaurant a enleve 15 poulets hier", {"count": 15}),
        ("fr", "mon client a emporte 12 sujets il paie demain", {"count": 12}),
        ("fr", "la dame du marche a embarque 30 poulets", {"count": 30}),
        ("fr", "quinze ont trouve preneur a 3000 piece", {"count": 15, "price": 3000}),
        ("fr", "7 sont partis ce matin chez le client", {"count": 7}),
        ("fr", "tout vendu 600000 en bloc les 200", {"count": 200, "price": 600_000}),
        ("fr", "vendu tout le lot 1 million 300 mille", {"price": 1_300_000}),
        ("fr", "6 donnes a l'eglise, vendu 50 a 3000", {"count": 50, "price": 3000}),
        ("en", "gave 6 to the church, sold 50 at 400", {"count": 50, "price": 400}),
        ("en", "all sold 600000 for the 200", {"count": 200, "price": 600_000}),
    ],
)
def test_what_a_buyer_took_is_sold(
    thinking: Thinking, lang: str, text: str, told: dict[str, float]
) -> None:
    found = read(thinking, text, lang=lang, **GROWN)
    assert found["intent"] == "sold"
    assert told.items() <= found["slots"].items()
    assert not found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "l'epervier a enleve 3 poussins"),
        ("fr", "un voleur a emporte 12 poulets cette nuit"),
        ("fr", "le chat a pris 2 poussins"),
        ("fr", "le restaurant a 15 poulets malades"),
        ("fr", "9 cartons sont partis ce matin 4 encore a midi"),
        ("fr", "7 sont morts ce matin avant le client"),
    ],
)
def test_what_nobody_bought_is_no_sale(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang=lang, **GROWN)["intent"] != "sold"


@pytest.mark.parametrize(
    "text",
    [
        "l'hotel a enleve vingt poulets hier il paiera demain",
        "le maquis a pris 12 poulets ce matin il payera samedi",
        "une cliente a emporte dix poulets hier elle paiera apres",
    ],
)
def test_birds_that_are_paid_later_are_sold_and_not_dead(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="fr", age_days=42)
    assert found["intent"] == "sold"
    assert not found["red_flag"]
