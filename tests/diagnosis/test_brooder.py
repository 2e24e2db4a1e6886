"""The diagnosis against a brooder that shares no table with it: right first cause, few questions,
actions that do not lead away. The long run is `scripts/bench diagnosis`.

`pytest -s` prints the confusion table.
"""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from bot.wiring import Thinking
from tests.diagnosis.brooder import PLANTED, carry_out, holding, planted
from tests.diagnosis.farmer import Complaint, confusion, flattened, season

NUMBER, SEED = 300, 2


@pytest.fixture(scope="module")
def played(thinking: Thinking) -> list[Complaint]:
    return season(NUMBER, SEED, thinking)


def right(played: list[Complaint]) -> float:
    return sum(one.named in one.holding for one in played) / len(played)


def test_the_first_cause_named_is_right_in_85_of_100(played: list[Complaint]) -> None:
    for (truth, named), count in sorted(confusion(played).items()):
        print(f"{truth:>13} named {named}: {count}")  # noqa: T201  # for -s
    assert right(played) >= 0.85


def test_little_more_is_reached_by_exact_inference_with_every_question_answered(
    played: list[Complaint],
) -> None:
    exact = sum(one.exact in one.holding for one in played) / NUMBER
    assert right(played) >= 0.95 * exact


def test_two_questions_are_asked_at_most_on_average(played: list[Complaint]) -> None:
    assert 0 < sum(one.questions for one in played) / NUMBER <= 2


def test_never_more_than_three_questions_come_in_a_row(played: list[Complaint]) -> None:
    assert max(one.in_a_row for one in played) <= 3


def test_tables_flattened_by_a_fifth_lose_five_points_at_most(
    played: list[Complaint], thinking: Thinking
) -> None:
    flat = replace(thinking.handbook, causes=flattened(thinking.handbook.causes, 0.2))
    after = season(NUMBER, SEED, replace(thinking, handbook=flat))
    assert right(after) >= right(played) - 0.05


def test_no_action_leads_further_from_right_for_half_an_hour_without_our_asking(
    played: list[Complaint],
) -> None:
    assert max(one.worst_min for one in played) <= 30


@pytest.mark.parametrize("cause", [cause for cause, _ in PLANTED])
def test_the_brooder_shows_the_trouble_that_was_planted(cause: str) -> None:
    assert all(cause in holding(planted(cause, Random(seed))) for seed in range(50))


@pytest.mark.parametrize(("cause", "key"), [("cold", "cold_charcoal"), ("hot", "hot_stove_out")])
def test_the_brooders_own_action_brings_it_nearer_to_right(cause: str, key: str) -> None:
    for seed in range(20):
        state = planted(cause, Random(seed))
        before = abs(state.off_c)
        carry_out(state, key)
        for _ in range(60):
            state.minute()
        assert abs(state.off_c) < before
