"""How much a text is like the examples: an annotated text and `Learned` in, an `Opinion` out. Pure.

A linear classifier over two kinds of features: runs of 2 to 5 letters, which see through spelling,
and the classes of words that `annotate` found with those that follow them, which see through
wording and language. Each feature falls into a row of the weights by its checksum (feature hashing,
Weinberger et al. 2009). `teach` makes the weights from the same rows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from math import sqrt
from zlib import crc32

import numpy as np

from bot.facts.talk import Hearing
from bot.handbook.shape_learned import DANGER, DENIED, INTENT, SIDE, SIGN, TOPIC, Learned
from bot.understand.annotate import Clause, Text

SHORTEST, LONGEST = 2, 5  # letters of a run, with the blank at either end of a word
NEAR = 3  # tokens from the beginning of one class to that of its follower
FOLLOWERS = 11
KEPT = 1 << 14  # words and classes whose rows are remembered; the longest unused goes first


@dataclass(frozen=True, slots=True)
class Opinion:
    """Margins of the classifier, above 0 for yes, by code. sides: whether any sign is told or
    denied (`shape_learned.SIDES`). danger: that help is needed at once."""

    intents: Mapping[str, float] = field(default_factory=dict)
    signs: Mapping[str, float] = field(default_factory=dict)
    denied: Mapping[str, float] = field(default_factory=dict)
    topics: Mapping[str, float] = field(default_factory=dict)
    sides: Mapping[str, float] = field(default_factory=dict)
    danger: float = -1.0


def opinion(text: Text, hearing: Hearing, learned: Learned) -> Opinion | None:
    """What the examples say of a text; None in a language they were not learned in."""
    language = hearing.language or (text.languages[0] if text.languages else None)
    if language not in learned.languages or not learned.languages.issuperset(text.languages[:1]):
        return None
    rows, values = features(text, language, hearing, learned.rows)
    margins = (values @ learned.weights[rows]) * learned.scale + learned.bias
    return opinion_of(margins, learned)


def opinion_of(margins: np.ndarray, learned: Learned) -> Opinion:
    """The margins of all columns, by what they stand for."""
    every = margins.tolist()
    said = {
        kind: dict(zip(codes, every[first : first + len(codes)], strict=True))
        for kind, (codes, first) in learned.kinds.items()
    }
    grave = said.get(DANGER, {}).get(DANGER, -1.0)
    intents, signs, denied = (said.get(kind, {}) for kind in (INTENT, SIGN, DENIED))
    return Opinion(intents, signs, denied, said.get(TOPIC, {}), said.get(SIDE, {}), grave)


def features(
    text: Text, language: str, hearing: Hearing, rows: int
) -> tuple[np.ndarray, np.ndarray]:
    """The rows a text falls into and its value in each: either kind of features has length 1. A row
    may stand twice; its values add up."""
    letters = {
        _row(f"L{language}", rows),
        _row(f"P{hearing.prompt}", rows),
        _row(f"B{hearing.has_batch}", rows),
    }
    for word in text.plain.encode("ascii", "ignore").split():
        letters.update(_runs(word, rows))
    classes = {_row(one, rows) for one in _about(text)}
    for clause in text.clauses:
        _add_classes(clause, rows, classes)
    found = np.array([*letters, *classes], np.int64)
    values = np.full(len(found), 1 / sqrt(len(letters)), np.float32)
    values[len(letters) :] = 1 / sqrt(len(classes))
    return found, values


@lru_cache(KEPT)
def _row(name: str, rows: int) -> int:
    return crc32(name.encode()) & (rows - 1)


@lru_cache(KEPT)
def _pair(name: str, follower: str, rows: int) -> int:
    return _row(f"class {name} {follower}", rows)


@lru_cache(KEPT)
def _runs(word: bytes, rows: int) -> tuple[int, ...]:
    """The rows of a word's runs of letters."""
    padded = b" " + word + b" "
    return tuple(
        crc32(padded[at : at + size]) & (rows - 1)
        for size in range(SHORTEST, LONGEST + 1)
        for at in range(max(1, len(padded) - size + 1))
    )


def _about(text: Text) -> Iterator[str]:
    yield f"length {min(len(text.tokens) // 4, 6)}"
    yield f"numbers {min(len(text.numbers), 3)}"
    yield f"clauses {min(len(text.clauses), 4)}"
    if any(clause.asked for clause in text.clauses):
        yield "asked"


def _add_classes(clause: Clause, rows: int, into: set[int]) -> None:
    """The classes of a clause, and each with those that begin a little later. Plain loops, for
    speed."""
    order = sorted((span.start, name) for name, spans in clause.spans.items() for span in spans)
    for at, (start, name) in enumerate(order):
        into.add(_row(f"class {name}", rows))
        for later, follower in order[at + 1 : at + 1 + FOLLOWERS]:
            if later > start + NEAR:
                break
            if later > start:
                into.add(_pair(name, follower, rows))
