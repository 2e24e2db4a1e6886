"""The age and the birds that a question names, however it is worded; the air's figure told in one
breath with what the birds do. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text", "named"),
    [
        ("en", "hw much mash do i giv 300 at 2wks", {"count": 300, "age_days": 14}),
        ("en", "must the bulb burn all nite at 4 weeks", {"age_days": 28}),
        ("en", "how warm for one week chicks", {"age_days": 7}),
        ("en", "how warm at one week", {"age_days": 7}),
        ("en", "litres for six hundred birds pls", {"count": 600}),
        ("fr", "ration du jour pr mes poulets de 3 semaines svp", {"age_days": 21}),
        ("fr", "poids normal a 28j svp", {"age_days": 28}),
        ("sw", "starter au grower wiki ya tatu", {"age_days": 21}),
        ("sw", "vinyweo vingapi kwa mia tatu", {"count": 300}),
    ],
)
def test_a_question_keeps_what_it_names(
    thinking: Thinking, lang: str, text: str, named: dict[str, int]
) -> None:
    found = read(thinking, text, lang=lang)
    assert found["intent"] == "ask"
    assert named.items() <= found["slots"].items()


@pytest.mark.parametrize(
    "text",
    [
        "is 34 too hot for day 10 chicks",
        "is 30 too much heat for them",
        "which day is best 4 market",
    ],
)
def test_degrees_and_a_short_word_count_no_birds(thinking: Thinking, text: str) -> None:
    assert "count" not in read(thinking, text)["slots"]


@pytest.mark.parametrize(
    ("lang", "text", "degrees", "sign"),
    [
        ("en", "its 33 n they r panting", 33, "panting"),
        ("en", "29 and they are heaped", 29, "piled_near_heat"),
        ("en", "they are heaped and it is 27", 27, "piled_near_heat"),
        ("fr", "il fait 33 mais ils sont en tas", 33, "piled_near_heat"),
        ("fr", "33 et ils ouvrent le bec", 33, "panting"),
        ("sw", "ni 33 na wanahema", 33, "panting"),
        ("sw", "33 lakini wamejikusanya", 33, "piled_near_heat"),
    ],
)
def test_the_airs_figure_is_kept_beside_what_they_do(
    thinking: Thinking, lang: str, text: str, degrees: float, sign: str
) -> None:
    found = read(thinking, text, lang=lang)
    parts = {part["intent"]: part["slots"] for part in found["slots"]["parts"]}
    assert parts["temperature"]["value_c"] == degrees
    assert sign in found["signals"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "its 20 chicks panting"),
        ("en", "i have 30 and they are panting"),
        ("en", "we are 30 and they are heaped"),
        ("en", "it is 28 days and they pant"),
        ("sw", "25 wamelala pembeni"),
        ("fr", "plus de 30 on les yeux colles"),
    ],
)
def test_a_figure_of_birds_or_days_is_no_reading(thinking: Thinking, lang: str, text: str) -> None:
    assert "value_c" not in str(read(thinking, text, lang=lang)["slots"])
