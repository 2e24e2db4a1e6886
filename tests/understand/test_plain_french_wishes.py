"""Plain French sentences without a figure of the flock: wishes, prices of goods, times gone by."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BATCH = {"has_batch": True, "age_days": 9, "count": 300, "today": "2026-03-04"}


@pytest.mark.parametrize(
    "text",
    [
        "qu'est ce qu'il y a au programme pour mon lot cette semaine",
        "c'est quoi le programme d'aujourd'hui",
        "qu'est ce qui est prevu pour mes poussins demain",
        "qu'y a t il a faire cette semaine",
        "donnez moi le programme des prochains jours",
        "quelles sont les prochaines etapes",
        "apres ca qu'est ce qui vient",
    ],
)
def test_who_asks_what_is_planned_gets_the_work(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] == "next"


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("quel est le programme de vaccination", "vaccination"),
        ("quel est le programme de lumiere", "light"),
        ("y a t il un vaccin a faire cette semaine", "vaccination"),
    ],
)
def test_a_programme_of_one_thing_is_a_question(thinking: Thinking, text: str, topic: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert (found["intent"], found["slots"]["topic"]) == ("ask", topic)


@pytest.mark.parametrize(
    "text",
    [
        "parlez moi en malgache svp",
        "ecrivez en lingala svp",
        "je veux les messages en wolof",
        "pouvez vous me parler en bambara",
        "je prefere le swahili",
        "est ce que je peux recevoir les sms en malagasy",
        "est-il possible d'avoir les messages en moore",
    ],
)
def test_another_tongue_may_be_wished(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] == "language"


@pytest.mark.parametrize(
    "text",
    ["mon voisin parle malgache", "je chauffe au malgache", "on parle de vous au village"],
)
def test_a_tongue_that_is_only_named_is_not_wished(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] != "language"


@pytest.mark.parametrize(
    "text",
    [
        "combien coute un sac de ciment chez vous",
        "combien coute un sac de riz chez vous",
        "le prix de l'essence a combien",
        "c'est combien la tole",
        "vous vendez le velo a combien",
        "combien pour une chevre",
    ],
)
def test_the_price_of_other_goods_is_not_ours(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] == "other"


@pytest.mark.parametrize(
    "text",
    [
        "combien coute un sac d'aliment",
        "combien coute un poussin",
        "c'est combien le kilo de poulet",
        "combien de sel dans l'aliment",
        "est ce que le sucre dans l'eau est bon",
        "je peux donner du riz aux poussins",
    ],
)
def test_goods_beside_the_birds_are_asked_about(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] == "ask"


@pytest.mark.parametrize(
    "text",
    [
        "l'annee passee ma bande toussait beaucoup",
        "la saison passee mes poussins mouraient beaucoup",
        "avant, dans l'ancien batiment, la pluie entrait toujours",
        "dans mon ancien poulailler ca sentait l'ammoniac",
        "a l'epoque de mon pere les poulets toussaient",
        "mon lot precedent avait le cou tordu",
        "l'autre bande que j'ai vendue avait la diarrhee en fevrier",
        "la bande davant j'ai perdu 40 en une nuit, cette fois je veille moi meme",
        "la bande que j'ai vendue en janvier toussait",
    ],
)
def test_what_was_of_an_earlier_time_is_neither_told_nor_denied(
    thinking: Thinking, text: str
) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert found["intent"] == "other"
    assert not found["signals"]
    assert not found["not_signals"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("la pluie entre toujours dans le batiment", "rain_or_wind_in"),
        ("la bande passee avait la diarrhee et celle ci aussi", "white_or_green_diarrhoea"),
        ("mes poulets font du sang, l'annee passee c'etait pareil", "bloody_droppings"),
        (
            "dans l'ancien batiment rien, mais ici les fientes sont pleines de sang",
            "bloody_droppings",
        ),
    ],
)
def test_what_is_so_here_too_is_told(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, "fr", **BATCH)["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "j'ai besoin d'aide pour utiliser ce service",
        "menu d'aide svp",
        "montrez moi le menu",
        "expliquez moi comment envoyer les chiffres",
        "expliquez moi comment ce service marche",
    ],
)
def test_who_wants_to_know_the_service_is_helped(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] == "help"


@pytest.mark.parametrize(
    "text",
    [
        "expliquez moi comment installer le cercle de garde",
        "expliquez moi comment peser les poulets",
        "comment faire pour que la nuit ils n'aient pas froid pendant la saison fraiche",
        "comment garder la chaleur la nuit",
        "que faire pour qu'ils n'aient pas trop chaud a midi",
    ],
)
def test_who_wants_to_know_the_work_asks(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert found["intent"] == "ask"
    assert not found["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "plus de cinquante poulets ont un oeil gonfle",
        "au moins 40 ont un oeil enfle",
        "ils ont un oeil ferme",
    ],
)
def test_one_eye_of_many_birds_is_of_many(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "un poulet a un oeil gonfle",
        "deux poulets ont un oeil gonfle",
        "sur 300 un seul boite d'une patte",
        "un poussin reste dans son coin, tout mou",
    ],
)
def test_one_eye_of_one_bird_is_of_few(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "fr", **BATCH)["red_flag"]


@pytest.mark.parametrize(
    ("text", "here"),
    [
        ("le chat a attrape un poussin", True),
        ("on m'a attrape 3 poussins, je crois un rat", True),
        ("j'ai attrape 10 poulets au hasard, ensemble ils font 17 kilos", False),
        ("j'ai attrape cinq poulets pour peser, 7 kg en tout", False),
    ],
)
def test_who_catches_birds_to_weigh_is_no_beast(
    thinking: Thinking, text: str, *, here: bool
) -> None:
    context = {**BATCH, "age_days": 30}
    assert ("rats_or_predator" in read(thinking, text, "fr", **context)["signals"]) is here


@pytest.mark.parametrize(
    "text", ["c'est fini, ne m'envoyez rien", "ne m'envoyez rien", "n'envoyez plus rien"]
)
def test_who_wants_nothing_sent_is_let_go(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] == "stop"


@pytest.mark.parametrize(
    "text", ["j'ai fait une erreur dans le message", "il y a une erreur dans mon chiffre"]
)
def test_the_one_of_one_slip_is_no_figure(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] == "undo"


@pytest.mark.parametrize(
    "text",
    [
        "a la ferme de mon patron les poulets boitent",
        "les poulets de mon frere toussent",
        "dans l'elevage de mon oncle ils ont la diarrhee",
        "dans mon premier elevage les poussins se serraient toujours pres du feu",
    ],
)
def test_what_is_so_at_anothers_is_not_told_of_here(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert found["intent"] == "other"
    assert not found["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "dans le poulailler de mon elevage il y a du sang dans les fientes",
        "la voisine a vu du sang dans les fientes de mes poulets",
        "mon oncle dit que mes poulets ont du sang dans les fientes",
    ],
)
def test_what_others_saw_at_mine_is_told(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["red_flag"]


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("demarrage d'un lot de 350 poussins ce jour", "register"),
        ("lancement d'une bande de 200 sujets aujourd'hui", "register"),
        ("mon groupement de femmes veut faire 400 poulets pour paques", "plan"),
        ("mon frere veut elever 200 poulets", "plan"),
        ("quand passer du demarrage a la croissance", "ask"),
    ],
)
def test_who_begins_and_who_wants_to_are_told_apart(
    thinking: Thinking, text: str, intent: str
) -> None:
    context = {**BATCH, "has_batch": False, "age_days": None, "count": None}
    assert read(thinking, text, "fr", **context)["intent"] == intent


@pytest.mark.parametrize(
    "text",
    [
        "que faire des fientes apres la bande",
        "ou jeter les fientes",
        "pour la fumee du charbon comment on fait pour ne pas s'intoxiquer",
    ],
)
def test_what_to_do_with_or_against_it_is_asked(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert found["intent"] == "ask"
    assert not found["signals"]
