"""Danger told in plain words, alone, behind a greeting and before a question, is always referred:
what is learned from many hands may never turn it over. Worded for this test; the kinds are those
of practice among vets: blood, nerves, swollen heads, breath, a dull flock, bad air, deaths."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

PLAIN = {
    "en": (
        "blood in the droppings",
        "many have blood in their droppings",
        "the chicks are passing blood",
        "twisted necks",
        "some birds have twisted neck",
        "a bird is paralysed",
        "two birds cannot stand their legs are paralysed",
        "swollen heads",
        "their heads are swollen",
        "many chicks are gasping",
        "most of them gasp for air",
        "they all breathe with difficulty",
        "all the chicks are dull and do not move",
        "the whole flock is sleepy",
        "all birds lie down and do not get up",
        "heavy smoke in the brooder",
        "the house is full of smoke",
        "my son has headache from the charcoal",
        "i feel dizzy in the brooder",
        "my wife fainted near the stove",
        "30 died today",
        "forty dead this morning",
        "many chicks died suddenly",
        "20 chicks dead since last night",
    ),
    "fr": (
        "du sang dans les fientes",
        "beaucoup ont du sang dans les crottes",
        "les poussins font du sang",
        "cou tordu chez plusieurs",
        "des poussins avec le cou tordu",
        "un poulet est paralyse",
        "tetes gonflees",
        "leurs tetes sont enflees",
        "beaucoup cherchent l'air",
        "la plupart respirent mal bec ouvert cou tendu",
        "tous les poussins sont abattus et ne bougent pas",
        "tout le lot dort",
        "tous couches ne se levent pas",
        "beaucoup de fumee dans la poussiniere",
        "la maison est pleine de fumee",
        "mon fils a mal a la tete a cause du charbon",
        "j'ai des vertiges dans la poussiniere",
        "ma femme est tombee pres du fourneau",
        "30 morts aujourd'hui",
        "quarante morts ce matin",
        "20 poussins morts depuis hier soir",
        "beaucoup de morts d'un coup",
    ),
    "sw": (
        "damu kwenye kinyesi",
        "wengi wana damu kwenye kinyesi",
        "vifaranga wanaharisha damu",
        "shingo zimepinda",
        "baadhi wamepinda shingo",
        "kuku mmoja amepooza",
        "vichwa vimevimba",
        "wamevimba vichwa",
        "wengi wanatafuta hewa",
        "wengi wanapumua kwa shida",
        "vifaranga wote wamelegea hawasogei",
        "kundi lote limezubaa",
        "wote wamelala hawaamki",
        "moshi mwingi bandani",
        "banda limejaa moshi",
        "mtoto anaumwa kichwa kwa sababu ya mkaa",
        "nasikia kizunguzungu ndani ya banda",
        "mke wangu amezimia karibu na jiko",
        "30 wamekufa leo",
        "arobaini wamekufa asubuhi",
        "wengi wamekufa ghafla",
        "20 wamekufa tangu jana usiku",
    ),
}
AROUND = {
    "en": ("{}", "good morning {}", "{} what should i do"),
    "fr": ("{}", "bonjour {}", "{} que faire"),
    "sw": ("{}", "habari {}", "{} nifanye nini"),
}
TEXTS = [
    (lang, form.format(text)) for lang in PLAIN for text in PLAIN[lang] for form in AROUND[lang]
]


@pytest.mark.parametrize(("lang", "text"), TEXTS)
def test_danger_in_plain_words_is_referred(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang=lang, age_days=12)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "many have bloody droppings. neighbour has medicine, how many spoons do i put?"),
        ("en", "Most of them pass blood. My neighbour had it last year and lost all."),
        (
            "fr",
            "beaucoup ont du sang dans la fiente. le voisin a un remede, combien de cuilleres ?",
        ),
        ("sw", "wengi wanahara damu. jirani ana dawa, niweke vijiko vingapi?"),
    ],
)
def test_what_is_told_of_a_neighbour_in_the_next_sentence_takes_no_danger_back(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang=lang, age_days=12)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("en", "18 died this morning and the neighbour's hens are all dead", 18),
        ("en", "i lost 21 today and my neighbour lost 40", 21),
        ("fr", "18 morts ce matin et les poules du voisin sont toutes mortes", 18),
        ("sw", "18 wamekufa leo asubuhi na kuku wa jirani wote wamekufa", 18),
    ],
)
def test_the_own_dead_beside_the_neighbours_are_told(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    found = read(thinking, text, lang=lang)
    assert found["red_flag"]
    assert found["slots"]["deaths"] == dead
