"""What a denial belongs to: that nobody answered denies no sign, "not paint" denies no blood, and
"point", "0", "nada" deny the sign beside them. What sounds like a sign and is said of a price, of
figures or of a cat is none. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BLOOD = "bloody_droppings"
COUGH = "sneezing_or_rattle"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "hier je vous ai dit caca avec sang pas de reponse"),
        ("fr", "j'ai ecrit hier sang dans les fientes vous ne repondez pas"),
        ("fr", "jai dit que ya du sang dans les crottes personne ne repond"),
        ("en", "i told you blood in droppings no answer"),
        ("en", "yesterday i told you blood in droppings and you dont answer"),
        ("sw", "jana niliwaambia damu kwenye kinyesi hamjajibu"),
        ("fr", "le carton est sorti rouge c pas la peinture c leur caca"),
        ("fr", "c'est rouge et c pa le sable c leur crotte"),
        ("en", "its red not paint its their droppings"),
        ("en", "red on the paper, not paint, their droppings"),
        ("fr", "est ce que le sang dans les crottes vient du piment ? chez moi c'est comme ca"),
        ("fr", "le sang dans les crottes c'est normal? chez moi c'est comme ca depuis hier"),
        ("en", "can pepper make blood in droppings? mine are like that since monday"),
    ],
)
def test_blood_that_is_told_stands(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang)
    assert BLOOD in found["signals"]
    assert found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text", "absent"),
    [
        ("fr", "je n'ai point vu de fientes rouges", [BLOOD]),
        ("fr", "on na point entendu de toux cette nuit", [COUGH]),
        ("fr", "0 diarrhee 0 boiterie", ["white_or_green_diarrhoea", "limping_or_down"]),
        ("fr", "toux: nada", [COUGH]),
        ("fr", "dites pas que c'est du sang c'est la peinture", [BLOOD]),
        ("en", "the red on the litter is not blood it is paint", [BLOOD]),
        ("fr", "ils ont pas arrete de boire", ["not_drinking"]),
        ("fr", "ca fait quoi si ya du sang dans les crottes ? chez moi c'est pas comme ca", []),
    ],
)
def test_what_is_denied_is_not_there(
    thinking: Thinking, lang: str, text: str, absent: list[str]
) -> None:
    found = read(thinking, text, lang=lang)
    assert not found["red_flag"]
    assert not found["signals"]
    assert set(absent) <= set(found["not_signals"])


@pytest.mark.parametrize(
    "text",
    [
        "le prix du mais me donne le vertige",
        "vos chiffres me font tourner la tete",
        "ma tete tourne avec vos calculs",
        "au bureau jai la tete qui tape, je rentre nourrir a 16h",
        "mon patron a la grosse tete depuis qu'il a 1000 poulets",
        "la tete enflee c'est mon chef il ne salue plus",
        "le chat a vomi du sang",
        "a la tele ils ont montre des poulets qui tombent comme des mouches en chine",
        "le maitre di ke la coccidiose fe caca rouge",
        "a l'ecole on nous a dit que le caca rouge c'est grave",
        "l'ami fume la cigarette devant ma porte",
        "le poulet achete au supermarche sent mauvais",
    ],
)
def test_what_is_said_of_others_is_no_danger(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="fr")
    assert not found["red_flag"]
    assert {"smoke_or_fumes", "ammonia_smell", BLOOD}.isdisjoint(found["signals"])


@pytest.mark.parametrize(
    "text",
    [
        "ma tete tourne depuis que je suis entre chez les poussins",
        "la fumee me donne le vertige",
        "la tete qui tape apres le poulailler",
        "les poulets ont la tete enflee comme mon chef",
        "le chat a mordu, le poulet a du sang dans les crottes",
    ],
)
def test_what_is_said_of_here_is_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, lang="fr")["red_flag"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("l'eau descend moins vite que les autres jours", "drinking_less"),
        ("abreuvoir plein comme je l'ai laisse hier", "not_drinking"),
        ("pas une gorgee de prise depuis hier", "not_drinking"),
        ("ils fuient pas le feu, au contraire ils sont entasses dessous", "piled_near_heat"),
    ],
)
def test_water_and_heat_in_plain_words(thinking: Thinking, text: str, sign: str) -> None:
    assert read(thinking, text, lang="fr")["signals"] == [sign]


@pytest.mark.parametrize(
    "text",
    [
        "ca meurt plus par dizaines comme l'autre semaine, ojd un",
        "ca meurt plus en masse comme la semaine passee, ce jour un seul",
        "sa creve plus comme avant, ce matin 1",
    ],
)
def test_that_they_die_no_more_in_masses_is_no_danger(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, lang="fr")
    assert found["intent"] == "deaths"
    assert found["slots"] == {"deaths": 1}
    assert not found["red_flag"]
