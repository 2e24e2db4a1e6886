"""The evidence model as those who keep the content see it: what speaks for what, which question
reaches it, and what is missing.

In: `Causes`, the texts. Out: a `Chart` and lists of gaps. Called by `broodpost causes`. Figures are
those of no particular age, hour, house or heat.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from bot.diagnosis.question import (
    BEHAVIOUR,
    LITTER,
    SIGN,
    YES_NO,
    answer_chances,
    asked_signs,
)
from bot.diagnosis.weigh import SPEAKS_FOR
from bot.handbook.shape_causes import HEATS, HOUSES, Causes

STRONG, AGAINST = 10.0, 0.34  # times as likely as without any cause
APART = 3.0  # an answer this many times as likely under one of two causes tells them apart
NOWHERE: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Chart:
    """marks: (sign, cause) -> 2 speaks strongly for it, 1 speaks for it, 0 says little, -1 speaks
    against it. reached: sign -> the question that asks for it, None for signs that only a farmer's
    own word brings. alike: two causes that no question tells apart, with the sign that would if the
    farmer told it by himself (None: nothing would)."""

    marks: Mapping[tuple[str, str], int]
    reached: Mapping[str, str | None]
    alike: tuple[tuple[str, str, str | None], ...]

    @property
    def unreached(self) -> tuple[str, ...]:
        """Signs that no question can reach."""
        return tuple(sign for sign, name in self.reached.items() if name is None)


def chart(causes: Causes) -> Chart:
    """What speaks for what, and which question reaches it."""
    marks = {
        (sign, code): _mark(causes.causes[code].signs[sign].of(NOWHERE) / causes.signs[sign].base)
        for sign in causes.signs
        for code in causes.causes
    }
    reached = dict.fromkeys(causes.signs, None) | {
        sign: name for name in _questions(causes) for sign in asked_signs(name)
    }
    return Chart(marks, reached, tuple(_alike(causes)))


def _mark(times: float) -> int:
    if times >= STRONG:
        return 2
    if times >= SPEAKS_FOR:
        return 1
    return -1 if times <= AGAINST else 0


def _questions(causes: Causes) -> Mapping[str, tuple[str, ...]]:
    """Every question there is, with its answers."""
    own = {f"{SIGN}{code}": YES_NO for code, sign in causes.signs.items() if sign.ask}
    return {**own, "behaviour": BEHAVIOUR, "litter": LITTER}


def _alike(causes: Causes) -> Iterator[tuple[str, str, str | None]]:
    questions = _questions(causes)
    for first, second in combinations(causes.causes, 2):
        if not any(_tells(name, first, second, causes) for name in questions):
            yield first, second, _by_itself(first, second, causes)


def _tells(name: str, first: str, second: str, causes: Causes) -> bool:
    """Whether an answer to this question is far likelier under one of the two."""
    one = answer_chances(name, (first,), NOWHERE, causes)
    other = answer_chances(name, (second,), NOWHERE, causes)
    return any(_ratio(one[answer], other[answer]) >= APART for answer in one)


def _by_itself(first: str, second: str, causes: Causes) -> str | None:
    """The sign that tells two causes apart best, where any does."""

    def ratio(sign: str) -> float:
        rows = causes.causes[first].signs[sign], causes.causes[second].signs[sign]
        return _ratio(rows[0].of(NOWHERE), rows[1].of(NOWHERE))

    best = max(causes.signs, key=ratio)
    return best if ratio(best) >= APART else None


def _ratio(one: float, other: float) -> float:
    return max(one / other, other / one)


def unsaid(causes: Causes, worded: Collection[str]) -> Iterator[tuple[str, str, str, str]]:
    """Actions that a language has no words for: (cause, house, heat, key). worded: the keys that it
    words."""
    for code, cause in causes.causes.items():
        for house in HOUSES:
            for heat in HEATS:
                keys = [*cause.actions[house, heat], *(one.action for one in cause.instead)]
                for key in dict.fromkeys(keys):
                    if key not in worded:
                        yield code, house, heat, key


def only_one(causes: Causes) -> Iterator[tuple[str, str, str]]:
    """Causes with nothing left to try once the first action did not help: (cause, house, heat)."""
    for code, cause in causes.causes.items():
        for (house, heat), keys in cause.actions.items():
            if cause.check_in and len(keys) < 2:
                yield code, house, heat
