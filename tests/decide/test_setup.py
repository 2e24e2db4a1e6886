"""What a farmer has and pays, told unasked: it is kept, said back, and used from then on."""

from __future__ import annotations

import pytest

from bot.doors.context import read_context
from bot.doors.rehearsal import Rehearsal
from bot.doors.scene import set_the_scene
from tests.decide.scene import at_age, keys


@pytest.mark.parametrize(
    ("language", "text"), [("en", "i use gas"), ("fr", "j'utilise le gaz"), ("sw", "natumia gesi")]
)
def test_another_heat_is_kept_and_counted(rehearsal: Rehearsal, language: str, text: str) -> None:
    at_age(rehearsal, 5, language=language)
    assert keys(rehearsal, text) == ["heat_is", "heat_count"]
    rehearsal.say("2")
    batch = rehearsal.case().batch
    assert batch is not None
    assert (batch.heat, batch.heat_count) == (("gas",), 2)


def test_the_same_heat_asks_for_nothing_that_is_known(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 5)
    rehearsal.say("we use 3 bulbs")
    assert keys(rehearsal, "i am using bulbs") == ["heat_is", ""]


def test_grown_birds_need_no_count_of_stoves(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 30)
    assert keys(rehearsal, "i use gas") == ["heat_is", ""]


@pytest.mark.parametrize(
    ("text", "key", "has"),
    [
        ("i have no thermometer", "thermometer_no", False),
        ("i bought a thermometer", "thermometer_yes", True),
    ],
)
def test_a_thermometer_or_none_is_known(
    rehearsal: Rehearsal, text: str, key: str, *, has: bool
) -> None:
    at_age(rehearsal, 5)
    assert keys(rehearsal, text) == [key, ""]
    batch = rehearsal.case().batch
    assert batch is not None
    assert batch.thermometer is has


@pytest.mark.parametrize(
    ("language", "text", "words"),
    [
        ("en", "feed is 3200 a bag", "a bag of feed 3200"),
        ("fr", "le sac d'aliment coute 3200", "le sac d'aliment 3200"),
        ("sw", "gunia la chakula ni 3200", "gunia la chakula 3200"),
    ],
)
def test_a_price_of_feed_is_kept_and_is_no_expense(
    rehearsal: Rehearsal, language: str, text: str, words: str
) -> None:
    at_age(rehearsal, 20, language=language)
    taken, _ = rehearsal.say(text)
    assert words in " ".join(taken.texts)
    batch = rehearsal.case().batch
    assert batch is not None
    assert [one.values["amount"] for one in batch.live_events("price")] == [3200.0]
    assert not batch.live_events("expense")


@pytest.mark.parametrize("text", ["i use gas", "i have no thermometer", "feed is 3200 a bag"])
def test_without_a_batch_nothing_is_kept(rehearsal: Rehearsal, text: str) -> None:
    known = {"has_batch": False, "today": "2026-03-04"}
    set_the_scene(rehearsal, read_context("en", known))
    assert not {"heat_is", "thermometer_no", "noted"}.intersection(keys(rehearsal, text))
