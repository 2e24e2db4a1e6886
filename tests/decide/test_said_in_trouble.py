"""What a farmer means to do with ill or dead birds is answered: a cure of one's own, the pot, the
dogs, the trader at the gate. Texts of three languages through the whole turn. Rules: practice
(Danger; Texts): no medicine is named, nothing ill or dead is eaten or sold."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

DISEASE = {
    "en": "some have the neck twisted and many died this morning",
    "fr": "quelques uns ont le cou tordu et ca meurt beaucoup ce matin",
    "sw": "wengine shingo imepinda na wengi wamekufa asubuhi hii",
}
ILL = {"en": "3 chicks are ill, dull and sneezing", "fr": "3 poussins malades, abattus",
       "sw": "vifaranga 3 wagonjwa, wamezubaa"}  # fmt: skip


def in_danger(rehearsal: Rehearsal, language: str) -> None:
    stand(rehearsal, language, age_days=28, house="open", heat="none")
    assert keys(rehearsal, DISEASE[language])[0] == "danger_notifiable"
    rehearsal.wait(timedelta(minutes=1))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "how many spoons in the water"),
        ("en", "neighbour says chilli and ash in the water, ok?"),
        ("en", "my brother has some poison, can i put it in the litter?"),
        ("en", "i give them the tablet of my layers"),
        ("en", "can i use garlic or aloe"),
        ("fr", "combien de cuilleres dans l'eau"),
        ("fr", "je mets du piment et de la cendre dans l'eau?"),
        ("fr", "mon frere a du poison, je le mets dans la litiere?"),
        ("fr", "je leur donne le comprime des pondeuses"),
        ("sw", "niweke vijiko vingapi"),
        ("sw", "sawa. niweke vijiko vingapi?"),
        ("sw", "jirani anasema pilipili na majivu kwenye maji"),
        ("sw", "ndugu ana sumu, niweke kwenye maranda?"),
        ("sw", "nawapa vidonge vya kuku wa mayai"),
    ],
)
def test_a_cure_of_ones_own_is_kindly_refused_and_the_vet_named(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    in_danger(rehearsal, language)
    said = keys(rehearsal, text)
    refused = {"no_cure", "own_brew", "own_poison"}.intersection(said)  # of water, of beasts
    assert refused
    assert said == [*refused, ""] or said[0] == "treated"  # given already: taken down, refused


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "and the meat?"),
        ("en", "my wife wants to cook one"),
        ("en", "can we slaughter and eat the ones still strong"),
        ("fr", "et la viande?"),
        ("fr", "ma femme veut en preparer"),
        ("fr", "on peut en manger?"),
        ("sw", "namba ipo. na nyama je?"),
        ("sw", "mke wangu anataka kupika mmoja"),
        ("sw", "tunaweza kula wazima?"),
    ],
)
def test_ill_birds_are_no_meal(rehearsal: Rehearsal, language: str, text: str) -> None:
    in_danger(rehearsal, language)
    assert keys(rehearsal, text)[0] == "no_meat"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "dead are in a sack by the gate, dogs are around"),
        ("en", "i threw the dead ones behind the house"),
        ("fr", "les morts jetes derriere, les chiens"),
        ("fr", "j'ai mis les cadavres dans un sac"),
        ("sw", "mizoga nimeiweka kwenye ndoo, mbwa yupo"),
        ("sw", "waliokufa nimewatupa nyuma ya nyumba"),
    ],
)
def test_the_dead_go_into_a_deep_pit_and_dogs_are_no_predators(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    in_danger(rehearsal, language)
    said = keys(rehearsal, text)
    assert said[0] == "held_dead"
    assert said[-1] == ""
    assert not {"predator", "danger_deaths"}.intersection(said)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the trader has already paid me an advance"),
        ("en", "buyer is on the way with his crates"),
        ("fr", "il a deja avance l argent"),
        ("fr", "l'acheteur est en route avec ses cageots"),
        ("sw", "mnunuzi amenipa pesa ya awali"),
        ("sw", "mnunuzi yuko njiani na makreti"),
        ("sw", "mnunuzi nimeshamwambia aje jioni"),
    ],
)
def test_a_trader_is_stopped_at_the_gate_and_gets_no_bird(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    in_danger(rehearsal, language)
    assert keys(rehearsal, text)[0] == "trader_gate"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "many have bloody droppings. i have layer powder, how many spoons do i put?"),
        (
            "fr",
            "beaucoup ont du sang dans les fientes. le voisin a un remede, combien de cuilleres",
        ),
        ("sw", "wengi wanaharisha damu. jirani ana dawa, niweke vijiko vingapi"),
    ],
)
def test_a_cure_asked_for_beside_a_danger_stands_behind_the_alarm(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=28, house="open", heat="none")
    said = keys(rehearsal, text)
    assert said[0] == "danger_blood"
    assert "no_cure" in said


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_signs_told_beside_a_cure_are_answered_too(rehearsal: Rehearsal, language: str) -> None:
    stand(rehearsal, language, age_days=28, house="open", heat="none")
    rehearsal.say(ILL[language])
    rehearsal.wait(timedelta(minutes=1))
    more = {"en": "2 more are limping now. i gave ash in the water",
            "fr": "2 autres boitent. j'ai mis de la cendre dans l'eau",
            "sw": "wengine 2 wanachechemea. nimeweka majivu kwenye maji"}  # fmt: skip
    said = keys(rehearsal, more[language])
    assert {"no_cure", "own_brew"}.intersection(said)
    assert len([one for one in said if one]) > 1


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "how many spoons of feed for 300 chicks"),
        ("fr", "combien de sacs pour 300 poussins"),
        ("sw", "ninaweza kuuza siku gani"),
    ],
)
def test_where_nothing_is_wrong_nothing_is_refused(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    assert "no_cure" not in keys(rehearsal, text)
