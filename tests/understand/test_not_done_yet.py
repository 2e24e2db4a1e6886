"""What a farmer asks to do, or has standing ready, is not written down as done; what a bird weighs
is no feed. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

GROWN = {"age_days": 36, "count": 400}
NOT_YET = {
    "en": (
        "12 died and more gasp. can i sell all the rest today before it gets worse",
        "2 died. should we sell everything left to the trader at 3",
        "they pant. shall i add 20 litres",
        "they pant, my boy has 4 jerricans ready at the door",
        "the feed smells of mould. can i mix it with 2 good bags",
    ),
    "fr": (
        "ils halètent, 3 bidons de 20 litres sont prêts devant la porte",
        "12 morts. est-ce que je peux vendre tout le reste vite",
        "l'aliment sent le moisi. je peux mélanger avec 2 sacs du bon ?",
        "10 morts, puis-je céder tout le reste à 1500 ?",
        "il y a 2 sacs de 50 kg prêts pour demain",
    ),
    "sw": (
        "wanahema, madumu 3 ya maji yako tayari",
        "wamekufa 12. naweza kuuza waliobaki wote leo?",
        "chakula kina ukungu. naweza kuchanganya na mifuko 2 mizuri?",
        "wanahema. niongeze lita 20?",
        "mifuko 2 ya chakula iko tayari kwa kesho",
    ),
}
DONE = (
    ("en", "sold all the rest today at 500", "sold"),
    ("en", "gave 3 bags today", "feed"),
    ("en", "they drank 3 jerricans of 20 litres", "water"),
    ("fr", "tous vendus aujourd'hui a 2000", "sold"),
    ("fr", "ils ont bu 3 bidons de 20 litres", "water"),
    ("sw", "nimeuza wote leo kwa 500", "sold"),
    ("sw", "wamekunywa madumu 3", "water"),
)
BIRDS_WEIGH = (
    ("en", "they are 2.1 kg and healthy. can i feed them till evening", 2100),
    ("fr", "ils font 2,1 kg. est ce que je les nourris encore demain", 2100),
    ("sw", "wamefika kilo 2.1. niwape chakula mpaka lini", 2100),
)


@pytest.mark.parametrize(("lang", "text"), [(at, one) for at in NOT_YET for one in NOT_YET[at]])
def test_what_is_asked_or_stands_ready_is_not_written_down(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang, **GROWN)
    told = [got["intent"], *(one["intent"] for one in got.get("parts", ()))]
    assert not {"sold", "feed", "water"}.intersection(told)


@pytest.mark.parametrize(("lang", "text", "intent"), DONE)
def test_what_was_done_is_written_down(
    thinking: Thinking, lang: str, text: str, intent: str
) -> None:
    assert read(thinking, text, lang, **GROWN)["intent"] == intent


@pytest.mark.parametrize(("lang", "text", "grams"), BIRDS_WEIGH)
def test_what_the_birds_weigh_is_no_feed_though_feeding_is_asked_about(
    thinking: Thinking, lang: str, text: str, grams: int
) -> None:
    got = read(thinking, text, lang, **GROWN)
    told = [got, *got.get("parts", ())]
    assert [one["slots"].get("avg_g") for one in told if one["intent"] == "weight"] == [grams]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "the wet bags smell like an old house. can i mix with 2 good ones"),
        ("en", "two bags have a bad smell, shall i still give"),
        ("fr", "les sacs sentent mauvais, je melange avec 2 bons ?"),
        ("fr", "un sac a une odeur bizarre"),
        ("sw", "mifuko iliyolowa inanuka, nichanganye na mizuri 2?"),
    ],
)
def test_bags_that_smell_are_bad_feed_and_no_sharp_air(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang, **GROWN)
    assert "feed_mouldy" in got["signals"]
    assert "ammonia_smell" not in got["signals"]
