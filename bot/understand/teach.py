"""Learns from the examples what a text may say, and how far the words are to be believed: examples
in, `Learned` out. Needs scikit-learn (the extra `dev`); the service only uses what was learned.
Called by `broodpost teach`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date
from math import sqrt
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix
from sklearn.linear_model import LogisticRegression
from sklearn.svm import LinearSVC

from bot.errors import BroodpostError
from bot.facts.talk import Hearing, Meaning
from bot.handbook.shape_learned import (
    DANGER,
    DENIED,
    DENIES,
    INTENT,
    ONLY_DENIES,
    SIDE,
    SIGN,
    TELLS,
    TOPIC,
    Learned,
    Trust,
)
from bot.handbook.shape_words import Example
from bot.understand.annotate import annotate
from bot.understand.index import Index
from bot.understand.likeness import Opinion, features
from bot.understand.signs import find_signs
from bot.understand.standing import ROWS as ROWS_STANDING
from bot.understand.standing import Rows
from bot.understand.trust import (
    LIKE,
    MANY_DEAD,
    UNLIKE,
    Told,
    about_danger,
    about_intent,
    about_signs,
    about_text,
    stands_of,
    told_by,
)

ROWS = 1 << 16
COST = 0.3  # of a wrong example against large weights; the best of 0.1 to 1 on texts not learned
# Examples a column is learned from.
LEAST = {INTENT: 8, SIGN: 12, DENIED: 8, TOPIC: 8, SIDE: 1, DANGER: 1}
LARGEST = 127  # of the whole numbers the weights are kept as
TODAY = date(2026, 1, 1)
# The same for the models of trust, the best on writers left out.
COST_INTENTS, COST_SIGNS, COST_DANGER = 1.0, 0.05, 1.0
COST_STANDING = 30.0
NEVER = -30.0  # the bias of an intent that no unread text has
NEAR = -0.9  # margin from which a sign that is not said teaches something

Column = tuple[str, str]
Tell = Callable[[str, int, int], None]
Taught = tuple[Example, Told, Opinion]


def teach(
    examples: Sequence[Example], by_words: Callable[[Example], Meaning], index: Index, tell: Tell
) -> Learned:
    """Learn a column for each thing that enough examples say, and from the unread ones how far to
    trust words and columns. by_words: what words alone make of an example. tell: called with what
    is done, how much of it and of how much."""
    unread = [at for at, one in enumerate(examples) if one.unread]
    if not unread:
        raise BroodpostError("no example is unread: nothing shows how far words are to be trusted")
    matrix = _matrix(examples, index, tell)
    said = [_said(one) for one in examples]
    count = Counter(column for one in said for column in one)
    fresh = {one for at in unread for one in said[at]}
    names = sorted(
        one for one, n in count.items() if n >= LEAST[one[0]] and _is_trusted(one, fresh)
    )
    kept = np.array([not one.unread for one in examples])
    known = [one for one, keep in zip(said, kept, strict=True) if keep] or said
    weights, bias = _fit(matrix[kept] if kept.any() else matrix, known, names, tell)
    margins = matrix[unread] @ weights + bias
    told = _all_told(examples, by_words, index, tell)
    stand = [(one, by.standing) for one, by in zip(examples, told, strict=True)]
    read = [one for one, keep in zip(stand, kept, strict=True) if keep] or stand
    learned = _kept_small(names, weights, bias, examples, _untaught(), _fit_standing(read))
    taught = [
        (examples[at], told[at], Opinion(row.astype(np.float32), learned))
        for at, row in zip(unread, margins, strict=True)
    ]
    trust = _trust(taught, index.danger)
    tell("trusted", len(unread), len(unread))
    if kept.all() or not kept.any():
        return replace(learned, trust=trust)
    weights, bias = _fit(matrix, said, names, tell)
    return _kept_small(names, weights, bias, examples, trust, _fit_standing(stand))


def _all_told(
    examples: Sequence[Example], by_words: Callable[[Example], Meaning], index: Index, tell: Tell
) -> list[Told]:
    found = []
    for done, one in enumerate(examples, 1):
        found.append(_told(one, by_words, index))
        if done % 1000 == 0 or done == len(examples):
            tell("read by words", done, len(examples))
    return found


def _told(one: Example, by_words: Callable[[Example], Meaning], index: Index) -> Told:
    text = annotate(one.text, index, one.language)
    find_signs(text, index, None)
    return told_by(by_words(one), text)


def _is_trusted(column: Column, fresh: Set[Column]) -> bool:
    """A sign that no unread text tells is left to the words."""
    return column[0] != SIGN or column in fresh


def _kept_small(
    names: Sequence[Column],
    weights: NDArray[np.float64],
    bias: NDArray[np.float32],
    examples: Sequence[Example],
    trust: Trust,
    standing: NDArray[np.float32],
) -> Learned:
    scale = np.abs(weights).max(axis=0) / LARGEST
    scale[scale == 0] = 1.0
    whole = np.rint(weights / scale).astype(np.int8)
    languages = frozenset(one.language for one in examples)
    return Learned(tuple(names), whole, scale.astype(np.float32), bias, languages, trust, standing)


def _untaught() -> Trust:
    nothing = np.zeros(0, np.float64)
    return Trust(nothing, nothing, nothing, nothing, ())


def _trust(taught: Sequence[Taught], dangers: Iterable[str]) -> Trust:
    learned = taught[0][2].learned
    grave = tuple(sorted(set(dangers) - {MANY_DEAD}))
    signs, by_sign = _trust_signs(taught, learned.codes(SIGN))
    return Trust(
        _trust_intents(taught, learned.codes(INTENT)),
        signs,
        by_sign,
        _trust_danger(taught, grave),
        grave,
    )


def _trust_intents(taught: Sequence[Taught], codes: Sequence[str]) -> NDArray[np.float64]:
    rows = np.stack([about_intent(told, like) for _, told, like in taught])
    wanted = [one.intent for one, _, _ in taught]
    found = np.zeros((rows.shape[1], len(codes)))
    found[-1] = NEVER
    if len(set(wanted)) < 2:
        found[-1, codes.index(wanted[0])] = 0.0
        return found
    fitted = LogisticRegression(C=COST_INTENTS, max_iter=3000).fit(rows[:, :-1], wanted)
    coefficients, biases = _of_each_class(fitted)
    for at, code in enumerate(fitted.classes_):
        if code in codes:
            found[:-1, codes.index(code)] = coefficients[at]
            found[-1, codes.index(code)] = biases[at]
    return found


def _of_each_class(fitted: Any) -> tuple[np.ndarray, np.ndarray]:
    """Coefficients and biases by class; of two classes scikit-learn keeps those of the second."""
    if len(fitted.classes_) == 2:
        nothing = np.zeros_like(fitted.coef_[0])
        return np.stack((nothing, fitted.coef_[0])), np.append(0.0, fitted.intercept_)
    return fitted.coef_, fitted.intercept_


def _trust_signs(
    taught: Sequence[Taught], codes: Sequence[str]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """One model for all signs, with a bias of its own for each; standardized while it is fitted."""
    each = np.eye(len(codes))
    rows, wanted = [], []
    for one, told, like in taught:
        stands = stands_of(told, like.learned)
        of_signs = about_signs(told, like, stands, about_text(told, like))
        about = np.hstack((of_signs.rows(), each))
        nearest = np.maximum(of_signs.alone[LIKE], of_signs.alone[UNLIKE])
        for at, code in enumerate(codes):
            is_said = _how_said(code, one)
            found = code in told.named or code in (*told.meaning.signals, *told.meaning.not_signals)
            if code != MANY_DEAD and (is_said or found or nearest[at] > NEAR):
                rows.append(about[at])
                wanted.append(is_said)
    matrix = np.stack(rows)
    middle, spread = matrix.mean(axis=0), matrix.std(axis=0) + 1e-6
    fitted = LogisticRegression(C=COST_SIGNS, max_iter=1000).fit((matrix - middle) / spread, wanted)
    found_all = np.zeros((matrix.shape[1], 3))
    bias = np.full(3, NEVER)
    coefficients, biases = _of_each_class(fitted)
    for at, label in enumerate(fitted.classes_):
        found_all[:, label] = coefficients[at] / spread
        bias[label] = biases[at] - float(coefficients[at] @ (middle / spread))
    shared = len(rows[0]) - len(codes)
    signs, by_sign = found_all[:shared], found_all[shared:] + bias
    return signs, by_sign


def _fit_standing(
    examples: Sequence[tuple[Example, Mapping[str, Rows]]],
) -> NDArray[np.float32]:
    """One model for the signs whose words stand in a text: neither, told or denied there."""
    at, places, values, wanted = [0], [], [], []
    for one, signs in examples:
        for sign, rows in signs.items():
            if sign != MANY_DEAD:
                places.append(rows)
                values.append(np.full(len(rows), 1 / sqrt(len(rows))))
                at.append(at[-1] + len(rows))
                wanted.append(_how_said(sign, one))
    found = np.zeros((ROWS_STANDING, 3), np.float32)
    if len(set(wanted)) < 2:
        return found
    held = (np.concatenate(values), np.concatenate(places), np.array(at))
    matrix = csr_matrix(held, shape=(len(wanted), ROWS_STANDING))
    fitted = LogisticRegression(C=COST_STANDING, fit_intercept=False, max_iter=300)
    coefficients, _ = _of_each_class(fitted.fit(matrix, wanted))
    for label, row in zip(fitted.classes_, coefficients, strict=True):
        found[:, label] = row.astype(np.float16)  # as it is kept
    return found


def _how_said(sign: str, example: Example) -> int:
    """0 neither, 1 told, 2 denied."""
    if sign in example.signals:
        return 1
    return 2 if sign in example.not_signals else 0


def _trust_danger(taught: Sequence[Taught], grave: Sequence[str]) -> NDArray[np.float64]:
    rows = np.stack(
        [
            about_danger(told, like, grave, stands_of(told, like.learned), about_text(told, like))
            for _, told, like in taught
        ]
    )
    wanted = [one.red_flag for one, _, _ in taught]
    if len(set(wanted)) < 2:
        return np.zeros(rows.shape[1], np.float64)
    fitted = LogisticRegression(C=COST_DANGER, max_iter=1000).fit(rows[:, :-1], wanted)
    return np.append(fitted.coef_[0], fitted.intercept_[0])


def listener(example: Example) -> Hearing:
    """Who reads an example: what of its context is a feature."""
    prompt, has_batch = example.context.get("last_prompt"), example.context.get("has_batch")
    return Hearing(
        today=TODAY,
        language=example.language,
        has_batch=bool(has_batch),
        prompt=None if prompt is None else str(prompt),
    )


def _matrix(examples: Sequence[Example], index: Index, tell: Tell) -> Any:
    at, of, places = [0], [], []
    for done, one in enumerate(examples, 1):
        text = annotate(one.text, index, one.language)
        rows, values = features(text, one.language, listener(one), ROWS)
        places.append(rows)
        of.append(values)
        at.append(at[-1] + len(rows))
        if done % 1000 == 0 or done == len(examples):
            tell("read", done, len(examples))
    held = (np.concatenate(of), np.concatenate(places), np.array(at))
    matrix = csr_matrix(held, shape=(len(examples), ROWS))
    matrix.sum_duplicates()
    return matrix


def _said(example: Example) -> set[Column]:
    topic = example.slots.get("topic") if example.intent == "ask" else None
    found: Iterable[Column] = (
        (INTENT, example.intent),
        *((SIGN, one) for one in example.signals),
        *((DENIED, one) for one in example.not_signals),
        *(((TOPIC, str(topic)),) if topic else ()),
        *(((DANGER, DANGER),) if example.red_flag else ()),
        *(((SIDE, TELLS),) if example.signals else ()),
        *(((SIDE, DENIES),) if example.not_signals else ()),
        *(((SIDE, ONLY_DENIES),) if example.not_signals and not example.signals else ()),
    )
    return set(found)


def _fit(
    matrix: Any,
    said: Sequence[set[Column]],
    names: Sequence[Column],
    tell: Tell,
) -> tuple[np.ndarray, np.ndarray]:
    """One linear support vector machine a column, each against all the rest."""

    def one(column: Column) -> tuple[np.ndarray, float]:
        labels = np.array([column in row for row in said])
        fitted = LinearSVC(C=COST, random_state=0).fit(matrix, labels)
        return fitted.coef_[0], float(fitted.intercept_[0])

    columns = []
    with ThreadPoolExecutor() as pool:
        for done, fitted in enumerate(pool.map(one, names), 1):
            columns.append(fitted)
            tell("learned", done, len(names))
    weights = np.stack([weight for weight, _ in columns], axis=1)
    return weights, np.array([bias for _, bias in columns], np.float32)
