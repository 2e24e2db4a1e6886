"""What the farmer keeps chicks warm with, whether there is a thermometer, and what a bag of feed
costs, told without being asked. Worded for this test."""

from __future__ import annotations

import pytest

from bot.facts.talk import Intent
from bot.wiring import Thinking
from tests.understand.reading import heard


@pytest.mark.parametrize(
    ("lang", "text", "kind"),
    [
        ("en", "i use gas", "gas"),
        ("en", "we are using charcoal", "charcoal"),
        ("en", "i now use bulbs", "bulb"),
        ("en", "changed to gas", "gas"),
        ("en", "my heat is paraffin", "kerosene"),
        ("en", "am using firewood", "wood"),
        ("fr", "j'utilise le gaz", "gas"),
        ("fr", "je chauffe au charbon", "charcoal"),
        ("fr", "on utilise des ampoules", "bulb"),
        ("sw", "natumia gesi", "gas"),
        ("sw", "tunatumia mkaa", "charcoal"),
        ("sw", "nimebadilisha natumia balbu", "bulb"),
    ],
)
def test_the_kind_of_heat(thinking: Thinking, lang: str, text: str, kind: str) -> None:
    got = heard(thinking, text, lang=lang)
    assert (got.intent, got.slots.heat) == (Intent.SETUP, kind)


@pytest.mark.parametrize(
    ("lang", "text", "has"),
    [
        ("en", "i have no thermometer", False),
        ("en", "i dont have a thermometer", False),
        ("en", "we dont own any thermometer", False),
        ("en", "my thermometer is broken", False),
        ("en", "i bought a thermometer", True),
        ("en", "i have a thermometer now", True),
        ("fr", "je n'ai pas de thermometre", False),
        ("fr", "pas de thermometre chez moi", False),
        ("fr", "j'ai un thermometre", True),
        ("sw", "sina kipimajoto", False),
        ("sw", "sina kipima joto", False),
        ("sw", "hatuna thermometer", False),
        ("sw", "nina kipimajoto", True),
    ],
)
def test_a_thermometer(thinking: Thinking, lang: str, text: str, *, has: bool) -> None:
    got = heard(thinking, text, lang=lang)
    assert (got.intent, got.slots.thermometer) == (Intent.SETUP, has)


@pytest.mark.parametrize(
    ("lang", "text", "price"),
    [
        ("en", "feed is 3200 a bag", 3200),
        ("en", "a bag of feed costs 3400", 3400),
        ("en", "feed price is now 3500 per bag", 3500),
        ("en", "starter goes for 4100 a bag", 4100),
        ("en", "price of feed 3300", 3300),
        ("fr", "l'aliment coute 18000 le sac", 18000),
        ("fr", "le sac d'aliment est a 17500", 17500),
        ("fr", "prix de l'aliment 18500", 18500),
        ("sw", "chakula ni 3200 kwa gunia", 3200),
        ("sw", "gunia la chakula ni 3400", 3400),
        ("sw", "bei ya chakula ni 3300", 3300),
        ("sw", "mfuko wa chakula unauzwa 70000", 70000),
    ],
)
def test_what_a_bag_of_feed_costs(thinking: Thinking, lang: str, text: str, price: float) -> None:
    got = heard(thinking, text, lang=lang, age_days=15)
    assert (got.intent, got.slots.feed_price) == (Intent.SETUP, price)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "can i use gas"),
        ("en", "should i use charcoal or gas"),
        ("en", "i used gas last batch"),
        ("en", "i dont use charcoal"),
        ("en", "if i use gas is it better"),
        ("en", "i use gas and they are piled under it"),
        ("en", "i used 4 kg of charcoal last night"),
        ("en", "do i need a thermometer"),
        ("en", "thermometer says 31"),
        ("en", "i have no thermometer what do i do"),
        ("en", "bought 2 bags of feed 6400"),
        ("en", "paid 3200 for feed"),
        ("en", "feed 12 kg today"),
        ("en", "how much is a bag of feed"),
        ("en", "sold 40 at 700, feed is 3200 a bag"),
        ("fr", "est ce que je peux utiliser le gaz"),
        ("fr", "j'ai achete l'aliment a 18000"),
        ("fr", "le thermometre marque 31"),
        ("sw", "naweza kutumia gesi"),
        ("sw", "nimenunua chakula 3200"),
        ("sw", "kipimajoto kinaonyesha 31"),
    ],
)
def test_what_else_is_told_or_asked(thinking: Thinking, lang: str, text: str) -> None:
    assert heard(thinking, text, lang=lang, age_days=15).intent is not Intent.SETUP
