"""A batch that is sold is closed in words, and the empty days after it are told, in each
language."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from bot.doors.cli.rehearse import rehearse_one
from bot.doors.rehearsal import Rehearsal


def talk(rehearsal: Rehearsal, language: str, *turns: str) -> list[list[Mapping[str, Any]]]:
    """What came at each turn of a batch of 300 at 38 days; +2d waits."""
    known = {"has_batch": True, "age_days": 38, "count": 300, "today": "2026-02-04"}
    given = [{"wait": one[1:]} if one.startswith("+") else {"in": one} for one in turns]
    line = {"id": 1, "lang": language, "context": known, "turns": given}
    return [turn["out"] for turn in rehearse_one(rehearsal, line)["turns"]]


def texts(out: list[Mapping[str, Any]]) -> list[str]:
    assert [one["parts"] for one in out] == [1] * len(out)
    return [str(one["text"]) for one in out]


def test_the_last_sale_brings_the_closing_with_the_figures_of_the_record(
    rehearsal: Rehearsal,
) -> None:
    told = ("bought 1128 kg feed", "spent 65000 on feed", "10 birds 20 kg")
    *_, out = talk(rehearsal, "en", *told, "2 dead", "sold 298 at 600")
    result, money, change = texts(out)[1:]
    assert "298 sold of 300, 99 of 100 lived" in result
    # by hand: 1128 kg of feed over 298 birds of some 2 kg is 1.89
    assert "1.88 kg feed a kilo" in result
    assert "Spent 65000, came in 179000: 114000 over" in money
    assert change.startswith("Next time: 1 ")


@pytest.mark.parametrize(
    ("language", "sold"),
    [("en", "sold 300 at 700"), ("fr", "vendu 300 a 2500"), ("sw", "nimeuza 300 bei 700")],
)
def test_the_empty_days_are_told_after_two_five_and_fourteen(
    rehearsal: Rehearsal, language: str, sold: str
) -> None:
    _, out = talk(rehearsal, language, sold, "+20d")
    assert [one["at"][:10] for one in out] == ["2026-02-06", "2026-02-09", "2026-02-18"]
    texts(out)


def test_who_has_planned_the_next_batch_is_not_asked_for_it(rehearsal: Rehearsal) -> None:
    *_, out = talk(rehearsal, "en", "sold 300 at 700", "+10d", "300 chicks 20 april", "1", "+6d")
    assert not [one for one in texts(out) if "14 empty days are over" in one]


def test_a_batch_that_runs_again_is_not_told_of_empty_days(rehearsal: Rehearsal) -> None:
    *_, out = talk(rehearsal, "en", "sold 300 at 700", "undo", "+3d")
    assert not [one for one in texts(out) if "litter out and far away" in one]


def test_stop_ends_the_texts_of_the_empty_house_too(rehearsal: Rehearsal) -> None:
    *_, out = talk(rehearsal, "en", "sold 300 at 700", "stop", "+20d")
    assert out == []
