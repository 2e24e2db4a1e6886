"""How a sign stands among the words around it: told of, denied, or neither. An annotated text in,
rows of weights out. Pure; called by `trust` and `teach`.

The model does not see which sign it is but where it is: "my own have no SIGN", "SIGN was last
week", "the neighbour's SIGN, mine are fine". So all signs teach it together, in all languages. The
words on either side, their beginnings and ends, and their classes fall into rows by checksum, as
in `likeness`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from bot.facts.talk import Meaning
from bot.understand.annotate import Text
from bot.understand.likeness import checksum
from bot.understand.patterns import Match

ROWS = 1 << 16  # the rows of the model; a power of two
LONG = 4  # letters; of a longer word its beginning and its end count too
STEPS = (1, 2, 4, 7)  # tokens away: the last of each stretch that is told apart
KEPT = 1 << 12  # words and classes, each with where it stands, whose rows are remembered
ON, BEFORE, BEHIND, AMONG = "on", "before", "behind", "among"
Rows = NDArray[np.int64]


def standing(text: Text, meaning: Meaning) -> Mapping[str, Rows]:
    """The rows of each sign whose words stand in the text. meaning: what the words made of it."""
    places: dict[str, list[Match]] = {}
    for clause in text.clauses:
        for match in clause.readings:
            places.setdefault(match.name, []).append(match)
    if not places:
        return {}
    home = _homes(text)
    whole = _row("asked") if any(one.asked for one in text.clauses) else _row("not asked")
    return {
        sign: np.fromiter({whole, *_of_sign(sign, found, text, meaning, home)}, np.int64)
        for sign, found in places.items()
    }


def score(rows: Rows, weights: NDArray[np.float32]) -> NDArray[np.float32]:
    """What the weights, (rows, 3), say of a sign; `standing` is of length 1."""
    found: NDArray[np.float32] = weights.take(rows, axis=0).sum(axis=0) / sqrt(len(rows))
    return found


def _homes(text: Text) -> list[int]:
    """The clause each token belongs to; -1 of a mark between clauses."""
    home = [-1] * len(text.tokens)
    for at, clause in enumerate(text.clauses):
        home[clause.start : clause.end] = [at] * (clause.end - clause.start)
    return home


def _of_sign(
    sign: str, found: Sequence[Match], text: Text, meaning: Meaning, home: Sequence[int]
) -> Iterator[int]:
    best = max(found, key=lambda one: (one.weight, one.start - one.end))
    first, last = min(best.used, default=best.start), max(best.used, default=best.start)
    used = {at for one in found for at in one.used}
    here = home[first]
    said = "told" if sign in meaning.signals else "denied" if sign in meaning.not_signals else ""
    yield _row("any sign")
    yield _row(f"sign {sign}")
    yield _row(f"said {said}")
    yield _row(f"said {said} {sign}")
    yield _row(f"beside {min(3, len(set(meaning.signals) - {sign}))}")
    yield _row(f"denied beside {min(3, len(set(meaning.not_signals) - {sign}))}")
    where: list[tuple[str, bool, int]] = []
    for at, token in enumerate(text.tokens):
        side, near = _side(at, first, last), home[at] == here
        where.append((side, near, _step(at, first, last)))
        if at in used:
            yield from _word(ON, token.text)
        else:
            yield from _word(side, token.text)
            yield from _word(f"{side} {near}", token.text)
    for name, spans in text.spans.items():
        for span in spans:
            if span.start not in used:
                yield from _class(*where[span.start], name)


def _side(at: int, first: int, last: int) -> str:
    return BEFORE if at < first else BEHIND if at > last else AMONG


def _step(at: int, first: int, last: int) -> int:
    away = first - at if at < first else at - last
    return sum(away > one for one in STEPS)


@lru_cache(KEPT)
def _class(side: str, near: bool, step: int, name: str) -> tuple[int, int]:
    return _row(f"{side} {step} {name}"), _row(f"{side} {near} {name}")


def _row(name: str) -> int:
    return checksum(name) & (ROWS - 1)


@lru_cache(KEPT)
def _word(place: str, word: str) -> tuple[int, ...]:
    whole = _row(f"{place} {word}")
    if len(word) <= LONG:
        return (whole,)
    parts = (f"^{word[:3]}", f"^{word[:5]}", f"{word[-3:]}$")
    return (whole, *(_row(f"{place} {one}") for one in parts))
