"""Swahili verbs in forms that are written fast: a person and a stem with nothing between
("lakohoa"), "haz-" before an English word, "not yet begun to"; and words of Kivu and Burundi for
blood, beak and breath. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

OF_ALL = """
banda zima lakohoa tangu usiku => sneezing_or_rattle
kuku wote wakohoa na pua zatoka ute => sneezing_or_rattle
vifaranga wengi vyaharisha kijani => white_or_green_diarrhoea
wote walegea na macho yajifunga => sleepy_all_birds
mavi yabadilika yatoa damu => bloody_droppings
kuku wengi wapanua mdomo wavuta hewa kwa shida => gasping
kundi lote lasinzia halitaki kula => sleepy_all_birds
inkoko zanya amaraso leo => bloody_droppings
imishwi yangu inahara amaraso => bloody_droppings
mavi iko na maraso mingi => bloody_droppings
amaraso mu mavi ya bakuku => bloody_droppings
nimekuta amaraso kwa kinyesi asubuhi => bloody_droppings
bakuku bengi banakosa mupumuo => gasping
kuku wengi wafungua kinywa juu wakitafuta mapumuzi => gasping
jiko limefuka hadi hatuwaoni vifaranga => smoke_or_fumes
moshi umejaa bandani mpaka siwaoni kuku => smoke_or_fumes
moshi mzito hadi sioni mlango ndani ya banda => smoke_or_fumes
"""
NOT_SO = """
hakuna amaraso kwa mavi => bloody_droppings
inkoko habana amaraso kwa mavi => bloody_droppings
bado hawajaanza kukohoa => sneezing_or_rattle
hawajaanza kuhara hata mmoja => white_or_green_diarrhoea
vifaranga hazijaanza kupanua mabawa wala kuhema => panting
hazpant tena tangu nifungue pazia => panting
hazicough kabisa leo => sneezing_or_rattle
zimewacha kuhara zote sasa => white_or_green_diarrhoea
vimewacha kutweta jioni hii => panting
moshi siuoni ndani ya banda => smoke_or_fumes
"""
NO_SIGN = """
chakula cha kuku kiko cha kutosha
ni lazima nipime leo
wazima wote asante
wanainamisha vichwa kula
vichwa vinainama kunywa maji
mdomo wa jirani haufungi
yan leo nimechoka
"""


def _rows(table: str) -> list[tuple[str, str]]:
    return [(one, other) for one, other in (row.split(" => ") for row in table.strip().split("\n"))]


@pytest.mark.parametrize(("text", "sign"), _rows(OF_ALL))
def test_danger_is_heard(thinking: Thinking, text: str, sign: str) -> None:
    found = read(thinking, text, lang="sw", age_days=12)
    assert sign in found["signals"]
    assert found["red_flag"]


@pytest.mark.parametrize(("text", "sign"), _rows(NOT_SO))
def test_what_is_not_so_is_denied(thinking: Thinking, text: str, sign: str) -> None:
    found = read(thinking, text, lang="sw", age_days=12)
    assert sign in found["not_signals"]
    assert sign not in found["signals"]
    assert not found["red_flag"]


@pytest.mark.parametrize("text", NO_SIGN.strip().split("\n"))
def test_other_words_are_no_sign_of_illness(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="sw", age_days=12)
    assert not set(found["signals"]) - {"quiet_content", "spread_evenly"}
    assert not found["red_flag"]
