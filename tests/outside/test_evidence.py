"""The evidence model in another's hands: scikit-learn (BSD-3-Clause) is given the tables as they
stand in content/, read here apart from our loader, and must reach the same posteriors and the same
best question. CategoricalNB is exact inference on causes that each bring their signs on their own;
mutual_info_score is the information that an answer tells.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations
from math import log
from random import Random
from typing import Any

import numpy as np
import pytest
from sklearn.metrics import mutual_info_score
from sklearn.naive_bayes import CategoricalNB

from bot.diagnosis.question import BEHAVIOUR, LITTER, LITTER_SIGNS, YES_NO, questions
from bot.diagnosis.weigh import Circumstances, Evidence, weigh
from bot.handbook.strict import read_yaml
from tests.diagnosis.talking import CONTENT, causes

MODEL = causes()
VERDICTS = ("far_below", "below", "right", "above", "far_above")
HEATS = ("charcoal", "gas", "bulb", "kerosene", "wood", "none")
RAW: Mapping[str, Any] = {
    path.stem: read_yaml(path) for path in sorted((CONTENT / "causes").glob("*.yaml"))
}
TOP: Any = read_yaml(CONTENT / "signs.yaml")
SIGNS: Mapping[str, Any] = TOP["signs"]
TROUBLES = [cause for cause in RAW if cause != "comfortable"]
WORLDS = [
    *((cause,) for cause in RAW),
    *(
        pair
        for pair in combinations(TROUBLES, 2)
        if len({"cold", "hot", "uneven_heat"}.intersection(pair)) < 2
    ),
]
FINE = 10**9  # the library counts in whole numbers


def words_of(here: Circumstances) -> set[str]:
    """The conditions of content/causes, worked out apart."""
    grown = here.age is not None and here.age >= 21
    found = {"open" if here.house == "open" or grown else "brooder"}
    found.add("night" if not 6 <= here.hour < 18 else "midday" if 11 <= here.hour < 16 else "day")
    if here.age is not None:
        found.add(("young", "chick", "grower", "big")[min(here.age // 7, 3)])
    return found | (set(here.heats) if len(here.heats) == 1 else set())


def figure(row: Any, conditions: set[str], base: float) -> float:
    """A figure of content that may depend on conditions."""
    if not isinstance(row, dict):
        return float(row)
    fits = [row[one] for one in row if one in conditions]
    if fits or "otherwise" in row or base:
        return float(fits[0] if fits else row.get("otherwise", base))
    return float(sorted(row.values())[len(row) // 2])  # no age known: the middle of the bands


def chance(cause: str, sign: str, conditions: set[str]) -> float:
    base = SIGNS[sign]["base"]
    return figure(RAW[cause]["signs"].get(sign, base), conditions, base)


def prior(world: Sequence[str], conditions: set[str], worked: Sequence[tuple[str, str]]) -> float:
    weight = 1.0
    for cause in world:
        weight *= figure(RAW[cause]["prior"], conditions, 0.0)
        for condition, factor in RAW[cause]["times"].items():
            weight *= factor if condition in conditions else 1.0
        for treated, answer in worked:
            weight *= TOP["weighing"]["worked"][answer] if treated == cause else 1.0
    return weight


def library(worlds: Sequence[Sequence[str]], evidence: Evidence) -> dict[Sequence[str], float]:
    """The posterior of every world, by the library."""
    conditions = words_of(evidence.circumstances)
    told = [*dict.fromkeys(evidence.signals), *evidence.not_signals]
    features, seen = [], []
    for sign in told:
        both = min if SIGNS[sign].get("calm") else max
        yes = np.array([both(chance(one, sign, conditions) for one in world) for world in worlds])
        features.append(np.log(np.column_stack([1 - yes, yes])))
        seen.append(int(sign in evidence.signals))
    if evidence.verdict is not None:
        rows = [[max(RAW[one]["temperature"][v] for one in world) for v in VERDICTS]
                for world in worlds]  # fmt: skip
        features.append(np.log([[part / sum(row) for part in row] for row in rows]))
        seen.append(VERDICTS.index(evidence.verdict))
    model = CategoricalNB()
    model.classes_ = np.arange(len(worlds))
    model.class_count_ = np.ones(len(worlds))
    model.class_log_prior_ = np.log([prior(w, conditions, evidence.worked) for w in worlds])
    model.feature_log_prob_ = features
    model.n_features_in_ = len(features)
    model.n_categories_ = np.array([one.shape[1] for one in features])
    shares = model.predict_proba(np.array([seen]))[0]
    return {tuple(world): float(share) for world, share in zip(worlds, shares, strict=True)}


def drawn(seed: int) -> Evidence:
    """A random case with at least one thing known."""
    dice = Random(seed)
    signs = dice.sample(sorted(SIGNS), 6)
    said, denied = dice.randint(1, 3), dice.randint(0, 3)
    return Evidence(
        tuple(signs[:said]),
        tuple(signs[said : said + denied]),
        Circumstances(
            dice.choice([None, *range(41)]),
            dice.randrange(24),
            dice.choice(("brooder", "open")),
            tuple(dice.sample(HEATS, dice.choice((1, 1, 2)))),
        ),
        dice.choice((None, *VERDICTS)),
        tuple((dice.choice(TROUBLES), dice.choice(("same", "worse"))) for _ in range(seed % 3)),
    )


@pytest.mark.parametrize("seed", range(60))
def test_posteriors_are_those_of_scikit_learn(seed: int) -> None:
    evidence = drawn(seed)
    theirs = library(WORLDS, evidence)
    ours = dict(weigh(evidence, MODEL).hypotheses)
    assert {frozenset(one) for one in ours} == {frozenset(one) for one in theirs}
    by_causes = {frozenset(one): share for one, share in theirs.items()}
    for world, share in ours.items():
        assert share == pytest.approx(by_causes[frozenset(world)], abs=1e-6)


def answers(name: str, cause: str, conditions: set[str]) -> dict[str, float]:
    """How likely each answer to a question is under one cause."""
    if name == "behaviour":
        weights = {sign: chance(cause, sign, conditions) for sign in BEHAVIOUR}
    elif name == "litter":
        seen = {one: chance(cause, sign, conditions) for one, sign in LITTER_SIGNS.items()}
        weights = {"dry": float(np.prod([1 - one for one in seen.values()])), **seen}
    else:
        yes = chance(cause, name.removeprefix("sign:"), conditions)
        weights = {"yes": yes, "no": 1 - yes}
    return {one: weight / sum(weights.values()) for one, weight in weights.items()}


def worth(name: str, options: Sequence[str], evidence: Evidence) -> float:
    """Bits that the library says the answer tells about the causes still alive, times how easy it
    is to look, times the weight of the danger it asks about."""
    conditions = words_of(evidence.circumstances)
    single = library([world for world in WORLDS if len(world) == 1], evidence)
    least = 0.05 * max(single.values()) * (1 - 1e-9)  # one that stands on the line is alive
    kept = {world[0]: one for world, one in single.items() if one >= least}
    joint = np.array(
        [
            [share / sum(kept.values()) * answers(name, cause, conditions)[one] for one in options]
            for cause, share in kept.items()
        ]
    )
    counted = np.rint(joint * FINE).astype(np.int64)
    bits = mutual_info_score(None, None, contingency=counted) / log(2)
    asked = {"behaviour": BEHAVIOUR, "litter": tuple(LITTER_SIGNS.values())}
    signs = [SIGNS[sign] for sign in asked.get(name, (name.removeprefix("sign:"),))]
    danger = sum(sign["danger"] for sign in signs) / len(signs)
    return float(bits * min(sign["ease"] for sign in signs) * (1 + 0.15 * danger))


@pytest.mark.parametrize("seed", range(100, 125))
def test_the_best_question_is_that_of_scikit_learn(seed: int) -> None:
    evidence = drawn(seed)
    ours = questions(evidence, (), MODEL)
    options = {"behaviour": BEHAVIOUR, "litter": LITTER}
    theirs = {one.name: worth(one.name, options.get(one.name, YES_NO), evidence) for one in ours}
    for query in ours:
        assert query.worth == pytest.approx(theirs[query.name], abs=1e-6)
    assert theirs[ours[0].name] == pytest.approx(max(theirs.values()), abs=1e-6)
