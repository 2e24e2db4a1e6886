"""Dead and culled birds told in one text: both are taken off, those left are counted once, and a
doubtful number of dead is asked about all the same."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.diagnosis.talking import Farm


def _farm(thinking: Thinking) -> Farm:
    return Farm(12, 300, language="en", book=thinking.handbook)


@pytest.mark.parametrize(
    ("text", "left"),
    [("2 died, 1 culled", 297), ("1 culled and 2 died", 297), ("1 dead 1 culled", 298)],
)
def test_those_left_are_counted_once_and_after_both(
    thinking: Thinking, text: str, left: int
) -> None:
    farm = _farm(thinking)
    told = farm.text(text, thinking.reader)
    assert [one.values for one in told.lines if one.key == "alive_now"] == [{"n": left}]
    assert farm.batch.alive == left


@pytest.mark.parametrize("text", ["3 died 1 culled", "4 died and 1 culled today"])
def test_a_doubtful_number_of_dead_is_asked_about_beside_a_cull(
    thinking: Thinking, text: str
) -> None:
    farm = _farm(thinking)
    told = farm.text(text, thinking.reader)
    assert told.question is not None
    assert told.question.name == "deaths_look"
    assert farm.batch.total("culled", farm.case.today) == 1
