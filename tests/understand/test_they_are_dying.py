"""That birds die, told without a figure: of the flock it is danger, of some it is asked how many,
and of others, of what is feared or of one bird it is neither. Worded for this test; that rising
deaths are a sign of danger is practice among vets (common practice, no source)."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

DYING = {
    "en": (
        "my chicks are dying",
        "they dying",
        "birds r dieing",
        "why are my chicks dying",
        "i keep losing chicks",
        "we are losing birds every day",
        "my birds die what do i do",
        "dem dey die",
    ),
    "fr": (
        "mes poussins meurent",
        "ils meurent",
        "mes poulets crevent aidez moi",
        "ils crevent je fais quoi",
        "nos poulets meurent pk",
        "pourquoi mes poussins meurent",
        "mes poussin meure",
        "les poulets decedent",
        "je perds mes poussins",
        "je perds des poussins chaque jour",
        "ils se meurent",
        "on perd les poussins ici",
        "on ramasse les cadavres depuis hier",
        "je ramasse des cadavres a la pelle",
        "on ramasse on ramasse les cadavres",
        "je creuse trou sur trou pour enterrer les poussins",
        "les cadavres remplissent un sac",
        "les petits ont ramasse les cadavres dans 2 sacs",
    ),
    "sw": (
        "wanakufa",
        "zinakufa",
        "vinakufa",
        "wanadedi",
        "wanafariki nisaidie",
        "mbona wanakufa",
        "kwa nini kuku wangu wanakufa",
        "kuku wananifia",
        "nakufiwa na kuku",
        "ninapoteza kuku kila siku",
        "vifaranga vyangu vinakufa nifanyeje",
    ),
}
UNCOUNTED = {
    "en": ("some died", "there are deaths", "a few chicks have died", "dead ones again today"),
    "fr": ("ya des morts", "quelques uns sont morts", "il y a eu des morts", "encore des morts"),
    "sw": ("baadhi wamekufa", "kuna vifo", "wamekufa tena", "wachache wamekufa"),
}
NEITHER = {
    "en": (
        "they are not dying",
        "what if they are dying",
        "neighbour's chicks are dying",
        "why do chicks die in first week",
        "no one died",
        "the stove died at night",
        "i fear they will die",
        "am dying of hunger",
        "last batch many died",
        "dying in masses? who told you that, 0 dead here",
    ),
    "fr": (
        "ils meurent pas",
        "mes poussins ne meurent plus",
        "si les poussins meurent je fais quoi",
        "j'ai peur qu'ils meurent",
        "chez le voisin ils meurent",
        "pourquoi les poussins meurent la premiere semaine",
        "combien meurent d'habitude",
        "je meurs de faim",
        "les mouches meurent",
        "ils meurent de faim donnez moi le prix de l'aliment",
        "pas de morts",
        "le feu est mort",
        "ou jeter les cadavres ?",
        "comment enterrer les cadavres",
        "ya pas de cadavres ce matin",
        "je creuse un trou pour les latrines",
        "cadavres de rats partout",
        "mourir en masse ? qui a dit ca, 0 mort chez moi",
        "qui t'a dit que ca meurt ? zero mort ici",
        "personne n'a claque aujourd'hui",
    ),
    "sw": (
        "hawafi",
        "hawajafa",
        "wakifa nifanyeje",
        "kuku wa jirani wanakufa",
        "kwa nini vifaranga hufa wiki ya kwanza",
        "naogopa watakufa",
        "inzi wanakufa",
        "hakuna aliyekufa",
        "moto umekufa",
        "batch iliyopita walikuwa wanakufa",
    ),
}


@pytest.mark.parametrize(("lang", "text"), [(a, b) for a, c in DYING.items() for b in c])
def test_a_flock_that_dies_is_danger(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang)
    assert found["red_flag"]
    assert "sudden_many_deaths" in found["signals"]


@pytest.mark.parametrize(("lang", "text"), [(a, b) for a, c in UNCOUNTED.items() for b in c])
def test_dead_without_a_figure_are_heard_as_deaths(
    thinking: Thinking, lang: str, text: str
) -> None:
    found = read(thinking, text, lang=lang)
    assert found["intent"] == "deaths"
    assert not found["slots"]
    assert not found["red_flag"]


@pytest.mark.parametrize(("lang", "text"), [(a, b) for a, c in NEITHER.items() for b in c])
def test_what_is_feared_denied_or_of_others_is_no_death(
    thinking: Thinking, lang: str, text: str
) -> None:
    found = read(thinking, text, lang=lang)
    assert not found["red_flag"]
    assert found["intent"] != "deaths" or found["slots"]["deaths"] == 0
