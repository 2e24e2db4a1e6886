"""Costs: the month against its budget, results by season."""

from __future__ import annotations

from datetime import date

import pytest

from bot.cooperative.costs import Spending, a_batch, seasons
from bot.facts.farm import Batch
from bot.wiring import Thinking
from tests.ledger.records import PLACED, batch, event


@pytest.mark.parametrize(
    ("used", "budget", "pct", "passed"),
    [
        (10, None, None, None),
        (0, 100, 0, None),
        (49, 100, 49, None),
        (50, 100, 50, 50),
        (99, 100, 99, 80),
        (250, 200, 125, 100),
    ],
)
def test_marks_are_passed_at_a_half_four_fifths_and_all(
    used: int, budget: int | None, pct: int | None, passed: int | None
) -> None:
    found = Spending(used, budget)
    assert (found.pct, found.passed) == (pct, passed)


def farm(own: int, dead: int, placed: date = PLACED, owner: int | None = None) -> Batch:
    events = (event(1, "deaths", 2, n=dead), event(2, "sold", 40, n=100 - dead))
    made = batch(*events)
    return Batch(own, "closed", 100, placed, events=made.events, owner_id=owner or own)


def test_quartiles_are_those_of_the_farms_and_one_farm_has_one_voice(thinking: Thinking) -> None:
    # Livability 99, 98, 97, 96, 95 %: quartiles 96, 97, 98 (inclusive method, as spreadsheets do).
    own = [farm(at, at) for at in range(1, 6)]
    own.append(farm(6, 90, owner=1))
    own.append(farm(7, 1, owner=1))  # the last one of that farm counts
    found = seasons(own, thinking.handbook.husbandry)
    assert len(found) == 1
    spread = next(one for one in found[0].spreads if one.name == "livability_pct")
    assert (found[0].farms, spread.low, spread.middle, spread.high) == (5, 96, 97, 98)


def test_a_season_is_the_quarter_of_placement_and_the_newest_comes_first(
    thinking: Thinking,
) -> None:
    days = (date(2025, 12, 31), date(2026, 1, 1), date(2026, 3, 31), date(2026, 4, 1))
    found = seasons([farm(at, 1, day) for at, day in enumerate(days, 1)],
                    thinking.handbook.husbandry)  # fmt: skip
    assert [(one.year, one.quarter, one.farms) for one in found] == [
        (2026, 2, 1), (2026, 1, 2), (2025, 4, 1)
    ]  # fmt: skip
    assert all(not one.spreads for one in found)


def test_a_batch_costs_the_middle_of_those_that_ended() -> None:
    assert (a_batch([30, 90, 60]), a_batch([])) == (60.0, None)
