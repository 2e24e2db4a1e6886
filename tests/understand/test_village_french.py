"""French as the villages text it, with words of Lingala, Wolof and Malagasy between: illness told
in pictures, the dead of a day in parts, a reading told by the place where it hangs. Worded for
this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("ba nsoso nyonso bazolala depuis hier bazolamuka te", "sleepy_all_birds"),
        ("akoho rehetra matory des le matin ils bougent plus", "sleepy_all_birds"),
        ("ginaar yi yepp nelaw rek depuis le matin", "sleepy_all_birds"),
        ("abattement total dans le poulailler ce matin", "sleepy_all_birds"),
        ("faiblesse generalisee chez mes poulets", "sleepy_all_birds"),
        ("bazo nyei makila depi lobi", "bloody_droppings"),
        ("les fientes ont la couleur du sang", "bloody_droppings"),
        ("dans le caca c'est comme confiture de tomate", "bloody_droppings"),
        ("il a le cou en tire bouchon le poussin", "twisted_neck_or_paralysis"),
        ("bopp bi newwi gonfle chez presque tous", "swollen_head"),
        ("ca tombe comme mangues mures je ne compte plus mes poulets", "sudden_many_deaths"),
        ("chaque fois que je tourne le dos yen a d'autres qui meurent", "sudden_many_deaths"),
        ("ma tante marche de travers pres du feu", "drowsy_people_or_birds_near_stove"),
        ("mon fils pres du brasero il reagit a peine", "drowsy_people_or_birds_near_stove"),
        ("c'est gris dedans on distingue plus la lampe, ca brule la gorge", "smoke_or_fumes"),
    ],
)
def test_illness_and_bad_air_in_the_words_of_the_village_are_danger(
    thinking: Thinking, text: str, sign: str
) -> None:
    found = read(thinking, text, lang="fr")
    assert sign in found["signals"]
    assert found["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "nsoso moko kaka alali",
        "nsoso nyonso bazali malamu",
        "une patte raide chez un seul qui boite",
        "20 poussins comptes dans les boites tous vivants",
        "ils mangent a en crever le sac est vide",
        "l'eternel est grand mes poulets vont bien",
        "le camion de poulets morts sur la route bloque tout",
        "na bande ya kala bazalaki na makila, sikoyo ezali te",
        "le temps est gris, rien dedans de special",
        "la caisse du grain est au fond, rien de grave",
        "24 au niveau des poussins",
    ],
)
def test_what_sounds_like_it_and_is_none_is_no_danger(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, lang="fr")["red_flag"]


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("8 morts ce matin 5 encore a midi je ne comprends pas", 13),
        ("3 morts a l'aube 4 encore ce soir on dirait un sort", 7),
        ("6 sont partis ce matin 3 encore a midi jai tout brule", 9),
        ("12 partis hier et 7 encore aujourdhui je creuse sans arret", 7),
        ("3 fois la fosse. 4 dedans puis 2 puis encore 5", 11),
        ("moko akufi lelo", 1),
        ("misato bakufi lelo", 3),
    ],
)
def test_the_dead_of_a_day_add_up_whatever_is_told_behind(
    thinking: Thinking, text: str, dead: int
) -> None:
    found = read(thinking, text, lang="fr", count=400)
    assert found["slots"] == {"deaths": dead}


@pytest.mark.parametrize(
    "text",
    [
        "12 partis hier et 7 encore aujourdhui je les ai bien vendus",
        "8 vendus ce matin 5 encore a midi on m'a paye comptant",
        "je mets 8 kg ce matin 5 encore a midi ils mangent bien",
        "9 malades ce matin 4 encore a midi je ne comprends pas",
    ],
)
def test_what_is_told_with_no_word_of_dying_is_no_death(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="fr", age_days=40)
    assert found["slots"].get("deaths") is None
    assert all(one["intent"] != "deaths" for one in found["slots"].get("parts", ()))


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("24 au niveau des poussins", 24.0),
        ("29 au ras du sol ce matin", 29.0),
        ("a hauteur de leur dos ca fait 31", 31.0),
        ("sous la lampe a hauteur du dos 33", 33.0),
        ("2 morts et la temp a hauteur du dos c 31", 31.0),
        ("rh 60 t 30", 30.0),
        ("t 30 rh 60", 30.0),
    ],
)
def test_a_reading_is_told_by_the_place_where_it_hangs(
    thinking: Thinking, text: str, celsius: float
) -> None:
    found = read(thinking, text, lang="fr")
    parts = found["slots"].get("parts", [{"intent": found["intent"], "slots": found["slots"]}])
    assert {"intent": "temperature", "slots": {"value_c": celsius}} in [
        {"intent": one["intent"], "slots": one["slots"]} for one in parts
    ]


@pytest.mark.parametrize(
    "text",
    [
        "24 poussins sont au ras du sol",
        "il reste 24 petits au niveau des mangeoires",
        "3 sacs a leur niveau",
        "25 au ras du sol sont morts",
    ],
)
def test_what_is_counted_at_a_place_is_no_reading(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, lang="fr")["intent"] != "temperature"
