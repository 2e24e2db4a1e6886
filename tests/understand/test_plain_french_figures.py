"""Plain French sentences with a figure: of the day, shown, eaten up, fetched, weighed, sold."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BATCH = {"has_batch": True, "age_days": 9, "count": 300, "today": "2026-03-04"}
GROWN = {**BATCH, "age_days": 30}


@pytest.mark.parametrize(
    ("text", "intent", "slots"),
    [
        ("consommation du jour 8 kg", "feed", {"kg": 8}),
        ("aliment du jour 15 kilos", "feed", {"kg": 15}),
        ("repas de ce jour 6 kg de provende", "feed", {"kg": 6}),
        ("eau bue ce jour soixante litres", "water", {"litres": 60}),
        ("eau du jour 40 litres", "water", {"litres": 40}),
        ("consommation d'eau du jour 35 l", "water", {"litres": 35}),
        ("temperature du jour 31 degres", "temperature", {"value_c": 31}),
    ],
)
def test_a_measure_behind_of_the_day_is_no_age(
    thinking: Thinking, text: str, intent: str, slots: dict[str, float]
) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert (found["intent"], found["slots"] | slots) == (intent, found["slots"])


@pytest.mark.parametrize(
    ("text", "age"),
    [
        ("quelle temperature pour le jour 8", 7),
        ("temperature au jour 20", 19),
        ("au jour 8 l'aliment de demarrage suffit combien de temps", 7),
    ],
)
def test_a_day_that_is_asked_about_stays_an_age(thinking: Thinking, text: str, age: int) -> None:
    assert read(thinking, text, "fr", **BATCH)["slots"]["age_days"] == age


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("j'ai regarde le thermometre tout a l'heure, ca fait 33", 33),
        ("on a controle le thermometre a midi, ca donne 34", 34),
        ("je viens de lire le thermometre, ca affiche 31", 31),
        ("thermometre accroche au mur, resultat 30", 30),
        ("apres deux heures le thermometre est passe a 33", 33),
        ("il a fait 24 dans la salle cette nuit", 24),
        ("au poulailler le mercure est monte jusqu'a 37 cet apres midi", 37),
        ("l'aiguille est a 30", 30),
        ("la temperature a chute a 22", 22),
    ],
)
def test_what_a_thermometer_shows_is_read_wherever_it_hangs(
    thinking: Thinking, text: str, shown: float
) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert (found["intent"], found["slots"]["value_c"]) == ("temperature", shown)
    assert not found["signals"]


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("j'ai regarde dans le carton tout a l'heure, ca fait 300", "register"),
        ("ils sont tous contre le mur, il fait froid", "observe"),
        ("il a fait 3 morts cette nuit", "deaths"),
    ],
)
def test_what_only_sounds_like_a_reading_is_none(
    thinking: Thinking, text: str, intent: str
) -> None:
    context = {**BATCH, "has_batch": intent != "register"}
    assert read(thinking, text, "fr", **context)["intent"] == intent


@pytest.mark.parametrize(
    ("text", "percent"),
    [
        ("l'hygrometre du poulailler indique 75 pour cent d'humidite", 75),
        ("dans le poulailler 80 pour cent d'humidite", 80),
        ("humidite de la salle soixante pour cent", 60),
        ("hygrometrie 45 pour cent", 45),
    ],
)
def test_the_hundred_of_per_cent_counts_nothing(
    thinking: Thinking, text: str, percent: float
) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert (found["intent"], found["slots"]["rh_pct"]) == ("humidity", percent)


@pytest.mark.parametrize(
    "text",
    [
        "depuis hier les poulets ont fini 25 kilos de provende",
        "ils ont termine 2 sacs d'aliment",
        "les sujets ont epuise 30 kg de provende en deux jours",
        "les poulets ont pris 12 kg d'aliment aujourd'hui",
        "les poussins ont consome 3 kg et demi",
        "la bande a englouti 22 kg",
        "les petits ont pris 2,5 kg de farine demarrage aujourdhui",
        "ma femme leur a donne 2 kg",
        "je suis alle chercher de l'eau, les poulets ont mange 10 kg d'aliment",
    ],
)
def test_what_birds_finished_was_eaten(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert found["intent"] == "feed"
    assert found["slots"]["feed_move"] == "eaten"
    assert not found["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "ils ont fini leur aliment",
        "fini l'aliment, il reste 0 kg",
        "les 2 sacs de 50 kg sont finis depuis ce matin, plus rien",
        "le stock de 200 kg est epuise",
    ],
)
def test_feed_that_ran_out_is_told_so(thinking: Thinking, text: str) -> None:
    assert "feed_finished" in read(thinking, text, "fr", **BATCH)["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "je viens de prendre 100 kilos d'aliment finition chez le vendeur",
        "mon fils est parti chercher 3 sacs de croissance au magasin",
        "j'ai recupere 50 kg de provende chez le fournisseur",
        "on a charge 5 sacs de provende ce matin",
        "je reviens du marche avec 2 sacs d'aliment",
        "le vendeur m'a apporte 150 kg de provende",
        "sac d'aliment de 50 kg arrive au magasin aujourdhui",
        "200 kg d'aliment arrives ce matin",
        "j'ai pu avoir 100 kg de provende",
        "mon beau frere m'a envoye 6 sacs d'aliment par le bus",
        "la cooperative nous a donne 4 sacs de provende",
        "j'ai pris a credit 3 sacs de croissance",
        "aliment livre ce matin: 100 kg",
        "on a fait le plein d'aliment: 8 sacs",
        "j'ai trouve de l'aliment, 100 kg",
    ],
)
def test_feed_that_was_fetched_came_in(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert found["intent"] == "feed"
    assert found["slots"]["feed_move"] == "in"
    assert not found["signals"]


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("j'ai pese dix sujets, ca donne 6,5 kilos ensemble", 650),
        ("j'ai mis 10 poulets sur la balance, ca donne 14 kilos", 1400),
        ("j'ai pris 5 poulets, ca fait 6 kg en tout sur la balance", 1200),
        ("le plus petit que j'ai pese fait 900 g", 900),
        ("le plus gros fait 2,1 kg", 2100),
        ("le plus leger pese 850 grammes", 850),
    ],
)
def test_what_the_scales_give_is_a_weight(thinking: Thinking, text: str, grams: float) -> None:
    found = read(thinking, text, "fr", **GROWN)
    assert (found["intent"], found["slots"]["avg_g"]) == ("weight", grams)
    assert not found["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "les uns sont plus petits que les autres",
        "la moitie est plus petite que le reste",
        "les plus petits ne grandissent pas",
    ],
)
def test_a_flock_that_grew_apart_is_told_so(thinking: Thinking, text: str) -> None:
    assert "uneven_size" in read(thinking, text, "fr", **GROWN)["signals"]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("vente 15 sujets 4000", 15),
        ("ventes 12 poulets 2500 chacun", 12),
        ("le commercant est venu chercher trente poulets payes 18000 ariary l'un", 30),
        ("un client est venu enlever 20 sujets", 20),
        ("le grossiste a charge 100 poulets ce matin a 2500", 100),
        ("il a achete les 40 derniers poulets a deux mille sept", 40),
        ("ils ont pris tous les poulets a 2500 piece", 300),
        ("on m'a paye 75000 pour 25 poulets", 25),
        ("on vient de vendre 12 poulets", 12),
        ("les femmes du quartier ont achete 13 poulets au prix de 2750", 13),
    ],
)
def test_birds_that_a_buyer_took_are_sold(thinking: Thinking, text: str, count: int) -> None:
    found = read(thinking, text, "fr", **GROWN)
    assert (found["intent"], found["slots"]["count"]) == ("sold", count)


@pytest.mark.parametrize(
    "text",
    [
        "le client cherche 20 poulets",
        "il a achete une moto",
        "la vente de 200 poulets rapporte combien",
    ],
)
def test_who_only_seeks_birds_took_none(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **GROWN)["intent"] != "sold"


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("4 et non 14 morts", 4),
        ("4 et pas 14 morts", 4),
        ("trois et non treize morts", 3),
        ("4 morts en realite, pas 14", 4),
        ("4 plutot que 14 morts", 4),
        ("14 morts et pas de malade", 14),
        ("pas de morts et pas de malades", 0),
        ("pas un seul n'est mort ces dernieres 24 heures", 0),
        ("j'ai vu un petit qui ne bougeait plus, il etait mort", 1),
        ("le petit que je surveillais est mort", 1),
        ("quatre de nos sujets n'ont pas passe la nuit", 4),
        ("deux poulets n'ont pas tenu le coup", 2),
        ("la chaleur a tue un poulet", 1),
        ("il n'y a qu'un poulet mort aujourdui", 1),
        ("je n'ai perdu que 2 poussins", 2),
        ("il n'y a que 3 morts ce matin", 3),
        ("je n'ai perdu aucun poussin", 0),
        ("il n'y a pas un mort", 0),
        ("le froid m'a tue trois poussins", 3),
        ("en ouvrant la porte j'ai trouve un sujet, il etait deja mort", 1),
    ],
)
def test_the_dead_are_those_that_are_meant(thinking: Thinking, text: str, dead: int) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert (found["intent"], found["slots"].get("deaths")) == ("deaths", dead)


@pytest.mark.parametrize(
    "text",
    [
        "un ami est mort hier",
        "mon oncle est mort",
        "j'ai un ami malade, il est mort ce matin",
        "un poussin est presque mort",
        "on a tue un poulet pour la fete",
        "j'ai pas passe la nuit a la maison",
    ],
)
def test_who_is_no_dead_bird_is_not_counted(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["slots"].get("deaths") is None


@pytest.mark.parametrize(
    ("text", "intent", "slots"),
    [
        ("5 creves", "deaths", {"deaths": 5}),
        ("3 partis sur mes 400", "deaths", {"deaths": 3}),
        ("30 tetes livrees au maquis 3100 l une", "sold", {"count": 30, "price": 3100.0}),
        ("une mama a pris huit a 4200 chacun", "sold", {"count": 8, "price": 4200.0}),
        ("l air est a 52%", "humidity", {"rh_pct": 52.0}),
    ],
)
def test_a_figure_told_otherwise(
    thinking: Thinking, text: str, intent: str, slots: dict[str, float]
) -> None:
    found = read(thinking, text, lang="fr", age_days=40)
    assert found["intent"] == intent
    assert {name: found["slots"].get(name) for name in slots} == slots
