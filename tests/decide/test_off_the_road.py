"""Chicks off a long road: out of the boxes and water before all else, whatever is asked or said by
others beside it; crops that are hard tell of thirst. And feed that was rained on is not mended by
the sun. Worded for this test; common practice, no source."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.talk import Intent
from bot.wiring import Thinking
from tests.decide.scene import NOON, keys, stand
from tests.understand.reading import heard


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they are still in the boxes, some lie down. feed or water first?"),
        ("en", "should i take them out of the cartons now"),
        ("fr", "ils sont encore dans les cartons, bec ouvert"),
        ("fr", "je les sors des boites maintenant ?"),
        ("sw", "bado wako kwenye maboksi, nianze na nini"),
        ("sw", "niwatoe kwenye maboksi sasa?"),
    ],
)
def test_chicks_in_their_boxes_are_let_out_first(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, age_days=0, heat="gas")
    assert keys(rehearsal, text)[0] == "boxes_out"


@pytest.mark.parametrize(
    ("language", "age", "text"),
    [
        ("en", 0, "4 were dead in the box"),
        ("en", 9, "three lame ones are in boxes with water"),
        ("fr", 9, "les malades sont dans les cartons"),
        ("sw", 30, "kuku wanauzwa kwenye makreti"),
    ],
)
def test_other_boxes_are_left_alone(
    rehearsal: Rehearsal, language: str, age: int, text: str
) -> None:
    stand(rehearsal, language, NOON, age_days=age, heat="gas")
    assert "boxes_out" not in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "les poussins viennent d'arriver, certains bec ouvert. le voisin dit rien a boire"),
        ("en", "my chicks came now, some pant. the neighbour says no water before tomorrow"),
        ("sw", "vifaranga wamefika sasa, wengine wanahema. jirani anasema nisiwape maji"),
    ],
)
def test_what_a_neighbour_says_takes_no_arrival_away(
    thinking: Thinking, language: str, text: str
) -> None:
    meaning = heard(thinking, text, age_days=0, lang=language)
    assert Intent.ARRIVED in {one.intent for one in meaning.facts()}


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "crops are hard like pebbles and they run about"),
        ("en", "their crop feels dry and hard, is it ok"),
        ("fr", "les jabots sont durs comme des cailloux"),
        ("fr", "jabot dur et sec chez huit sur dix"),
        ("sw", "gole ni ngumu kama jiwe, wanatafuta"),
    ],
)
def test_hard_crops_are_thirst(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, NOON, age_days=2, heat="gas")
    said = keys(rehearsal, text)
    assert "thirst" in said
    assert "damp" not in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "bags were rained on, i dried them in the sun, now they do not eat"),
        ("en", "feed got wet on the truck and i sunned it. birds refuse it"),
        ("fr", "les sacs ont pris la pluie, je les ai seches au soleil, ils ne mangent plus"),
        ("fr", "aliment mouille puis seche au soleil, ils refusent de manger"),
        ("sw", "magunia ya chakula yalilowa nikaanika juani, sasa hawali"),
    ],
)
def test_feed_that_was_wet_and_is_refused_goes_out(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, age_days=20, heat="none")
    said = keys(rehearsal, text)
    assert "feed_problem" in said
    assert not {"hunger", "hunger_open"}.intersection(said)
