"""The plan by text: from a wish with a number, or a house, to floor, heat, feed, water and cash."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from bot.doors.cli.rehearse import rehearse_one
from bot.doors.rehearsal import Rehearsal

WISHES = {
    "en": ("I want 500 chicks in March", "9 march"),
    "fr": ("je veux 500 poussins en mars", "9 mars"),
    "sw": ("nataka vifaranga 500 mwezi wa tatu", "9 machi"),
}


def talk(rehearsal: Rehearsal, language: str, *texts: str) -> list[list[Mapping[str, Any]]]:
    """What each text of somebody without a batch was answered."""
    known = {"has_batch": False, "today": "2026-02-04"}
    given = {"id": 1, "lang": language, "context": known, "turns": [{"in": one} for one in texts]}
    return [turn["out"] for turn in rehearse_one(rehearsal, given)["turns"]]


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_a_wish_with_a_number_ends_in_the_plan_in_texts_of_one_part(
    rehearsal: Rehearsal, language: str
) -> None:
    *_, plan = talk(rehearsal, language, *WISHES[language], "1")
    assert [one["parts"] for one in plan] == [1] * 5
    room, heat, feed = (one["text"] for one in plan[1:4])
    # by hand: 500 / 40 a m2 + 5 trays, 10 founts, 2 stoves = 14.2, so 15; 500 / 10 + 2 = 52
    assert "15" in room
    assert "52" in room
    # one stove for 250; 52 m2 at 8 cm is 4.16 m3, 42 sacks of 0.1 m3
    assert "42" in heat
    # ROSS-PO-2019: 358, 1315 and 3029 g a bird of starter, grower and finisher, in bags of 50 kg
    for bags in (4, 14, 31):
        assert str(bags) in feed


def test_a_house_without_a_number_is_planned_for_what_it_holds(rehearsal: Rehearsal) -> None:
    asked, told = talk(rehearsal, "en", "plan for house 6x5 m in march", "9 march")
    assert (
        "30 m2 holds about 284 birds" in asked[0]["text"]
    )  # 284 / 10 + 5 tubes, 3 bells, 2 stoves
    assert "Plan: 284 chicks" in told[0]["text"]


def test_a_house_too_small_for_the_number_is_said(rehearsal: Rehearsal) -> None:
    first, *_ = talk(rehearsal, "en", "I want to keep 500 chicks in a house of 6x5 m")
    assert "holds only about 284" in first[0]["text"]


def test_a_plan_asked_for_again_is_told_again(rehearsal: Rehearsal) -> None:
    *_, again = talk(rehearsal, "en", *WISHES["en"], "3", "plan 500 chicks")
    assert len(again) == 5
    assert "bulbs of 250 W" in again[2]["text"]


def test_prices_told_once_stay_with_the_plan(rehearsal: Rehearsal) -> None:
    budget = "BUDGET 500 CHICK 100 FEED 3200"
    *_, again = talk(rehearsal, "en", *WISHES["en"], "1", budget, "plan 500 chicks")
    assert "before they come" in again[-1]["text"]


def test_no_price_is_invented(rehearsal: Rehearsal) -> None:
    *_, plan = talk(rehearsal, "en", *WISHES["en"], "1")
    assert plan[-1]["text"].endswith("BUDGET 500 CHICK 100 FEED 3200")


def test_an_order_of_next_week_is_still_asked_for_its_stoves(rehearsal: Rehearsal) -> None:
    *_, asked = talk(rehearsal, "en", "300 chicks friday", "1")
    assert [one["text"] for one in asked] == [
        "How many? Send how many charcoal stoves you have, like 2."
    ]


def test_a_step_is_answered_and_only_a_late_one_goes_to_the_adviser(rehearsal: Rehearsal) -> None:
    known = {"has_batch": True, "age_days": -29, "count": 300, "today": "2026-03-03"}
    turns = [{"wait": "1d"}, {"in": "2"}, {"wait": "3d"}, {"in": "1"}, {"wait": "21d"}, {"in": "2"}]
    given = {"id": 1, "lang": "en", "context": known, "turns": turns}
    out = [turn["out"] for turn in rehearse_one(rehearsal, given)["turns"]]
    assert "Order chicks" in out[0][-1]["text"]
    assert out[1][0]["text"] == "All right. I ask you again."
    assert "Order chicks" in out[2][-1]["text"]
    assert out[3][0]["text"] == "Good, that is done."
    assert "Old litter out" in out[4][-1]["text"]
    assert "Your adviser sees it is late" in out[5][0]["text"]


def test_a_planner_is_asked_for_a_thermometer_with_the_plan(rehearsal: Rehearsal) -> None:
    *_, plan, answered = talk(rehearsal, "en", *WISHES["en"], "1", "yes")
    assert "thermometer" in plan[0]["text"]
    assert "under the edge of the heat" in answered[0]["text"]
