"""Beside a fire the air and the people are asked for before birds; what looks like cold, death or a
grave disease and is none is met as what it is. In words, in three languages."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bot.facts.talk import Decision, Meaning
from bot.turn.take import hearing
from bot.wiring import Thinking
from tests.diagnosis.talking import Farm, answers, seen


def read(thinking: Thinking, farm: Farm, text: str, language: str) -> Meaning:
    heard = replace(hearing(farm.case, farm.case.today), language=language)
    return thinking.reader.read(text, heard)


def asked(found: Decision) -> str | None:
    return found.question.name if found.question else None


def keys(found: Decision) -> list[str]:
    return [
        *(line.key for line in found.lines),
        *(line.key for text in found.more for line in text),
    ]


@pytest.mark.parametrize("fire", ["kerosene", "charcoal", "wood", "gas"])
@pytest.mark.parametrize("sign", ["sneezing_or_rattle", "eyes_swollen_or_closed"])
def test_sneezing_or_wet_eyes_beside_a_fire_ask_first_for_smoke_and_people(
    fire: str, sign: str
) -> None:
    found = Farm(11, heat=(fire,)).tell(seen(sign, "piled_near_heat"))
    assert found.question is not None
    assert (asked(found), found.question.line.key) == ("sign:smoke_or_fumes", "ask_air_people")


def test_smoke_or_a_headache_beside_sneezing_birds_sends_the_people_out() -> None:
    farm = Farm(11, heat=("kerosene",))
    farm.tell(seen("sneezing_or_rattle"))
    found = farm.tell(answers("yes"))
    assert (keys(found)[0], found.referred) == ("danger_fumes", True)


def test_clean_air_and_well_people_ask_on_and_call_nothing_comfortable() -> None:
    farm = Farm(11, heat=("kerosene",))
    farm.tell(seen("sneezing_or_rattle"))
    assert asked(farm.tell(answers("no"))) == "sign:ammonia_smell"
    assert "comfortable" not in keys(farm.tell(seen("spread_evenly")))


def test_many_that_sneeze_beside_a_fire_alarm_for_the_people_first() -> None:
    found = Farm(11, heat=("charcoal",)).tell(seen("sneezing_or_rattle", many=True))
    assert (keys(found), asked(found)) == (["danger_ill_look"], "sign:smoke_or_fumes")


def test_without_a_fire_sneezing_asks_for_sharp_air_as_before() -> None:
    assert asked(Farm(18, heat=("none",)).tell(seen("sneezing_or_rattle"))) == "sign:ammonia_smell"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "chicks sneezing tonight eyes wet not before"),
        ("fr", "ils eternuent ce soir les yeux mouilles pas avant"),
        ("sw", "vifaranga wanapiga chafya usiku huu macho yana machozi sio jana"),
    ],
)
def test_what_was_not_there_before_is_there_now(
    language: str, text: str, thinking: Thinking
) -> None:
    told = read(thinking, Farm(11, heat=("none",)), text, language)
    assert {"sneezing_or_rattle", "eyes_swollen_or_closed"} <= set(told.signals)
    assert not told.not_signals


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "chicks cry since morning and crowd round the drinker"),
        ("en", "they are fighting for water"),
        ("fr", "ils crient fort depuis ce matin et se bousculent autour de labreuvoir"),
        ("fr", "ils se battent pour l eau"),
        ("sw", "wamejazana kwenye kinywesheo wanalia"),
        ("sw", "vifaranga wanagombania maji"),
    ],
)
def test_crowding_at_the_drinker_is_thirst_and_lights_no_fire(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(2)
    found = farm.tell(read(thinking, farm, text, language))
    assert keys(found)[0] == "thirst_spread"
    assert "heap_apart" not in keys(found)


def test_a_heap_under_the_stove_stays_cold_though_water_is_named(thinking: Thinking) -> None:
    farm = Farm(2)
    found = farm.tell(
        read(thinking, farm, "chicks piled under the stove and the water is cold", "en")
    )
    assert found.why is not None
    assert found.why.cause == "cold"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "chicks lying flat legs stretched like dead many of them please help"),
        ("fr", "beaucoup sont couches comme des morts"),
        ("sw", "vifaranga wengi wamelala chini miguu imenyooka kama wamekufa"),
    ],
)
def test_lying_like_dead_asks_whether_they_get_up_and_counts_no_death(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(4, heat=("gas",))
    found = farm.tell(read(thinking, farm, text, language))
    assert asked(found) == "wake"
    assert "danger_deaths" not in keys(found)
    assert keys(farm.tell(answers("up"))) == ["wake_ok"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "chicks noisy all night and small ones look weak"),
        ("fr", "ils crient toute la nuit et les plus petits sont faibles"),
        ("sw", "wanalia usiku kucha na wale wadogo wamelegea"),
    ],
)
def test_small_ones_that_look_weak_are_not_the_whole_flock(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(1, heat=("bulb",))
    assert not farm.tell(read(thinking, farm, text, language)).referred


@pytest.mark.parametrize("litter", ["litter_caked", "litter_wet"])
def test_dirty_feet_and_loose_droppings_ask_for_blood_before_an_alarm(litter: str) -> None:
    found = Farm(13).tell(seen("white_or_green_diarrhoea", litter, many=True))
    assert (asked(found), found.referred) == ("sign:bloody_droppings", False)


def test_hanging_wings_beside_blood_and_deaths_are_no_heat_stroke(thinking: Thinking) -> None:
    farm = Farm(23, 300, house="open", heat=("none",))
    told = read(
        thinking,
        farm,
        "kuku wengi wamejikunja mabawa chini na kinyesi kina damu leo wamekufa 7",
        "sw",
    )
    found = farm.tell(told)
    assert found.referred
    assert not {"cool_now", "cool_now_chicks"}.intersection(keys(found))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "crying stopped, they lie in a ring round the stove"),
        ("fr", "ils ne crient plus ils sont couches en rond autour du foyer"),
        ("sw", "wameacha kulia wamelala duara kuzunguka jiko"),
    ],
)
def test_the_crying_that_stopped_after_more_heat_is_better(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(3)
    farm.tell(seen("piled_near_heat", "noisy_distress"))
    farm.checked_back()
    found = farm.tell(read(thinking, farm, text, language))
    assert found.why is not None
    assert found.why.cause == "comfortable"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one died no other sickness"),
        ("fr", "un est mort aucune autre maladie"),
        ("sw", "mmoja amekufa hakuna ugonjwa mwingine"),
        ("sw", "jana usiku walikuwa 60 leo 5 hawapo mmoja amekufa hakuna ugonjwa mwingine"),
    ],
)
def test_one_that_died_is_one_whatever_is_denied_beside_it(
    language: str, text: str, thinking: Thinking
) -> None:
    told = read(thinking, Farm(4, 60), text, language)
    assert [one.slots.deaths for one in told.facts() if one.slots.deaths is not None] == [1]


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "my kid is in there"), ("fr", "mon fils est dedans"), ("sw", "mtoto yuko ndani")],
)
def test_a_person_who_may_still_be_in_bad_air_is_fetched_by_two_from_outside(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(4)
    farm.tell(seen("drowsy_people_or_birds_near_stove"))
    assert keys(farm.tell(read(thinking, farm, text, language)))[0] in (
        "fumes_inside",
        "danger_fumes",
    )
