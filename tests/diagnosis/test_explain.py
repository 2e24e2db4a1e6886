"""The reasons behind an answer."""

from __future__ import annotations

from bot.diagnosis.explain import explain
from bot.diagnosis.weigh import Circumstances, Evidence, weigh
from tests.diagnosis.talking import causes

MODEL = causes()


def test_the_most_telling_signs_come_first_and_others_are_left_out() -> None:
    evidence = Evidence(
        ("noisy_distress", "piled_near_heat", "uneven_size"), (), Circumstances(5, 9)
    )
    found = explain(evidence, weigh(evidence, MODEL), MODEL)
    assert found.cause == "cold"
    assert found.because == ("piled_near_heat", "noisy_distress")


def test_the_thermometer_is_named_where_it_speaks() -> None:
    evidence = Evidence(("panting",), (), Circumstances(5, 9), "far_above")
    found = explain(evidence, weigh(evidence, MODEL), MODEL)
    assert set(found.because) == {"panting", "temperature"}


def test_what_would_have_changed_it_really_does() -> None:
    evidence = Evidence(("piled_near_heat",), (), Circumstances(5, 9))
    before = weigh(evidence, MODEL)
    found = explain(evidence, before, MODEL)
    assert found.would_change
    for sign in found.would_change:
        after = weigh(evidence.with_sign(sign, seen=True), MODEL)
        assert after.sure
        assert after.top != before.top


def test_while_only_a_question_is_asked_the_cause_is_unclear() -> None:
    evidence = Evidence(("at_edges_or_walls",), (), Circumstances(5, 9))
    found = explain(evidence, weigh(evidence, MODEL), MODEL, "unclear")
    assert found.cause == "unclear"
    assert found.ranked[0][0] == "hot"
