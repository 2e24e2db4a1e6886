"""The registry of figures: one entry a name. Pure.

In: a name and its key=value strings. Out: a `Figure` with unit, range, source and basis, or a kind
refusal (OutsideRange, UnknownFigure). Called by the command line and the desk.
"""

from __future__ import annotations

from collections.abc import Mapping

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.ahead_figures import AHEAD
from bot.husbandry.asking import Answer, Asked, Figure, Inputs, UnknownFigure
from bot.husbandry.growth_figures import GROWTH
from bot.husbandry.heat_figures import HEAT
from bot.husbandry.house_figures import HOUSE

REGISTRY: Mapping[str, Asked] = {asked.name: asked for asked in (*HOUSE, *GROWTH, *HEAT, *AHEAD)}


def figure(
    name: str,
    inputs: Mapping[str, str],
    h: Husbandry,
    more: Mapping[str, Asked] | None = None,
) -> Figure:
    """One figure. `more`: entries that a door adds to the registry.

    Raises UnknownFigure for a name, OutsideRange for a missing, unknown or impossible input; both
    name the valid range."""
    known = {**REGISTRY, **(more or {})}
    if name not in known:
        raise UnknownFigure(name, sorted(known))
    asked = known[name]
    read = Inputs(inputs)
    answer = _answered(asked, read, h)
    return Figure(
        name,
        dict(read.given),
        answer.value,
        answer.unit,
        answer.low,
        answer.high,
        h.sources.said(*answer.cited),
        answer.basis,
        answer.extra,
    )


def _answered(asked: Asked, read: Inputs, h: Husbandry) -> Answer:
    """The answer, once unknown keys are refused: a slip is named before what it left missing."""
    try:
        answer = asked.answer(read, h)
    except OutsideRange as error:
        if error.name.endswith("is missing") and asked.example:
            raise OutsideRange(error.name, f"for example: {asked.name} {asked.example}") from error
        raise
    read.done()
    return answer


def help_lines(more: Mapping[str, Asked] | None = None) -> tuple[str, ...]:
    """One line a figure: an example to type, and what it is."""
    known = {**REGISTRY, **(more or {})}
    return tuple(
        f"{' '.join((asked.name, asked.example)).strip()}  - {asked.about}"
        for asked in known.values()
    )
