"""Figures: how much, how many, which day. Each case is a way that farmers tell one figure."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("they drank 4 kegs of 25 litres", "litres", 100),
        ("watered them 3 times 9 litres each", "litres", 27),
        ("vinywesheo 6 vya lita 4 vimeisha", "litres", 24),
        ("water: 20 litres in the morning and 15 litres in the evening", "litres", 35),
        ("feed delivered 10bgs*70kg", "kg", 700),
        ("asubuhi chakula kilo 6 jioni kilo 7", "kg", 13),
        ("wamekula chakula kilo kumi na sita unusu", "kg", 16.5),
        ("ate half bag of the 50", "kg", 25),
        ("feed: one n half bag, bag is 25", "kg", 37.5),
        ("we finished 3 sacks of 50 kilo this week. today alone 40kg", "kg", 40),
    ],
)
def test_feed_and_water_are_reckoned_as_told(
    thinking: Thinking, text: str, name: str, value: float
) -> None:
    assert read(thinking, text)["slots"].get(name) == value


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        ("they are now one point seven kilo each", {"avg_g": 1700.0}),
        ("uzito wao wastani kilo mbili na robo", {"avg_g": 2250.0}),
        ("average 2kg na gramu mia moja", {"avg_g": 2100.0}),
        ("picked 4 heads: 1.42kg 1.5kg 1.38kg 1.47kg", {"weights_g": [1420, 1500, 1380, 1470]}),
        ("mmoja mmoja 1210 1180 1305 1250 gram", {"weights_g": [1210, 1180, 1305, 1250]}),
    ],
)
def test_weights_are_read_with_parts_of_a_kilo_and_in_lists(
    thinking: Thinking, text: str, slots: dict[str, object]
) -> None:
    assert read(thinking, text)["slots"] == slots


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("altogether eleven have perished since the first day, today however not one", 0),
        ("yana ilikufa mbili leo hakuna ya kufa", 0),
        ("my jirani lost 100 kuku, mine 0", 0),
        ("pardon jai tape 20 morts en vrai c est 2", 2),
        ("mortalite du jour 4 sur 300", 4),
        ("half a dozen passed away", 6),
        ("jana walikuwa 200 leo nimehesabu 185 hao wengine ni mizoga", 15),
        ("mange 38 kg bu 70 litres zero perte", 0),
    ],
)
def test_the_dead_are_those_of_today_and_not_the_flock(
    thinking: Thinking, text: str, dead: int
) -> None:
    got = read(thinking, text)
    told = [got["slots"], *(part["slots"] for part in got["slots"].get("parts", []))]
    assert [one["deaths"] for one in told if "deaths" in one] == [dead]


@pytest.mark.parametrize(
    ("text", "today", "days"),
    [
        ("je compte mettre 300 poussins le 20 du mois", "2026-04-08", 12),
        ("we plan 300 chicks on the 20th", "2026-10-06", 14),
        ("nataka kuleta kuku 300 tarehe moja mwezi ujao", "2026-04-03", 28),
        ("nataka kuleta kuku 300 tar 20/3", "2026-03-02", 18),
        ("andika 300 niliwaingiza jumapili", "2026-07-09", -4),
        ("jai 300 poussins poses depuis samedi enregistre moi", "2026-02-03", -3),
    ],
)
def test_the_day_of_a_batch_is_the_one_meant(
    thinking: Thinking, text: str, today: str, days: int
) -> None:
    got = read(thinking, text, has_batch=False, age_days=None, count=None, today=today)
    assert (got["slots"].get("count"), got["slots"].get("date_iso_offset")) == (300, days)


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        ("sold 25 @ 500 each n bought feed 50kg", (25, 500, "bird", None)),
        ("sold 15 at k90, feed 15kg", (15, 90, "bird", None)),
        ("broker amebeba kuku 200, kilo 410 kwa sh 320 kilo", (200, 320, "kg", 410)),
        ("price was 520 not 250 for those 30 i sold", (30, 520, "bird", None)),
        ("kuku 25 wameenda 550 each", (25, 550, "bird", None)),
    ],
)
def test_a_sale_keeps_its_own_price_and_kilograms(
    thinking: Thinking, text: str, slots: tuple[object, ...]
) -> None:
    got = read(thinking, text)["slots"]
    sale = next((one["slots"] for one in got.get("parts", []) if one["intent"] == "sold"), got)
    assert tuple(sale.get(name) for name in ("count", "price", "price_per", "kg")) == slots


@pytest.mark.parametrize(
    "text", ["4 boxes of 100 chicks arrived", "boksi 4 zimefika kila moja 100"]
)
def test_boxes_times_what_they_hold_have_arrived(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, has_batch=True, age_days=0, count=400)
    assert (got["intent"], got["slots"]["count"]) == ("arrived", 400)


def test_a_room_told_in_square_metres_is_no_age(thinking: Thinking) -> None:
    text = "ma chambre fait 12m2 j'aimerais y loger 400 poussins"
    got = read(thinking, text, has_batch=False, age_days=None, count=None)
    assert (got["slots"].get("house_m2"), got["slots"].get("age_days")) == (12, None)
