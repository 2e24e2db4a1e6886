"""The one question: what it asks, what it never asks, and its worth calculated apart."""

from __future__ import annotations

from math import log2

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.diagnosis.question import BEHAVIOUR, best_question, questions
from bot.diagnosis.weigh import Circumstances, Evidence, weigh
from tests.diagnosis.talking import causes

MODEL = causes()
DAY_5 = Circumstances(5, 9)


def best(signals: tuple[str, ...], denied: tuple[str, ...] = (), *asked: str) -> str | None:
    found = best_question(Evidence(signals, denied, DAY_5), asked, MODEL)
    return found.name if found else None


def test_along_the_walls_asks_for_open_beaks_then_for_the_litter() -> None:
    assert best(("at_edges_or_walls",)) == "sign:panting"
    assert best(("at_edges_or_walls",), ("panting",), "sign:panting") == "litter"


def test_to_one_side_asks_for_wind() -> None:
    assert best(("crowded_one_side",)) == "sign:rain_or_wind_in"


@pytest.mark.parametrize("signals", [(), ("noisy_distress",), ("no_power",)])
def test_where_nothing_is_known_of_their_place_it_asks_where_they_are(
    signals: tuple[str, ...],
) -> None:
    assert best(signals) == "behaviour"


def test_a_sign_that_has_gone_asks_where_they_are_now() -> None:
    assert best((), ("piled_near_heat",)) == "behaviour"


def test_sore_eyes_ask_for_the_litter_and_its_smell() -> None:
    assert best(("eyes_swollen_or_closed",)) == "litter"


signs = st.lists(st.sampled_from(sorted(MODEL.signs)), max_size=3, unique=True)


@given(said=signs, denied=signs, age=st.integers(0, 40))
@settings(max_examples=40, deadline=None)
def test_nothing_known_or_asked_is_asked_again(
    said: list[str], denied: list[str], age: int
) -> None:
    evidence = Evidence(tuple(said), tuple(denied), Circumstances(age, 9))
    for query in questions(evidence, ("sign:panting", "litter"), MODEL):
        assert query.name not in ("sign:panting", "litter")
        assert query.sign not in (*said, *denied)
        if query.name == "behaviour":
            assert not set(said) & set(BEHAVIOUR)


def yes_no_worth_by_hand(evidence: Evidence, sign: str) -> float:
    """Expected bits over the single causes still alive, times ease and danger, from the tables."""
    conditions = evidence.circumstances.conditions()
    singles = {one[0]: s for one, s in weigh(evidence, MODEL).hypotheses if len(one) == 1}
    singles = {c: s for c, s in singles.items() if s >= 0.05 * max(singles.values())}
    whole = sum(singles.values())
    prior = {c: s / whole for c, s in singles.items()}
    yes = {c: MODEL.causes[c].signs[sign].of(conditions) for c in prior}

    def bits(weights: dict[str, float]) -> float:
        total = sum(weights.values())
        return -sum(w / total * log2(w / total) for w in weights.values() if w > 0)

    p_yes = sum(prior[c] * yes[c] for c in prior)
    left = p_yes * bits({c: prior[c] * yes[c] for c in prior})
    left += (1 - p_yes) * bits({c: prior[c] * (1 - yes[c]) for c in prior})
    sort = MODEL.signs[sign]
    return (bits(prior) - left) * sort.ease * (1 + 0.15 * sort.danger)


@given(said=signs, age=st.integers(0, 40), hour=st.integers(0, 23))
@settings(max_examples=30, deadline=None)
def test_the_worth_of_a_question_equals_an_independent_calculation(
    said: list[str], age: int, hour: int
) -> None:
    evidence = Evidence(tuple(said), (), Circumstances(age, hour))
    found = questions(evidence, (), MODEL)
    for query in found:
        if query.sign is not None:
            expected = yes_no_worth_by_hand(evidence, query.sign)
            assert query.worth == pytest.approx(expected, abs=1e-9)
    assert [one.worth for one in found] == sorted((one.worth for one in found), reverse=True)
