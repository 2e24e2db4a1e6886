"""The fixed rules of danger: what goes to a vet or for help at once, and what does not."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bot.diagnosis.danger import ILLNESS, find_danger, judge_deaths, screaming_heap
from bot.diagnosis.weigh import Circumstances
from tests.diagnosis.talking import causes

HERE = Circumstances(12, 9)
SIGNS = sorted(causes().signs)
# Danger whatever else is said, even of one bird or one person.
ALWAYS = (
    "bloody_droppings",
    "twisted_neck_or_paralysis",
    "swollen_head",
    "sudden_many_deaths",
    "sleepy_all_birds",
    "drowsy_people_or_birds_near_stove",
)
# What explains an illness of many: it is asked about or acted on before the vet.
EXPLAINED = {
    "sneezing_or_rattle": {"own_eyes"},
    "white_or_green_diarrhoea": {"litter_wet", "litter_caked", "feed_salty", "feed_new"},
}
several = st.lists(st.sampled_from(SIGNS), max_size=6, unique=True)


@given(sign=st.sampled_from(ALWAYS), others=several, many=several)
def test_danger_is_never_missed_whatever_else_is_said(
    sign: str, others: list[str], many: list[str]
) -> None:
    assume(sign != "sleepy_all_birds" or not screaming_heap((sign, *others)))  # pressed, not ill
    assert find_danger((sign, *others), many, HERE) is not None


@given(sign=st.sampled_from(("gasping", "sneezing_or_rattle", "white_or_green_diarrhoea",
                             "limping_or_down", "smoke_or_fumes")), others=several)  # fmt: skip
def test_illness_in_many_and_heavy_smoke_are_never_missed(sign: str, others: list[str]) -> None:
    assume(not EXPLAINED.get(sign, set()).intersection(others))
    assume(sign != "limping_or_down" or not screaming_heap((sign, *others)))
    assert find_danger((sign, *others), (sign,), HERE) is not None


@given(others=st.lists(st.sampled_from([one for one in SIGNS if one not in ALWAYS]), max_size=6))
def test_one_or_a_few_ill_birds_and_a_little_smoke_are_no_danger(others: list[str]) -> None:
    assume(not {"own_eyes", "own_cough"} <= set(others))  # people in smoke
    assert find_danger(others, (), HERE) is None


@given(others=several, many=several)
def test_people_come_before_birds(others: list[str], many: list[str]) -> None:
    found = find_danger(("drowsy_people_or_birds_near_stove", *others), many, HERE)
    assert found is not None
    assert found.people_first
    assert found.kind == "fumes"


def test_drowsy_flock_beside_a_fire_thinks_of_people_first_and_under_a_bulb_of_the_vet() -> None:
    fire = find_danger(("sleepy_all_birds",), (), HERE)
    bulb = find_danger(("sleepy_all_birds",), (), Circumstances(12, 9, heats=("bulb",)))
    assert fire is not None
    assert bulb is not None
    assert (fire.people_first, bulb.people_first) == (True, False)


# North Dakota Department of Agriculture and chicken.vet: breathing signs with green droppings or
# twisted necks; swollen heads; unexplained sudden deaths: the authority is told.
@pytest.mark.parametrize(
    ("signs", "held"),
    [
        (("twisted_neck_or_paralysis",), True),
        (("swollen_head",), True),
        (("gasping", "white_or_green_diarrhoea"), True),
        (("sudden_many_deaths",), True),
        (("sudden_many_deaths", "rats_or_predator"), False),
        (("sudden_many_deaths", "piled_near_heat"), False),
        (("bloody_droppings",), False),
        (("limping_or_down",), False),
    ],
)
def test_a_suspicion_of_a_notifiable_disease_is_told_apart(
    signs: tuple[str, ...], held: bool
) -> None:
    found = find_danger(signs, signs, HERE)
    assert found is not None
    assert found.notifiable is held


def test_deaths_of_the_first_days_hold_no_batch() -> None:
    found = find_danger(("sudden_many_deaths",), (), Circumstances(2, 9))
    assert found is not None
    assert not found.notifiable


def test_dull_and_panting_in_the_heat_is_heat() -> None:
    signs = ("lethargic", "panting")
    assert find_danger(signs, signs, HERE) is None


def test_many_sore_eyes_are_illness_unless_the_air_stings() -> None:
    eyes = "eyes_swollen_or_closed"
    assert find_danger((eyes,), (eyes,), HERE) is not None
    assert find_danger((eyes, "ammonia_smell"), (eyes,), HERE) is None


@pytest.mark.parametrize("sign", ILLNESS)
def test_every_sign_of_illness_counts_when_said_of_many(sign: str) -> None:
    found = find_danger((sign,), (sign,), HERE)
    assert found is not None
    assert sign in found.because


# Danger at max(3, 2 %), quiet below 3 or up to 0.8 %, a question between: common practice.
@pytest.mark.parametrize(
    ("dead", "alive", "expected"),
    [
        (2, 60, "quiet"),
        (3, 60, "danger"),
        (3, 150, "danger"),
        (3, 151, "doubt"),
        (3, 374, "doubt"),
        (3, 375, "quiet"),
        (5, 300, "doubt"),
        (6, 300, "danger"),
        (5, 700, "quiet"),
        (6, 700, "doubt"),
        (13, 700, "doubt"),
        (14, 700, "danger"),
        (16, 2000, "quiet"),
        (17, 2000, "doubt"),
        (40, 2000, "danger"),
        (2, None, "quiet"),
        (3, None, "doubt"),
        (10, None, "danger"),
    ],
)
def test_deaths_of_a_day_are_judged_by_the_fixed_rule(
    dead: int, alive: int | None, expected: str
) -> None:
    assert judge_deaths(dead, alive) == expected


@given(alive=st.integers(1, 2000), dead=st.integers(0, 2000))
def test_more_deaths_are_never_less_dangerous(alive: int, dead: int) -> None:
    order = ("quiet", "doubt", "danger")
    fewer, more = judge_deaths(dead, alive), judge_deaths(dead + 1, alive)
    assert order.index(fewer) <= order.index(more)
