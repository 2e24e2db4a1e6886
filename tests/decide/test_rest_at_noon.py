"""A flock that lies at noon, and eats and runs at other hours, rests or is hot: it is looked at
before a vet is called. One that does not eat or get up is danger as it was."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.diagnosis.talking import Farm


def _farm(thinking: Thinking, language: str) -> Farm:
    return Farm(
        28, 300, heat=("none",), house="open", hour=13, language=language, book=thinking.handbook
    )


RESTS = [
    ("en", "at noon they all lie down flat. in the morning they eat and run, in the evening too"),
    (
        "en",
        "all birds lie flat at midday and do not move, they eat well at dawn and dusk",
    ),
    ("fr", "ils sont tous couches a midi. le matin ils mangent bien ils courent, le soir aussi"),
    ("fr", "tous etales par terre vers midi mais matin et soir ils mangent"),
    ("sw", "mchana kuku wote wamelala chini, asubuhi wanakula na kukimbia"),
]


@pytest.mark.parametrize(("language", "text"), RESTS)
def test_a_rest_at_noon_is_looked_at_first(thinking: Thinking, language: str, text: str) -> None:
    told = _farm(thinking, language).text(text, thinking.reader)
    assert not told.referred
    assert told.question is not None
    assert told.question.name == "wake"


@pytest.mark.parametrize(("language", "text"), RESTS)
def test_who_stays_down_when_clapped_at_is_for_the_vet(
    thinking: Thinking, language: str, text: str
) -> None:
    farm = _farm(thinking, language)
    farm.text(text, thinking.reader)
    assert farm.text("1", thinking.reader).referred


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "all of them lie down at noon and do not eat"),
        ("en", "since noon all are dull, in the morning they ate"),
        ("fr", "tous couches depuis midi et ils ne mangent plus"),
        ("sw", "mchana wote wamelala chini hawali hawaamki"),
    ],
)
def test_a_flock_that_is_down_and_does_not_eat_is_danger(
    thinking: Thinking, language: str, text: str
) -> None:
    assert _farm(thinking, language).text(text, thinking.reader).referred
