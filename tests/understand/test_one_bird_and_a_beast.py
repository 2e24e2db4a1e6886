"""False alarms and false calm: one bird is no flock, blood beside a beast is its work, birds that
sleep in a heap by the stove are cold, and a danger told beside deaths is heard. Worded for this
test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text", "seen"),
    [
        ("en", "one hen cannot get up, the others are fine", "limping_or_down"),
        ("fr", "un seul poussin ne se leve plus, les autres vont bien", "limping_or_down"),
        ("en", "blood and a chick half eaten, one more missing", "rats_or_predator"),
        ("fr", "deux ont disparu, du sang et des poils sur la cloture", "rats_or_predator"),
        ("sw", "leo nimekuta kifaranga ameliwa shingo", "rats_or_predator"),
        ("en", "they sleep beside the jiko, all in a heap", "piled_near_heat"),
        ("en", "i added a lantern yet they still sleep in a pile at night", "piled_near_heat"),
        ("en", "they hardly eat", "not_eating"),
    ],
)
def test_no_alarm_where_none_is_due(thinking: Thinking, lang: str, text: str, seen: str) -> None:
    found = read(thinking, text, lang=lang)
    assert seen in found["signals"]
    assert not found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "wamelala karibu na jiko hawataki kuamka, wawili wamekufa"),
        ("en", "they lie by the stove and do not wake, two died"),
        ("en", "kroo kroo at night from many of them"),
        ("en", "all sleep at the stove in a heap and nobody wakes, my head aches"),
    ],
)
def test_a_danger_is_heard_beside_what_else_is_told(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang=lang)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "they are in the middle and dont want to spread"),
        ("fr", "ils sont au milieu et ne veulent pas s'etaler"),
        ("sw", "wamejikusanya katikati hawataki kutawanyika"),
        ("en", "at dawn they are balled up like one blanket"),
    ],
)
def test_what_does_not_spread_is_not_well(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang)
    assert "spread_evenly" not in found["signals"]
    assert found["cause"] != "comfortable"


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("fr", "9 poulets ecrases dans un coin cette nuit", 9),
        ("fr", "un mort dans un coin", 1),
    ],
)
def test_a_place_counts_no_dead(thinking: Thinking, lang: str, text: str, dead: int) -> None:
    assert read(thinking, text, lang=lang, age_days=15)["slots"]["deaths"] == dead


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "one bulb has burnt and now all squeeze beneath the one that remains"),
        ("fr", "une ampoule est grillee, ils sont tous sous celle qui reste"),
    ],
)
def test_a_bulb_is_nobody_who_died(thinking: Thinking, lang: str, text: str) -> None:
    assert "deaths" not in str(read(thinking, text, lang=lang)["slots"])


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "l'oie de ma tante a le cou tordu"),
        ("en", "my turkey has a swollen head"),
        ("en", "no limping, each bird stands and walks"),
        ("sw", "bei ya kuku imekufa sokoni"),
        ("en", "the price is dead in town"),
        ("fr", "ma brebis a la diarrhee avec du sang"),
        ("en", "blood in what my cow passes"),
    ],
)
def test_what_is_not_of_the_flock_is_no_danger(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang, age_days=30)
    assert not found["red_flag"]
    assert found["intent"] != "deaths"


def test_a_noise_that_is_over_is_denied(thinking: Thinking) -> None:
    found = read(thinking, "makelele yameisha", lang="sw")
    assert "noisy_distress" in found["not_signals"]


def test_a_smell_that_bites_the_eyes_pecks_nothing(thinking: Thinking) -> None:
    found = read(thinking, "wet spots and the smell bites my eyes", lang="en", age_days=25)
    assert found["cause"] in ("ammonia", "damp_litter")
