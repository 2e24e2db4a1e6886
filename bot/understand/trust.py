"""How far what the words say and what a text is like are to be believed: `Told` and `Opinion` in, a
`Verdict` out. Pure; called by `read`, `weigh` and `teach`.

Logistic models of what the words found beside the margins of the examples. `teach` fits them on
texts that were not looked at when words were added: there the words are as good as in the field.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from bot.facts.talk import Meaning
from bot.handbook.shape_learned import DANGER, DENIED, INTENT, SIDE, SIDES, SIGN, TOPIC, Learned
from bot.understand.annotate import Text
from bot.understand.likeness import NONE, Opinion
from bot.understand.standing import Rows, score, standing

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
LIKE, UNLIKE, PRESENT, ABSENT, NAMED, FIRST, BESIDE, STANDS, STANDS_DENIED = range(1, 10)
ALONE, PAIRS = 10, 18  # how many they are, and how many are multiplied with one another
# Those that are multiplied as they are; three more pairs follow (`about_signs`).
LEFT, RIGHT = np.array(
    (
        *((PRESENT, LIKE), (ABSENT, LIKE), (PRESENT, UNLIKE), (ABSENT, UNLIKE)),
        *((NAMED, LIKE), (NAMED, UNLIKE), (FIRST, LIKE), (BESIDE, LIKE), (PRESENT, BESIDE)),
        *((STANDS, PRESENT), (STANDS, LIKE), (STANDS_DENIED, ABSENT), (STANDS_DENIED, UNLIKE)),
        *((STANDS, UNLIKE), (STANDS_DENIED, LIKE)),
    )
).T
NOT_HERE = -3.0  # of a danger whose words do not stand in the text
SEEN, DENIED_TOO = 1, 2  # columns of the model of signs; the first is neither
Array = NDArray[np.float64]
Stands = Mapping[str, tuple[float, float]]  # of each named sign: told of, denied (`stands_of`)


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
    stand in it, seen or not. marks: of MARKS, then whether a clause asks; 1 or 0. standing: of each
    named sign, its rows."""

    meaning: Meaning
    named: frozenset[str]
    marks: tuple[float, ...]
    standing: Mapping[str, Rows]


def told_by(meaning: Meaning, text: Text) -> Told:
    """What the words found; the signs of the text were looked for already."""
    named = frozenset(one.name for clause in text.clauses for one in clause.readings)
    marks = [float(one in text.spans) for one in MARKS]
    asked = float(any(one.asked for one in text.clauses))
    return Told(meaning, named, (*marks, asked), standing(text, meaning))


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
    stands = stands_of(told, learned)
    whole = about_text(told, opinion)
    signs = _shares(about_signs(told, opinion, stands, whole).scores(trust.signs) + trust.by_sign)
    grave = about_danger(told, opinion, trust.dangers, stands, whole)
    danger = 1 / (1 + exp(-float(grave @ trust.danger)))
    codes = learned.codes(SIGN)
    _, seen, denied = signs.T.tolist()
    return Verdict(
        dict(zip(learned.codes(INTENT), intents.tolist(), strict=True)),
        dict(zip(codes, seen, strict=True)),
        dict(zip(codes, denied, strict=True)),
        dict(zip(learned.codes(TOPIC), opinion.of(TOPIC).tolist(), strict=True)),
        danger,
    )


def _shares(logits: Array) -> Array:
    """Of each row, shares that add up to 1. A score is far too small to overflow."""
    grown = np.exp(logits)
    shares: Array = (grown.T / grown.sum(-1)).T
    return shares


def about_intent(told: Told, opinion: Opinion) -> Array:
    """The features of the model of intents: the margin of each, whether the words found it, and its
    margin where they did; then what holds for the text. The last is 1, for its bias."""
    meaning, margins = told.meaning, opinion.of(INTENT)
    count = len(margins)
    second, best = sorted(margins.tolist())[-2:]
    said = opinion.learned.places(INTENT).get(meaning.intent.value)
    own = NONE if said is None else float(margins[said])
    seen, denied, named = meaning.signals, meaning.not_signals, told.named
    rest = (own, best - second, meaning.confidence, bool(seen), bool(denied), bool(named))
    found = np.zeros(3 * count + len(rest) + len(told.marks) + 1)
    found[:count] = margins
    if said is not None:
        found[count + said], found[2 * count + said] = 1.0, own
    found[3 * count :] = (*rest, *told.marks, 1.0)
    return found


def about_text(told: Told, opinion: Opinion) -> list[float]:
    """What holds for a text whatever the sign; the margin of danger comes first."""
    intent = told.meaning.intent.value
    return [
        *(opinion.margin(kind, code) for kind, code in WHOLE),
        *(float(intent == one) for one in WHOLE_INTENTS),
        float(bool(told.meaning.not_signals)),
        *told.marks,
    ]


def about_signs(told: Told, opinion: Opinion, stands: Stands, whole: Sequence[float]) -> AboutSigns:
    """The features of the model of signs: the margin of a sign, that of its denial, what the words
    found of it and how it stands among them. whole: `about_text`."""
    meaning, places = told.meaning, opinion.learned.places(SIGN)
    found = np.zeros((ALONE + PAIRS, len(places)))
    alone, pairs = found[:ALONE], found[ALONE:]
    alone[0] = 1.0
    alone[LIKE] = opinion.of(SIGN)
    alone[UNLIKE] = opinion.at(opinion.learned.denied_of)
    said = ((PRESENT, meaning.signals), (ABSENT, meaning.not_signals), (NAMED, told.named))
    for feature, signs in said:
        for sign in signs:
            if sign in places:
                alone[feature, places[sign]] = 1.0
    like, unlike, present = alone[LIKE], alone[UNLIKE], alone[PRESENT]
    for sign, (here, denied) in stands.items():
        if sign in places:
            alone[STANDS, places[sign]], alone[STANDS_DENIED, places[sign]] = here, denied
    alone[FIRST] = like == like.max()
    alone[BESIDE] = present < len(set(meaning.signals))
    np.multiply(alone[LEFT], alone[RIGHT], out=pairs[:-3])
    pairs[-3] = like * np.abs(like)
    pairs[-2] = np.maximum(like, NONE) * np.maximum(unlike, NONE)
    pairs[-1] = present * meaning.confidence
    return AboutSigns(alone, pairs, np.array((1.0, *whole)))


def stands_of(told: Told, learned: Learned) -> Stands:
    """Of each named sign how much likelier it is told of, and denied, than neither; logarithms."""
    found = {}
    for sign, rows in told.standing.items():
        none, here, denied = score(rows, learned.standing).tolist()
        found[sign] = (here - none, denied - none)
    return found


def about_danger(
    told: Told, opinion: Opinion, dangers: Sequence[str], stands: Stands, whole: Sequence[float]
) -> Array:
    """The features of the model of danger; the last is 1, for its bias. whole: `about_text`."""
    meaning = told.meaning
    like = max([opinion.margin(SIGN, one) for one in dangers], default=NONE)
    unlike = max([opinion.margin(DENIED, one) for one in dangers], default=NONE)
    grave = whole[0]
    seen = float(any(one in dangers for one in meaning.signals))
    named = float(any(one in dangers for one in told.named))
    dead = float(MANY_DEAD in meaning.signals)
    many = float(bool(set(meaning.many) - {MANY_DEAD}))
    grave_ones = [one for sign, one in stands.items() if sign in dangers]
    here = max((one for one, _ in grave_ones), default=NOT_HERE)
    denied = max((one for _, one in grave_ones), default=NOT_HERE)
    own = (like, unlike, seen, named, dead, many, here, denied)
    both = (seen * like, seen * grave, named * like, named * grave, many * grave, many * here)
    with_marks = [named * mark for mark in told.marks]
    return np.array((*own, *both, *with_marks, *whole, 1.0))
