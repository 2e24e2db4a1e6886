"""Figures of a fact that likeness tells: with its unit, put right, or of a sale; two feeds beside
each other, a reading beside another."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.figures import facts_told, lines
from tests.understand.reading import read

FIGURES = """
en heat 30.5 n hum 62 => temperature value_c=30.5 + humidity rh_pct=62
en moisture on my meter 61 => humidity rh_pct=61
en the humidity meter reads sixty eight => humidity rh_pct=68
en 8kg mash, 4kg starter => feed kg=12
en drank 30 litres 500 ml => water litres=30.5
en was 34 now 30.5 after i raised the lamp => temperature value_c=30.5
en sorry i typed 31kg meant 13kg feed => feed kg=13
"""

SALES = """
en 60 out at k90 per chicken => sold count=60 price=90
en 90 heads, 2100 per kilo for live => sold count=90 price=2100 per=kg
en butcher paid me 42000 for the 60 => sold count=60 price=42000 per=all
"""


@pytest.mark.parametrize("line", lines(FIGURES))
def test_a_figure_is_kept(thinking: Thinking, line: str) -> None:
    told, due = facts_told(thinking, line, age_days=9, count=400)
    assert told == due


@pytest.mark.parametrize("line", lines(SALES))
def test_a_sale_is_kept(thinking: Thinking, line: str) -> None:
    told, due = facts_told(thinking, line, age_days=38, count=400)
    assert told == due


@pytest.mark.parametrize(
    ("prompt", "text", "slots"),
    [
        ("temperature", "31 pt 5", {"value_c": 31.5}),
        ("feed", "two and a quarter kilos", {"kg": 2.25}),
    ],
)
def test_a_part_of_one_is_added(
    thinking: Thinking, prompt: str, text: str, slots: dict[str, float]
) -> None:
    found = read(thinking, text, "en", age_days=9, count=400, last_prompt=prompt)["slots"]
    assert {name: found.get(name) for name in slots} == slots


def test_what_a_neighbour_bought_is_no_sale_of_chicks(thinking: Thinking) -> None:
    found = read(thinking, "my neighbour bought 40 birds at 500", "en", age_days=9, count=400)
    assert found["intent"] != "sold"
