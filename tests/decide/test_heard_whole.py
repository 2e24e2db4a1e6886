"""Stories whose worry stands beside other matter: bags of sawdust, a night at an uncle's, feed that
smells of a cellar, chicks that sleep stretched out. Texts of three languages through the whole
turn."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "en",
            "the floor near the bells is like chapati, yesterday i added 3 bags of sawdust on top",
        ),
        (
            "sw",
            "maranda chini ya kinywesheo yamekuwa kama chapati, jana niliongeza mifuko 3 ya pumba",
        ),
        (
            "fr",
            "la litiere sous l'abreuvoir est comme une galette, hier j'ai mis 3 sacs de copeaux",
        ),
    ],
)
def test_bags_of_litter_are_no_feed_and_the_cake_is_heard(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=26, house="open", heat="none")
    said = keys(rehearsal, text)
    assert "damp" in said
    assert not {"feed", "ask_feed"}.intersection(said)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("sw", "nilikuwa kwa mjomba siku mbili, leo nimerudi naona kinyesi chekundu cha damu"),
        ("en", "i was two days at my uncles place, came home and their droppings are red with "
         "blood"),
        ("fr", "j'etais chez mon oncle deux jours, je rentre et je vois du sang dans les fientes"),
    ],
)  # fmt: skip
def test_blood_found_on_coming_home_is_of_the_own_birds(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=24, house="open", heat="none")
    assert keys(rehearsal, text)[0] == "danger_blood"


def test_after_blood_was_told_dull_birds_that_get_up_do_not_end_the_alarm(
    rehearsal: Rehearsal,
) -> None:
    stand(rehearsal, "en", age_days=24, house="open", heat="none")
    assert keys(rehearsal, "blood in the droppings")[0] == "danger_blood"
    assert keys(rehearsal, "all of them are dull and do not move")[-1] == "wake"
    said = keys(rehearsal, "3")
    assert "danger_over" not in said
    assert {"danger_stays", "tell_vet"}.intersection(said)


@pytest.mark.parametrize(
    ("language", "text", "up"),
    [
        ("sw", "vifaranga wote wamelala kama wamekufa, shingo wameilaza na miguu nyuma, naogopa",
         "nimepiga ukuta wote wameruka wakakimbia, sasa wanakunywa"),
        ("en", "they all lie like dead, necks stretched out and legs behind, i am new to this",
         "i knocked on the wall and all jumped up and ran, now they drink"),
        ("fr", "ils sont tous couches comme morts, cou allonge et pattes etendues, j'ai peur",
         "j'ai tape au mur et tous ont saute et courent, ils boivent"),
    ],
)  # fmt: skip
def test_chicks_that_sleep_stretched_out_are_clapped_at_before_any_alarm_stands(
    rehearsal: Rehearsal, language: str, text: str, up: str
) -> None:
    stand(rehearsal, language, age_days=7, heat="bulb")
    said = keys(rehearsal, text)
    assert said[-1] == "wake"
    assert "danger_notifiable" not in said
    assert {"danger_over", "wake_ok"}.intersection(keys(rehearsal, up))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("sw", "wamelala chini shingo imepinda nyuma na miguu wameinyoosha"),
        ("en", "they lie down with necks twisted back and legs stretched"),
        ("fr", "ils sont couches, le cou tordu, les pattes etendues"),
    ],
)
def test_a_twisted_neck_is_a_danger_however_the_legs_lie(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=7, heat="bulb")
    assert keys(rehearsal, text)[0] == "danger_notifiable"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "ils trient dans la mangeoire et jettent, ca sent la cave et il y a des boules"),
        ("en", "they sort the feed and throw half of it out, the bag smells like a cellar"),
        ("sw", "wanachambua chakula na kumwaga, kinanuka kizamani"),
    ],
)
def test_feed_that_smells_of_a_cellar_and_is_sorted_is_bad_feed(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=22, house="open", heat="none")
    assert "feed_problem" in keys(rehearsal, text)


def test_spreading_feed_in_the_sun_is_no_spread_of_birds(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "fr", age_days=22, house="open", heat="none")
    assert "comfortable" not in keys(rehearsal, "j'etale les sacs au soleil sur la bache")
