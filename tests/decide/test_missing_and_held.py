"""Chicks that get fewer are missing, not "none dead"; a held batch lets nothing out, whatever is
asked of it; pecked litter asks for feed; an open danger makes no number of dead a quiet one."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.talk import Decision
from tests.decide.scene import at_age

ILL = {
    "en": "some turn their neck over the back",
    "fr": "certains tournent le cou et crotte verte",
    "sw": "baadhi wanageuza shingo",
}
BLOODY = {
    "en": "some droppings have blood",
    "fr": "du sang dans les fientes",
    "sw": "wengi wana damu kwenye kinyesi",
}


def last(rehearsal: Rehearsal, *texts: str) -> Decision:
    for text in texts:
        taken, _ = rehearsal.say(text)
    return taken.decision


def keys(found: Decision) -> list[str]:
    return [line.key for line in found.lines]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "every morning the chicks are less but i see no dead ones"),
        ("en", "chicks gone at night"),
        ("en", "i count less every day no dead"),
        ("fr", "chaque matin les poussins sont moins mais pas de morts"),
        ("fr", "chaque matin il y a moins de poussins mais je ne vois pas de morts"),
        ("sw", "kila asubuhi vifaranga ni wachache lakini sioni waliokufa"),
        ("sw", "idadi inapungua usiku, hakuna aliyekufa"),
    ],
)
def test_fewer_chicks_without_dead_ones_are_missing_and_no_day_without_deaths(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 12, language=language)
    found = last(rehearsal, text)
    assert "predator" in keys(found)
    assert not [one for one in found.writes if getattr(one, "kind", "") == "deaths"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "a buyer comes tomorrow"),
        ("en", "the market is on friday"),
        ("en", "i want to catch them tonight"),
        ("fr", "un acheteur veut venir demain"),
        ("fr", "un acheteur vient demain prendre des poulets"),
        ("fr", "demain un acheteur vient"),
        ("sw", "mnunuzi anakuja kesho"),
        ("sw", "nataka kuwakamata usiku"),
        ("sw", "kesho ni siku ya soko"),
    ],
)
def test_whatever_speaks_of_trade_is_stopped_in_a_held_batch(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 23, language=language)
    found = last(rehearsal, ILL[language], text)
    assert keys(found) in (["held_no_sale"], ["trader_gate"])
    assert found.referred


def test_buyers_are_a_routine_matter_where_nothing_is_held(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 23, language="fr")
    assert keys(last(rehearsal, "un acheteur veut venir demain")) == ["on_biosecurity"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "what do i do with the dead"),
        ("fr", "que faire des morts"),
        ("sw", "nifanye nini na waliokufa"),
    ],
)
def test_the_dead_of_a_held_batch_go_into_the_pit_and_the_vet_is_asked(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 23, language=language)
    found = last(rehearsal, ILL[language], text)
    assert (keys(found), found.referred) == (["held_dead"], True)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "chicks eat the litter and peck my feet"),
        ("en", "they run to me and peck the shavings"),
        ("fr", "les poussins mangent la litiere et me picorent les pieds"),
        ("sw", "vifaranga wanakula maranda na kunidonoa miguu"),
        ("sw", "nikiingia wananikimbilia wote na wanadonoa maranda"),
    ],
)
def test_pecked_litter_asks_for_feeders_then_crops_before_any_place(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 12, language=language)
    found = last(rehearsal, text)
    assert found.question is not None
    assert found.question.name == "sign:feed_out_of_reach"
    behind = last(rehearsal, "2")
    assert behind.question is not None
    assert behind.question.name == "sign:crop_empty"
    assert "comfortable" not in keys(last(rehearsal, "2"))


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "2 dead this morning"), ("fr", "2 morts ce matin"), ("sw", "wawili wamekufa")],
)
def test_while_a_danger_is_open_few_dead_get_the_vet_and_no_all_clear(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 23, language=language)
    found = last(rehearsal, BLOODY[language], text)
    assert keys(found)[-1] == "still_danger"
    assert found.referred
    assert "deaths_line" not in keys(found)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "18 died this morning and the neighbour's hens are all dead"),
        ("fr", "18 morts ce matin et les poules du voisin sont toutes mortes"),
        ("sw", "18 wamekufa leo asubuhi na kuku wa jirani wote wamekufa"),
    ],
)
def test_own_dead_are_danger_though_the_neighbours_died_too(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 23, language=language)
    assert keys(last(rehearsal, text)) == ["danger_deaths"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "chicks walk over one another"),
        ("fr", "les poussins sont sales sous le ventre et se marche dessus"),
    ],
)
def test_chicks_that_tread_on_each_other_want_floor(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 12, language=language)
    assert "crowding" in keys(last(rehearsal, text))
