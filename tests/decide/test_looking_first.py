"""What a look settles is asked before illness is named or heat is added; behind an alarm on deaths
stands what may go on killing."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.facts.talk import Decision, Intent, Meaning, Slots
from bot.facts.writes import AddEvent
from bot.wiring import Thinking
from tests.diagnosis.talking import Farm, answers, dead, seen


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
    assert asked(farm.tell(seen("not_eating", "lethargic"))) == "sign:feed_mouldy"


@pytest.mark.parametrize(
    ("sign", "key"),
    [
        ("not_eating", "feed_away"),
        ("feed_mouldy", "feed_away"),
        ("rats_or_predator", "predator"),
        ("panting", "look_at_dead"),
    ],
)
def test_behind_an_alarm_on_deaths_stands_what_may_go_on_killing(sign: str, key: str) -> None:
    told = Meaning(
        Intent.MULTI,
        signals=("sudden_many_deaths", sign),
        parts=(Meaning(Intent.DEATHS, Slots(deaths=14)), seen(sign)),
    )
    assert behind(Farm(15, 450).tell(told)) == [[key]]


def test_a_second_alarm_on_deaths_of_the_day_is_not_followed_by_the_same_advice() -> None:
    farm = Farm(10, 150)
    assert behind(farm.tell(dead(4))) == [["look_at_dead"]]
    assert behind(farm.tell(dead(5))) == []


def test_a_phone_that_stopped_is_muted_or_has_spent_its_answers_gets_the_alarm_alone() -> None:
    stopped, muted, spent = Farm(10, 150, consent="stopped"), Farm(10, 150), Farm(10, 150)
    until = muted.now + timedelta(hours=1)
    muted.case = replace(muted.case, phone=replace(muted.case.phone, muted_until=until))
    spent.case = replace(spent.case, answered=False)
    assert [behind(one.tell(dead(4))) for one in (stopped, muted, spent)] == [[], [], []]


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
