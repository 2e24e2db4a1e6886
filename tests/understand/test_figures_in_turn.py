"""Figures whose unit, price or day is told elsewhere in the text: three goes of feed in a day, a
kilo with its price, weights told one after another, birds of a sample, a reading under the lamp or
on the floor, and figures that belong to something else. Worded for this test."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

GOES = """
sw asubuhi kilo 6, mchana 4, jioni 5 => 15
sw asubui kilo kumi, mucana munane, mangaribi saba => 25
sw wamekula kilo 3 asubuhi 2 mchana na 4 jioni => 9
en feed: morning 6 kg, noon 4, evening 5 => 15
en ate 3 kg morning, 2 noon and 4 evening => 9
fr aliment: matin 6 kg, midi 4, soir 5 => 15
sw tani moja ya chakula imeletwa leo => 1000
sw nimenunua kilo moja ya chakula => 1
sw asubuhi kilo 6, jioni 5 => 11
sw leo wamekula kilo 8 => 8
"""
OF_A_KILO = """
sw kilo nimeuza 6800 wametoka kuku 30 => 30 6800 kg
sw nimeuza kilo kwa 7200 kuku sitini => 60 7200 kg
sw nimewauza kilo kwa 410 kuku 90 => 90 410 kg
en sold the kilo at 340, 70 birds => 70 340 kg
fr vendu le kilo a 1900, 65 poulets => 65 1900 kg
sw nimeuza kilo kwa 380, wametoka 55 => 55 380 kg
sw mteja kachukua kuku 35 kilo moja 390 => 35 390 kg
sw nimeuza thelathini kilo moja 290 => 30 290 kg
sw nimeuza kuku 45 kwa 400 kila mmoja => 45 400 bird
sw nimeuza 10 kwa soo tano each => 10 500 bird
sw hotel imechkua 40@450 => 40 450 bird
sw mama ntilie amechukua 8 @ 500 => 8 500 bird
"""
WEIGHTS = """
sw gramu 310 295 320 na wa mwisho 305 => 310 295 320 305
sw huyu 1.7 yule 1.9 na mwingine 1.65 zote kilo => 1700 1900 1650
sw wa kwanza 1.2 wa pili 1.3 wa tatu 1.25 kilo => 1200 1300 1250
en this one 1.7 that one 1.9 another 1.65 kg => 1700 1900 1650
en grams 310 295 320 and the last 305 => 310 295 320 305
fr celui ci 1.7 celui la 1.9 un autre 1.65 kilo => 1700 1900 1650
"""
AVERAGES = """
sw avg ni1.35kg => 1350
en average is1.35kg => 1350
fr moyenne de1.35kg => 1350
sw wastani ni 1.35 kilo => 1350
"""
READINGS = """
sw 34 chini ya kofia ya taa na wamekaa mbali nayo => 34
sw nje 18 ndani karibu na vifaranga 31 => 31
sw kwa dari 35 lakini kwenye maranda ni 31 => 31
sw kipimo chasema 29 => 29
sw kipimo kilichofungwa ukutani kinaonyesha 27 => 27
en near the roof 34 but on the floor 30 => 30
fr pres du plafond 34 mais au niveau des poussins 30 => 30
"""
NO_READINGS = """
sw 34 wako chini ya taa
sw vifaranga 31 wako nje
sw kuku 30 wamelala kwenye maranda
en 30 chicks near the drinker
"""
BATCHES = """
sw nina kuku 150 wana wiki mbili leo => 150 14 None
sw naomba nisajili kuku 90 wana siku kumi leo => 90 10 None
sw nipokee kuku 100 wana siku 9 => 100 9 None
en i have 150 chicks they are two weeks old today => 150 14 None
fr j'ai 150 poussins ils ont deux semaines aujourd'hui => 150 14 None
sw nimeweka vifaranga 150 leo => 150 None 0
sw nafikiria kuku 200 tarehe 20 mwezi huu => 200 None 16
en planning 200 chicks on the 20th of this month => 200 None 16
"""


def _rows(table: str) -> list[tuple[str, str]]:
    return [(one, other) for one, other in (row.split(" => ") for row in table.strip().split("\n"))]


def _slots(thinking: Thinking, told: str, **context: object) -> Mapping[str, Any]:
    found: Mapping[str, Any] = read(thinking, told[3:], lang=told[:2], **context)["slots"]
    return found


@pytest.mark.parametrize(("told", "kg"), _rows(GOES))
def test_the_goes_of_a_day_add_up(thinking: Thinking, told: str, kg: str) -> None:
    assert _slots(thinking, told, age_days=22).get("kg") == float(kg)


@pytest.mark.parametrize(("told", "sale"), _rows(OF_A_KILO))
def test_a_price_is_of_what_it_stands_with(thinking: Thinking, told: str, sale: str) -> None:
    count, price, per = sale.split()
    slots = _slots(thinking, told, age_days=37)
    found = (slots.get("count"), slots.get("price"), slots.get("price_per"))
    assert found == (int(count), float(price), per)


@pytest.mark.parametrize(("told", "grams"), _rows(WEIGHTS))
def test_weights_are_told_in_turn(thinking: Thinking, told: str, grams: str) -> None:
    age = 33 if "kilo" in told or "kg" in told else 12
    assert _slots(thinking, told, age_days=age)["weights_g"] == [int(one) for one in grams.split()]


@pytest.mark.parametrize(("told", "grams"), _rows(AVERAGES))
def test_a_fraction_run_into_a_word_is_whole(thinking: Thinking, told: str, grams: str) -> None:
    assert _slots(thinking, told, age_days=28)["avg_g"] == float(grams)


@pytest.mark.parametrize(("told", "degrees"), _rows(READINGS))
def test_the_reading_beside_the_chicks_counts(thinking: Thinking, told: str, degrees: str) -> None:
    found = read(thinking, told[3:], lang=told[:2], age_days=4)
    facts = found["slots"].get("parts", [found])
    assert [one["slots"].get("value_c") for one in facts if one["intent"] == "temperature"] == [
        float(degrees)
    ]


@pytest.mark.parametrize("told", NO_READINGS.strip().split("\n"))
def test_birds_in_a_place_are_no_reading(thinking: Thinking, told: str) -> None:
    found = read(thinking, told[3:], lang=told[:2], age_days=4)
    assert "value_c" not in found["slots"]


@pytest.mark.parametrize(("told", "batch"), _rows(BATCHES))
def test_the_day_of_a_batch_is_no_day_of_its_age(thinking: Thinking, told: str, batch: str) -> None:
    slots = _slots(thinking, told, has_batch=False, age_days=None, count=None)
    found = (slots.get("count"), slots.get("age_days"), slots.get("date_iso_offset"))
    assert " ".join(str(one) for one in found) == batch


@pytest.mark.parametrize(
    "told",
    [
        "sw nimepima kumi wana kilo 12 je niuze lini",
        "sw kuku 20 wana kilo 24 niuze lini",
        "en 10 birds weigh 12 kg together, when do i sell",
    ],
)
def test_birds_of_a_sample_weigh_each_their_part(thinking: Thinking, told: str) -> None:
    slots = _slots(thinking, told, age_days=26)
    facts = [one["slots"] for one in slots["parts"]] if "parts" in slots else [slots]
    assert [one["avg_g"] for one in facts if "avg_g" in one] == [1200.0]


@pytest.mark.parametrize(
    ("told", "dead"),
    [
        ("sw asbh nmekuta 1 jioni 1 mwingine", 2),
        ("sw leo bakufi makumi tatu na mbili mu usiku moja", 32),
        ("sw wamekufa 12 usiku moja", 12),
    ],
)
def test_one_night_counts_no_bird(thinking: Thinking, told: str, dead: int) -> None:
    assert _slots(thinking, told, last_prompt="deaths", age_days=19)["deaths"] == dead


@pytest.mark.parametrize(
    "told",
    [
        "sw vichwa vimevimba nimehesabu kama 8 hivi",
        "sw wanakohoa nimehesabu 20",
        "en heads are swollen, i counted about 9",
    ],
)
def test_so_few_beside_an_illness_are_the_ill(thinking: Thinking, told: str) -> None:
    assert read(thinking, told[3:], lang=told[:2], age_days=30)["intent"] == "observe"


def test_the_living_are_counted_beside_an_illness(thinking: Thinking) -> None:
    found = read(thinking, "wanakohoa, nimehesabu kuku 280", lang="sw", age_days=30)
    assert found["intent"] == "multi"
