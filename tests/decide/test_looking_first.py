"""What a look settles is asked before illness is named or heat is added; behind an alarm on deaths
stands what may go on killing."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.decide.ask.answer import ask
from bot.facts.talk import Decision, Intent, Meaning, Slots
from bot.facts.writes import AddEvent
from bot.wiring import Thinking
from tests.diagnosis.talking import Farm, answers, dead, denied, seen


def keys(found: Decision) -> list[str]:
    return [line.key for line in found.lines]


def behind(found: Decision) -> list[list[str]]:
    return [[line.key for line in one] for one in found.more]


def asked(found: Decision) -> str | None:
    return found.question.name if found.question else None


def test_beside_a_fire_the_look_at_a_still_bird_says_first_who_must_go_out() -> None:
    found = Farm(5).tell(seen("lethargic"))
    assert found.question is not None
    assert (found.question.name, found.question.line.key) == ("wake", "ask_wake_fire")


@pytest.mark.parametrize("sign", ["eyes_swollen_or_closed", "sneezing_or_rattle"])
def test_sore_eyes_and_sneezing_ask_for_the_air_before_disease(sign: str) -> None:
    farm = Farm(18, house="open", heat=("none",))
    first = farm.tell(seen(sign))
    assert (asked(first), first.referred) == ("sign:ammonia_smell", False)
    found = farm.tell(answers("yes"))
    assert "ammonia_open" in (*keys(found), *(key for one in behind(found) for key in one))


@pytest.mark.parametrize("sign", ["lethargic", "white_or_green_diarrhoea", "smoke_or_fumes"])
def test_beside_a_graver_sign_the_air_is_not_asked_about_first(sign: str) -> None:
    found = Farm(18, house="open", heat=("none",)).tell(seen("sneezing_or_rattle", sign))
    assert asked(found) != "sign:ammonia_smell"


def test_off_their_feed_on_a_day_with_deaths_the_feed_is_smelt_first() -> None:
    farm = Farm(15)
    farm._apply(AddEvent(1, "deaths", farm.case.today, {"n": 1}))
    assert asked(farm.tell(seen("not_eating", "lethargic"))) == "feed_look"


@pytest.mark.parametrize(
    ("sign", "key"),
    [
        ("not_eating", "feed_away"),
        ("feed_mouldy", "feed_away"),
        ("rats_or_predator", "predator"),
    ],
)
def test_behind_an_alarm_on_deaths_stands_what_may_go_on_killing(sign: str, key: str) -> None:
    told = Meaning(
        Intent.MULTI,
        signals=("sudden_many_deaths", sign),
        parts=(Meaning(Intent.DEATHS, Slots(deaths=14)), seen(sign)),
    )
    assert behind(Farm(15, 450).tell(told)) == [[key]]


@pytest.mark.parametrize("sign", ["panting", "gasping", "bloody_droppings", "piled_near_heat"])
def test_deaths_told_with_what_explains_them_ask_nothing_of_bites(sign: str) -> None:
    told = Meaning(Intent.MULTI, parts=(Meaning(Intent.DEATHS, Slots(deaths=14)), seen(sign)))
    found = Farm(15, 450).tell(told)
    assert (found.referred, found.question) == (True, None)


@pytest.mark.parametrize(
    ("look", "key"),
    [("dead_bitten", "predator"), ("dead_feed", "feed_problem"), ("dead_whole", "sick_vet")],
)
def test_bites_lead_to_rats_bad_feed_to_the_feed_and_neither_to_the_vet(
    look: str, key: str
) -> None:
    farm = Farm(10, 150)
    farm.tell(dead(4))
    assert key in keys(farm.tell(answers(look)))


def test_wounds_told_of_the_dead_are_bites_and_no_want_of_room() -> None:
    farm = Farm(10, 150)
    farm.tell(dead(4))
    assert "predator" in keys(farm.tell(seen("cannibalism_or_pecking")))


def test_while_a_danger_is_open_ill_birds_are_first_of_all_for_the_vet() -> None:
    farm = Farm(15, 450)
    farm.tell(seen("bloody_droppings"))
    found = farm.tell(seen("lethargic", "feathers_ruffled", "white_or_green_diarrhoea"))
    assert found.referred
    assert "sick_vet" in keys(found)
    assert "sick" not in keys(found)


def test_worse_while_a_danger_is_open_has_the_vet_again() -> None:
    farm = Farm(10, 150)
    farm.tell(dead(4))
    farm.tell(answers("dead_bitten"))
    farm.checked_back()
    found = farm.tell(answers("worse"))
    assert (found.referred, behind(found)) == (True, [["still_danger"]])


@pytest.mark.parametrize(
    "look", [("eyes_swollen_or_closed",), ("eyes_swollen_or_closed", "wings_spread")]
)
def test_ill_birds_no_better_after_all_that_is_known_are_for_the_vet(look: tuple[str, ...]) -> None:
    farm = Farm(11)
    farm.tell(seen("lethargic", *look))
    farm.tell(answers("no"))  # no smoke, nobody's head aches
    farm.tell(answers("look_none"))
    told = []
    for _ in range(3):
        farm.checked_back()
        told.append(keys(farm.tell(answers("same"))))
    assert ["one_day" in told[0], "sick_more" in told[1]] == [True, True]
    assert told[2] != told[1]


def test_hunger_that_stays_is_answered_with_feeders_and_refused_feed_with_water() -> None:
    told = []
    for sign in ("feed_out_of_reach", "not_eating"):
        farm = Farm(12)
        farm.tell(seen("crop_empty", sign, "noisy_distress"))
        farm.checked_back()
        told.append(keys(farm.tell(answers("same"))))
    assert ["hunger_more" in told[0], "hunger_refuse" in told[1]] == [True, True]


def test_a_heap_at_night_is_parted_before_anybody_looks_for_why() -> None:
    farm = Farm(7, hour=2)
    first = farm.tell(seen("crowded_one_side"))
    assert (keys(first), first.question is not None) == (["heap_apart"], True)
    assert "heap_apart" not in keys(farm.tell(answers("no")))


def test_where_nobody_smells_smoke_the_look_at_a_still_bird_speaks_of_the_bird_alone() -> None:
    farm = Farm(5)
    farm.tell(denied("smoke_or_fumes"))
    found = farm.tell(seen("lethargic"))
    assert found.question is not None
    assert found.question.line.key == "ask_wake"


def test_a_heap_in_the_new_house_that_stays_is_felt_where_it_lies_once() -> None:
    farm = Farm(18, house="open", heat=("none",), hour=21)
    assert "smother" in keys(farm.tell(seen("piled_near_heat")))
    farm.checked_back()
    second = farm.tell(answers("same"))
    assert (asked(second), "heap_apart" in keys(second)) == ("cold_spot", True)
    assert "damp_draught" in keys(farm.tell(seen("rain_or_wind_in", "litter_wet")))
    farm.checked_back()
    assert "smother" in keys(farm.tell(answers("worse")))


@pytest.mark.parametrize(
    ("first", "then", "cause"),
    [
        (("panting", "at_edges_or_walls"), ("piled_near_heat", "noisy_distress"), "cold"),
        (("piled_near_heat", "noisy_distress"), ("panting",), "hot"),
    ],
)
def test_what_was_done_too_much_of_is_turned_back(
    first: tuple[str, ...], then: tuple[str, ...], cause: str
) -> None:
    farm = Farm(5)
    farm.tell(seen(*first))
    farm.wait(hours=4)
    found = farm.tell(seen(*then))
    assert found.why is not None
    assert (found.why.cause, found.question) == (cause, None)


def test_crying_after_the_heat_was_taken_down_is_looked_at_before_more_is_taken() -> None:
    farm = Farm(5)
    farm.tell(seen("panting", "at_edges_or_walls"))
    farm.wait(hours=4)
    assert asked(farm.tell(seen("noisy_distress"))) == "behaviour"
    found = farm.tell(seen("piled_near_heat"))
    assert found.why is not None
    assert found.why.cause == "cold"


def test_all_on_one_side_after_the_curtains_were_opened_is_no_word_of_more_heat() -> None:
    farm = Farm(5)
    farm.tell(seen("panting", "at_edges_or_walls"))
    farm.wait(hours=4)
    assert asked(farm.tell(seen("crowded_one_side", "noisy_distress"))) == "sign:rain_or_wind_in"


def test_nobody_is_sent_to_the_feeders_while_they_lie_in_a_heap_at_night() -> None:
    farm = Farm(7, hour=22, heat=("gas",))
    found = farm.tell(seen("crowded_one_side", "noisy_distress"))
    for _ in range(2):
        found = farm.tell(answers("no"))
        assert asked(found) not in ("sign:feed_out_of_reach", "sign:not_drinking")


@pytest.mark.parametrize("sign", ["lethargic", "eyes_swollen_or_closed", "limping_or_down"])
def test_ill_birds_told_of_while_an_alarm_is_open_are_for_the_vet_without_a_question(
    sign: str,
) -> None:
    farm = Farm(22)
    farm.tell(seen("twisted_neck_or_paralysis"))
    found = farm.tell(seen(sign))
    assert (found.referred, found.question, "sick_vet" in keys(found)) == (True, None, True)


@pytest.mark.parametrize("topic", ["sale_age", "price"])
def test_while_a_danger_is_open_nobody_is_told_when_to_sell(topic: str) -> None:
    farm = Farm(30, house="open", heat=("none",))
    farm.tell(seen("bloody_droppings"))
    asks = Meaning(Intent.ASK, Slots(topic=topic))
    assert keys(ask(asks, farm.case, farm.book)) == ["ill_no_sale"]


@pytest.mark.parametrize("place", ["piled_near_heat", "crowded_one_side"])
def test_a_heap_told_with_a_danger_is_parted_as_well(place: str) -> None:
    """ "A big heap in the corner, those below don't move any more"."""
    farm = Farm(16, house="open", heat=("none",), hour=2)
    found = farm.tell(seen(place, "sleepy_all_birds", many=True))
    assert found.referred
    assert found.lines[0].key == "heap_apart"


@pytest.mark.parametrize("topic", ["biosecurity", "behaviour", "heating", "other"])
def test_after_bad_air_no_answer_lets_anybody_go_in(topic: str) -> None:
    """ "The boy woke, shall I go in and fetch the chicks?" """
    farm = Farm(5)
    farm.tell(seen("drowsy_people_or_birds_near_stove"))
    asks = Meaning(Intent.ASK, Slots(topic=topic))
    assert keys(ask(asks, farm.case, farm.book)) == ["air_first"]


def test_a_second_alarm_on_deaths_of_the_day_is_not_followed_by_the_same_advice() -> None:
    farm = Farm(10, 150)
    assert asked(farm.tell(dead(4))) == "dead_look"
    assert asked(farm.tell(dead(5))) is None


@pytest.mark.parametrize("sign", ["sleepy_all_birds", "lethargic"])
def test_behind_the_alarm_on_still_birds_one_digit_takes_it_back(sign: str) -> None:
    farm = Farm(5, heat=("bulb",))
    first = farm.tell(seen(sign, many=True))
    assert (first.referred, asked(first)) == (True, "wake")
    assert "danger_over" in keys(farm.tell(answers("up")))


def test_still_birds_that_stay_down_are_danger_again() -> None:
    farm = Farm(5, heat=("bulb",))
    farm.tell(seen("sleepy_all_birds"))
    found = farm.tell(answers("down"))
    assert (found.referred, found.question) == (True, None)


def test_few_still_birds_of_which_most_stay_down_are_not_asked_about_twice() -> None:
    farm = Farm(5, heat=("bulb",))
    assert asked(farm.tell(seen("lethargic"))) == "wake"
    found = farm.tell(answers("down"))
    assert (found.referred, found.question) == (True, None)


def test_a_few_that_stay_down_behind_an_alarm_are_for_the_vet_and_not_woken_again() -> None:
    farm = Farm(5, hour=14)
    farm.tell(seen("sleepy_all_birds"))
    found = farm.tell(answers("few"))
    assert (found.question, "sick_vet" in keys(found)) == (None, True)


def test_nobody_is_sent_back_to_the_door_where_the_air_may_be_bad() -> None:
    found = Farm(5, hour=20).tell(seen("sleepy_all_birds"))
    assert (keys(found), found.question) == (["danger_fumes"], None)


def test_still_birds_on_a_day_with_deaths_are_not_asked_to_be_woken() -> None:
    farm = Farm(9, heat=("bulb",))
    farm._apply(AddEvent(1, "deaths", farm.case.today, {"n": 1}))
    found = farm.tell(seen("sleepy_all_birds"))
    assert (found.referred, found.question) == (True, None)


@pytest.mark.parametrize("sign", ["gasping", "not_eating", "piled_near_heat"])
def test_still_birds_with_a_sign_of_trouble_are_not_asked_to_be_woken(sign: str) -> None:
    found = Farm(9, heat=("bulb",)).tell(seen("lethargic", sign, many=True))
    assert (found.referred, found.question) == (True, None)


def test_a_phone_that_stopped_is_muted_or_has_spent_its_answers_gets_the_alarm_alone() -> None:
    stopped, muted, spent = Farm(10, 150, consent="stopped"), Farm(10, 150), Farm(10, 150)
    until = muted.now + timedelta(hours=1)
    muted.case = replace(muted.case, phone=replace(muted.case.phone, muted_until=until))
    spent.case = replace(spent.case, answered=False)
    found = [one.tell(dead(4)) for one in (stopped, muted, spent)]
    assert all(one.referred and one.question is None for one in found)


def test_hungry_and_uneven_is_answered_with_room_too() -> None:
    farm = Farm(12)
    found = farm.tell(seen("noisy_distress", "uneven_size", "spread_evenly", "feed_out_of_reach"))
    assert "hunger_room" in keys(found)


@pytest.mark.parametrize(
    "text", ["thermometer say 25 should i put more fire", "it is 25 should i put more charcoal"]
)
def test_a_reading_asked_about_is_no_new_batch(text: str, thinking: Thinking) -> None:
    found = Farm(5, 220, book=thinking.handbook).text(text, thinking.reader)
    assert asked(found) == "hang"
