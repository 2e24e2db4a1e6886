"""Deaths of one day told in parts: "2 dead at dawn then another 3 now" are five. Pure.

In: a `Scene`. Out: `Parts` or None. Called by `deaths`.

Figures are added where a word says that they are more, or each has its own hour, and nothing is
told beside them but deaths and times. "2 in the morning, now 5" is left open: more, or in all.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from bot.understand.annotate import Clause
from bot.understand.numbers import Number
from bot.understand.scene import AT, Scene

MOST_IN_PASSING = 20  # more dead than this are not told without a word for it
NEAR_HOUR = 4  # tokens between a figure and its hour
NEAR_TOTAL = 2  # tokens between a figure and "in all"
HOURS = ("hour_word", "part_of_day")
MORE = ("one_more", "@answer:more")
TOTAL = ("@answer:in_all", "@sum")
# What may stand beside the figures and tells of nothing else.
_BESIDE = (
    *("bird", "a_bird", "batch", "dead", "lost", "deaths", "copula", "own_birds", "before_rest"),
    *("@polite", "@pronouns", "@article", "@common", "@now", "@weak", "@few", "@plural", "@day:0"),
    *("@joiner", "@joins", "@and", "@clause", "@still", "@subject", "clock_word", "have"),
    *("@harmless", *HOURS, *MORE, *TOTAL),
)
# Beside one of these the figures are no parts of one day.
_NO_PARTS = ("@earlier", "@others", "placed", "alive", "from_start", "culled", "@question")
_OF_DYING = ("dead", "lost", "deaths")


@dataclass(frozen=True, slots=True)
class Parts:
    """at: where they begin. dead: all of them, where they add up. open: the second figure, which
    may be more or all; dead is then the first."""

    at: int
    dead: int
    open: int | None = None


def in_parts(scene: Scene, *, first: int | None) -> Parts | None:
    """The deaths told in parts; None where they are not. first: the figure of the first part, None
    where no word of dying stands in the text."""
    if scene.has(*_NO_PARTS) or scene.ages or any(day.offset != 0 for day in scene.days):
        return None
    if scene.has("@since") and scene.has("@days", "@weeks"):
        return None
    figures = _figures(scene)
    if first is not None:
        figures = [one for one in figures if one.start >= first]
    if len(figures) < 2 or (first is not None and figures[0].start != first):
        return None
    if first is None and not _alone(scene, figures):
        return None
    told = figures[:1]
    for one in figures[1:]:
        if not _is_part(scene, told[-1], one):
            break
        told.append(one)
    if len(told) < 2:
        return None
    total = _in_all(scene, told)
    if total is not None:
        return Parts(told[0].start, total)
    if scene.has(*TOTAL):
        return None  # "3 in all, 2 of them today"
    values = [round(one.value) for one in told]
    if all(_is_more(scene, before, one) for before, one in itertools.pairwise(told)):
        return Parts(told[0].start, sum(values))
    now = len(told) == 2 and _has(scene, "@now", _part(scene, told[0].end, told[1]))
    if not now or (first is None and max(values) > MOST_IN_PASSING):
        return None
    if values[1] < values[0]:
        return Parts(told[0].start, sum(values))
    return Parts(told[0].start, values[0], values[1])


def _figures(scene: Scene) -> list[Number]:
    """Whole figures of birds; "one" and "mmoja" where they are counted with more."""
    of = {span.end for span in scene.text.spans.get("@out_of", ())}
    return [
        one
        for one in scene.plain_numbers
        if one.value == int(one.value) >= 1
        and one.start not in of
        and one.value != scene.hearing.count
        and (not one.weak or one.spelt)
    ]


def _part(scene: Scene, end: int, one: Number) -> range:
    """The tokens of a part: from behind the figure before it to the end of its own clause, or to
    the next figure."""
    last = _clause(scene, one).end
    following = min(
        (other.start for other in _figures(scene) if other.start >= one.end), default=last
    )
    return range(end, min(last, following))


def _clause(scene: Scene, one: Number) -> Clause:
    return next(clause for clause in scene.text.clauses if clause.start <= one.start < clause.end)


def _is_part(scene: Scene, before: Number, one: Number) -> bool:
    """Whether nothing but deaths and times is told between two figures and behind the second."""
    inside = range(one.start, one.end)
    return all(at in inside or _plain(scene, at) for at in _part(scene, before.end, one))


def _plain(scene: Scene, at: int) -> bool:
    days = any(day.start <= at < day.end for day in scene.days)
    hours = any(start <= at < end for start, end, _ in scene.clock)
    token = scene.text.tokens[at]
    if days or hours or token.kind == "mark" or token.text in AT or token.text[0].isdigit():
        return True  # "10h": an hour in one word
    if scene.text.at("@verb", at) and not any(scene.text.at(name, at) for name in _OF_DYING):
        return False  # "3 dead and 2 coughing"
    return any(scene.text.at(name, at) for name in _BESIDE)


def _alone(scene: Scene, figures: Sequence[Number]) -> bool:
    """ "3 this morning, 2 others at noon", or to "how many died?": no other word, few birds, and
    each with its hour."""
    if scene.quantities or scene.hearing.prompt not in (None, "deaths"):
        return False
    inside = {at for one in figures for at in range(one.start, one.end)}
    plain = all(at in inside or _plain(scene, at) for at in range(len(scene.text.tokens)))
    few = sum(one.value for one in figures) <= MOST_IN_PASSING
    more = scene.has(*MORE) or scene.hearing.prompt == "deaths"
    return plain and few and more and all(_time_near(scene, one) for one in figures)


def _is_more(scene: Scene, before: Number, one: Number) -> bool:
    """A word says that the second are more, or each has an hour of its own."""
    if any(_has(scene, name, _part(scene, before.end, one)) for name in MORE):
        return True
    return _hours_apart(scene, (before, one))


def _has(scene: Scene, name: str, places: range) -> bool:
    return any(scene.text.at(name, at) for at in places)


def _hours_apart(scene: Scene, told: Sequence[Number]) -> bool:
    """Each with an hour of its own, in the order told."""
    hours = [(start, end) for start, end, _ in scene.clock]
    for span in sorted(span for name in HOURS for span in scene.text.spans.get(name, ())):
        if not any(start < span.end and span.start < end for start, end in hours):
            hours.append((span.start, span.end))
    if len(hours) != len(_figures(scene)):
        return False
    pairs = dict(zip((one.start for one in _figures(scene)), sorted(hours), strict=True))
    return all(_apart(one, *pairs[one.start]) <= NEAR_HOUR for one in told)


def _apart(one: Number, start: int, end: int) -> int:
    return start - one.end if one.end <= start else one.start - end


def _time_near(scene: Scene, one: Number) -> bool:
    near = range(max(0, one.start - NEAR_HOUR), min(len(scene.text.tokens), one.end + NEAR_HOUR))
    clock = any(start in near for start, _, _ in scene.clock)
    return clock or any(_has(scene, name, near) for name in (*HOURS, "@now", "@day:0"))


def _in_all(scene: Scene, told: Sequence[Number]) -> int | None:
    """ "2 this morning, 5 in all": the sum was told."""
    last, most = told[-1], max(one.value for one in told)
    if any(_has(scene, name, _part(scene, told[-2].end, last)) for name in MORE):
        return None
    near = range(last.start - NEAR_TOTAL - 1, last.end + NEAR_TOTAL)
    said = any(_has(scene, name, near) for name in TOTAL)
    return round(last.value) if said and last.value == most else None
