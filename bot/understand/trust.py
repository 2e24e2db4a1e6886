"""How far what the words say and what a text is like are to be believed: a meaning by words and an
`Opinion` in, a `Verdict` out. Pure; called by `read`, `weigh` and `teach`.

Logistic models of what the words found beside the margins of the examples. `teach` fits them on
texts that were not looked at when words were added: there the words are as good as in the field.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp

import numpy as np
from numpy.typing import NDArray

from bot.facts.talk import Meaning
from bot.handbook.shape_learned import DANGER, INTENT, SIDE, SIGN, TOPIC
from bot.understand.likeness import Opinion

MANY_DEAD = "sudden_many_deaths"  # the figure decides, not the wording
NONE = -1.0  # the margin of what was not learned
LIKE, UNLIKE = 0, 1  # features of a sign
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


def judged(meaning: Meaning, opinion: Opinion) -> Verdict:
    """What words and likeness say together."""
    learned, trust = opinion.learned, opinion.learned.trust
    intents = _shares(about_intent(meaning, opinion) @ trust.intents)
    signs = _shares(about_signs(meaning, opinion) @ trust.signs + trust.by_sign)
    danger = 1 / (1 + exp(-float(about_danger(meaning, opinion, trust.dangers) @ trust.danger)))
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


def about_intent(meaning: Meaning, opinion: Opinion) -> Array:
    """The features of the model of intents; the last is 1, for its bias."""
    margins = opinion.of(INTENT)
    said = np.zeros(len(margins))
    own = NONE
    at = _place(meaning.intent.value, opinion.learned.codes(INTENT))
    if at is not None:
        own, said[at] = float(margins[at]), 1.0
    two = np.partition(margins, -2)[-2:]
    seen, denied = bool(meaning.signals), bool(meaning.not_signals)
    rest = (own, two[1] - two[0], meaning.confidence, seen, denied, 1.0)
    return np.concatenate((margins, said, own * said, rest))


def _place(code: str, codes: tuple[str, ...]) -> int | None:
    return codes.index(code) if code in codes else None


def _of_the_intents(opinion: Opinion) -> tuple[float, ...]:
    """The margins of "observe", "ask" and "other"."""
    codes, margins = opinion.learned.codes(INTENT), opinion.of(INTENT)
    places = [_place(one, codes) for one in ("observe", "ask", "other")]
    return tuple(NONE if at is None else float(margins[at]) for at in places)


def about_signs(meaning: Meaning, opinion: Opinion) -> Array:
    """The features of the model of signs: a row for each sign of the opinion; the last is 1. The
    margin of a sign, that of its denial and what the words found of it, by themselves and times
    what holds for the whole text."""
    learned = opinion.learned
    codes, where = learned.codes(SIGN), learned.denied_of
    like = opinion.of(SIGN).astype(float)
    unlike = np.where(where < 0, NONE, opinion.margins[where])
    present, absent = np.zeros(len(codes)), np.zeros(len(codes))
    present[[codes.index(one) for one in set(meaning.signals) if one in codes]] = 1.0
    absent[[codes.index(one) for one in set(meaning.not_signals) if one in codes]] = 1.0
    beside = (len(set(meaning.signals)) - present > 0).astype(float)
    most = float(like.max())
    first = (like == most).astype(float)
    own = (
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
        most - like,
        beside,
        beside * like,
        present * beside,
        like * np.abs(like),
        np.maximum(like, NONE) * np.maximum(unlike, NONE),
        present * meaning.confidence,
        float(bool(meaning.not_signals)) * unlike,
    )
    told = [float(meaning.intent.value == one) for one in ("observe", "ask", "other")]
    whole = np.array(
        (
            *_of_the_intents(opinion),
            *told,
            float(bool(meaning.not_signals)),
            _grave(opinion),
            *opinion.of(SIDE),
        )
    )
    sides = opinion.of(SIDE).astype(float)
    rows = np.empty((len(codes), len(own) + 2 * len(whole) + 3 * len(sides) + 2))
    at = len(own)
    rows[:, :at] = np.array(own).T
    rows[:, at : at + len(whole)] = whole
    at += len(whole)
    rows[:, at : at + len(whole)] = np.outer(like, whole)
    at += len(whole)
    for one in (present, absent, unlike):
        rows[:, at : at + len(sides)] = np.outer(one, sides)
        at += len(sides)
    rows[:, at] = told[1] * present
    rows[:, at + 1] = 1.0
    return rows


def _grave(opinion: Opinion) -> float:
    margins = opinion.of(DANGER)
    return float(margins[0]) if len(margins) else NONE


def about_danger(meaning: Meaning, opinion: Opinion, dangers: Sequence[str]) -> Array:
    """The features of the model of danger; the last is 1, for its bias."""
    learned = opinion.learned
    places = [at for at, one in enumerate(learned.codes(SIGN)) if one in dangers]
    like = float(opinion.of(SIGN)[places].max()) if places else NONE
    denied = [int(one) for one in learned.denied_of[places] if one >= 0]
    unlike = float(opinion.margins[denied].max()) if denied else NONE
    told = float(any(one in dangers for one in meaning.signals))
    dead = float(MANY_DEAD in meaning.signals)
    many = float(bool(set(meaning.many) - {MANY_DEAD}))
    grave = _grave(opinion)
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
            *_of_the_intents(opinion),
            float(meaning.intent.value == "observe"),
            float(meaning.intent.value == "ask"),
            *opinion.of(SIDE),
            1.0,
        )
    )
