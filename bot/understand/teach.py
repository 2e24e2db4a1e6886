"""Learns from the examples what a text may say: examples in, `Learned` out. Needs scikit-learn (the
extra `dev`); the service only uses what was learned. Called by `broodpost teach`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from typing import Any

import numpy as np
from scipy.sparse import csr_matrix
from sklearn.svm import LinearSVC

from bot.facts.talk import Hearing
from bot.handbook.shape_learned import DANGER, DENIED, INTENT, SIGN, TOPIC, Learned
from bot.handbook.shape_words import Example
from bot.understand.annotate import annotate
from bot.understand.index import Index
from bot.understand.likeness import features

ROWS = 1 << 15
COST = 0.3  # of a wrong example against large weights; the best of 0.1 to 1 on texts not learned
LEAST = {INTENT: 8, SIGN: 12, DENIED: 8, TOPIC: 8, DANGER: 1}  # examples a column is learned from
LARGEST = 127  # of the whole numbers the weights are kept as
TODAY = date(2026, 1, 1)

Column = tuple[str, str]


def teach(
    examples: Sequence[Example], index: Index, tell: Callable[[str, int, int], None]
) -> Learned:
    """Learn a column for each thing that enough examples say. tell: called with what is done, how
    much of it and of how much."""
    matrix = _matrix(examples, index, tell)
    said = [_said(one) for one in examples]
    count = Counter(column for one in said for column in one)
    names = sorted(one for one, n in count.items() if n >= LEAST[one[0]])
    weights, bias = _fit(matrix, said, names, tell)
    scale = np.abs(weights).max(axis=0) / LARGEST
    whole = np.rint(weights / scale).astype(np.int8)
    languages = frozenset(one.language for one in examples)
    return Learned(tuple(names), whole, scale.astype(np.float32), bias, languages)


def listener(example: Example) -> Hearing:
    """Who reads an example: what of its context is a feature."""
    prompt, has_batch = example.context.get("last_prompt"), example.context.get("has_batch")
    return Hearing(
        today=TODAY,
        language=example.language,
        has_batch=bool(has_batch),
        prompt=None if prompt is None else str(prompt),
    )


def _matrix(
    examples: Sequence[Example], index: Index, tell: Callable[[str, int, int], None]
) -> Any:
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
    )
    return set(found)


def _fit(
    matrix: Any,
    said: Sequence[set[Column]],
    names: Sequence[Column],
    tell: Callable[[str, int, int], None],
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
