"""A reading told by the place where it was taken, without a word for the thermometer."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text", "value"),
    [
        ("en", "22 under the bulb where they sleep", 22),
        ("en", "25 on the floor below the lamp", 25),
        ("en", "33 at the bulb", 33),
        ("en", "29 near the drinker", 29),
        ("en", "under the lamp 35", 35),
        ("en", "by the feeder 88F", 31.1),
        ("en", "it shows 37 next to the stove and they run from it", 37),
        ("fr", "24 sous la lampe la ou ils dorment", 24),
        ("fr", "31 pres du fourneau", 31),
        ("sw", "25 chini ya taa wanapolala", 25),
        ("sw", "32 karibu na jiko", 32),
        ("en", "24 on the floor where they sleep under the lamp", 24),
        ("en", "34 at the edge of the bulb, chicks quiet", 34),
        ("en", "26 just under the bulb, chicks spread, none dead", 26),
        ("en", "31 by the drinker, 2 dead", 31),
        ("sw", "kipimo kiko karibu na bati, kinasoma 34", 34),
        ("fr", "25 au niveau des petits", 25),
        ("fr", "26 a hauteur des petits sous la lampe", 26),
        ("sw", "kipimo kiko juu karibu na paa kinasoma 36", 36),
    ],
)
def test_a_figure_and_its_place_are_a_reading(
    thinking: Thinking, lang: str, text: str, value: float
) -> None:
    got = read(thinking, text, lang, age_days=8)
    parts = [one for one in got["slots"].get("parts", []) if one["intent"] == "temperature"]
    told = parts[0]["slots"] if parts else got["slots"]
    assert told.get("value_c") == value
    assert "piled_near_heat" not in got["signals"]
    assert "at_edges_or_walls" not in got["signals"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "25 chicks under the lamp"),
        ("en", "20 by the drinker dead"),
        ("en", "30 are at the stove"),
        ("en", "24 of them near the wall not moving"),
        ("en", "24 sleeping under the lamp"),
        ("en", "20 drinkers near the wall"),
        ("en", "drinkers for 30 birds by the wall"),
        ("en", "24 under the lamp are dull"),
        ("en", "20 by the drinker, dead"),
        ("en", "20 by the stove dont move"),
        ("fr", "25 poussins sous la lampe"),
        ("fr", "24 petits sous la lampe"),
        ("fr", "20 morts pres du fourneau"),
        ("sw", "vifaranga 25 chini ya taa"),
        ("sw", "20 wamekufa karibu na jiko"),
    ],
)
def test_birds_counted_at_a_place_are_no_reading(thinking: Thinking, lang: str, text: str) -> None:
    got = read(thinking, text, lang, age_days=8)
    parts = [got["intent"], *(one["intent"] for one in got["slots"].get("parts", []))]
    assert "temperature" not in parts
