"""An answer is cut into texts of one part each, between its lines, the question last."""

from __future__ import annotations

import pytest

from bot.decide.common import say
from bot.say.render import Voice, compose_all
from bot.say.segments import measure
from bot.wiring import Thinking

LONG = ("hot_one", "thirst_line", "damp", "cold_gas")


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_each_text_of_a_long_answer_is_one_part_and_nothing_is_lost(
    thinking: Thinking, count: int
) -> None:
    texts = thinking.handbook.texts
    lines = tuple(say(key) for key in LONG[:count])
    told = compose_all(lines, None, Voice("en"), texts)
    assert len(told) == count
    assert all(measure(text).parts == 1 for text in told)
    assert [text[:8] for text in told] == [
        compose_all((line,), None, Voice("en"), texts)[0][:8] for line in lines
    ]
