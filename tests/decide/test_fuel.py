"""Fuel told in kilograms: taken down as fuel and never as feed, for the night that it burnt."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import at_age

TODAY = date(2026, 3, 4)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "4 kg charcoal"),
        ("en", "used 4 kg charcoal last night"),
        ("en", "burnt 4 kg of charcoal"),
        ("sw", "mkaa kilo 4"),
        ("sw", "jana usiku kilo 4 za mkaa"),
        ("fr", "charbon 4 kg"),
        ("fr", "4 kg de charbon cette nuit"),
    ],
)
def test_fuel_is_noted_for_last_night_and_no_feed_is(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 4, language=language)
    rehearsal.say(text)
    batch = rehearsal.case().batches[0]
    (fuel,) = batch.live_events("fuel")
    assert (fuel.on_date, fuel.values["kg"]) == (TODAY - timedelta(days=1), 4.0)
    assert batch.live_events("feed_eaten") == ()


def test_fuel_told_in_the_evening_is_tonight_s(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 4)
    rehearsal.wait(timedelta(hours=9))
    rehearsal.say("4 kg charcoal")
    assert rehearsal.case().batches[0].live_events("fuel")[0].on_date == TODAY


def test_feed_and_fuel_in_one_text_are_kept_apart(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 4)
    rehearsal.say("ate 9 kg feed and burnt 4 kg charcoal")
    batch = rehearsal.case().batches[0]
    assert [one.values["kg"] for one in batch.live_events("feed_eaten")] == [9.0]
    assert [one.values["kg"] for one in batch.live_events("fuel")] == [4.0]


def test_fuel_bought_is_money_spent_and_no_feed_bought(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 4)
    rehearsal.say("bought 25 kg charcoal for 1500")
    batch = rehearsal.case().batches[0]
    assert [one.values["amount"] for one in batch.live_events("expense")] == [1500.0]
    assert [one.values["kg"] for one in batch.live_events("fuel_in")] == [25.0]
    assert batch.live_events("feed_in") == ()


def test_fuel_bought_without_its_kilos_is_asked_for_them_once(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 4)
    taken, _ = rehearsal.say("bought charcoal 3 sacks 4500")
    assert "4500 for heat" in taken.texts[0]
    assert "How many kilos of fuel" in taken.texts[0]
    rehearsal.say("50")
    batch = rehearsal.case().batches[0]
    assert [one.values["amount"] for one in batch.live_events("expense")] == [4500.0]
    assert [one.values["kg"] for one in batch.live_events("fuel_in")] == [50.0]


def test_fuel_bought_before_they_come_is_kept(rehearsal: Rehearsal) -> None:
    rehearsal.begin(datetime(2026, 3, 4, 9, tzinfo=UTC))
    rehearsal.say("300 chicks on 20 march")
    rehearsal.say("charcoal")
    rehearsal.say("bought 50 kg charcoal for 3000")
    assert len(rehearsal.case().batches[0].live_events("fuel_in")) == 1


def test_a_bag_of_charcoal_is_asked_for_in_kilograms(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 4)
    taken, _ = rehearsal.say("1 bag of charcoal last night")
    assert "charcoal 4 kg" in taken.texts[0]
