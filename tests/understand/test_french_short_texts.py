"""Short French texts with a figure, a denial or one dead bird, and what only sounds so."""

from __future__ import annotations

from typing import Any

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BATCH = {"has_batch": True, "age_days": 9, "count": 300, "today": "2026-03-04"}
GROWN = {**BATCH, "age_days": 40}
WAITED = {**BATCH, "age_days": 0}
NEW = {"has_batch": False, "age_days": None, "count": None, "today": "2026-03-04"}
MANY_DEAD = "sudden_many_deaths"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "un poulet est mort subitement"),
        ("fr", "la mort soudaine d'un poussin"),
        ("fr", "mon plus beau poulet est mort d'un coup"),
        ("fr", "un mort d'un seul coup ce soir"),
        ("fr", "un coq mort brusquement, les autres mangent"),
        ("en", "one chick died suddenly"),
        ("en", "a hen died all of a sudden"),
    ],
)
def test_one_that_dies_at_once_is_no_flock(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang, **BATCH)
    assert found["slots"]["deaths"] == 1
    assert not found["red_flag"]
    assert MANY_DEAD not in found["signals"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "mort subite dans mon elevage"),
        ("fr", "mes poussins meurent d'un coup"),
        ("fr", "un poussin meurt subitement chaque heure"),
        ("fr", "ils meurent brusquement les uns apres les autres"),
        ("en", "my birds die suddenly"),
    ],
)
def test_a_flock_that_dies_at_once_stays_a_danger(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang, **BATCH)
    assert found["red_flag"]
    assert MANY_DEAD in found["signals"]


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("j'en ai ramasse deux sans vie", 2),
        ("cinq sans vie ce matin", 5),
        ("14 morts non 4 morts", 4),
        ("12 mort, non 2 mort", 2),
        ("3 creves sur les 500", 3),
        ("pas de cadavre ce matin", 0),
        ("aucun cadavre trouve aujourd'hui", 0),
        ("une seule est partie cette nuit", 1),
        ("un est parti au ciel", 1),
    ],
)
def test_how_many_died(thinking: Thinking, text: str, dead: int) -> None:
    found = read(thinking, text, "fr", **{**BATCH, "count": 500})
    assert (found["intent"], found["slots"]["deaths"]) == ("deaths", dead)
    assert not found["signals"]


def test_a_no_behind_and_denies_the_wrong_figure(thinking: Thinking) -> None:
    assert read(thinking, "14 morts et non 4 morts", "fr", **BATCH)["slots"]["deaths"] == 14


def test_missing_birds_without_a_corpse_are_no_nought(thinking: Thinking) -> None:
    found = read(thinking, "il manque 5 poussins, aucun cadavre", "fr", **BATCH)
    assert found["signals"] == ["rats_or_predator"]
    assert "deaths" not in found["slots"]


def test_a_hundred_spelt_like_without_stays_one_before_birds(thinking: Thinking) -> None:
    found = read(thinking, "je veux demarrer avec trois sans poussins", "fr", **NEW)
    assert found["slots"]["count"] == 300


@pytest.mark.parametrize(
    ("text", "told", "denied"),
    [
        ("fientes blanches pas de sang", "white_or_green_diarrhoea", "bloody_droppings"),
        ("crottes liquides vertes, pas de sang dedans", "white_or_green_diarrhoea", None),
        ("ils toussent pas de sang", "sneezing_or_rattle", "bloody_droppings"),
        ("ils boitent pas de gonflement", "limping_or_down", None),
        ("ils toussent mais ne ronflent pas", "sneezing_or_rattle", None),
        ("yeux gonfles mais pas fermes", "eyes_swollen_or_closed", None),
        ("ils boitent mais ne sont pas couches", "limping_or_down", None),
    ],
)
def test_a_denial_behind_a_sign_takes_only_its_own(
    thinking: Thinking, text: str, told: str, denied: str | None
) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert found["signals"] == [told]
    assert denied is None or denied in found["not_signals"]


@pytest.mark.parametrize(
    ("text", "denied"),
    [
        ("ils toussent pas", "sneezing_or_rattle"),
        ("ils toussent pas de la nuit", "sneezing_or_rattle"),
        ("ils ont pas de diarrhee", "white_or_green_diarrhoea"),
        ("pas de toux et pas de ronflement", "sneezing_or_rattle"),
        ("la toux a cesse, pas de ronflement", "sneezing_or_rattle"),
        ("loin de haleter", "panting"),
        ("loin de tousser", "sneezing_or_rattle"),
    ],
)
def test_what_is_denied_stays_denied(thinking: Thinking, text: str, denied: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert not found["signals"]
    assert denied in found["not_signals"]


def test_what_they_do_not_eat_is_denied_before_it(thinking: Thinking) -> None:
    assert "not_eating" in read(thinking, "ils mangent pas de provende", "fr", **BATCH)["signals"]
    found = read(thinking, "tous loin de la lampe et ils haletent", "fr", **BATCH)
    assert set(found["signals"]) == {"away_from_heat", "panting"}


@pytest.mark.parametrize(
    ("lang", "text", "inside"),
    [
        ("fr", "dedans 31 dehors 20", 31),
        ("fr", "dehors 18 mais dedans 30", 30),
        ("fr", "32 a l'interieur, 24 dehors", 32),
        ("en", "inside 33 outside 21", 33),
        ("sw", "ndani 32 nje 20", 32),
    ],
)
def test_of_two_readings_the_one_inside_counts(
    thinking: Thinking, lang: str, text: str, inside: float
) -> None:
    found = read(thinking, text, lang, **BATCH)
    assert (found["intent"], found["slots"].get("value_c")) == ("temperature", inside)


def test_birds_inside_and_outside_are_no_reading(thinking: Thinking) -> None:
    found = read(thinking, "20 poulets dedans 30 dehors", "fr", **GROWN)
    assert found["intent"] != "temperature"


@pytest.mark.parametrize(
    "text",
    ["31 degres, 65 pour cent", "temp 31, 65%", "31 degres et 65 pourcent", "il fait 31, 65 %"],
)
def test_a_share_beside_degrees_is_humidity(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    parts = {one["intent"]: one["slots"] for one in found["slots"]["parts"]}
    assert parts == {"temperature": {"value_c": 31}, "humidity": {"rh_pct": 65}}


def test_a_share_of_birds_is_none(thinking: Thinking) -> None:
    found = read(thinking, "31 degres, 10% sont couches", "fr", **BATCH)
    assert all(one["intent"] != "humidity" for one in found["slots"]["parts"])


@pytest.mark.parametrize(
    ("text", "context", "intent", "slots"),
    [
        ("demi sac de 50 fini", BATCH, "feed", {"kg": 25, "feed_move": "eaten"}),
        ("2 sacs de 25 kg finis", BATCH, "feed", {"kg": 50, "feed_move": "eaten"}),
        ("7 litres le matin, 6 l'apres midi", BATCH, "water", {"litres": 13}),
        ("8 kg les dix", {**BATCH, "last_prompt": "weight"}, "weight", {"avg_g": 800}),
        ("6 kilos pour 10", {**BATCH, "last_prompt": "weight"}, "weight", {"avg_g": 600}),
        (
            "poudre contre la toux donnee hier",
            BATCH,
            "treated",
            {"product": "poudre contre la toux", "date_iso_offset": -1},
        ),
        ("vaccin fait", BATCH, "treated", {"product": "vaccin"}),
        ("cartons ouverts, 205 vivants", WAITED, "arrived", {"count": 205, "date_iso_offset": 0}),
        (
            "commande confirmee 500 pour le 18/3",
            NEW,
            "register",
            {"count": 500, "date_iso_offset": 14},
        ),
        (
            "c'est a 27 ce soir",
            {**BATCH, "last_prompt": "temperature"},
            "temperature",
            {"value_c": 27},
        ),
        ("j'ai lu trente", {**BATCH, "last_prompt": "temperature"}, "temperature", {"value_c": 30}),
        (
            "120 kg ecoules a 2500 le kilo",
            GROWN,
            "sold",
            {"kg": 120, "price": 2500, "price_per": "kg"},
        ),
        ("vendu 90 kg a 2600", GROWN, "sold", {"kg": 90, "price": 2600, "price_per": "kg"}),
    ],
)
def test_a_figure_is_what_its_words_say(
    thinking: Thinking, text: str, context: dict[str, Any], intent: str, slots: dict[str, Any]
) -> None:
    found = read(thinking, text, "fr", **context)
    assert (found["intent"], found["slots"]) == (intent, slots)
    assert not found["signals"]


def test_the_bag_that_is_finished_leaves_none(thinking: Thinking) -> None:
    for text in ("le sac de 50 est fini", "plus rien dans le sac", "mangeoires a sec"):
        assert "feed_finished" in read(thinking, text, "fr", **BATCH)["signals"]


@pytest.mark.parametrize("text", ["la provende sent le vieux", "les granules sentent le vieux"])
def test_feed_that_smells_old(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["signals"] == ["feed_mouldy"]


@pytest.mark.parametrize("text", ["pareil", "ca va mieux", "c'est pire", "1", "2"])
def test_what_changed_is_seen_and_its_answer_stays_inside(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH, last_prompt="worked")
    assert (found["intent"], found["slots"]) == ("observe", {})


def test_a_digit_of_the_litter_is_its_sign(thinking: Thinking) -> None:
    found = read(thinking, "3.", "fr", **BATCH, last_prompt="litter")
    assert (found["slots"], found["signals"]) == ({}, ["litter_caked"])


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("31 degres, serres contre le fourneau quand meme", ["piled_near_heat"]),
        ("ils haletent quand meme", ["panting"]),
        ("trente sont tombes d'un coup", [MANY_DEAD]),
        ("pres du fourneau ils tombent endormis un a un", ["drowsy_people_or_birds_near_stove"]),
        ("un poulet tourne la tete a l'envers", ["twisted_neck_or_paralysis"]),
        ("ca me tourne la tete", ["drowsy_people_or_birds_near_stove"]),
        ("ils toussent j'appelle qui", ["sneezing_or_rattle"]),
    ],
)
def test_signs_told_in_plain_words(thinking: Thinking, text: str, signs: list[str]) -> None:
    assert read(thinking, text, "fr", **BATCH)["signals"] == signs


@pytest.mark.parametrize(
    "text",
    [
        "que signifie un poussin qui halete",
        "ca veut dire quoi un poulet qui boite",
        "en cas de grippe qui appeler",
        "qui prevenir en cas de toux",
        "qui prevenir si les tetes gonflent",
    ],
)
def test_what_is_only_asked_about_is_no_sign(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert found["intent"] == "ask"
    assert not found["signals"]


@pytest.mark.parametrize(
    "text", ["arete de mecrire", "aretez de m'envoyer ca", "arrette de m'ecrire"]
)
def test_a_slip_in_stop_is_a_stop(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["intent"] == "stop"


@pytest.mark.parametrize(
    ("text", "context", "intent", "slots"),
    [
        ("le 12", {**NEW, "last_prompt": "date"}, "register", {"date_iso_offset": 8}),
        ("le 6 du mois svp", {**NEW, "last_prompt": "date"}, "register", {"date_iso_offset": 2}),
        ("200 poussins qui ont une semaine", NEW, "register", {"count": 200, "age_days": 7}),
        ("poussins ages d'une semaine, 200", NEW, "register", {"count": 200, "age_days": 7}),
        ("nouveau lot de 350 ne lundi", NEW, "register", {"count": 350, "date_iso_offset": -2}),
        ("un kilo six par tete", {**BATCH, "age_days": 33}, "weight", {"avg_g": 1600}),
        ("ils font 1 kilo 5", {**BATCH, "age_days": 33}, "weight", {"avg_g": 1500}),
        ("deux kilos trois chacun", GROWN, "weight", {"avg_g": 2300}),
    ],
)
def test_a_day_an_age_and_a_tenth_told_shortly(
    thinking: Thinking, text: str, context: dict[str, Any], intent: str, slots: dict[str, Any]
) -> None:
    found = read(thinking, text, "fr", **context)
    assert (found["intent"], found["slots"]) == (intent, slots)


def test_a_digit_behind_kilos_that_counts_the_dead_is_no_tenth(thinking: Thinking) -> None:
    found = read(thinking, "aliment 20 kilos 2 morts", "fr", **BATCH)
    assert {"kg": 20, "feed_move": "eaten"} in [one["slots"] for one in found["slots"]["parts"]]
    assert "deaths" in {one["intent"] for one in found["slots"]["parts"]}


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("ils crient de plus belle", "noisy_distress"),
        ("ca patauge quand j'entre", "litter_wet"),
        ("fientes couleur epinard", "white_or_green_diarrhoea"),
        ("plus que le fond du sac", "feed_finished"),
    ],
)
def test_signs_as_they_look_and_sound(thinking: Thinking, text: str, sign: str) -> None:
    assert read(thinking, text, "fr", **BATCH)["signals"] == [sign]


@pytest.mark.parametrize(
    "text",
    ["du pain au fond du sac", "il ne coule pas, ne tousse pas"],
)
def test_what_only_sounds_so_is_no_sign(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "fr", **BATCH)
    assert not set(found["signals"]) - {"crowded_one_side"}
    assert "count" not in found["slots"]
