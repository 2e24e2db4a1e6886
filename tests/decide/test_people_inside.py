"""People inside, an engine in a room, birds that die of heat, dull birds that look cold, the dead
of the box: texts of three languages through the reader and the whole turn. Rules: practice (Fire
and air, Danger, The first day); exhaust that kills without a smell: CPSC 5012."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

DAWN, EVENING = "2026-07-09T06:20:00+03:00", "2026-07-09T20:10:00+03:00"
GROWN: dict[str, Any] = {"age_days": 31, "house": "open", "heat": "none"}


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "my son will sleep in the brooder to watch them"),
        ("en", "should i sleep inside with the chicks tonight"),
        ("fr", "je pense dormir dedans pour garder les poussins"),
        ("fr", "le gardien dort dans la poussiniere"),
        ("sw", "nitalala humo na vifaranga leo usiku"),
        ("sw", "mlinzi atalala ndani karibu na jiko"),
    ],
)
def test_nobody_sleeps_beside_the_chicks_and_is_told_so_at_once(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    assert keys(rehearsal, text)[0] == "sleep_out"


def test_chicks_that_sleep_inside_are_no_person(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en")
    assert "sleep_out" not in keys(rehearsal, "the chicks sleep inside the ring, all quiet")


def test_a_plan_to_sleep_there_is_answered_beside_other_trouble(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en")
    told = keys(rehearsal, "a rat bit two chicks. i want to sleep inside to guard them")
    assert "sleep_out" in told
    assert told[0] != "sleep_out"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the generator runs in the feed room next to the chicks"),
        ("fr", "le groupe electrogene tourne dans la piece des poussins"),
        ("sw", "jenereta inawaka chumbani ndani"),
    ],
)
def test_an_engine_in_a_room_sends_people_out(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, heat="bulb")
    assert keys(rehearsal, text)[0] == "generator_out"


@pytest.mark.parametrize(
    ("language", "first", "text"),
    [
        ("en", "my boy in the brooder has a headache", "he is still in there. 4 dead"),
        ("en", "my boy in the brooder has a headache", "he does not answer me"),
        ("fr", "mon gardien a des vertiges dans la poussiniere", "il est encore dedans 4 morts"),
        ("sw", "mfanyakazi wangu ana kizunguzungu bandani", "bado yuko ndani, 4 wamekufa"),
    ],
)
def test_somebody_still_inside_is_reached_before_any_bird(
    rehearsal: Rehearsal, language: str, first: str, text: str
) -> None:
    stand(rehearsal, language)
    assert keys(rehearsal, first)[0] == "danger_fumes"
    assert keys(rehearsal, text)[0] in ("fumes_inside", "danger_fumes")
    assert rehearsal.case().question is None


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "when i go in eyes sting and i cough, chicks sneeze, is it flu"),
        ("fr", "mes yeux brulent dedans et je tousse, les poussins eternuent, la grippe?"),
        ("sw", "macho yangu yanawasha na nakohoa nikiingia, vifaranga wanapiga chafya"),
    ],
)
def test_eyes_that_burn_and_a_cough_beside_a_fire_are_smoke_and_no_flu(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, heat="wood")
    assert keys(rehearsal, text)[0] == "danger_fumes"


@pytest.mark.parametrize(
    ("language", "text", "same"),
    [
        ("en", "12 died since noon the others breathe with open beaks", "2"),
        ("fr", "12 morts depuis midi les autres becs ouverts", "3"),
        ("sw", "12 wamekufa tangu mchana wengine wanahema midomo wazi", "2"),
    ],
)
def test_birds_that_die_of_heat_are_never_told_warmth(
    rehearsal: Rehearsal, language: str, text: str, same: str
) -> None:
    stand(rehearsal, language, **GROWN)
    assert rehearsal.say(text)[0].decision.referred
    for _ in range(2):
        rehearsal.wait(timedelta(minutes=31))
        taken, _heard = rehearsal.say(same)
        assert taken.decision.lines[0].key == "hot_vet"
        assert taken.decision.referred
        warm = {"en": "warm", "fr": "chaud,", "sw": "joto, maji"}[language]
        assert all(warm not in one for one in taken.texts)


@pytest.mark.parametrize(
    ("language", "text", "yes"),
    [
        ("en", "many birds have open beaks this cold morning", "yes they rattle"),
        ("fr", "beaucoup ont le bec ouvert ce matin et il fait frais", "1"),
        ("sw", "wengi wanahema midomo wazi asubuhi hii ya baridi", "ndio wanakoroma"),
    ],
)
def test_open_beaks_in_the_cool_of_the_morning_ask_for_a_noise_in_the_breath(
    rehearsal: Rehearsal, language: str, text: str, yes: str
) -> None:
    stand(rehearsal, language, DAWN, **GROWN)
    assert keys(rehearsal, text)[-1] == "sign:sneezing_or_rattle"
    taken, _ = rehearsal.say(yes)
    said = [line.key for line in taken.decision.lines]
    said += [line.key for one in taken.decision.more for line in one]
    assert taken.decision.referred
    assert "cool_now" not in said


def test_open_beaks_at_noon_are_the_heat_at_once(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", **GROWN)
    assert keys(rehearsal, "many birds have open beaks")[0] == "hot_open"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "feathers ruffled on many chicks"),
        ("fr", "plumes herissees chez les poussins"),
        ("sw", "manyoya yamesimama kwa vifaranga"),
    ],
)
def test_ruffled_birds_are_looked_at_for_illness_before_the_heat_is_changed(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    assert keys(rehearsal, text)[-1] == "sign:lethargic"
    assert rehearsal.say("1")[0].decision.referred


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they came now 7 were dead in the boxes, others are tired"),
        ("fr", "arrives a l instant 7 morts dans les cartons, les autres fatigues"),
        ("sw", "wamefika sasa 7 wamekufa ndani ya maboksi wengine wamechoka"),
    ],
)
def test_the_dead_of_the_box_are_a_claim_and_the_living_get_water(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, age_days=0, count=100)
    taken, _ = rehearsal.say(text)
    said = [line.key for line in taken.decision.lines]
    said += [line.key for one in taken.decision.more for line in one]
    assert "claim_hatchery" in said
    assert not taken.decision.referred
    batch = rehearsal.case().batches[-1]
    assert (batch.total("dead_on_arrival"), batch.total("deaths")) == (7, 0)


def test_a_box_of_weak_birds_two_days_later_is_no_box_of_the_road(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", age_days=2, count=100)
    assert rehearsal.say("7 died in the box today")[0].decision.referred
