"""The dead of now beside those of another time: "last year I lost 200, today zero", "yesterday 6
today only 1". In: a `Scene`. Out: (token, day, how many). Pure; called by `deaths`.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.understand.annotate import Clause
from bot.understand.dates import in_pairs
from bot.understand.numbers import Number
from bot.understand.scene import Scene

MOST_IN_PASSING = 20  # more dead than this are not told without a word for it
NOUGHTS = ("@answer:no", "@number:0", "@first:0", "@neg", "@negafter", "zero")
_NOW = ("@day:0", "@now", "own_birds")
_THIS = ("this", "dis", "cette", "celui", "celle", "hii", "hizi", "hili", "hawa", "huu")
_TIMES = (
    "season",
    "year",
    "yr",
    "month",
    "week",
    "ci",
    "annee",
    "saison",
    "mois",
    "mwaka",
    "msimu",
)
_BYGONE = ("last", "previous", "ago", "passe", "derniere", "dernier", "iliyopita", "uliopita")
_ONLY = ("only", "just", "jus", "jst", "seulement", "seul", "seulmen", "juste", "tu", "pekee")
# What may stand beside the figure of now and tells of nothing else.
_BESIDE = (
    *("bird", "batch", "dead", "lost", "deaths", "copula", "own_birds", "few_only"),
    *("well", "@polite", "@pronouns", "@article", "@common", "@now", "@weak", "@few"),
    *("@day:0", "@joiner", "@joins", "@clause", "@still", "@answer:not_yet", "@gone", "let_go"),
)
_TOLD = ("few_only", "@gone", "let_go", "lost")


def dead_of_now(scene: Scene, after: int) -> Iterator[tuple[int, int | None, int]]:
    """Behind a word of dying, a clause or the end of one that tells of now alone: "today zero",
    "this flock none yet"."""
    for clause in scene.text.clauses:
        for start in _starts_of_now(scene, clause, after):
            figures = _figures(scene, start, clause.end)
            rest = range(start, clause.end)
            nought = any(scene.text.at(name, at) for name in NOUGHTS for at in rest)
            if len(figures) > 1 or not (figures or nought) or not _plain(scene, rest):
                continue
            yield start, 0, round(figures[0].value) if figures else 0
            return


def tells_of_then(scene: Scene) -> bool:
    """Whether a time gone by is told: "last month 30 died but today nothing"."""
    return scene.has("@earlier", "from_start") or any(
        one.text in _BYGONE for one in scene.text.tokens
    )


def _starts_of_now(scene: Scene, clause: Clause, after: int) -> list[int]:
    spans = (span for name in _NOW for span in clause.spans.get(name, ()))
    starts = {span.start for span in spans}
    starts |= {at for at in range(clause.start, clause.end) if scene.text.tokens[at].text in _THIS}
    return sorted(at for at in starts if at > after)


def _figures(scene: Scene, start: int, end: int) -> list[Number]:
    told = [one for one in scene.plain_numbers if start <= one.start < end]
    return [one for one in told if not one.weak and one.value == int(one.value)]


def _plain(scene: Scene, places: range) -> bool:
    """Whether nothing but days, figures, noughts and little words stands there."""
    days = {at for day in scene.days for at in range(day.start, day.end)}
    figures = {at for one in scene.plain_numbers for at in range(one.start, one.end)}
    return all(
        at in days
        or at in figures
        or scene.text.tokens[at].kind == "mark"
        or scene.text.tokens[at].text in (*_THIS, *_ONLY, *_TIMES)
        or any(scene.text.at(name, at) for name in (*NOUGHTS, *_BESIDE))
        for at in places
    )


def two_days_alone(scene: Scene) -> Iterator[tuple[int, int | None, int]]:
    """ "yesterday 6 today only 1", "today nine gone yesterday two": two days and two figures, with
    no other word than that they are few, or gone."""
    figures = [one for one in scene.plain_numbers if one.value == int(one.value)]
    days = scene.days
    if len(days) != 2 or len(figures) != 2 or scene.quantities:
        return
    asked = scene.hearing.prompt == "deaths"
    told = scene.has(*_TOLD) or any(one.text in _ONLY for one in scene.text.tokens)
    told = told or any(one.value == 0 for one in figures)
    if not asked and (scene.hearing.prompt is not None or not told):
        return
    few = max(one.value for one in figures) <= MOST_IN_PASSING
    if not few or not in_pairs(days, [one.start for one in figures]):
        return
    if not _plain(scene, range(len(scene.text.tokens))):
        return
    for day, one in zip(days, figures, strict=True):
        if day.resolved(scene.hearing.today, past=True) == 0:
            yield one.start, 0, round(one.value)
