"""Tables of texts with the facts that each tells, read for the tests beside it.

A line is `language text => intent name=value …`, several facts joined by ` + `. The facts must be
those and no others; of each fact the slots of contract 1, some by a short name, and no others. A
day that is not named in the table may be left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from bot.wiring import Thinking
from tests.understand.reading import read

SCORED = frozenset(
    "count date_iso_offset age_days value_c rh_pct deaths kg weights_g avg_g litres price "
    "price_per feed_move house_m2".split()
)
SHORT = {
    "day": "date_iso_offset",
    "move": "feed_move",
    "weights": "weights_g",
    "per": "price_per",
    "m2": "house_m2",
}
LEFT_OUT = {"price_per": "bird", "feed_move": "eaten"}  # what contract 1 takes as said


def facts_told(thinking: Thinking, line: str, **context: object) -> tuple[object, object]:
    """What a line of a table reads as, and what it should."""
    said, wanted = line.split("=>")
    language, text = said.strip().split(maxsplit=1)
    got = read(thinking, text, language, **context)
    parts = got["slots"].get("parts", [got])
    facts = {part["intent"]: dict(_scored(part["slots"])) for part in parts}
    due = dict(_wanted(one) for one in wanted.split("+"))
    for intent, slots in due.items():
        if "date_iso_offset" not in slots and intent in facts:
            facts[intent].pop("date_iso_offset", None)
    return facts, due


def _scored(slots: Mapping[str, Any]) -> Iterator[tuple[str, object]]:
    for name, value in slots.items():
        if name in SCORED and value != LEFT_OUT.get(name):
            yield name, list(value) if isinstance(value, tuple) else value


def _wanted(told: str) -> tuple[str, dict[str, object]]:
    intent, *slots = told.split()
    pairs = (one.split("=") for one in slots)
    return intent, {SHORT.get(name, name): _value(value) for name, value in pairs}


def _value(value: str) -> object:
    if "," in value:
        return [float(one) for one in value.split(",")]
    try:
        return float(value)
    except ValueError:
        return value


def lines(table: str) -> list[str]:
    """The lines of a table."""
    return [line.strip() for line in table.splitlines() if line.strip()]
