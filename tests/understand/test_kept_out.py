"""What a later clause, or the verb before, takes back of a sign: rain that stayed outside, birds
that do not run away, illness of the writer that is denied; and a figure that counts the well, or
stands for all that cannot rise. Worded for this test, in three languages."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

DENIED = """
sw mvua ilikuwa kubwa ila haikuingia ndani ya banda => rain_or_wind_in
sw upepo mkali usiku lakini haukuingia kwa kuku => rain_or_wind_in
en wind is blowing hard but it does not get into the house => rain_or_wind_in
en it rained hard but no drop entered the house => rain_or_wind_in
fr il a beaucoup plu mais ca n'est pas entre chez les poussins => rain_or_wind_in
fr grosse pluie cette nuit mais elle n'entre pas dans le batiment => rain_or_wind_in
sw hawakimbii mbali na jiko => away_from_heat
sw vifaranga hawatoroki mbali na taa => away_from_heat
sw sihisi kizunguzungu wala kichwa kuuma nikikaa ndani na jiko => drowsy_people_or_birds_near_stove
sw hatujapata kizunguzungu wala kichwa kuuma bandani => drowsy_people_or_birds_near_stove
"""
TOLD = """
sw mvua imeingia ndani ya banda usiku => rain_or_wind_in
sw mvua kubwa, imeingia mpaka kwenye maranda => rain_or_wind_in
en it rained hard and came in under the curtain => rain_or_wind_in
fr il a plu et l'eau est entree dans le batiment => rain_or_wind_in
sw wamekimbia mbali na jiko => away_from_heat
sw hawakai karibu, wako mbali na moto => away_from_heat
"""
ONE_OF_MANY = """
sw mmoja anachechemea wengine 299 wazima
sw kifaranga mmojatu anachechemea wengine 180 hawana shida
sw kuku wawilitu wanachechemea
en one limps the rest 299 are well
en one chick is lame the remaining 240 walk fine
fr un seul boite les 299 autres vont bien
"""
CANNOT_RISE = """
sw 45 hawawezi simama, jana 10
sw kuku 30 hawawezi tembea leo
sw kama 20 hivi hawawezi inuka miguu imekwisha
sw wengi hawawezi simama tangu asubuhi
"""


def _rows(table: str) -> list[tuple[str, str]]:
    return [(one, other) for one, other in (row.split(" => ") for row in table.strip().split("\n"))]


@pytest.mark.parametrize(("told", "sign"), _rows(DENIED))
def test_what_is_taken_back_is_denied(thinking: Thinking, told: str, sign: str) -> None:
    found = read(thinking, told[3:], lang=told[:2], age_days=6)
    assert sign in found["not_signals"]
    assert not found["red_flag"]


@pytest.mark.parametrize(("told", "sign"), _rows(TOLD))
def test_what_is_so_stays_told(thinking: Thinking, told: str, sign: str) -> None:
    assert sign in read(thinking, told[3:], lang=told[:2], age_days=6)["signals"]


@pytest.mark.parametrize("told", ONE_OF_MANY.strip().split("\n"))
def test_those_that_are_well_are_not_counted_as_ill(thinking: Thinking, told: str) -> None:
    found = read(thinking, told[3:], lang=told[:2], age_days=24)
    assert "limping_or_down" in found["signals"]
    assert not found["red_flag"]


@pytest.mark.parametrize("told", CANNOT_RISE.strip().split("\n"))
def test_many_that_cannot_rise_are_danger(thinking: Thinking, told: str) -> None:
    found = read(thinking, told[3:], lang=told[:2], age_days=24)
    assert "limping_or_down" in found["signals"]
    assert found["red_flag"]
