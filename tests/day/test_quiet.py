"""When a text may go: the operator's hours, and the quiet intervals that a cooperative adds."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from bot.day.quiet import opens, read_intervals
from bot.errors import SettingsError
from bot.settings import read_settings
from tests.day.farms import NAIROBI

WRITTEN = ("12:30-13:30", "friday 12:00-14:00", "2026-12-25 06:00-20:00")
COOPERATIVE = replace(NAIROBI, quiet=WRITTEN)


def _goes(at: str, klass: str = "routine") -> str:
    """The local moment at which a text of that moment goes."""
    local = datetime.fromisoformat(at).replace(tzinfo=NAIROBI.zone)
    return f"{opens(COOPERATIVE, local, klass).astimezone(NAIROBI.zone):%Y-%m-%d %H:%M}"


@pytest.mark.parametrize(
    ("at", "goes"),
    [
        ("2026-03-04 12:29", "2026-03-04 12:29"),
        ("2026-03-04 12:30", "2026-03-04 13:30"),  # a Wednesday
        ("2026-03-04 13:30", "2026-03-04 13:30"),
        ("2026-03-06 12:10", "2026-03-06 14:00"),  # a Friday
        ("2026-03-06 13:20", "2026-03-06 14:00"),
        ("2026-12-25 07:00", "2026-12-25 20:00"),
        ("2026-12-26 07:00", "2026-12-26 07:00"),
    ],
)
def test_a_text_waits_for_the_end_of_a_quiet_interval(at: str, goes: str) -> None:
    assert _goes(at) == goes


@pytest.mark.parametrize("klass", ["danger", "reply"])
def test_danger_and_answers_wait_for_nothing(klass: str) -> None:
    assert _goes("2026-12-25 12:45", klass) == "2026-12-25 12:45"


def test_what_nobody_planned_keeps_to_the_operators_hours_as_well() -> None:
    assert _goes("2026-03-04 21:00", "system") == "2026-03-05 06:00"
    assert _goes("2026-12-24 21:00", "system") == "2026-12-26 06:00"


@pytest.mark.parametrize(
    "written", ["noon", "12:00", "13:30-12:30", "someday 12:00-13:00", "12:00-13:00 friday x"]
)
def test_an_interval_that_is_none_is_refused_at_start(written: str) -> None:
    with pytest.raises(ValueError, match="quiet interval"):
        read_intervals([written])
    with pytest.raises(SettingsError, match="BROODPOST_QUIET"):
        read_settings({"BROODPOST_UNSIGNED": "1", "BROODPOST_QUIET": written})
