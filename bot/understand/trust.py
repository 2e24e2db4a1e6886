"""How far what the words say and what a text is like are to be believed: a meaning by words and an
`Opinion` in, a `Verdict` out. Pure; called by `read`, `weigh` and `teach`.

Logistic models of what the words found beside the margins of the examples. `teach` fits them on
texts that were not looked at when words were added: there the words are as good as in the field.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bot.facts.talk import Meaning
from bot.handbook.shape_learned import SIDES, Learned
from bot.understand.likeness import Opinion

MANY_DEAD = "sudden_many_deaths"  # the figure decides, not the wording
NONE = -1.0  # the margin of what was not learned
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


def judged(meaning: Meaning, opinion: Opinion, learned: Learned) -> Verdict:
    """What words and likeness say together."""
    trust = learned.trust
    intents = _shares(about_intent(meaning, opinion) @ trust.intents)
    logits = about_signs(meaning, opinion) @ trust.signs + trust.by_sign
    signs = _shares(logits)
    danger = 1 / (1 + np.exp(-(about_danger(meaning, opinion, trust.dangers) @ trust.danger)))
    seen, denied = signs[:, 1].tolist(), signs[:, 2].tolist()
    return Verdict(
        dict(zip(opinion.intents, intents.tolist(), strict=True)),
        dict(zip(opinion.signs, seen, strict=True)),
        dict(zip(opinion.signs, denied, strict=True)),
        opinion.topics,
        float(danger),
    )


def _shares(logits: Array) -> Array:
    """Of each row, shares that add up to 1."""
    grown = np.exp(logits - logits.max(axis=-1, keepdims=True))
    shares: Array = grown / grown.sum(axis=-1, keepdims=True)
    return shares


def about_intent(meaning: Meaning, opinion: Opinion) -> Array:
    """The features of the model of intents; the last is 1, for its bias."""
    margins = np.fromiter(opinion.intents.values(), float)
    said = np.fromiter((one == meaning.intent.value for one in opinion.intents), float)
    own = opinion.intents.get(meaning.intent.value, NONE)
    two = np.partition(margins, -2)[-2:]
    seen, denied = bool(meaning.signals), bool(meaning.not_signals)
    rest = (own, two[1] - two[0], meaning.confidence, seen, denied, 1.0)
    return np.concatenate((margins, said, own * said, rest))


def about_signs(meaning: Meaning, opinion: Opinion) -> Array:
    """The features of the model of signs: a row for each sign of the opinion."""
    codes = list(opinion.signs)
    like = np.fromiter(opinion.signs.values(), float)
    unlike = np.fromiter((opinion.denied.get(one, NONE) for one in codes), float)
    present = np.isin(codes, meaning.signals).astype(float)
    absent = np.isin(codes, meaning.not_signals).astype(float)
    beside = (len(set(meaning.signals)) - present > 0).astype(float)
    first = (like == like.max()).astype(float)
    observe, ask, other = (opinion.intents.get(one, NONE) for one in ("observe", "ask", "other"))
    grave = opinion.danger
    sides = [opinion.sides.get(one, NONE) for one in SIDES]
    by = [float(meaning.intent.value == one) for one in ("observe", "ask", "other")]
    denies = float(bool(meaning.not_signals))
    each = np.ones(len(codes))
    return np.stack(
        (
            like,
            unlike,
            present,
            absent,
            present * like,
            absent * like,
            present * unlike,
            absent * unlike,
            first,
            first * like,
            like.max() - like,
            beside,
            beside * like,
            observe * each,
            ask * each,
            other * each,
            ask * like,
            observe * like,
            by[0] * each,
            by[0] * like,
            by[1] * each,
            by[1] * present,
            by[2] * each,
            by[2] * like,
            present * beside,
            grave * each,
            grave * like,
            like * np.abs(like),
            np.maximum(like, NONE) * np.maximum(unlike, NONE),
            present * meaning.confidence,
            denies * each,
            denies * unlike,
            *(side * factor for side in sides for factor in (each, like, present, absent, unlike)),
            each,
        ),
        axis=1,
    )


def about_danger(meaning: Meaning, opinion: Opinion, dangers: Sequence[str]) -> Array:
    """The features of the model of danger; the last is 1, for its bias."""
    like = max((opinion.signs.get(one, NONE) for one in dangers), default=NONE)
    unlike = max((opinion.denied.get(one, NONE) for one in dangers), default=NONE)
    told = float(any(one in dangers for one in meaning.signals))
    dead = float(MANY_DEAD in meaning.signals)
    many = float(bool(set(meaning.many) - {MANY_DEAD}))
    observe, ask, other = (opinion.intents.get(one, NONE) for one in ("observe", "ask", "other"))
    grave = opinion.danger
    return np.array(
        (
            grave,
            like,
            unlike,
            told,
            dead,
            many,
            told * like,
            told * grave,
            many * grave,
            observe,
            ask,
            other,
            float(meaning.intent.value == "observe"),
            float(meaning.intent.value == "ask"),
            *(opinion.sides.get(one, NONE) for one in SIDES),
            1.0,
        )
    )
