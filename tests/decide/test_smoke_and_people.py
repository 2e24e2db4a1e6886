"""A stove that only smokes, and people who are well: what is done about the stove, and no text of a
calendar in the middle of bad air. Texts of three languages through the whole turn. Carbon monoxide
has no smell: CPSC 5012; a wick that is trimmed and burns clean: common practice, no source."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

DAWN, MORNING = "2026-07-09T05:40:00+03:00", "2026-07-09T08:10:00+03:00"
ILL = {
    "en": "my worker does not wake up well in the brooder, he has a headache and vomits",
    "fr": "mon ouvrier se reveille mal dans la poussiniere, il a mal a la tete et vomit",
    "sw": "kijana haamki vizuri bandani, kichwa kinamuuma na anatapika",
}


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the paraffin stove gives a little smoke and smells, chicks are lively"),
        ("en", "stove smokes a bit, the wall above it turned black. they eat well"),
        ("en", "the kerosene stove smells bad, black soot on the wall, no headache"),
        ("fr", "le rechaud a petrole fume un peu, le mur est noir au dessus, ils sont vifs"),
        ("fr", "le poele a petrole fume legerement, pas de mal de tete, ils mangent bien"),
        ("sw", "jiko la mafuta ya taa linatoa moshi kidogo, ukuta umekuwa mweusi"),
        ("sw", "jiko la mafuta lina moshi kidogo ila vifaranga wamechangamka"),
    ],
)
def test_a_paraffin_stove_that_smokes_a_little_is_aired_and_its_wick_trimmed(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="kerosene", age_days=3)
    taken, _ = rehearsal.say(text)
    said = [line.key for part in (taken.decision.lines, *taken.decision.more) for line in part]
    assert said[0] == "fumes_fire"
    assert "fumes_wick" in said
    assert not taken.decision.referred


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the stove smokes so much that i can not see, no one has a headache"),
        ("en", "a little smoke but my eyes burn and i cough"),
        ("fr", "le rechaud fume beaucoup, le mur est noir, on tousse"),
        ("sw", "jiko linatoa moshi mwingi, ukuta mweusi, tunakohoa"),
    ],
)
def test_thick_smoke_or_a_person_who_feels_it_stays_a_danger(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="kerosene", age_days=3)
    taken, _ = rehearsal.say(text)
    assert taken.decision.lines[0].key == "danger_fumes"
    assert taken.decision.referred


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_where_nobody_fell_ill_of_the_smoke_the_stove_comes_back_once_it_burns_clean(
    rehearsal: Rehearsal, language: str
) -> None:
    thick = {
        "en": "thick smoke in the brooder from the stove",
        "fr": "beaucoup de fumee du rechaud dans la poussiniere",
        "sw": "moshi mwingi wa jiko bandani",
    }[language]
    stand(rehearsal, language, MORNING, heat="kerosene", age_days=3)
    assert keys(rehearsal, thick)[0] == "danger_fumes"
    rehearsal.wait(timedelta(minutes=31))
    assert "better_air" in keys(rehearsal, "1")


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_while_a_person_is_ill_of_the_air_no_text_of_the_day_comes_and_no_fire_at_night(
    rehearsal: Rehearsal, language: str
) -> None:
    stand(rehearsal, language, DAWN, heat="charcoal", age_days=4)
    assert keys(rehearsal, ILL[language])[0] == "danger_fumes"
    rehearsal.heard()
    rehearsal.wait(timedelta(hours=1))
    said = [one.text for one in rehearsal.heard()]
    assert len(said) == 1  # how the people are, and not what day it is
    assert "better_poisoned" in keys(rehearsal, "1")
    rehearsal.heard()
    rehearsal.wait(timedelta(hours=12))  # past the hour of the night text
    assert not [one for one in rehearsal.heard() if one.at.hour == 14]


def test_the_night_after_smoke_that_harmed_nobody_has_its_text(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", DAWN, heat="charcoal", age_days=4)
    assert keys(rehearsal, "thick smoke in the brooder from the stove")[0] == "danger_fumes"
    rehearsal.wait(timedelta(minutes=31))
    rehearsal.say("1")
    rehearsal.heard()
    rehearsal.wait(timedelta(hours=12))
    assert any("Night" in one.text for one in rehearsal.heard())


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "tous serres dans un bout, la tete va bien, personne ne dort dedans"),
        ("fr", "ils sont tous dans le bout, la tete va bien, il n'y a personne dedans"),
        ("fr", "serres pres de la porte, ceux devant ont chaud. tete claire"),
        ("en", "all pressed at one end, our heads are fine, nobody sleeps inside"),
        ("sw", "wote wako upande mmoja, kichwa sawa, hakuna anayelala ndani"),
    ],
)
def test_told_that_people_are_well_or_not_in_there_is_no_bad_air(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="charcoal", age_days=6)
    taken, _ = rehearsal.say(text)
    told = {*taken.meaning.signals, *(one for part in taken.meaning.parts for one in part.signals)}
    assert not told & {"person_inside", "drowsy_people_or_birds_near_stove", "sleepy_all_birds"}
    assert not taken.decision.referred


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "une personne est encore dedans"),
        ("fr", "quelqu'un est encore dedans"),
        ("fr", "mon fils est dedans"),
    ],
)
def test_somebody_in_there_is_still_heard(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, heat="charcoal", age_days=6)
    assert keys(rehearsal, ILL[language])[0] == "danger_fumes"
    assert "fumes_inside" in keys(rehearsal, text)
