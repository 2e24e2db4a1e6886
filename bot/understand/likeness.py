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
from bot.handbook.shape_learned import DANGER, DENIED, INTENT, SIGN, TOPIC, Learned
from bot.understand.annotate import Clause, Text
from bot.understand.tidy import plain

SHORTEST, LONGEST = 2, 5  # letters of a run, with the blank at either end of a word
NEAR = 3  # tokens from the beginning of one class to that of its follower
FOLLOWERS = 11


@dataclass(frozen=True, slots=True)
class Opinion:
    """Margins of the classifier, above 0 for yes, by code. danger: that help is needed at once."""

    intents: Mapping[str, float] = field(default_factory=dict)
    signs: Mapping[str, float] = field(default_factory=dict)
    denied: Mapping[str, float] = field(default_factory=dict)
    topics: Mapping[str, float] = field(default_factory=dict)
    danger: float = -1.0

    def likeliest(self) -> tuple[str, float]:
        """The intent that fits best, and how far the next lies behind."""
        first, second = sorted(self.intents, key=lambda one: -self.intents[one])[:2]
        return first, self.intents[first] - self.intents[second]


def opinion(raw: str, text: Text, hearing: Hearing, learned: Learned) -> Opinion | None:
    """What the examples say of a text; None in a language they were not learned in."""
    language = hearing.language or (text.languages[0] if text.languages else None)
    if language not in learned.languages or not learned.languages.issuperset(text.languages[:1]):
        return None
    rows, values = features(raw, text, language, hearing, learned.rows)
    margins = (values @ learned.weights[rows]) * learned.scale + learned.bias
    said = {
        kind: dict(zip(codes, margins[columns].tolist(), strict=True))
        for kind, (codes, columns) in learned.kinds.items()
    }
    grave = said.get(DANGER, {}).get(DANGER, -1.0)
    intents, signs, denied, topics = (said.get(kind, {}) for kind in (INTENT, SIGN, DENIED, TOPIC))
    return Opinion(intents, signs, denied, topics, grave)


def features(
    raw: str, text: Text, language: str, hearing: Hearing, rows: int
) -> tuple[np.ndarray, np.ndarray]:
    """The rows a text falls into and its value in each: either kind of features has length 1. A row
    may stand twice; its values add up."""
    last = rows - 1
    about = (f"L{language}", f"P{hearing.prompt}", f"B{hearing.has_batch}")
    letters = {crc32(one) & last for one in _runs(raw)}
    letters.update(crc32(one.encode()) & last for one in about)
    classes = {_row(one) & last for one in _classes(text)}
    found = np.array([*letters, *classes], np.int64)
    values = np.full(len(found), 1 / sqrt(len(letters)), np.float32)
    values[len(letters) :] = 1 / sqrt(len(classes))
    return found, values


@lru_cache(1 << 16)
def _row(name: str) -> int:
    return crc32(name.encode())


def _runs(raw: str) -> Iterator[bytes]:
    for word in plain(raw)[0].encode("ascii", "ignore").split():
        padded = b" " + word + b" "
        for size in range(SHORTEST, LONGEST + 1):
            for at in range(max(1, len(padded) - size + 1)):
                yield padded[at : at + size]


def _classes(text: Text) -> Iterator[str]:
    for clause in text.clauses:
        yield from _followed(clause)
    yield f"length {min(len(text.tokens) // 4, 6)}"
    yield f"numbers {min(len(text.numbers), 3)}"
    yield f"clauses {min(len(text.clauses), 4)}"
    if any(clause.asked for clause in text.clauses):
        yield "asked"


def _followed(clause: Clause) -> Iterator[str]:
    """The classes of a clause, and each with those that begin a little later."""
    order = sorted((span.start, name) for name, spans in clause.spans.items() for span in spans)
    for at, (start, name) in enumerate(order):
        yield f"class {name}"
        for later, follower in order[at + 1 : at + 1 + FOLLOWERS]:
            if start < later <= start + NEAR:
                yield f"class {name} {follower}"
