"""A worry that was told and not understood: chicks that are spread are no answer to it, so it is
asked what it is about before anything is called well. Texts of three languages through the whole
turn."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

STORY = {
    "en": "since the new boy came my chicks are not the way my father kept them and i do not like "
    "it, what do you think of it",
    "fr": "les poussins ne plaisent plus a mon pere comme avant, est ce que c'est normal, il me "
    "dit de vous demander parce que lui il ne comprend plus",
    "sw": "tangu kijana mpya aje vifaranga hawako kama zamani kwa baba yangu, unaonaje mwenzangu",
}
LANGUAGES = tuple(STORY)


def worried(rehearsal: Rehearsal, language: str) -> None:
    """A story that nobody could read was told, and the chicks are spread: the menu is open."""
    stand(rehearsal, language, age_days=18, house="open", heat="none")
    assert keys(rehearsal, STORY[language])[-1] == "behaviour"
    assert keys(rehearsal, "1")[-1] == "what"


@pytest.mark.parametrize("language", LANGUAGES)
def test_only_all_is_well_closes_an_unread_worry_as_well(
    rehearsal: Rehearsal, language: str
) -> None:
    worried(rehearsal, language)
    assert keys(rehearsal, "5") == ["comfortable", ""]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    ("digit", "answer"),
    [("1", "damp"), ("2", "feed_look"), ("3", "sign:not_drinking"), ("4", "ill_look")],
)
def test_a_digit_leads_on_to_what_the_worry_is_about(
    rehearsal: Rehearsal, language: str, digit: str, answer: str
) -> None:
    worried(rehearsal, language)
    assert answer in keys(rehearsal, digit)


@pytest.mark.parametrize(
    ("language", "text", "answer"),
    [
        ("en", "it is the feed", "feed_look"),
        ("en", "their droppings", "ill_look"),
        ("en", "the drinkers i think", "sign:not_drinking"),
        ("en", "no all is well", "comfortable"),
        ("fr", "c'est l'aliment", "feed_look"),
        ("fr", "les fientes", "ill_look"),
        ("fr", "rien, tout va bien", "comfortable"),
        ("sw", "ni chakula", "feed_look"),
        ("sw", "kinyesi chao", "ill_look"),
        ("sw", "hakuna, yote sawa", "comfortable"),
    ],
)
def test_words_choose_from_the_menu_too(
    rehearsal: Rehearsal, language: str, text: str, answer: str
) -> None:
    worried(rehearsal, language)
    assert answer in keys(rehearsal, text)


@pytest.mark.parametrize("language", LANGUAGES)
def test_blood_found_at_the_look_goes_to_the_vet(rehearsal: Rehearsal, language: str) -> None:
    worried(rehearsal, language)
    keys(rehearsal, "4")
    assert keys(rehearsal, "1")[0] == "danger_blood"


def test_a_sign_told_beside_the_choice_is_acted_on_at_once(rehearsal: Rehearsal) -> None:
    worried(rehearsal, "en")
    assert "feed_problem" in keys(rehearsal, "2 the feed is mouldy")


def test_feed_that_looks_good_after_a_worry_is_not_all_well(rehearsal: Rehearsal) -> None:
    worried(rehearsal, "en")
    keys(rehearsal, "2")
    assert keys(rehearsal, "3") == ["feed_and_water", ""]


def test_words_about_the_place_that_were_not_read_are_a_worry(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "fr", age_days=18, house="open", heat="none")
    assert keys(rehearsal, "1")[-1] == "behaviour"
    assert keys(rehearsal, "monsieur le voisin dit toujours")[-1] == "behaviour"
    assert keys(rehearsal, "1")[-1] == "what"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they are spread out and quiet"),
        ("en", "spread and quiet, is that good?"),
        ("fr", "ils sont repartis et calmes"),
        ("sw", "wametawanyika na wametulia"),
    ],
)
def test_who_tells_of_calm_birds_keeps_a_plain_answer(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=18, house="open", heat="none")
    assert keys(rehearsal, text) == ["comfortable", ""]


def test_a_lone_digit_for_the_place_asks_nothing_more(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", age_days=18, house="open", heat="none")
    assert keys(rehearsal, "1")[-1] == "behaviour"
    assert "comfortable" in keys(rehearsal, "1")
