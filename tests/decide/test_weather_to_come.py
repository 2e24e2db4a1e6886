"""Who asks how to be ready for hot or cold weather is told it before all else, chicks otherwise
than grown birds; and where the fire went out at night, what keeps them warm when nothing is left to
burn. Worded for this test; common practice, no source."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import NIGHT, keys, stand

MORNING = "2026-07-09T07:00:00+03:00"


@pytest.mark.parametrize(
    ("language", "age", "text", "key"),
    [
        ("en", 30, "weather man says very hot tomorrow, tin roof. how do i prepare?", "heat_ahead"),
        (
            "en",
            31,
            "2 died in the heat. today will be too hot too, how to get ready",
            "heat_ahead",
        ),
        ("en", 6, "a heatwave is coming, how do i prepare the chicks", "heat_ahead_chicks"),
        ("fr", 30, "la meteo dit canicule demain, que faire avant?", "heat_ahead"),
        ("fr", 5, "demain il fera chaud, comment preparer la poussiniere", "heat_ahead_chicks"),
        ("sw", 28, "utabiri unasema joto kali kesho tujiandae vipi", "heat_ahead"),
        ("en", 4, "very cold night they say, what must i prepare", "cold_ahead_chicks"),
        ("en", 27, "storm and cold night coming, how to be ready", "cold_ahead"),
        ("fr", 6, "vague de froid annoncee, comment me preparer", "cold_ahead_chicks"),
        ("sw", 6, "kesho kutakuwa na baridi kali, nijiandae vipi", "cold_ahead_chicks"),
    ],
)
def test_who_asks_to_be_ready_for_the_weather_is_told_first(
    rehearsal: Rehearsal, language: str, age: int, text: str, key: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=age, heat="charcoal" if age < 21 else "none")
    assert keys(rehearsal, text)[0] == key


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "how do i prepare the new feeders"),
        ("en", "it was very hot today, they are fine"),
        ("en", "they pile up, very cold in there, what do i do"),
        ("fr", "je prepare la vente de demain"),
        ("sw", "kuku wanahema joto kali nifanyeje"),
    ],
)
def test_weather_that_is_here_and_other_work_to_prepare_is_something_else(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=27, heat="none")
    said = keys(rehearsal, text)
    assert not any("_ahead" in one for one in said)


@pytest.mark.parametrize(
    ("language", "heat", "text"),
    [
        ("en", "gas", "the cylinder is empty, i only have a jiko and hot water"),
        ("en", "bulb", "all bulbs are blown, two lanterns left"),
        ("fr", "gas", "plus de gaz, il me reste du bois"),
        ("fr", "bulb", "les ampoules sont grillees"),
        ("sw", "charcoal", "mkaa umeisha, jiko limezima, nina maji ya moto"),
    ],
)
def test_a_fire_that_fails_at_night_is_told_with_what_else_keeps_them_warm(
    rehearsal: Rehearsal, language: str, heat: str, text: str
) -> None:
    stand(rehearsal, language, NIGHT, age_days=5, heat=heat)
    assert "heat_else" in keys(rehearsal, text)


def test_by_day_the_shop_is_open(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", MORNING, age_days=5, heat="gas")
    assert "heat_else" not in keys(rehearsal, "the gas cylinder is empty")
