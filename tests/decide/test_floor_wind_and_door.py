"""A thin floor under chicks that crowd is made thick; who sits away from the wind gets it stopped,
however many fires were lit; young chicks that pant at noon lose a stove at once; a sack on a door
is no blanket. Worded for this test; common practice, no source."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import NOON, keys, stand

EVENING = "2026-07-09T18:10:00+03:00"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the litter is a finger thin on the cement, they pile up and cry"),
        ("en", "they heap at the stove, there is little litter on the concrete"),
        ("fr", "litiere trop mince sur le ciment, ils sont en tas et crient"),
        ("fr", "peu de litiere, ils s'entassent pres du feu"),
        ("sw", "maranda ni kidole tu juu ya saruji, wamerundikana wanalia"),
    ],
)
def test_a_thin_floor_is_made_thick_beside_the_heat(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, age_days=2, heat="charcoal")
    assert "cold_floor" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "all on the left side, i lit one more jiko and they stay. wind since the evening"),
        ("en", "cold wind enters since morning, they crowd on one side"),
        ("fr", "tous a gauche, j'ai ajoute un feu pour rien. du vent depuis hier soir"),
        ("fr", "ils se serrent d'un cote, le vent entre"),
        ("sw", "wamejazana upande mmoja, upepo unaingia tangu jana"),
    ],
)
def test_who_sits_away_from_the_wind_gets_it_stopped(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, age_days=4, heat="charcoal")
    assert "draught" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they pant and are far from the jiko"),
        ("fr", "bec ouvert, loin du fourneau"),
        ("sw", "wanahema, wako mbali na jiko"),
    ],
)
def test_young_chicks_that_pant_at_noon_lose_a_stove_at_once(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, age_days=4, heat="charcoal")
    assert "hot_stove_first" in keys(rehearsal, text)


def test_by_night_the_fire_is_only_not_fed(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", EVENING, age_days=4, heat="charcoal")
    assert "hot_one" in keys(rehearsal, "they pant and are far from the jiko")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("sw", "mnyama anakula kuku usiku, nimefunika mlango kwa gunia"),
        ("en", "something eats birds at night, i covered the window with a sack over them"),
    ],
)
def test_a_sack_on_the_door_of_grown_birds_is_no_blanket(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, age_days=30, heat="none")
    assert "blanket_off" not in keys(rehearsal, text)


def test_a_blanket_over_chicks_still_comes_off(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", EVENING, age_days=4, heat="charcoal")
    assert "blanket_off" in keys(rehearsal, "i put a blanket over the chicks for the night")
