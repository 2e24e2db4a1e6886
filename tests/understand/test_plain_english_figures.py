"""Figures as farmers say them in English: readings by the name of warmth or moisture, feed in bags
and kilos together, so many birds and what they weighed, a price before the birds, bodies that were
picked up, answers told in several goes."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.figures import facts_told, lines
from tests.understand.reading import read

READINGS = """
en the heat is 33 now => temperature value_c=33
en warmth inside 27 => temperature value_c=27
en hotness at 36 => temperature value_c=36
en brooder at 30 => temperature value_c=30
en our house is 26 now => temperature value_c=26
en it is 29 by the heater => temperature value_c=29
en its 27 inside there => temperature value_c=27
en 29oC => temperature value_c=29
en moisture 64 percent => humidity rh_pct=64
en moisture reads 58 => humidity rh_pct=58
en 29c 60% => temperature value_c=29 + humidity rh_pct=60
en temp 33 moisture 71 => temperature value_c=33 + humidity rh_pct=71
"""

FEED = """
en 3 bags of 50 and 20 kg on top => feed kg=170
en one sack of 70 plus 15kg => feed kg=85
en fed 1 bag of 50 and half a bag => feed kg=75
en a quarter of a 70 kg sack => feed kg=17.5
en half of the 50kg bag => feed kg=25
en bought 3 by 25kg of feed => feed kg=75 move=in
en ate 11 kg, the litter is dry => feed kg=11 + observe
"""

WEIGHT = """
en 12 birds gave 4.8 kg => weight avg_g=400
en eight came to 3.2kg => weight avg_g=400
en 4.4 kg for eleven => weight avg_g=400
fr 10 poulets font 4,2 kg => weight avg_g=420
en gave 12 birds 4.8 kg of mash => feed kg=4.8
en gave 4.8 kg to them => feed kg=4.8
"""

SALES = """
en trader paid 620 a bird for thirty => sold count=30 price=620
en they paid 480 each for 25 => sold count=25 price=480
en hotel gave 9000 each for 18 birds => sold count=18 price=9000
en gave the buyer 14 birds, 8400 in all => sold count=14 price=8400 per=all
en sold 3 doz at 450 each => sold count=36 price=450
en 40 birds left this morning, 510 each => sold count=40 price=510
en sold 60 each 500 => sold count=60 price=500
"""

DEATHS = """
en one found behind the drinker, dead => deaths deaths=1
en found two by the wall, already dead => deaths deaths=2
en 2 under the feeder, dead already => deaths deaths=2
en picked up 3 bodies => deaths deaths=3
en 4 bodies this morning => deaths deaths=4
en a pair died => deaths deaths=2
en lost 4 in all but not any since yesterday => deaths deaths=4
en lost 4 in all but not one today => deaths deaths=0
"""


@pytest.mark.parametrize("line", [*lines(READINGS), *lines(FEED), *lines(DEATHS)])
def test_a_figure_is_taken_for_what_it_is_of(thinking: Thinking, line: str) -> None:
    told, due = facts_told(thinking, line, age_days=9, count=400)
    assert told == due


@pytest.mark.parametrize("line", lines(WEIGHT))
def test_so_many_birds_and_what_they_weighed(thinking: Thinking, line: str) -> None:
    told, due = facts_told(thinking, line, age_days=14, count=400)
    assert told == due


@pytest.mark.parametrize("line", lines(SALES))
def test_the_price_may_stand_before_the_birds(thinking: Thinking, line: str) -> None:
    told, due = facts_told(thinking, line, age_days=38, count=400)
    assert told == due


@pytest.mark.parametrize(
    "text",
    [
        "heat the room for 20 minutes",
        "no heat since 18",
        "30 near the heat are cold",
        "they are 28 in there",
        "18 inside the box",
        "their bodies are hot, 7 pant",
        "moisture in the litter",
        "80% eat well, temp is good",
    ],
)
def test_what_only_sounds_so_is_no_reading_and_no_body(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", age_days=9, count=400)
    facts = found["slots"].get("parts", [found])
    slots = {name for one in facts for name in one["slots"]}
    assert slots.isdisjoint({"value_c", "rh_pct", "deaths"})


@pytest.mark.parametrize(
    ("prompt", "text", "slots"),
    [
        ("feed", "morning 7 evening 8", {"kg": 15}),
        ("feed", "6 + 5", {"kg": 11}),
        ("water", "20 in the morning and 15 at night", {"litres": 35}),
        ("deaths", "1 + 2", {"deaths": 3}),
        ("deaths", "none so far", {"deaths": 0}),
        ("deaths", "not any today", {"deaths": 0}),
        ("deaths", "all are alive", {"deaths": 0}),
        ("temperature", "30 point 5", {"value_c": 30.5}),
        ("date", "on the 27th", {"date_iso_offset": -5}),
    ],
)
def test_answers_in_several_goes_or_in_words(
    thinking: Thinking, prompt: str, text: str, slots: dict[str, float]
) -> None:
    found = read(thinking, text, "en", age_days=9, count=400, last_prompt=prompt)
    assert {name: found["slots"].get(name) for name in slots} == slots


@pytest.mark.parametrize(
    ("text", "age"),
    [
        ("how much do 200 eat in a day at 4 weeks", 28),
        ("water in a day for 400 at 2 weeks?", 14),
        ("what heat for week old chicks", 7),
        ("feed for 250 birds aged 5 weeks", 35),
    ],
)
def test_an_age_in_a_question_is_no_day_to_come(thinking: Thinking, text: str, age: int) -> None:
    found = read(thinking, text, "en", age_days=9, count=400)
    assert (found["intent"], found["slots"].get("age_days")) == ("ask", age)


@pytest.mark.parametrize(
    "text",
    [
        "why do we dip shoes at the door",
        "why must we wash boots before we enter",
        "why change clothes first",
    ],
)
def test_why_a_rule_of_cleanness_holds_is_a_question(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", age_days=9, count=400)
    assert (found["intent"], found["slots"].get("topic")) == ("ask", "biosecurity")


def test_a_medicine_that_was_begun_is_a_treatment(thinking: Thinking) -> None:
    for text in ("started them on cough powder monday", "began worm syrup 2 days ago"):
        found = read(thinking, text, "en", age_days=19, count=400, today="2026-03-04")
        assert (found["intent"], found["slots"]["date_iso_offset"]) == ("treated", -2)


def test_rain_inside_spoils_no_feed_that_was_bought(thinking: Thinking) -> None:
    found = read(thinking, "got 3 bags of 25kg and it rained inside", "en", age_days=18)
    assert found["signals"] == ["rain_or_wind_in"]
    wet = read(thinking, "bag left outside and it rained on it", "en", age_days=18)
    assert "feed_mouldy" in wet["signals"]
