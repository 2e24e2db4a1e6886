"""A figure as it is typed after `broodpost figure`."""

from __future__ import annotations

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.asking import Figure
from bot.husbandry.figures import figure


def ask(h: Husbandry, line: str) -> Figure:
    """The figure that a line such as "space age_days=3" asks for."""
    name, *words = line.split()
    return figure(name, dict(word.split("=", 1) for word in words), h)


def number(h: Husbandry, line: str) -> float:
    """Its value, which must be a number."""
    value = ask(h, line).value
    assert not isinstance(value, str)
    return float(value)
