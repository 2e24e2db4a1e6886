"""How much a text is like the examples: an annotated text and `Learned` in, an `Opinion` out. Pure.

A linear classifier over two kinds of features: runs of 2 to 5 letters, which see through spelling,
and the classes of words that `annotate` found with those that follow them, which see through
wording and language. Each feature falls into a row of the weights by its checksum (feature hashing,
Weinberger et al. 2009). `teach` makes the weights from the same rows.
"""

from __future__ import annotations

from array import array
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain
from math import sqrt
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from bot.facts.talk import Hearing
from bot.handbook.shape_learned import Learned
from bot.understand.annotate import Clause, Text

SHORTEST, LONGEST = 2, 5  # letters of a run, with the blank at either end of a word
NEAR = 3  # tokens from the beginning of one class to that of its follower
FOLLOWERS = 11
FOLLOWED = 0x9E3779B1  # spreads the rows of a class before those of its follower are added
KEPT = 1 << 12  # words and classes whose rows are remembered; the longest unused goes first
LONGEST_KEPT = 24  # letters; a longer word is nobody's, and has as many rows as all of a text
NONE = -1.0  # the margin of what was not learned
Rows = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Opinion:
    """Margins of the classifier, above 0 for yes, by column of `learned`."""

    margins: NDArray[np.float32]
    learned: Learned

    def of(self, kind: str) -> NDArray[np.float32]:
        """The margins of a kind, in the order of `learned.codes`."""
        return self.margins[self.learned.columns(kind)]

    def margin(self, kind: str, code: str) -> float:
        """The margin of one thing; NONE where it was not learned."""
        at = self.learned.column.get((kind, code))
        return NONE if at is None else self.margins.item(at)

    def at(self, columns: NDArray[np.int64]) -> NDArray[np.float64]:
        """The margins of some columns; NONE of a column below 0, which was not learned."""
        return np.where(columns < 0, NONE, self.margins[columns])


def opinion(text: Text, hearing: Hearing, learned: Learned) -> Opinion | None:
    """What the examples say of a text; None in a language they were not learned in."""
    language = hearing.language or (text.languages[0] if text.languages else None)
    sure = 1 if hearing.language else 2  # of a stranger the second guess counts too
    heard = text.languages[:sure]
    if language not in learned.languages or not learned.languages.issuperset(heard):
        return None
    rows, values = features(text, language, hearing, learned.rows)
    weights = learned.weights.take(rows, axis=0)
    return Opinion((values @ weights) * learned.scale + learned.bias, learned)


def features(
    text: Text, language: str, hearing: Hearing, rows: int
) -> tuple[Rows, NDArray[np.float32]]:
    """The rows a text falls into and its value in each: either kind of features has length 1. A row
    may stand twice; its values add up."""
    about = (f"L{language}", f"P{hearing.prompt}", f"B{hearing.has_batch}")
    letters = {checksum(one) for one in about}
    for word in text.plain.encode("ascii", "ignore").split():
        letters.update(_runs(word) if len(word) <= LONGEST_KEPT else _runs_of(word))
    classes = {checksum(one) for one in _shape(text)}
    for clause in text.clauses:
        _add_classes(clause, classes)
    count = len(letters) + len(classes)
    found = np.fromiter(chain(letters, classes), np.int64, count) & (rows - 1)
    values = np.full(count, 1 / sqrt(len(letters)), np.float32)
    values[len(letters) :] = 1 / sqrt(len(classes))
    return found, values


@lru_cache(KEPT)
def checksum(name: str) -> int:
    """The checksum of a feature's name; its low bits are its row."""
    return crc32(name.encode())


@lru_cache(KEPT)
def _runs(word: bytes) -> array[int]:
    return _runs_of(word)


def _runs_of(word: bytes) -> array[int]:
    padded = b" " + word + b" "
    return array(
        "I",
        (
            crc32(padded[at : at + size])
            for size in range(SHORTEST, LONGEST + 1)
            for at in range(max(1, len(padded) - size + 1))
        ),
    )


def _shape(text: Text) -> list[str]:
    shape = [
        f"length {min(len(text.tokens) // 4, 6)}",
        f"numbers {min(len(text.numbers), 3)}",
        f"clauses {min(len(text.clauses), 4)}",
    ]
    asked = any(clause.asked for clause in text.clauses)
    return [*shape, "asked"] if asked else shape


def _add_classes(clause: Clause, into: set[int]) -> None:
    """The classes of a clause, and each with those that begin a little later. Plain loops, for
    speed."""
    named = [(name, spans) for name, spans in clause.spans.items() if name[0] != "~"]
    order = sorted([(span.start, name) for name, spans in named for span in spans])
    begins = [start for start, _ in order]
    rows = [checksum(name) for _, name in order]
    into.update(rows)
    for at, start in enumerate(begins):
        first = bisect_right(begins, start, at)
        last = min(bisect_right(begins, start + NEAR, first), at + 1 + FOLLOWERS)
        spread = rows[at] * FOLLOWED
        for row in rows[first:last]:
            into.add((spread + row) & 0xFFFFFFFF)
