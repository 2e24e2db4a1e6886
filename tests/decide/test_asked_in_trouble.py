"""What is asked or told beside a trouble: drops in the water, dead birds that were touched, chicks
hidden under a heap. Each is answered for what it is."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.diagnosis.talking import Farm, keys


@pytest.mark.parametrize(
    ("language", "told", "text"),
    [
        ("en", "they pass blood", "should i put drops in the water?"),
        ("fr", "ils font du sang", "et les gouttes dans l'eau?"),
        ("fr", "ils font du sang", "je mets des gouttes aux yeux?"),
        ("sw", "wanaharisha damu", "niweke matone kwenye maji?"),
        ("en", "they pass blood", "i gave drops in the drinkers"),
    ],
)
def test_drops_are_a_cure_and_are_for_the_vet_to_say(
    thinking: Thinking, language: str, told: str, text: str
) -> None:
    farm = Farm(20, 300, language=language, book=thinking.handbook)
    farm.text(told, thinking.reader)
    assert "no_cure" in keys(farm.text(text, thinking.reader))


@pytest.mark.parametrize(
    ("language", "told", "text"),
    [
        ("en", "8 died, others have swollen heads", "we carried the dead with bare hands"),
        ("fr", "8 morts, les autres ont la tete gonflee", "on a touche les morts"),
        ("fr", "8 morts, les autres ont la tete gonflee", "nous avons manipule les morts"),
        ("sw", "8 wamekufa, wengine wamevimba vichwa", "tumeshika waliokufa kwa mikono mitupu"),
        ("en", "8 died, others have swollen heads", "i handled the carcasses"),
    ],
)
def test_who_touched_the_dead_hears_of_washing_hands(
    thinking: Thinking, language: str, told: str, text: str
) -> None:
    farm = Farm(20, 300, language=language, book=thinking.handbook)
    farm.text(told, thinking.reader)
    assert "held_dead" in keys(farm.text(text, thinking.reader))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "en",
            "moved them yesterday, they climb on each other in one corner till some cannot be seen",
        ),
        ("sw", "wamejazana kona moja wanapandana juu ya juu hadi wengine hawaonekani"),
        ("sw", "wamerundikana usiku wengine hawaonekani chini yao"),
    ],
)
def test_chicks_hidden_in_a_heap_are_not_missing(
    thinking: Thinking, language: str, text: str
) -> None:
    farm = Farm(15, 300, house="open", hour=23, language=language, book=thinking.handbook)
    farm.text(text, thinking.reader)
    assert farm.complaint is not None
    assert "birds_missing" not in farm.complaint.signals
    farm.checked_back()
    better = farm.text("1", thinking.reader)
    assert better.why is not None
    assert better.why.cause != "predator"


@pytest.mark.parametrize(
    ("language", "text"), [("sw", "kuku watano hawaonekani asubuhi"), ("en", "5 birds are missing")]
)
def test_birds_that_are_gone_are_missing(thinking: Thinking, language: str, text: str) -> None:
    farm = Farm(15, 300, house="open", language=language, book=thinking.handbook)
    farm.text(text, thinking.reader)
    assert any("birds_missing" in str(one.values) for one in farm.batch.events) or (
        farm.complaint is not None and "birds_missing" in farm.complaint.signals
    )
