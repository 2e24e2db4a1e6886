"""Why: one text that rests on what was told, read and asked."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.diagnosis.talking import Farm


def reasons(thinking: Thinking, *texts: str) -> tuple[str, dict[str, object]]:
    """What "why" says after these texts: the key and what it places."""
    farm = Farm(5, book=thinking.handbook)
    for text in texts:
        farm.text(text, thinking.reader)
    (line,) = farm.text("why", thinking.reader).lines
    return line.key, dict(line.values)


@pytest.mark.parametrize(
    ("texts", "key", "placed"),
    [
        (("chicks piled at the stove and crying",), "because_two",
         {"cause": "cold", "sign": "piled_near_heat", "other": "noisy_distress"}),
        (("temp 40",), "because", {"cause": "hot", "sign": "40 C"}),
        (("20 C", "1"), "because", {"cause": "cold", "sign": "20 C"}),
        (("32 C but they pile up at the stove",), "because",
         {"cause": "cold", "sign": "piled_near_heat"}),
        (("chicks along the walls",), "because_asked", {"cause": "hot", "other": "damp_litter"}),
        (("blood in the droppings",), "because_alarm", {"sign": "bloody_droppings"}),
        (("30 dead today",), "because_alarm", {"sign": "sudden_many_deaths"}),
        ((), "no_reasons", {}),
    ],
)  # fmt: skip
def test_why_says_what_the_last_answer_rests_on(
    texts: tuple[str, ...], key: str, placed: dict[str, object], thinking: Thinking
) -> None:
    assert reasons(thinking, *texts) == (key, placed)


def test_after_why_the_open_question_is_still_open(thinking: Thinking) -> None:
    farm = Farm(5, book=thinking.handbook)
    farm.text("chicks along the walls", thinking.reader)
    farm.text("why", thinking.reader)
    found = farm.text("1", thinking.reader)
    assert found.why is not None
    assert found.why.cause == "hot"
