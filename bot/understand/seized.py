"""Birds that a beast took, and which figure a pattern of birds that left stands on.

In: a `Scene`. Out: figures. Pure; called by `deaths`, `sales` and `taken`.
"""

from __future__ import annotations

from typing import NamedTuple

from bot.understand.numbers import Number
from bot.understand.patterns import Match
from bot.understand.scene import Scene

SEIZED = "seized"  # its heading under `intents` in words.yaml


class Seized(NamedTuple):
    """How many a beast took, and where that is told."""

    number: Number
    match: Match


def seized(scene: Scene) -> Seized | None:
    """ "mongoose took three", "le chien a tue 4": birds that a beast took or killed."""
    if scene.has("plan", "@others", "@if"):
        return None
    for match in said(scene, SEIZED):
        number = figure_of(scene, match)
        if number is None or scene.of_flock(number):
            continue
        if not scene.text.at("predator", number.end):  # "le chien a attrape un rat"
            return Seized(number, match)
    return None


def said(scene: Scene, name: str) -> list[Match]:
    """Where a pattern of this name stands and is not denied."""
    return [one for one in scene.intents.get(name, ()) if not one.denied]


def figure_of(scene: Scene, match: Match) -> Number | None:
    """The figure that the pattern stands on, else the one nearest to it in its clause."""
    whole = [one for one in scene.plain_numbers if one.value == int(one.value)]
    on = [one for one in whole if one.start in match.used]
    if on:
        return on[0]
    clause = scene.text.clause_at(match.start)
    near = [one for one in scene.near(clause, whole) if not one.weak]
    return min(near, key=lambda one: abs(one.start - match.start), default=None)
