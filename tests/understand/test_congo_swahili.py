"""Verbs and numerals as they are said in eastern Congo (ba-, bi-, aba-, haba-), nerve signs with a
slip of the pen beside other facts, and what is told of nearly all. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

DEAD = """
kuku babili balikufa leo => 2
kuku batatu bamekufa => 3
banne bamekufa leo asubuhi => 4
bamekufa batano => 5
kuku kumi na babili bamekufa => 12
bilikufa bitatu leo => 3
bibili bimekufa usiku => 2
kuku babili banakufa => 2
bawili balikufa asubuhi => 2
kuku habakufa leo => 0
abakufa hata mumoja => 0
"""
SEEN = """
bote banakohoa => sneezing_or_rattle
bana damu kwenye mavi => bloody_droppings
kuku bengi banahara damu => bloody_droppings
bamepinda shingo batatu => twisted_neck_or_paralysis
bamevimba vichwa bengi => swollen_head
bamelala bote habaamuki => sleepy_all_birds
bengi banahema kwa shida => gasping
abakule chakula tangu jana => not_eating
wawili shingo znajiviringa wamekunywa lita 20 => twisted_neck_or_paralysis
wamekula kilo 10 na mmoja shngo imepindaa => twisted_neck_or_paralysis
watatu shingo zinajiviring na joto ni 30 => twisted_neck_or_paralysis
lita 15 za maji, mmoja amepoza miguu kabisa => twisted_neck_or_paralysis
"""
DENIED = """
habakohoi => sneezing_or_rattle
kuku habana damu kwenye mavi => bloody_droppings
habahare damu => bloody_droppings
habaja vimba vichwa => swollen_head
"""
NEARLY_ALL = """
sw kuhara kweupe sio damu karibu wote => white_or_green_diarrhoea
sw karibu wote wanahara kijani hakuna damu => white_or_green_diarrhoea
en white droppings not blood nearly all of them => white_or_green_diarrhoea
en almost all pass green watery stuff, no blood => white_or_green_diarrhoea
fr diarrhee blanche pas de sang presque tous => white_or_green_diarrhoea
fr presque tous ont des fientes vertes sans sang => white_or_green_diarrhoea
"""
ONE_OF_THEM = """
fr un seul est couche les autres courent bien
fr une seule reste couchee, le reste mange bien
en only one lies down the others run well
en just one is down, the rest are lively
sw mmoja tu amelala chini wengine wanakimbia vizuri
sw ni mmoja tu amelala, wengine wazima
"""


def _rows(table: str) -> list[tuple[str, str]]:
    return [(one, other) for one, other in (row.split(" => ") for row in table.strip().split("\n"))]


@pytest.mark.parametrize(("text", "dead"), _rows(DEAD))
def test_deaths_are_counted(thinking: Thinking, text: str, dead: str) -> None:
    found = read(thinking, text, lang="sw")
    assert (found["intent"], found["slots"]["deaths"]) == ("deaths", int(dead))


@pytest.mark.parametrize(("text", "sign"), _rows(SEEN))
def test_signs_are_seen(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, lang="sw")["signals"]


@pytest.mark.parametrize(("text", "sign"), _rows(DENIED))
def test_signs_are_denied(thinking: Thinking, text: str, sign: str) -> None:
    found = read(thinking, text, lang="sw")
    assert sign in found["not_signals"]
    assert not found["red_flag"]


@pytest.mark.parametrize(("told", "sign"), _rows(NEARLY_ALL))
def test_what_nearly_all_have_is_told_of_many(thinking: Thinking, told: str, sign: str) -> None:
    found = read(thinking, told[3:], lang=told[:2], age_days=12)
    assert found["signals"] == [sign]
    assert found["red_flag"]
    assert found["not_signals"] == ["bloody_droppings"]


@pytest.mark.parametrize("told", ONE_OF_THEM.strip().split("\n"))
def test_one_that_lies_is_one_bird(thinking: Thinking, told: str) -> None:
    found = read(thinking, told[3:], lang=told[:2], age_days=12)
    assert not found["red_flag"]
    assert "sleepy_all_birds" not in found["signals"]
