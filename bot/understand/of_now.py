"""The dead of now beside those of another time: "last year I lost 200, today zero", "yesterday 6
today only 1". In: a `Scene`. Out: (token, day, how many). Pure; called by `deaths`.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.understand.annotate import Clause
from bot.understand.numbers import Number
from bot.understand.scene import Scene
from bot.understand.tally import NOUGHTS, Told, is_plain

_NOW = ("@day:0", "@now", "own_birds", "~this")


def dead_of_now(scene: Scene, after: int) -> Iterator[Told]:
    """Behind a word of dying, a clause or the end of one that tells of now alone: "today zero",
    "this flock none yet"."""
    for clause in scene.text.clauses:
        for start in _starts_of_now(clause, after):
            figures = _figures(scene, start, clause.end)
            rest = range(start, clause.end)
            nought = any(scene.text.at(name, at) for name in NOUGHTS for at in rest)
            if len(figures) > 1 or not (figures or nought) or not is_plain(scene, rest, "@common"):
                continue
            yield Told(start, round(figures[0].value) if figures else 0, 0)
            return


def tells_of_then(scene: Scene) -> bool:
    """Whether a time gone by is told: "last month 30 died but today nothing"."""
    return scene.has("@earlier", "from_start", "~bygone")


def _starts_of_now(clause: Clause, after: int) -> list[int]:
    spans = (span for name in _NOW for span in clause.spans.get(name, ()))
    return sorted({span.start for span in spans if span.start > after})


def _figures(scene: Scene, start: int, end: int) -> list[Number]:
    told = [one for one in scene.plain_numbers if start <= one.start < end]
    return [one for one in told if not one.weak and one.value == int(one.value)]
