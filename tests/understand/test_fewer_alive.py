"""Deaths told as birds that are gone, as fewer alive than before, and beside the birds' age."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BATCH = {"has_batch": True, "age_days": 12, "count": 300}


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("300 birds 12 days 2 dead", 2),
        ("300 poulets 12 jours 4 morts", 4),
        ("12 days 3 lost", 3),
        ("kuku 300 siku 12 wamekufa 4", 4),
        ("9 didnt wake up", 9),
        ("8 chicks have left us", 8),
        ("6 gone overnight", 6),
        ("two more gone", 2),
        ("10 gone today and it is only noon", 10),
        ("14 gone, no rats seen", 14),
        ("had 300 last night now 288 standing", 12),
        ("290 alive out of 300 this morning", 10),
    ],
)
def test_so_many_died(thinking: Thinking, text: str, dead: int) -> None:
    slots = read(thinking, text, "en", **BATCH)["slots"]
    told = [slots, *(part["slots"] for part in slots.get("parts", ()))]
    assert [one["deaths"] for one in told if "deaths" in one] == [dead]


@pytest.mark.parametrize(
    "text",
    [
        "2 workers have left us",
        "4 left us for the market",
        "8 bags gone",
        "sold 20 today, 280 alive",
        "they went to sleep at 7",
        "288 alive of 300",
    ],
)
def test_nobody_died(thinking: Thinking, text: str) -> None:
    slots = read(thinking, text, "en", **BATCH)["slots"]
    assert not any(
        "deaths" in one for one in [slots, *(p["slots"] for p in slots.get("parts", ()))]
    )
