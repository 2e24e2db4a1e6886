"""Causes that were told plainly and missed: a dry nipple line, a beast's bite, a heap in
which they smothered, heavy birds that die at midday."""

from __future__ import annotations

import pytest

from bot.decide.common import behaviour_menu
from bot.facts.talk import Intent
from bot.turn.take import hearing
from bot.wiring import Thinking
from tests.diagnosis.talking import Farm, keys


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "chicks not eating since morning, they stand in line under the pipe"),
        ("en", "they look up to the pipe, cant touch"),
        ("en", "they queue at the nipples and cry"),
        ("en", "five drinkers, three are empty now i look. feeders are full"),
        ("fr", "ils font la queue sous le tuyau et crient"),
        ("fr", "ils regardent le tuyau en l'air, n'arrivent pas a toucher"),
        ("fr", "cinq abreuvoirs, trois sont vides maintenant"),
        ("sw", "wamesimama mstari chini ya bomba"),
        ("sw", "wanaangalia juu kwenye bomba, hawafikii"),
        ("sw", "vinywesheo vitano, vitatu ni vitupu nikiangalia"),
    ],
)
def test_a_dry_line_or_empty_drinkers_are_thirst(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(5, language=language, heat=("gas",), hour=11, book=thinking.handbook)
    found = farm.text(text, thinking.reader)
    assert found.why is not None
    assert (found.why.cause, found.referred) == ("thirst", False)
    assert any(one.startswith("thirst") for one in keys(found))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "neck is open, head of one not there"),
        ("fr", "le cou est ouvert, la tete d'un n'est pas la"),
        ("sw", "shingo imefunguka, kichwa cha mmoja hakipo"),
        ("sw", "wawili hawana kichwa"),
        ("fr", "un poulet sans tete au fond"),
    ],
)
def test_an_open_neck_or_a_missing_head_is_a_beasts_work(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(33, 620, language=language, heat=("none",), hour=6, book=thinking.handbook)
    found = farm.text(text, thinking.reader)
    assert found.why is not None
    assert (found.why.cause, found.referred) == ("predator", False)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "newcasle is killing my birds 2 today 1 yesterday"),
        ("fr", "la newcastle tue mes poulets, 2 aujourd'hui"),
        ("sw", "newcastle inaua kuku wangu wawili leo"),
    ],
)
def test_a_disease_that_kills_is_no_treatment(language: str, text: str, thinking: Thinking) -> None:
    farm = Farm(33, 620, language=language, heat=("none",), hour=6, book=thinking.handbook)
    found = farm.text(text, thinking.reader)
    assert found.question is None or found.question.name != "withdrawal"
    assert not list(farm.batch.live_events("treated"))


@pytest.mark.parametrize(
    ("language", "told", "text"),
    [
        ("en", "31 died in the night in one corner", "flat and wet like sweat, no wounds"),
        ("en", "31 died in the night in one corner", "all in one corner on top of each other"),
        ("fr", "31 morts cette nuit dans un coin", "tout plats et trempes, pas de blessure"),
        ("fr", "31 morts cette nuit dans un coin", "dans un coin, ecrases"),
        ("sw", "31 wamekufa usiku kona moja", "bapa wamelowa jasho, hakuna jeraha wala damu"),
        ("sw", "31 wamekufa usiku kona moja", "kwenye kona moja, wamebanwa"),
    ],
)
def test_dead_that_lay_flat_in_a_heap_get_the_plan_of_the_night(
    language: str, told: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(15, 400, language=language, house="open", hour=6, book=thinking.handbook)
    asked = farm.text(told, thinking.reader)
    assert asked.question is not None
    assert asked.question.name == "dead_look"
    found = farm.text(text, thinking.reader)
    assert keys(found) == ["look_heap", "still_danger"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "6 dead since noon, the biggest"),
        ("fr", "6 morts depuis midi, les plus gros"),
        ("sw", "6 wamekufa tangu saa sita, wakubwa"),
    ],
)
def test_heavy_birds_that_die_at_midday_are_asked_for_the_heat(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(34, 1200, language=language, heat=("none",), hour=14, book=thinking.handbook)
    found = farm.text(text, thinking.reader)
    assert found.question is not None
    assert found.question.name == "sign:panting"
    cooled = farm.text("1", thinking.reader)
    assert {"hot_open", "heat_danger"}.intersection(keys(cooled))
    assert farm.complaint is not None
    assert farm.complaint.check_at is not None


def test_chicks_and_the_night_are_not_asked_for_the_heat_of_the_day(thinking: Thinking) -> None:
    young = Farm(5, 1200, hour=14, book=thinking.handbook)
    night = Farm(34, 1200, heat=("none",), hour=23, book=thinking.handbook)
    for farm in (young, night):
        found = farm.text("6 dead", thinking.reader)
        assert found.question is None or found.question.name != "sign:panting"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "couches partout, plat"),
        ("en", "lying flat everywhere"),
        ("sw", "wamelala bapa kila mahali"),
    ],
)
def test_birds_that_lie_flat_everywhere_are_not_called_well_spread(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(34, 1200, language=language, heat=("none",), hour=14, book=thinking.handbook)
    farm.put(behaviour_menu())
    found = farm.text(text, thinking.reader)
    assert "spread_evenly" not in (farm.complaint.signals if farm.complaint else ())
    assert "comfortable" not in keys(found)


def test_a_vaccine_that_was_given_is_still_taken_down(thinking: Thinking) -> None:
    farm = Farm(14, 300, book=thinking.handbook)
    text = "gave newcastle vaccine today"
    meaning = thinking.reader.read(text, hearing(farm.case, farm.case.today))
    assert any(one.intent is Intent.TREATED for one in meaning.facts())


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "2 dead in the corner, crushed flat"),
        ("en", "2 dead flat in the corner, they heaped in the night"),
        ("fr", "2 morts ecrases dans le coin ce matin"),
        ("fr", "2 morts aplatis sous le tas cette nuit"),
        ("sw", "wawili wamekufa bapa kwenye kona asubuhi hii"),
        ("sw", "2 wamekufa, walibanwa kwenye kona usiku"),
    ],
)
def test_few_dead_that_were_crushed_in_a_corner_get_the_plan_of_the_night(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(15, 600, language=language, house="open", hour=6, book=thinking.handbook)
    found = farm.text(text, thinking.reader)
    assert "look_heap" in keys(found)
    assert farm.batch.total("deaths", farm.case.today) == 2
    assert not found.referred


def test_crushed_below_a_heap_that_lies_there_now_are_spread_by_hand_first(
    thinking: Thinking,
) -> None:
    farm = Farm(16, 600, house="open", hour=22, book=thinking.handbook)
    found = farm.text("they are piled in the corner, 2 dead crushed below", thinking.reader)
    assert "smother" in keys(found)
