"""Good news after an alarm: taken back where it answers it, said once where it does not. In three
languages, through the whole turn. Rules: practice, Danger."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand


@pytest.mark.parametrize(
    ("language", "text", "news"),
    [
        ("en", "6 dead and red droppings", "they are spread and quiet"),
        ("fr", "6 morts et du sang dans les fientes", "ils sont bien repartis et calmes"),
        ("sw", "6 wamekufa na damu kwenye kinyesi", "wametawanyika wametulia"),
    ],
)
def test_that_a_danger_stays_is_said_once_and_the_batch_stays_held(
    rehearsal: Rehearsal, language: str, text: str, news: str
) -> None:
    stand(rehearsal, language, age_days=23, house="open", heat="none", count=160)
    rehearsal.say(text)
    assert keys(rehearsal, news)[0] == "danger_stays"
    assert keys(rehearsal, news)[0] == "tell_vet"
    assert rehearsal.case().batches[-1].held


@pytest.mark.parametrize(
    ("language", "text", "no"),
    [
        ("en", "one bird lies on its side and kicks the legs", "no"),
        ("fr", "un poulet tombe sur le cote et bat des pattes", "non"),
        ("sw", "kuku mmoja analala ubavu anapiga mateke", "hapana"),
    ],
)
def test_a_bird_that_kicks_on_its_side_is_asked_about_with_the_vets_number(
    rehearsal: Rehearsal, language: str, text: str, no: str
) -> None:
    stand(rehearsal, language, age_days=20, house="open", heat="none")
    taken, _ = rehearsal.say(text)
    assert taken.decision.question is not None
    assert taken.decision.question.name == "fit"
    assert taken.decision.referred
    assert "+254" in taken.texts[0]
    assert keys(rehearsal, no)[0] == "danger_notifiable"


@pytest.mark.parametrize(
    "text", ["beaucoup sont morts d'un coup cette nuit", "bonjour, beaucoup sont morts d'un coup"]
)
def test_many_that_died_are_not_one_by_a_word_like_coup(rehearsal: Rehearsal, text: str) -> None:
    stand(rehearsal, "fr", age_days=20, house="open", heat="none")
    assert rehearsal.say(text)[0].decision.referred


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they hardly eat and look dull 3 dead"),
        ("fr", "ils mangent presque pas et sont tristes 3 morts"),
    ],
)
def test_dull_birds_beside_dead_ones_are_no_sleepers(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=20, house="open", heat="none", count=400)
    taken, _ = rehearsal.say(text)
    assert taken.decision.lines[0].key == "danger_ill"
