"""How far what the words say and what a text is like are to be believed: `Told` and `Opinion` in, a
`Verdict` out. Pure; called by `read`, `weigh` and `teach`.

Logistic models of what the words found beside the margins of the examples. `teach` fits them on
texts that were not looked at when words were added: there the words are as good as in the field.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from math import exp
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from bot.facts.talk import Meaning
from bot.handbook.shape_learned import DANGER, DENIED, INTENT, SIDE, SIDES, SIGN, TOPIC
from bot.understand.annotate import Text
from bot.understand.likeness import NONE, Opinion

MANY_DEAD = "sudden_many_deaths"  # the figure decides, not the wording
# What holds for a whole text: these margins, then whether the words found these intents.
WHOLE = (
    (DANGER, DANGER),
    *((INTENT, one) for one in ("observe", "ask", "other")),
    *((SIDE, one) for one in SIDES),
)
WHOLE_INTENTS = ("observe", "ask", "other")
# And which of these stand in it.
MARKS = (
    "@question",
    "@if",
    "@maybe_if",
    "@others",
    "@past",
    "@still",
    "@since",
    "@gone",
    "@neg",
    "@negafter",
    "@many",
    "few_only",
)
# Features of a sign, in this order; the first is 1.
LIKE, UNLIKE, PRESENT, ABSENT, NAMED, FIRST, BESIDE = range(1, 8)
# Those that are multiplied with one another.
LEFT = [PRESENT, ABSENT, PRESENT, ABSENT, NAMED, NAMED, FIRST, BESIDE, PRESENT]
RIGHT = [LIKE, LIKE, UNLIKE, UNLIKE, LIKE, UNLIKE, LIKE, LIKE, BESIDE]
SEEN, DENIED_TOO = 1, 2  # columns of the model of signs; the first is neither
Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Verdict:
    """Chances, 0 to 1, by code: of intents, of signs seen and denied, of topics by their margin.
    danger: that help is needed at once."""

    intents: Mapping[str, float]
    seen: Mapping[str, float]
    denied: Mapping[str, float]
    topics: Mapping[str, float]
    danger: float


class Told(NamedTuple):
    """What words found in a text, before it was decided what that means. named: signs whose words
    stand in it, seen or not. marks: of MARKS, then whether a clause asks; 1 or 0."""

    meaning: Meaning
    named: frozenset[str]
    marks: tuple[float, ...]


def told_by(meaning: Meaning, text: Text) -> Told:
    """What the words found; the signs of the text were looked for already."""
    named = frozenset(one.name for clause in text.clauses for one in clause.readings)
    marks = [float(text.has(one)) for one in MARKS]
    return Told(meaning, named, (*marks, float(any(one.asked for one in text.clauses))))


class AboutSigns(NamedTuple):
    """The features of the model of signs: values of each sign, alone and in pairs, (features,
    signs), and of the whole text, (features,), with which those alone are multiplied."""

    alone: Array
    pairs: Array
    whole: Array

    def rows(self) -> Array:
        """A row of features for each sign."""
        of_all = self.alone.T[:, :, None] * self.whole
        return np.hstack((of_all.reshape(len(of_all), -1), self.pairs.T))

    def scores(self, weights: Array) -> Array:
        """`rows() @ weights`, without the rows."""
        alone, whole = len(self.alone), len(self.whole)
        at = alone * whole
        here = self.whole @ weights[:at].reshape(alone, whole, -1)
        found: Array = self.alone.T @ here + self.pairs.T @ weights[at:]
        return found


def judged(told: Told, opinion: Opinion) -> Verdict:
    """What words and likeness say together."""
    learned, trust = opinion.learned, opinion.learned.trust
    intents = _shares(about_intent(told, opinion) @ trust.intents)
    signs = _shares(about_signs(told, opinion).scores(trust.signs) + trust.by_sign)
    danger = 1 / (1 + exp(-float(about_danger(told, opinion, trust.dangers) @ trust.danger)))
    codes = learned.codes(SIGN)
    return Verdict(
        dict(zip(learned.codes(INTENT), intents.tolist(), strict=True)),
        dict(zip(codes, signs[:, SEEN].tolist(), strict=True)),
        dict(zip(codes, signs[:, DENIED_TOO].tolist(), strict=True)),
        dict(zip(learned.codes(TOPIC), opinion.of(TOPIC).tolist(), strict=True)),
        danger,
    )


def _shares(logits: Array) -> Array:
    """Of each row, shares that add up to 1."""
    grown = np.exp(logits - logits.max(axis=-1, keepdims=True))
    shares: Array = grown / grown.sum(axis=-1, keepdims=True)
    return shares


def about_intent(told: Told, opinion: Opinion) -> Array:
    """The features of the model of intents; the last is 1, for its bias."""
    meaning, margins = told.meaning, opinion.of(INTENT)
    said = np.zeros(len(margins))
    own = NONE
    at = opinion.learned.places(INTENT).get(meaning.intent.value)
    if at is not None:
        own, said[at] = float(margins[at]), 1.0
    two = np.partition(margins, -2)[-2:]
    seen, denied = bool(meaning.signals), bool(meaning.not_signals)
    named = bool(told.named)
    rest = (own, two[1] - two[0], meaning.confidence, seen, denied, named, *told.marks, 1.0)
    return np.concatenate((margins, said, own * said, rest))


def _of_the_text(told: Told, opinion: Opinion) -> tuple[float, ...]:
    """What holds for a text whatever the sign; the margin of danger comes first."""
    return (
        *(opinion.margin(kind, code) for kind, code in WHOLE),
        *(float(told.meaning.intent.value == one) for one in WHOLE_INTENTS),
        float(bool(told.meaning.not_signals)),
        *told.marks,
    )


def about_signs(told: Told, opinion: Opinion) -> AboutSigns:
    """The features of the model of signs: the margin of a sign, that of its denial and what the
    words found of it."""
    meaning = told.meaning
    where = opinion.learned.denied_of
    like = opinion.of(SIGN).astype(float)
    unlike = np.where(where < 0, NONE, opinion.margins[where])
    present, absent = _found(meaning.signals, opinion), _found(meaning.not_signals, opinion)
    named = _found(told.named, opinion)
    first = like == like.max()
    beside = present < len(set(meaning.signals))
    alone = np.array((np.ones(len(like)), like, unlike, present, absent, named, first, beside))
    pairs = np.concatenate(
        (
            alone[LEFT] * alone[RIGHT],
            (
                like * np.abs(like),
                np.maximum(like, NONE) * np.maximum(unlike, NONE),
                present * meaning.confidence,
            ),
        )
    )
    return AboutSigns(alone, pairs, np.array((1.0, *_of_the_text(told, opinion))))


def _found(signs: Collection[str], opinion: Opinion) -> Array:
    """1 for each sign that the words found, else 0."""
    places = opinion.learned.places(SIGN)
    found = np.zeros(len(places))
    for one in signs:
        if one in places:
            found[places[one]] = 1.0
    return found


def about_danger(told: Told, opinion: Opinion, dangers: Sequence[str]) -> Array:
    """The features of the model of danger; the last is 1, for its bias."""
    meaning = told.meaning
    like = max([opinion.margin(SIGN, one) for one in dangers], default=NONE)
    unlike = max([opinion.margin(DENIED, one) for one in dangers], default=NONE)
    whole = _of_the_text(told, opinion)
    grave = whole[0]
    seen = float(any(one in dangers for one in meaning.signals))
    named = float(any(one in dangers for one in told.named))
    dead = float(MANY_DEAD in meaning.signals)
    many = float(bool(set(meaning.many) - {MANY_DEAD}))
    own = (like, unlike, seen, named, dead, many)
    both = (seen * like, seen * grave, named * like, named * grave, many * grave)
    with_marks = [named * mark for mark in told.marks]
    return np.array((*own, *both, *with_marks, *whole, 1.0))
