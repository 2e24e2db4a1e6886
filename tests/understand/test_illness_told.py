"""Illness told by that word alone: of many of the own birds it is danger and referred in the same
turn, of one, a few or no number it is asked what is seen; of others, of people, of a thing, of
another time, denied or supposed it is no report at all. Worded for this test."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from bot.wiring import Thinking
from tests.understand.reading import heard, read

OF_MANY = {
    "en": (
        "All of them are sick what do I do?",
        "more than half are unwell",
        "most of my birds are ill since morning",
        "many chickens have fallen sick",
        "the whole flock is sick pls help",
        "40 chicks are sick today",
        "15 of 300 are not feeling well",
        "nearly all of them look ill, is it serious?",
        "10 percent are sick",
        "many of d birds r sik wat shud i do",
        "half the batch is under the weather",
        "so many are falling ill every day",
        "all my chicks don sick abeg",
        "almost everyone of them is unwel",
    ),
    "fr": (
        "ils sont tous malades je fais quoi",
        "la moitie des poussins sont souffrants",
        "beaucoup de poulets sont tombes malades",
        "tout le lot est malade, c'est grave ?",
        "30 poussins malades ce matin",
        "la plupart de mes poulets ne se sentent pas bien",
        "presque tous malad aidez moi",
        "plus de la moitie est mal en point",
        "12 sur 300 sont malades",
        "yen a bcp qui sont malades que faire",
        "toutes mes poules sont malade depuis hier",
        "20 pour cent du lot est souffrant",
    ),
    "sw": (
        "kuku wote wagonjwa nifanyeje?",
        "wengi wanaumwa",
        "vifaranga wengi ni wagonjwa",
        "zaidi ya nusu wanaumwa",
        "kuku 40 wanaugua leo",
        "karibu wote hawajisikii vizuri",
        "kundi lote linaumwa nisaidieni",
        "kuku wangu wote wameugua",
        "vifaranga 25 wagonjwa tangu jana",
        "asilimia kumi ya kuku wanaumwa",
        "bote bagonjwa",
        "kuku wengi banaumwa nifanye nini",
        "nusu ya kuku ni wagonjwa je ni hatari",
    ),
}
OF_FEW = {
    "en": (
        "one is sick",
        "a few are unwell",
        "my birds are sick",
        "2 chicks are ill",
        "one of my chickens fell ill",
        "the chicks are not feeling well",
        "a single chick is sick today",
        "some are under the weather",
    ),
    "fr": (
        "un poussin est malade",
        "mes poussins sont malades",
        "deux poulets malades",
        "une poule est souffrante",
        "quelques uns sont malades",
        "un seul est malade",
        "il y en a un qui ne se sent pas bien",
        "les poulets sont souffrants",
    ),
    "sw": (
        "kuku mmoja anaumwa",
        "kuku wangu wanaumwa",
        "wawili ni wagonjwa",
        "kifaranga mmoja ni mgonjwa",
        "wachache wanaugua",
        "baadhi hawajisikii vizuri",
        "vifaranga wanaumwa",
        "kuku mmoja mgonjwa leo",
    ),
}
NO_REPORT = {
    "en": (
        "what if they all get sick?",
        "how do i know they are sick",
        "medicine for sick chickens?",
        "when all fall sick whom do i call?",
        "my children are sick",
        "im sick of this",
        "i am sick and tired of all these messages from airtel",
        "all my neighbours chickens are sick",
        "none of them is sick",
        "last year all of them were sick",
        "many of my family are ill",
        "if most of them fall ill can i still sell",
        "ill buy 300 chicks next month",
        "can all the birds get sick from dirty water",
        "many people here are sick with malaria",
        "all the cows are sick",
    ),
    "fr": (
        "et s'ils tombent tous malades ?",
        "comment savoir s'ils sont malades",
        "un remede pour poulets malades ?",
        "quand tous tombent malades qui appeler ?",
        "mes enfants sont tous malades",
        "toutes les poules du voisin sont malades",
        "aucun n'est malade",
        "l'annee passee ils etaient tous malades",
        "ma femme est malade",
        "si la plupart tombent malades je peux vendre ?",
        "beaucoup de gens sont malades ici",
        "toutes les vaches sont malades",
        "pas de malades aujourd'hui",
    ),
    "sw": (
        "je wote wakiugua itakuwaje?",
        "nitajuaje kama ni wagonjwa",
        "dawa ya kuku wagonjwa ni ipi?",
        "wote wakiumwa nimpigie nani?",
        "watoto wangu wanaumwa",
        "kuku wa jirani wote wanaumwa",
        "hakuna mgonjwa hata mmoja",
        "mwaka jana wote waliugua",
        "mke wangu anaumwa",
        "kama wengi wakiugua naweza kuuza",
        "watu wengi wanaumwa malaria hapa",
        "ng'ombe wote wanaumwa",
    ),
}


def _rows(table: Mapping[str, tuple[str, ...]]) -> list[tuple[str, str]]:
    return [(lang, text) for lang, texts in table.items() for text in texts]


@pytest.mark.parametrize(("lang", "text"), _rows(OF_MANY))
def test_illness_in_many_is_referred(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang, age_days=12)
    assert found["red_flag"]
    assert "unwell" not in found["signals"]  # ours alone


@pytest.mark.parametrize(("lang", "text"), _rows(OF_FEW))
def test_illness_in_few_is_asked_about(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang, age_days=12)
    assert found["intent"] == "observe"
    assert not found["red_flag"]
    assert found["ask"]


@pytest.mark.parametrize(("lang", "text"), _rows(NO_REPORT))
def test_the_word_alone_is_no_report(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang=lang, age_days=12)["red_flag"]
    assert "unwell" not in heard(thinking, text, lang=lang, age_days=12).signals
