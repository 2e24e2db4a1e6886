"""The routine text of each day, for several kinds of farms."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.facts.farm import Complaint
from bot.say.segments import measure
from tests.day.farms import PLACED, Play, batch, event, local, play, rows

FARMS = {
    "charcoal": batch(),
    "charcoal, cold nights": batch(nights="cold"),
    "charcoal, warm and feathered": batch(nights="warm", feathered=True),
    "kerosene and bulbs": batch(heat=("kerosene", "bulb"), heat_count=3),
    "gas with a thermometer": batch(heat=("gas",), thermometer=True),
    "bulbs": batch(heat=("bulb",)),
    "no heat": batch(heat=("none",)),
    "heat not said": batch(heat=()),
    "two thousand": batch(count=2000),
    "fifty": batch(count=50),
    "held": batch(held=True),
    "hot": batch(events=(event("temperature", PLACED.replace(month=4, day=25), value_c=34),)),
    "planned": batch(state="planned", arrived_at=None),
}


@pytest.fixture(params=FARMS, scope="module")
def farm(request: pytest.FixtureRequest) -> Play:
    return play(FARMS[request.param])


def test_every_day_has_one_routine_text_from_the_second_day_on(farm: Play) -> None:
    mornings = [one.age for one in farm.of_slot("morning") if one.age >= 1]
    assert mornings == list(range(1, 43))


def test_every_text_is_one_part_with_the_longest_signer(farm: Play) -> None:
    for one in farm.told:
        assert measure(one.text).parts == 1, one.text


def test_a_batch_that_never_answers_costs_at_most_75_parts(farm: Play) -> None:
    assert sum(1 for one in farm.told if one.age >= 0) <= 75


def test_a_fire_clause_and_a_question_never_stand_in_one_text(farm: Play) -> None:
    for one in farm.told:
        fire = any(row in rows() and rows()[row].fire for row in one.rows)
        assert not (fire and one.question), one.text


def test_what_closes_curtains_or_adds_heat_keeps_the_top_open_on_two_sides(farm: Play) -> None:
    for one in farm.told:
        if "curtains closed" in one.text or "lose windward" in one.text or "stoves lit" in one.text:
            assert "top open on two sides" in one.text


def test_the_texts_of_a_day_go_between_six_and_eight_in_the_evening(farm: Play) -> None:
    for one in farm.told:
        assert 6 <= one.local.hour < 20


def test_the_temperature_falls_a_degree_a_day_to_28_5() -> None:
    told = play(batch(thermometer=True))
    for age, shown in ((1, "33 C"), (2, "32 C"), (5, "29 C"), (6, "28.5 C"), (13, "28.5 C")):
        assert f" {shown}" in told.day(age).text


def test_a_farm_with_a_thermometer_is_asked_for_a_reading_and_no_other_farm() -> None:
    with_one = play(FARMS["gas with a thermometer"])
    without = play(batch())
    assert with_one.saying("ask:temperature")
    assert not without.saying("ask:temperature")


def test_the_floor_is_widened_in_steps_counted_for_the_living() -> None:
    told = play(batch(events=(event("deaths", PLACED, n=60),)))
    assert told.saying("widen_7") == [7]
    assert told.saying("widen_21") == [22]
    assert told.saying("widen_28") == [28]
    # 240 alive at 30 a m2 (practice of the trade, ages 7-13) are 8 m2; 4 feeders of 0.11, five
    # drinkers of 0.05 and a stove of 0.3 m2 stand on it as well: 8.99, rounded up.
    assert "Widen to 9 m2" in told.day(7).text


def test_paper_dark_hour_feed_change_and_grower_feed_come_on_their_days() -> None:
    told = play(batch())
    assert told.saying("check_vents") == [1]
    assert told.saying("paper_off") == [3]
    assert told.saying("dark_1") == [4]
    assert [told.saying(f"mix_{step}") for step in (1, 2, 3, "all")] == [[7], [8], [9], [10]]
    assert told.saying("grower_feed")[0] in (11, 12)
    assert told.saying("finisher_feed") == [25]
    assert told.saying("find_buyer") == [25]


def test_litter_on_paper_is_not_turned() -> None:
    told = play(batch())
    assert min(told.saying("turn_litter") + told.saying("wet_out")) > max(told.saying("paper_off"))


def test_trays_give_way_little_by_little_between_ages_5_and_12() -> None:
    told = play(batch())
    steps = [told.saying(f"trays_{step}") for step in (1, 2, 3)]
    assert [len(one) for one in steps] == [1, 1, 1]
    assert 5 <= steps[0][0] < steps[1][0] < steps[2][0] <= 12


def test_hardening_begins_at_ten_and_one_stove_goes_only_where_there_are_several() -> None:
    assert play(batch()).saying("harden") == [10]
    assert play(batch()).saying("stove_out") == [11]
    assert play(batch(count=100)).saying("stove_out") == []
    assert play(batch(count=100, heat_count=2)).saying("stove_out") == [11]


def test_a_stove_taken_out_is_carried_safely() -> None:
    text = play(batch()).day(11).text
    for word in ("handle", "gloves", "not over litter", "not where people sleep"):
        assert word in text


def test_less_heat_waits_while_a_complaint_of_cold_is_open_and_not_for_ever() -> None:
    cold = Complaint(1, 1, "cold", local(PLACED + timedelta(days=10), 5))  # never answered
    told = play(batch(complaint=cold))
    assert told.saying("harden") == [12]
    assert told.saying("heat_end") == [21]


def test_the_ring_is_not_opened_on_a_day_on_which_it_was_to_be_set_tighter() -> None:
    cold = Complaint(1, 1, "cold", local(PLACED + timedelta(days=7), 5))
    assert play(batch(complaint=cold), 10).saying("widen_7") == [9]


def test_hot_days_are_named_more_often_when_heat_was_seen() -> None:
    hot, mild = play(FARMS["hot"]), play(batch())
    assert hot.saying("hot_peace_now")
    assert not mild.saying("hot_peace_now")
    assert mild.saying("hot_peace")


def test_the_dead_never_go_to_dogs_people_or_market_and_it_is_said_early() -> None:
    told = play(batch())
    assert min(told.saying("carcass_first")) <= 4


def test_birds_are_weighed_weekly_and_counted_the_day_after() -> None:
    told = play(batch(nights="warm", feathered=True))
    weighed = told.saying("ask:weight")
    assert [age // 7 for age in weighed] == [1, 2, 3, 4, 5, 6]
    counted = told.saying("count_living")
    assert [age // 7 for age in counted][:5] == [1, 2, 3, 4, 5]


def test_above_500_birds_twenty_are_weighed_together() -> None:
    assert "Weigh 20 birds" in play(batch(count=501)).day(7).text
    assert "Weigh 10 birds" in play(batch(count=500)).day(7).text
