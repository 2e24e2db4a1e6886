"""What a Swahili text tells of a book, a film, a dream, a guest, a shop's talk or what might happen
one day is no sign of this flock; the same words told of it are. Who counts are the birds, not the
pupils that came; and who asks for the records, or has had enough of our texts, is heard. Worded for
this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

HARMLESS = """
kitabu cha kilimo kinasema kuku kupooza miguu ni ukosefu wa madini
zoezi la mtoto linasema eleza kwa nini kuku wanaharisha damu
notes za darasani zimeandika kideri hupindisha shingo ya kuku
niliona video kuku wamevimba vichwa vyote, ni nini kile
nimetumiwa picha za mavi ya damu na jamaa wa group
mtaalamu alituonyesha video ya kuku waliopooza
niliota banda limejaa moshi na kuku wamekufa
naota kila siku kuku wangu wamepinda shingo
wageni walikula kuku wakaharisha jana, ni mchuzi au ni nyama
muuzaji wa dawa ameniambia typhoid huleta kuhara damu
na ikitokea siku kuku wakapinda shingo nianzie wapi
ni jiko gani halina moshi mwingi
kabla sijafundishwa nilikuwa nalala na jiko ndani naamka kichwa kinauma
"""
DANGER = """
kitabu kimeanguka kwenye banda, kuku wote wamepooza miguu
nimewatumia video ya kuku wangu, wanazungusha vichwa
mgeni amekuja, kuku wangu wanaharisha damu
muuzaji hajui, mavi ya kuku wangu yana damu
jana usiku sikuota, nimeamka kuku wote wamekufa
moshi ni mwingi bandani na sijui jiko gani linatoa
kichwa kinauma nikiwa bandani na jiko linawaka
"""
STATUS = """
naomba hesabu zangu zote za kundi
nipatie jumla ya waliokufa mpaka sasa
nionyeshe rekodi za vifo na chakula
nitumie hesabu ya kuku waliobaki na waliokufa
nipeni summary yote ya batch hii
nataka rekodi zangu tangu mwanzo
"""
STOP = """
basi tosha hizi sms
tosha message zenu
meseji zimetosha, acheni
ujumbe huu mwisho leo sitaki tena
sms zinatosha sasa
inatosha hizo sms za kila siku
"""
NOT_STOP = """
asante ujumbe umetosha nimeelewa
maji yanatosha leo
chakula kinatosha mpaka jumapili
mwisho wa ujumbe sikuuelewa
"""
NO_BATCH = """
leo wamekuja wanafunzi arobaini kuona kuku
watu 60 walikuja kwenye mafunzo ya kuku leo
mzee wa kijiji cha pili amefiwa na kuku 50 leo
jamaa wa mtaa wa nne amenunua kuku 200 leo
"""


def _rows(table: str) -> list[str]:
    return table.strip().split("\n")


@pytest.mark.parametrize("text", _rows(HARMLESS))
def test_what_is_told_of_elsewhere_is_no_danger(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="sw", age_days=20)
    assert found["signals"] == []
    assert not found["red_flag"]


@pytest.mark.parametrize("text", _rows(DANGER))
def test_the_same_words_of_this_flock_are_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, lang="sw", age_days=20)["red_flag"]


@pytest.mark.parametrize("text", _rows(STATUS))
def test_who_asks_for_the_records_gets_them(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="sw", age_days=20)
    assert (found["intent"], found["signals"]) == ("status", [])


@pytest.mark.parametrize("text", _rows(STOP))
def test_who_has_had_enough_of_texts_is_let_go(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, lang="sw", age_days=20)["intent"] == "stop"


@pytest.mark.parametrize("text", _rows(NOT_STOP))
def test_what_is_enough_of_other_things_stops_nothing(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, lang="sw", age_days=20)["intent"] != "stop"


@pytest.mark.parametrize("text", _rows(NO_BATCH))
def test_people_and_others_birds_are_no_batch(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="sw", age_days=20)
    assert found["intent"] not in ("register", "arrived", "plan", "deaths")
