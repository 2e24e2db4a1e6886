"""The calendar's content: read strictly, its meetings rehearsed, every row of practice in it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from bot.day.meetings import meetings, unrehearsed
from bot.errors import HandbookError
from bot.handbook.calendar import load_calendar, load_meetings
from bot.handbook.husbandry import load_husbandry
from tests.day.farms import CONTENT, batch, calendar, play, rows, texts

Change = Callable[[str], str]


def _load_with(tmp_path: Path, file: str, change: Change) -> None:
    folder = tmp_path / "content"
    shutil.copytree(CONTENT / "calendar", folder / "calendar")
    shutil.copytree(CONTENT / "husbandry", folder / "husbandry")
    shutil.copy(CONTENT / "sources.yaml", folder)
    path = folder / "calendar" / file
    before = path.read_text()
    after = change(before)
    assert before != after
    path.write_text(after)
    load_calendar(folder, load_husbandry(folder), texts())


@pytest.mark.parametrize(
    ("file", "change", "key"),
    [
        ("brooding.yaml", lambda s: s.replace("  {from: 3, expires: 5, slot: morning, priority: 4",
                                              "  {fom: 3, expires: 5, slot: morning, priority: 4"),
         "ring_open.from"),
        ("brooding.yaml", lambda s: s + "odd: {from: 1, slot: noon, priority: 1}\n", "odd"),
        ("brooding.yaml", lambda s: s.replace("{from: 14, expires: 15", "{from: 14, expires: 13"),
         "same_things.expires"),
        ("brooding.yaml", lambda s: s.replace("after: mix_3", "after: mix_9"), "mix_all"),
        ("brooding.yaml", lambda s: s.replace("source: [from-memory]", "source: [hearsay]"),
         "grower_feed.source"),
        ("brooding.yaml", lambda s: s.replace("text: widen,", "text: widne,"), "widen_7.text"),
        ("growing.yaml", lambda s: s + "paper_off: {from: 1, slot: morning, priority: 1}\n",
         "paper_off"),
        ("questions.yaml", lambda s: s.replace("options: [warm, cool, cold]", "options: []"),
         "questions.nights.options"),
        ("night.yaml", lambda s: s.replace("nights: [cold]", "nights: [icy]"),
         "night_cold.when.nights"),
    ],
)  # fmt: skip
def test_a_slip_in_the_calendar_is_refused_and_named(
    tmp_path: Path, file: str, change: Change, key: str
) -> None:
    with pytest.raises(HandbookError) as refused:
        _load_with(tmp_path, file, change)
    assert key in str(refused.value)


def test_every_day_on_which_two_essentials_meet_is_rehearsed() -> None:
    assert unrehearsed(calendar(), load_meetings(CONTENT)) == ()


def test_a_new_meeting_of_essentials_is_noticed() -> None:
    listed = load_meetings(CONTENT)
    turned = replace(rows()["turn_litter"], essential=True)
    at = calendar().rows["morning"]
    changed = {
        age: tuple(turned if row.id == turned.id else row for row in found)
        for age, found in at.items()
    }
    busier = replace(calendar(), rows={**calendar().rows, "morning": changed})
    assert unrehearsed(busier, listed)


def test_what_does_not_fit_beside_the_first_essential_comes_next_morning_at_the_latest() -> None:
    for kind, met in meetings(calendar()).items():
        assert met, kind
    told = play(batch())
    assert told.saying("widen_14") == [15]
    assert told.saying("widen_21") == [22]


def test_every_recurring_duty_of_the_trade_is_said_within_a_batch() -> None:
    told = play(batch(nights="warm", feathered=True))
    said = {row for one in told.told for row in one.rows}
    duties = {
        "wash_drinkers", "dead_first", "turn_litter", "wet_out", "hands", "foot_bath", "carcass",
        "sick_last", "boots", "visitors", "cull_kindly", "lift_drinkers", "count_living",
        "feed_amount", "water_amount", "hot_peace", "hot_water", "curtains_open", "density",
        "find_buyer", "no_sick_sale", "feed_off", "catch_calm", "plan_cleaning", "corners",
    }  # fmt: skip
    assert duties <= said, duties - said


def test_every_row_names_a_source_and_every_text_its_room() -> None:
    for row in calendar().all_rows:
        assert row.source
        assert row.size <= 160
