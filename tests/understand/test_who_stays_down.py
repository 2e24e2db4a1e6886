"""Whether chicks get up when somebody claps: a no said of it is no yes. And danger whose count or
word stands behind it. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "they do not get up when i clap"),
        ("en", "they sit and do not get up when i clap"),
        ("en", "they do not react when i touch them"),
        ("en", "they dont move when i knock"),
        ("en", "the chicks lie with the legs out and do not react when i touch them, all"),
        ("fr", "ils restent couches et ne se levent pas quand je frappe"),
        ("sw", "wamekaa tu hawainuki nikipiga makofi"),
    ],
)
def test_who_does_not_get_up_is_down(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang, age_days=12)
    assert "sleepy_all_birds" in found["signals"]
    assert "gets_up" not in found["signals"]
    assert found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "they get up when i clap"),
        ("en", "they lie but jump up when i touch them"),
        ("en", "they dont lie still, they get up when i clap"),
        ("fr", "tous courent quand je frappe"),
        ("sw", "wote wanakimbia nikigonga"),
    ],
)
def test_who_gets_up_is_not(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang, age_days=12)
    assert "sleepy_all_birds" not in found["signals"]
    assert not found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text", "many"),
    [
        ("en", "they limp, 20 of them", True),
        ("en", "they limp, 2 of them", False),
        ("fr", "ils boitent, 20 sujets", True),
        ("fr", "ils boitent, 2 sujets", False),
        ("sw", "wanachechemea, 20 hivi", True),
        ("sw", "wanachechemea, wawili tu", False),
    ],
)
def test_the_figure_behind_the_sign_counts_the_ill(
    thinking: Thinking, lang: str, text: str, many: bool
) -> None:
    assert read(thinking, text, lang, age_days=30)["red_flag"] is many


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "this morning i see 20 gone, i mean dead"),
        ("sw", "asubuhi naona 20 hawapo, yaani wamekufa"),
        ("fr", "depuis hier du sang, aujourd'hui encore plus de sang dans les crottes"),
        ("sw", "kuku wa jirani wamekufa na sasa wangu wanahara kijani, wengi"),
        ("sw", "harufu ya jiko imemzimisha binti yangu"),
    ],
)
def test_danger_whose_word_stands_behind(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "plus de sang dans les crottes depuis hier"),
        ("sw", "kuku wa jirani wamekufa, wangu wazima"),
        ("en", "20 bags left, i mean 2"),
    ],
)
def test_what_is_over_or_anothers_is_none(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang, age_days=20)["red_flag"]
