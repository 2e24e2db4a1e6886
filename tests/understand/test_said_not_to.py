"""What is denied or not wished: none died, nobody is to call, nothing more is to be sent; and
short words of Swahili. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "not even two died"),
        ("en", "not even 2 dead today"),
        ("fr", "meme pas deux morts"),
        ("fr", "pas meme 2 morts aujourd'hui"),
        ("sw", "hawakufa hata wawili"),
        ("sw", "hawajafa hata 2"),
    ],
)
def test_not_even_so_few_died_is_none(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang)
    assert (found["intent"], found["slots"]) == ("deaths", {"deaths": 0})


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [("en", "even two died today", 2), ("fr", "2 morts pas plus", 2), ("sw", "wamekufa wawili", 2)],
)
def test_a_figure_that_is_not_denied_is_counted(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    assert read(thinking, text, lang=lang)["slots"] == {"deaths": dead}


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "dont call me"),
        ("en", "you never call me"),
        ("en", "do not call me i am at work"),
        ("fr", "ne m'appelez pas"),
        ("sw", "usinipigie simu"),
    ],
)
def test_who_is_not_to_be_called_is_neither_called_nor_lost(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang=lang)["intent"] not in ("call_me", "stop")


@pytest.mark.parametrize(
    ("lang", "text", "intent"),
    [
        ("en", "call me", "call_me"),
        ("en", "why dont you call me", "call_me"),
        ("fr", "appelez moi", "call_me"),
        ("sw", "nipigie", "call_me"),
        ("en", "send nothing more to this phone", "stop"),
        ("fr", "n'envoyez plus rien sur ce numero", "stop"),
        ("sw", "usitume chochote tena kwa simu hii", "stop"),
    ],
)
def test_a_call_or_an_end_that_is_wished_is_heard(
    thinking: Thinking, lang: str, text: str, intent: str
) -> None:
    assert read(thinking, text, lang=lang)["intent"] == intent


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("wanajidonoa", "cannibalism_or_pecking"),
        ("inanyesha ndani", "rain_or_wind_in"),
        ("hakuna moto", "stove_out"),
        ("matako machafu", "pasty_vent"),
    ],
)
def test_short_words_of_swahili_are_signs(thinking: Thinking, text: str, sign: str) -> None:
    assert read(thinking, text, lang="sw")["signals"] == [sign]


def test_eyes_that_opened_are_not_closed(thinking: Thinking) -> None:
    found = read(thinking, "wamefumbua macho", lang="sw")
    assert (found["signals"], found["red_flag"]) == ([], False)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "1 is limping on the left the other 299 r running"),
        ("fr", "1 boite les 199 autres courent"),
        ("sw", "1 anachechemea 299 wengine wako sawa"),
    ],
)
def test_one_that_limps_beside_many_that_run_is_no_danger(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert not read(thinking, text, lang=lang)["red_flag"]
