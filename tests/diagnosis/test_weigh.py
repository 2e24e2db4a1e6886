"""The ranking of causes: single signs, published rows, denials, two causes at once.
That the posteriors are right is checked in tests/outside/test_evidence.py."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.diagnosis.weigh import Circumstances, Evidence, weigh
from bot.handbook.shape_causes import HEATS
from tests.diagnosis.talking import causes

MODEL = causes()
DAY_5 = Circumstances(5, 9)
EVERYWHERE = [
    Circumstances(age, hour, house, heats)
    for age, hour, house, heats in product(
        (None, 0, 6, 7, 13, 14, 20, 21, 35),
        (3, 9, 13, 20),
        ("brooder", "open"),
        (("charcoal",), ("bulb",), ("none",), ("gas", "bulb")),
    )
]
# The contract's own table: sign -> causes that are right, and whether a question is as right.
SINGLE = {
    "piled_near_heat": ({"cold"}, True),
    "stove_out": ({"cold"}, True),
    "feathers_ruffled": ({"cold"}, True),
    "panting": ({"hot"}, False),
    "wings_spread": ({"hot"}, True),
    "away_from_heat": ({"hot"}, False),
    "rain_or_wind_in": ({"draught", "damp_litter"}, False),
    "litter_wet": ({"damp_litter"}, False),
    "litter_caked": ({"damp_litter"}, False),
    "litter_cold": ({"cold", "damp_litter"}, False),
    "ammonia_smell": ({"ammonia"}, False),
    "drinking_less": ({"thirst"}, True),
    "not_drinking": ({"thirst"}, True),
    "not_eating": ({"hunger", "feed_problem"}, True),
    "crop_empty": ({"hunger", "feed_problem"}, True),
    "feed_finished": ({"hunger", "feed_problem"}, True),
    "feed_mouldy": ({"feed_problem"}, False),
    "uneven_size": ({"crowding", "hunger"}, True),
    "cannibalism_or_pecking": ({"crowding", "hunger"}, True),
    "drinking_more": ({"hot"}, True),
    "lethargic": ({"sick"}, True),
    "sneezing_or_rattle": ({"sick"}, True),
    "eyes_swollen_or_closed": ({"sick"}, True),
    "white_or_green_diarrhoea": ({"sick"}, True),
    "pasty_vent": ({"sick"}, True),
    "navel_wet": ({"sick"}, True),
    "limping_or_down": ({"sick"}, True),
    "spread_evenly": ({"comfortable"}, False),
    "quiet_content": ({"comfortable"}, False),
    "at_edges_or_walls": (set(), True),
    "crowded_one_side": (set(), True),
    "noisy_distress": (set(), True),
    "smoke_or_fumes": ({"fumes"}, False),
    "rats_or_predator": ({"predator"}, False),
}


@pytest.mark.parametrize("sign", SINGLE)
def test_a_single_sign_names_its_cause_or_asks_at_every_age_hour_house_and_heat(sign: str) -> None:
    right, may_ask = SINGLE[sign]
    for circumstances in EVERYWHERE:
        found = weigh(Evidence((sign,), (), circumstances), MODEL)
        assert found.top in right if found.sure else may_ask, (circumstances, found.ranked[:3])


def test_a_power_cut_is_cold_under_a_bulb_and_a_question_otherwise() -> None:
    for heat in HEATS:
        found = weigh(Evidence(("no_power",), (), Circumstances(5, 20, heats=(heat,))), MODEL)
        assert (found.top, found.sure) == ("cold", True) if heat == "bulb" else not found.sure


# Published rows of behaviour (each named): what is seen -> what it means.
PUBLISHED = [
    # Lohmann Breeders, Management guide parent stock, p. 31; Hy-Line Red Book p. 29; Ontario
    # Ministry of Agriculture, Basic husbandry: piled at the heat, loud, ruffled = too cold.
    (("piled_near_heat", "noisy_distress"), 4, {"cold"}),
    (("piled_near_heat", "noisy_distress", "feathers_ruffled"), 4, {"cold"}),
    # The same three: away from the heat, panting, wings drooped, quiet, listless = too hot.
    (("away_from_heat", "panting", "wings_spread"), 4, {"hot"}),
    (("away_from_heat", "panting", "quiet_content"), 4, {"hot"}),
    (("away_from_heat", "panting", "wings_spread", "pasty_vent"), 4, {"hot"}),
    # Lohmann p. 31; Hy-Line p. 29: evenly spread, contented sound = right.
    (("spread_evenly", "quiet_content"), 4, {"comfortable"}),
    # Lohmann p. 31; Hy-Line p. 29: to one side, away from one spot = draught, uneven light, noise.
    (("crowded_one_side", "rain_or_wind_in"), 4, {"draught"}),
    # Ontario; Cobb World Technical Support (Barnwell and Wilson): damp litter, ammonia smell,
    # runny eyes = too wet, too little air.
    (("litter_wet", "ammonia_smell", "eyes_swollen_or_closed"), 18, {"ammonia", "damp_litter"}),
    # MSD Veterinary Manual, Omphalitis in poultry (2019): wet navel, drooping = navel infection.
    (("navel_wet", "lethargic"), 3, {"sick"}),
    # Ontario: pasted vents = too hot or chilled; what else they do says which.
    (("pasty_vent", "panting"), 4, {"hot"}),
    (("pasty_vent", "piled_near_heat"), 4, {"cold"}),
    # Early Feed Nutrition, crop fill check: empty crops = not finding feed or water, cold or hot.
    (("crop_empty",), 1, {"hunger", "thirst", "cold", "hot"}),
    # USDA-ARS, Miles and others (2006): sore, shut eyes with the smell = ammonia.
    (("eyes_swollen_or_closed", "ammonia_smell"), 25, {"ammonia"}),
    # US CPSC document 5012: drowsy people or birds at a burning stove = carbon monoxide.
    (("drowsy_people_or_birds_near_stove",), 2, {"fumes"}),
    # North Dakota Department of Agriculture; California CDFA (2018): gasping, then twisted necks,
    # green droppings = suspect Newcastle disease.
    (("gasping", "twisted_neck_or_paralysis", "white_or_green_diarrhoea"), 22, {"sick"}),
    # chicken.vet, Avian influenza: swollen head, sudden deaths.
    (("swollen_head", "sudden_many_deaths"), 28, {"sick"}),
    # State Veterinary Institute Prague, Infectious bursal disease: 3-6 weeks, whitish droppings,
    # ruffled, huddled.
    (("white_or_green_diarrhoea", "feathers_ruffled", "piled_near_heat"), 25, {"sick"}),
    # General poultry disease texts, from memory: blood in droppings, hunched, from three weeks.
    (("bloody_droppings", "feathers_ruffled"), 23, {"sick"}),
]


@pytest.mark.parametrize(("signs", "age", "right"), PUBLISHED)
def test_published_behaviour_rows_are_reproduced(
    signs: tuple[str, ...], age: int, right: set[str]
) -> None:
    found = weigh(Evidence(signs, (), Circumstances(age, 9)), MODEL)
    assert found.sure
    assert found.top in right, found.ranked[:3]


def test_panting_along_the_walls_is_heat_and_wet_middle_is_litter() -> None:
    walls = Evidence(("at_edges_or_walls",), (), DAY_5)
    assert not weigh(walls, MODEL).sure
    assert weigh(walls.with_sign("panting", seen=True), MODEL).top == "hot"
    wet = walls.with_sign("panting", seen=False).with_sign("litter_wet", seen=True)
    assert (weigh(wet, MODEL).top, weigh(wet, MODEL).sure) == ("damp_litter", True)


@pytest.mark.parametrize(
    ("signs", "top"),
    [
        (("litter_wet", "ammonia_smell"), "ammonia"),
        (("litter_wet", "piled_near_heat"), "cold"),
        (("panting", "litter_wet"), "hot"),
        (("smoke_or_fumes", "piled_near_heat"), "fumes"),
        (("not_drinking", "panting"), "hot"),
        (("ammonia_smell", "feed_finished"), "hunger"),
        (("not_drinking", "feed_finished"), "thirst"),
        (("bloody_droppings", "piled_near_heat"), "sick"),
        (("rats_or_predator", "litter_wet"), "damp_litter"),
    ],
)
def test_of_two_causes_at_once_the_more_dangerous_is_named(
    signs: tuple[str, ...], top: str
) -> None:
    found = weigh(Evidence(signs, (), DAY_5), MODEL)
    assert found.sure
    assert found.top == top, found.ranked[:3]


def test_damp_litter_and_ammonia_hold_together() -> None:
    found = dict(weigh(Evidence(("litter_wet", "ammonia_smell"), (), DAY_5), MODEL).ranked)
    assert found["ammonia"] > 0.4
    assert found["damp_litter"] > 0.4


def test_chicks_that_cry_and_are_spread_out_are_not_cold() -> None:
    signs = ("noisy_distress", "spread_evenly")
    found = dict(weigh(Evidence(signs, ("litter_wet", "feed_finished"), DAY_5), MODEL).ranked)
    assert found["cold"] < 0.15 < found["thirst"]


def test_cold_and_hot_never_hold_together() -> None:
    found = weigh(Evidence(("piled_near_heat", "panting"), (), DAY_5), MODEL)
    assert all(not {"cold", "hot"} <= set(one) for one, _ in found.hypotheses)


@pytest.mark.parametrize("hour", [9, 23])
def test_some_that_pant_and_others_in_a_heap_tell_of_uneven_heat(hour: int) -> None:
    here = Circumstances(5, hour)
    found = weigh(Evidence(("piled_near_heat", "panting"), (), here), MODEL)
    assert (found.top, found.sure) == ("uneven_heat", True)


def test_along_the_walls_and_crying_still_asks() -> None:
    signs = ("at_edges_or_walls", "noisy_distress")
    assert not weigh(Evidence(signs, (), DAY_5), MODEL).sure


@given(
    sign=st.sampled_from(sorted(MODEL.signs)),
    cause=st.sampled_from(sorted(MODEL.causes)),
    age=st.integers(0, 35),
)
@settings(max_examples=60, deadline=None)
def test_denying_a_sign_lowers_every_cause_that_brings_it_more_than_the_rest_do(
    sign: str, cause: str, age: int
) -> None:
    circumstances = Circumstances(age, 9)
    conditions = circumstances.conditions()
    chances = [one.signs[sign].of(conditions) for one in MODEL.causes.values()]
    if MODEL.causes[cause].signs[sign].of(conditions) < max(chances) or len(set(chances)) == 1:
        return  # others bring it more, or all alike ("the others are well")
    before = dict(weigh(Evidence((), (), circumstances), MODEL).ranked)[cause]
    after = dict(weigh(Evidence((), (sign,), circumstances), MODEL).ranked)[cause]
    assert after < before


def test_a_sign_nobody_spoke_of_says_nothing() -> None:
    found = weigh(Evidence(("panting", "of_another_language"), (), DAY_5), MODEL)
    assert found == weigh(Evidence(("panting",), (), DAY_5), MODEL)


def test_an_action_that_made_it_worse_lowers_its_cause() -> None:
    piled = Evidence(("piled_near_heat",), (), DAY_5)
    worse = Evidence(("piled_near_heat",), (), DAY_5, worked=(("cold", "worse"),))
    assert dict(weigh(worse, MODEL).ranked)["cold"] < dict(weigh(piled, MODEL).ranked)["cold"]


def test_a_far_too_high_reading_makes_chicks_along_the_walls_too_hot() -> None:
    found = weigh(Evidence(("at_edges_or_walls",), (), DAY_5, "far_above"), MODEL)
    assert (found.top, found.sure) == ("hot", True)
