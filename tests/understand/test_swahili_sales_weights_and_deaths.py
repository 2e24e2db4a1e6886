"""Figures of sales, weights, feed and deaths as Swahili farmers tell them in few words."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("text", "age", "slots"),
    [
        ("jana tano leo moja", 12, {"deaths": 1}),
        ("juzi watatu jana mmoja leo hakuna", 12, {"deaths": 0}),
        ("asubuhi 4 jioni 6 wamekufa leo", 12, {"deaths": 10}),
        ("asubuhi watatu mchana wawili wamekufa leo", 12, {"deaths": 5}),
        ("vifo si vingi ni viwili", 12, {"deaths": 2}),
        ("hawajafa wengi ni watatu tu", 12, {"deaths": 3}),
        ("leo sijazika mfu wala sijaokota mfu", 12, {"deaths": 0}),
        ("leo hakuna aliyeaga", 12, {"deaths": 0}),
        ("nimeuza 25 kwa 640 kla mja", 38, {"count": 25, "price": 640, "price_per": "bird"}),
        ("nimeuza wote 80 kwa 52000", 38, {"count": 80, "price": 52000, "price_per": "all"}),
        ("zote 80 zimeenda kwa 52000", 38, {"count": 80, "price": 52000, "price_per": "all"}),
        ("mgahawa umelipa 30000 kwa kuku 50", 38, {"count": 50, "price": 30000}),
        ("mteja amelipa 52000 kwa kuku wote 80", 38, {"count": 80, "price_per": "all"}),
        ("nimewaachia 30 kwa 700 kila mmoja", 38, {"count": 30, "price": 700}),
        ("tumeuza kilo 75 sh 410 kwa kilo", 38, {"kg": 75, "price": 410, "price_per": "kg"}),
        ("nimetumia gunia nusu la 50", 20, {"kg": 25}),
        ("mfuko robo wa kilo 50 wamekula", 20, {"kg": 12.5}),
        ("nimepima wawili 910 940", 22, {"weights_g": [910, 940]}),
        ("kilo 8.4 kwa kuku kumi na mbili", 18, {"avg_g": 700}),
        ("jumla ya kuku kumi 7.9", 20, {"avg_g": 790}),
        ("lita 40 hapana ni 14 wamekunywa", 20, {"litres": 14}),
        ("kilo 30 samahani ni 13 wamekula", 20, {"kg": 13}),
        ("usiku kipimo 27", 6, {"value_c": 27}),
        ("tamometa inasema 30", 6, {"value_c": 30}),
    ],
)
def test_the_figures(thinking: Thinking, text: str, age: int, slots: dict[str, object]) -> None:
    told = read(thinking, text, "sw", age_days=age)["slots"]
    assert slots.items() <= told.items()


@pytest.mark.parametrize(
    ("text", "age", "slots"),
    [
        ("nimeuza kuku 80 kwa 650 kila mmoja", 38, {"count": 80, "price_per": "bird"}),
        ("nimeuza wote 80 kwa 650", 38, {"count": 80, "price_per": "bird"}),
        ("nimeuza 40 bei 700 kwa kuku", 38, {"count": 40, "price_per": "bird"}),
        ("kilo 1.2 kwa kuku", 25, {"avg_g": 1200}),
        ("wawili wamekufa asubuhi, sasa watano", 12, {"deaths": 5}),
    ],
)
def test_their_neighbours(
    thinking: Thinking, text: str, age: int, slots: dict[str, object]
) -> None:
    told = read(thinking, text, "sw", age_days=age)["slots"]
    assert slots.items() <= told.items()


@pytest.mark.parametrize(
    "text", ["hatuna hata kilo moja ya mash", "hakuna hata kilo tatu za chakula"]
)
def test_not_even_a_kilo_is_no_feed_eaten(thinking: Thinking, text: str) -> None:
    told = read(thinking, text, "sw")
    assert "kg" not in told["slots"]
    assert told["intent"] in ("observe", "other")


@pytest.mark.parametrize(
    ("text", "deaths"),
    [("kicheche kala watatu", 3), ("paka kala wawili usiku", 2), ("mbwa kaua wanne", 4)],
)
def test_what_a_beast_took_in_the_short_past(thinking: Thinking, text: str, deaths: int) -> None:
    told = read(thinking, text, "sw")
    assert {"deaths": deaths} in [one["slots"] for one in told["slots"]["parts"]]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("bandani 31 sasa hivi", 31),
        ("leo usiku bandani 22", 22),
        ("bruda 33 asubuhi hii", 33),
    ],
)
def test_the_house_by_its_name_and_when(thinking: Thinking, text: str, value: int) -> None:
    assert read(thinking, text, "sw", age_days=5)["slots"] == {"value_c": value}


@pytest.mark.parametrize("text", ["bandani 250 leo", "asubuhi bandani 20 wamekufa"])
def test_what_is_counted_in_the_house(thinking: Thinking, text: str) -> None:
    assert "value_c" not in read(thinking, text, "sw", age_days=5)["slots"]
