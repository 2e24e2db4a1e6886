"""The one question: what it asks, what it never asks. Its worth is checked in
tests/outside/test_evidence.py."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.diagnosis.question import BEHAVIOUR, best_question, questions
from bot.diagnosis.weigh import Circumstances, Evidence
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
