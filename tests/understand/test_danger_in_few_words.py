"""Smoke in which nobody sees, a person who does not answer, an illness that has seized them, and a
share of the flock gone in a night are dangers in whatever words; and what uses the same words of
something else is none. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "avec cette fumee je n'y vois rien"),
        ("fr", "dans la fumee on ne voit plus rien"),
        ("fr", "la fumee, on n'y voit plus rien dedans"),
        ("sw", "hatuoni kitu kwa moshi"),
        ("en", "we cannot see anything for smoke"),
    ],
)
def test_who_sees_nothing_for_smoke_is_in_thick_smoke(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "my wife sleeps and does not answer me"),
        ("en", "my son is asleep and wont wake"),
        ("fr", "ma femme dort et elle ne me repond plus"),
        ("fr", "mon mari est couche il ne reagit plus"),
        ("sw", "mke wangu amelala hanijibu"),
    ],
)
def test_a_person_who_does_not_answer_is_a_danger(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "my wife sleeps and does not answer my call"),
        ("fr", "ma femme dort et ne repond pas au telephone"),
        ("sw", "mke wangu amelala hajibu simu"),
    ],
)
def test_a_phone_that_nobody_answers_is_none(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "kuhara kumewakumba nifanye nini",
        "kuharisha kumewapata wote nifanyeje",
        "wameshikwa na kuhara, nifanyeje",
        "wamekumbwa na kuhara wengi tufanye nini",
        "kuhara kumeanza kwa wengi, nisaidieni nifanyaje",
    ],
)
def test_what_has_befallen_them_is_there_though_help_is_asked(
    thinking: Thinking, text: str
) -> None:
    assert read(thinking, text, "sw", age_days=20)["red_flag"]


@pytest.mark.parametrize(
    "text", ["kuhara ni hatari?", "wakihara nifanyeje", "kuhara husababishwa na nini"]
)
def test_what_is_only_asked_about_has_not_befallen_them(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "sw", age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("sw", "9 kati ya 200 usiku mmoja", 9),
        ("sw", "14 kati ya 300 usiku huu", 14),
        ("fr", "11 sur 300 en une nuit", 11),
        ("fr", "8 sur 250 dans une nuit", 8),
        ("en", "9 out of 200 in one night", 9),
    ],
)
def test_some_of_the_flock_in_one_night_are_dead(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    assert read(thinking, text, lang, age_days=20)["slots"]["deaths"] == dead


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "9 kati ya 10"),
        ("sw", "9 kati ya 200 wanakula usiku"),
        ("fr", "200 sur 300 en une nuit"),
        ("fr", "11 sur 300 en une nuit?"),
    ],
)
def test_other_shares_are_no_deaths(thinking: Thinking, lang: str, text: str) -> None:
    assert "deaths" not in read(thinking, text, lang, age_days=20).get("slots", {})


@pytest.mark.parametrize(
    "text",
    [
        "la moitie est encore dans les boites",
        "beaucoup sont encore dans leurs boites",
        "les poussins restent dans la boite",
    ],
)
def test_chicks_in_their_boxes_do_not_limp(thinking: Thinking, text: str) -> None:
    assert "limping_or_down" not in read(thinking, text, "fr", age_days=0).get("signals", ())


def test_birds_that_limp_still_limp(thinking: Thinking) -> None:
    assert "limping_or_down" in read(thinking, "la moitie boite", "fr", age_days=20)["signals"]
