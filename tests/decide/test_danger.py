"""Danger first, as a farmer meets it: the referral in the same answer, in every state."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.facts.talk import Intent, Line, Meaning, Slots
from bot.facts.writes import AddEvent, ChangeBatch, TellAdviser
from tests.diagnosis.talking import Farm, answers, causes, dead, seen

SIGNS = sorted(causes().signs)
ALWAYS = ("bloody_droppings", "swollen_head", "twisted_neck_or_paralysis", "sudden_many_deaths")


def keys(farm: Farm, meaning: Meaning) -> list[str]:
    return [line.key for line in farm.tell(meaning).lines]


@given(
    sign=st.sampled_from(ALWAYS),
    others=st.lists(st.sampled_from(SIGNS), max_size=4, unique=True),
    age=st.none() | st.integers(-1, 45),
    batch=st.booleans(),
    consent=st.sampled_from(("active", "stopped", "unknown", "invited")),
    hour=st.integers(0, 23),
)
@settings(max_examples=60, deadline=None)
def test_a_danger_sign_is_referred_in_the_same_turn_in_every_state(
    sign: str, others: list[str], age: int | None, batch: bool, consent: str, hour: int
) -> None:
    farm = Farm(age, batch=batch, consent=consent, hour=hour)
    found = farm.tell(seen(sign, *others))
    assert found.referred
    assert found.question is None or found.question.name == "dead_look"
    assert found.why is not None
    assert found.why.cause in causes().causes
    assert found.lines[-1].key.startswith("danger_")
    assert {line.key for line in found.lines[:-1]} <= {"heap_apart"}


def test_fumes_send_people_out_first() -> None:
    found = Farm(2).tell(seen("drowsy_people_or_birds_near_stove", "lethargic"))
    assert [line.key for line in found.lines] == ["danger_fumes"]
    assert found.why is not None
    assert found.why.cause == "fumes"


def test_the_full_text_goes_three_times_a_day_then_one_line_and_a_new_danger_in_full() -> None:
    farm = Farm(22)
    blood = seen("bloody_droppings")
    said = [keys(farm, blood)[0] for _ in range(5)]
    assert said == ["danger_blood"] * 3 + ["still_danger"] * 2
    assert keys(farm, seen("swollen_head")) == ["danger_notifiable"]


def test_a_suspected_notifiable_disease_holds_the_batch_and_tells_the_adviser() -> None:
    farm = Farm(25)
    farm.tell(seen("twisted_neck_or_paralysis"))
    assert farm.batch.held
    assert [one.kind for one in farm.adviser] == ["danger"]


def test_blood_in_droppings_calls_the_vet_and_does_not_hold_the_batch() -> None:
    farm = Farm(25)
    farm.tell(seen("bloody_droppings"))
    assert not farm.batch.held


@pytest.mark.parametrize(("number", "kind"), [(9, "danger_deaths"), (6, "danger_deaths")])
def test_too_many_dead_in_a_day_are_taken_down_and_referred(number: int, kind: str) -> None:
    farm = Farm(20)
    assert keys(farm, dead(number)) == [kind]
    assert farm.batch.total("deaths") == number
    assert str(number) in farm.adviser[0].reason


def test_deaths_of_one_day_add_up_to_a_danger() -> None:
    farm = Farm(20)
    first = farm.tell(dead(4))
    assert first.question is not None
    assert first.question.name == "deaths_look"
    assert not first.referred
    assert keys(farm, dead(2)) == ["danger_deaths"]
    assert farm.batch.total("deaths") == 6


def test_doubtful_deaths_are_taken_down_and_one_question_asked() -> None:
    farm = Farm(20)
    found = farm.tell(dead(3))
    assert [line.key for line in found.lines] == ["danger_noted"]
    assert found.question is not None
    assert found.question.options == ("lively", "heap", "few_dull", "many_dull")
    assert farm.batch.total("deaths") == 3


@pytest.mark.parametrize(
    ("option", "key", "referred"),
    [
        ("heap", "look_heap", False),
        ("few_dull", "sick", False),
        ("many_dull", "danger_ill", True),
    ],
)
def test_the_answer_about_the_others_decides(option: str, key: str, referred: bool) -> None:
    farm = Farm(20)
    farm.tell(dead(3))
    found = farm.tell(answers(option))
    assert [line.key for line in found.lines] == [key]
    assert found.referred is referred


@pytest.mark.parametrize(
    ("look", "key"), [("dead_bitten", "predator"), ("dead_whole", "look_lively")]
)
def test_of_lively_birds_the_dead_are_looked_at(look: str, key: str) -> None:
    farm = Farm(20)
    farm.tell(dead(3))
    asked = farm.tell(answers("lively"))
    assert asked.question is not None
    assert asked.question.name == "dead_look"
    found = farm.tell(answers(look))
    assert key in [line.key for line in found.lines]
    assert not found.referred


def test_few_deaths_are_left_to_the_count() -> None:
    from bot.decide.danger import danger
    from tests.diagnosis.talking import handbook

    assert danger(dead(2), Farm(20).case, handbook()) is None
    assert danger(dead(5), Farm(2, 700).case, handbook()) is None


def test_chicks_dead_in_the_box_are_no_danger() -> None:
    from bot.decide.danger import danger
    from tests.diagnosis.talking import handbook

    assert danger(dead(20), Farm(0).case, handbook()) is None


def test_yes_to_blood_in_the_droppings_is_a_danger() -> None:
    from bot.facts.talk import Line, Question

    farm = Farm(22)
    farm.put(Question("sign:bloody_droppings", "menu", "yes_no", Line("x"), ("yes", "no")))
    assert farm.tell(answers("yes")).referred
    farm.put(Question("sign:bloody_droppings", "menu", "yes_no", Line("x"), ("yes", "no")))
    assert not farm.tell(answers("no")).referred


def test_without_a_batch_a_few_dead_are_asked_about_and_many_are_danger() -> None:
    assert Farm(batch=False).tell(dead(12)).referred
    assert Farm(batch=False).tell(dead(3)).question is not None


def test_several_facts_with_danger_keep_the_deaths() -> None:
    farm = Farm(20)
    parts = (dead(9), Meaning(Intent.FEED, Slots(kg=9)), seen("lethargic"))
    found = farm.tell(Meaning(Intent.MULTI, parts=parts))
    assert found.referred
    assert farm.batch.total("deaths") == 9
    assert [one for one in found.writes if isinstance(one, TellAdviser)]
    assert not [
        one for one in found.writes if isinstance(one, ChangeBatch) and "count" in one.changes
    ]


def test_deaths_of_yesterday_are_written_to_yesterday() -> None:
    farm = Farm(20)
    found = farm.tell(Meaning(Intent.DEATHS, Slots(deaths=9, date_iso_offset=-1)))
    written = {one.kind: one.on_date for one in found.writes if isinstance(one, AddEvent)}
    assert written["deaths"] == date(2026, 3, 3)


def test_after_bad_air_we_ask_again_in_half_an_hour_at_any_hour() -> None:
    farm = Farm(2, hour=23)
    farm.tell(seen("drowsy_people_or_birds_near_stove"))
    assert farm.complaint is not None
    assert farm.complaint.cause == "fumes"
    assert farm.complaint.check_at == farm.now + timedelta(minutes=30)


@pytest.mark.parametrize(
    ("told", "key"),
    [("smoke_or_fumes", "better_air"), ("drowsy_people_or_birds_near_stove", "better_poisoned")],
)
def test_smoke_that_is_gone_brings_no_smoking_stove_back_and_none_where_people_fell_ill(
    told: str, key: str
) -> None:
    farm = Farm(2)
    farm.tell(seen(told))
    farm.checked_back()
    assert [line.key for line in farm.tell(answers("better")).lines][-1] == key
    assert farm.complaint is None


def test_the_office_to_report_to_follows_where_its_number_is_set() -> None:
    office = "+254700000088"
    farm = Farm(22)
    assert farm.tell(seen("swollen_head")).more == ()
    farm = Farm(22)
    coop = replace(farm.case.cooperative, authority_number=office)
    farm.case = replace(farm.case, cooperative=coop)
    [[line]] = farm.tell(seen("swollen_head")).more
    assert (line.key, line.values["phone"]) == ("call_office", office)
    assert farm.tell(seen("bloody_droppings")).more == ()
    told = [farm.tell(seen("swollen_head")) for _ in range(3)]
    assert keys_of(told[-1].lines) == ["still_danger"]
    assert told[-1].more == ()


def keys_of(lines: Sequence[Line]) -> list[str]:
    return [line.key for line in lines]
