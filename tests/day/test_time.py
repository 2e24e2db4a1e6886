"""Outages, clock jumps, daylight saving, placements that move."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.day.due import due, next_moment, said_until
from bot.day.walltime import moment
from tests.day.farms import NAIROBI, PLACED, Play, batch, calendar, case, local, play

PARIS = ZoneInfo("Europe/Paris")
PARISIAN = replace(NAIROBI, timezone="Europe/Paris")


def _day(age: int) -> date:
    return PLACED + timedelta(days=age)


def test_after_two_days_down_the_catch_up_is_that_days_text_once() -> None:
    mine = batch()
    told = Play(case(mine), mine, [], [])
    told.until(local(_day(2), 7), local(PLACED, 8))
    before = len(told.told)
    told.until(local(_day(4), 23), local(_day(4), 11))
    caught_up = told.told[before:]
    assert [(one.age, one.due.slot) for one in caught_up] == [(4, "morning"), (4, "night")]
    assert "Day 5." in caught_up[0].text
    assert "paper_off" in caught_up[0].rows


def test_what_was_missed_is_carried_only_while_it_is_not_stale() -> None:
    mine = batch()
    off = range(3, 6)
    told = Play(case(mine), mine, [], []).until(
        local(_day(12), 0),
        local(PLACED, 8),
        down=lambda now: (now.astimezone(NAIROBI.zone).date() - PLACED).days in off,
    )
    assert told.saying("paper_off") == []
    assert told.saying("mix_1") == [7]


def test_the_feed_change_begins_with_a_quarter_even_when_its_day_was_missed() -> None:
    mine = batch()
    told = Play(case(mine), mine, [], []).until(
        local(_day(14), 0),
        local(PLACED, 8),
        down=lambda now: now.astimezone(NAIROBI.zone).date() == _day(7),
    )
    assert [told.saying(f"mix_{step}") for step in (1, 2, 3)] == [[8], [9], [10]]


def test_after_eight_in_the_evening_the_catch_up_is_the_next_mornings() -> None:
    mine = batch(said=())
    told = Play(case(mine), mine, [], [])
    assert told.at(local(_day(3), 20, 1)) == ()
    assert next_moment(told.case, mine, calendar(), local(_day(3), 20, 1)) == local(_day(4), 6, 30)


def test_a_clock_that_jumps_back_an_hour_says_nothing_twice() -> None:
    mine = batch()
    told = Play(case(mine), mine, [], [])
    assert told.at(local(_day(3), 6, 30))
    assert told.at(local(_day(3), 6, 30)) == ()
    assert told.at(local(_day(3), 7, 30)) == ()


def test_a_clock_that_jumps_a_day_ahead_says_that_days_text() -> None:
    mine = batch()
    told = Play(case(mine), mine, [], [])
    told.at(local(_day(3), 6, 30))
    told.at(local(_day(4), 6, 31))
    assert [one.age for one in told.told] == [3, 4]


def test_a_local_time_that_does_not_exist_goes_at_the_next_that_does() -> None:
    # Europe/Paris, 29 March 2026: 02:00 becomes 03:00 at 01:00 UTC (EU summer-time rule).
    assert moment(date(2026, 3, 29), time(2, 30), PARIS) == datetime(2026, 3, 29, 1, tzinfo=UTC)
    assert moment(date(2026, 3, 29), time(3, 0), PARIS) == datetime(2026, 3, 29, 1, tzinfo=UTC)
    assert moment(date(2026, 3, 29), time(1, 59), PARIS) == datetime(2026, 3, 29, 0, 59, tzinfo=UTC)


def test_a_local_time_that_occurs_twice_is_taken_the_first_time() -> None:
    # 25 October 2026: 03:00 becomes 02:00 again at 01:00 UTC.
    assert moment(date(2026, 10, 25), time(2, 30), PARIS) == datetime(
        2026, 10, 25, 0, 30, tzinfo=UTC
    )


def test_texts_keep_to_the_wall_clock_over_both_changes() -> None:
    for placed in (date(2026, 3, 25), date(2026, 10, 20)):
        mine = batch(placed_on=placed, arrived_at=local(placed, 8, coop=PARISIAN))
        told = play(mine, 10, coop=PARISIAN)
        mornings = told.of_slot("morning")
        assert {f"{one.local:%H:%M}" for one in mornings} == {"06:30"}
        assert [one.age for one in mornings] == list(range(1, 10))


def test_a_night_hour_that_occurs_twice_is_sent_once() -> None:
    odd = replace(PARISIAN, routine_at=time(2, 30), allowed_from=time(0))
    placed = date(2026, 10, 20)
    told = play(batch(placed_on=placed, arrived_at=local(placed, 8, coop=odd)), 10, coop=odd)
    assert [one.age for one in told.of_slot("morning")] == list(range(1, 10))


def test_an_age_is_counted_in_local_days() -> None:
    # 31 March, 23:00 in Nairobi is still 31 March there, though 20:00 UTC.
    mine = batch(arrived_at=local(PLACED, 23))
    told = play(mine, 2)
    assert told.day(1).local.date() == _day(1)


def test_when_the_placement_moves_the_days_begin_again_and_nothing_old_counts() -> None:
    mine = play(batch(state="planned", arrived_at=None), 2).batch
    moved = replace(
        mine,
        state="running",
        placed_on=_day(2),
        arrived_at=local(_day(2), 9),
        placement_version=2,
        said=(),
    )
    told = Play(case(moved), moved, [], []).until(local(_day(5), 0), local(_day(2), 9))
    assert told.day(1).text.split(": ", 1)[1].startswith("Day 2.")
    assert told.saying("fire_first") == [0]


def test_a_newcomers_first_text_leaves_their_own_talk_an_hour() -> None:
    mine = batch(arrived_at=None, placed_on=_day(-3))
    new = case(mine, heard_at=local(PLACED, 10))
    assert due(new, mine, calendar(), local(PLACED, 10, 1)) == ()
    assert next_moment(new, mine, calendar(), local(PLACED, 10, 1)) == local(PLACED, 11)
    assert due(new, mine, calendar(), local(PLACED, 11)) != ()


def test_the_next_moment_always_lies_ahead_and_ends() -> None:
    mine = batch(said=())
    now: datetime | None = local(PLACED, 8)
    steps = 0
    while now is not None:
        later = next_moment(case(mine), mine, calendar(), now)
        assert later is None or later > now
        now, steps = later, steps + 1
    assert steps < 400


def test_a_rehearsal_can_begin_in_the_middle_of_a_life() -> None:
    mine = batch()
    now = local(_day(12), 9)
    said = said_until(case(mine), mine, calendar(), now)
    assert {one.row for one in said} >= {"paper_off", "mix_1", "widen_7", "harden"}
    assert max(one.on_date for one in said) == _day(12)
    begun = replace(mine, said=said)
    assert due(case(begun), begun, calendar(), now) == ()
    assert next_moment(case(begun), begun, calendar(), now) == local(_day(13), 6, 30)


def test_where_not_yet_moved_the_placement_to_tomorrow_nothing_more_is_pushed_that_morning() -> (
    None
):
    moved = batch(state="planned", arrived_at=None, placed_on=_day(1), placement_version=2)
    told = case(moved, heard_at=local(PLACED, 7))
    for hour in (8, 12, 17):
        assert not [one for one in due(told, moved, calendar(), local(PLACED, hour))
                    if one.slot == "morning"]  # fmt: skip
    [text] = due(told, moved, calendar(), local(_day(1), 6, 30))
    assert text.question is not None
    assert text.question.name == "arrived"
