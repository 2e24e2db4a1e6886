"""Blood told beside birds that peck each other is of their wounds, and no alarm; blood that they
pass is danger, whatever they peck. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

OF_WOUNDS = {
    "en": (
        "they peck each other tails, blood on some",
        "the chicks are pecking each other there is blood",
        "tails are pecked and bloody",
        "they peck and one is bleeding",
        "big ones attack small ones, there is blood",
        "pecking since sunday, blood on 6 of them",
    ),
    "fr": (
        "ils se piquent la queue, du sang sur certains",
        "ils se becquetent, il y a du sang",
        "ils se battent et se piquent, du sang sur cinq",
        "les grands piquent les petits et il y a du sang",
        "il y a du picage, sang sur les plumes",
    ),
    "sw": (
        "wanadonoana mikia, wengine wana damu",
        "kuku wanadonoana kuna damu",
        "wanadonoana, damu kwa watano",
        "wakubwa wanawadonoa wadogo, damu kwenye mgongo",
        "wanang'oana manyoya, damu kidogo kwa baadhi",
    ),
}
PASSED = {
    "en": (
        "they peck each other and there is blood in the droppings",
        "pecking, and the poop is bloody",
        "they peck tails, i see blood on the litter too",
        "they peck and they pass blood",
        "blood on some of them",
    ),
    "fr": (
        "ils se piquent et il y a du sang dans les fientes",
        "picage, et ils chient du sang",
        "ils se piquent et chient du sang",
        "du sang sur certains",
    ),
    "sw": (
        "wanadonoana na kinyesi kina damu",
        "wanadonoana na wanaharisha damu",
        "wanadonoana na wanatoa damu nyuma",
        "kinyesi chenye damu, pia wanadonoana",
    ),
}


@pytest.mark.parametrize(("lang", "text"), [(at, one) for at in OF_WOUNDS for one in OF_WOUNDS[at]])
def test_blood_of_birds_that_peck_each_other_is_no_blood_in_droppings(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert "bloody_droppings" not in got["signals"]
    assert "cannibalism_or_pecking" in got["signals"]


@pytest.mark.parametrize(("lang", "text"), [(at, one) for at in PASSED for one in PASSED[at]])
def test_blood_that_they_pass_is_danger_whatever_they_peck(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert "bloody_droppings" in read(thinking, text, lang)["signals"]
