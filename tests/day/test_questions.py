"""One question at a time, asked only now and then; check-backs, silence, two batches on a phone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import pairwise

import pytest

from bot.day.due import due, next_moment
from bot.facts.farm import Complaint, OpenQuestion
from bot.facts.writes import ChangeComplaint
from tests.day.farms import PLACED, Play, batch, calendar, case, event, local, play


def _day(age: int) -> date:
    return PLACED + timedelta(days=age)


def _complaint(check_at: datetime, **changes: object) -> Complaint:
    known = Complaint(7, 1, "hot", local(_day(4), 8), ("panting",), check_at=check_at)
    return replace(known, **changes)  # type: ignore[arg-type]  # names and types of Complaint


def test_in_the_first_week_no_two_days_pass_without_a_question() -> None:
    told = play(batch())
    asked = {one.age for one in told.told if one.question and one.age <= 7}
    for age in range(7):
        assert asked & {age, age + 1}


def test_later_a_week_has_two_or_three_questions() -> None:
    told = play(batch())
    for week in range(1, 6):
        asked = {one.age for one in told.told if one.question and one.age // 7 == week}
        assert 2 <= len(asked) <= 4, f"week {week}: {sorted(asked)}"


def test_the_standing_menu_keeps_its_digits() -> None:
    menu = next(
        one.question
        for one in play(batch()).told
        if one.question is not None and one.question.name == "behaviour"
    )
    assert menu.options == (
        "spread_evenly",
        "piled_near_heat",
        "away_from_heat",
        "crowded_one_side",
        "at_edges_or_walls",
    )


def test_call_me_and_not_me_are_printed_with_the_first_menu_and_then_weekly() -> None:
    told = play(batch())
    menus = [one.age for one in told.told if one.question and one.question.kind == "menu"]
    printed = told.saying("menu_help")
    assert printed[0] == menus[0]
    assert all(later - sooner >= 7 for sooner, later in pairwise(printed))


def test_a_number_question_ends_at_the_birds_alive() -> None:
    told = play(batch(events=(event("deaths", PLACED, n=4),)), 3)
    deaths = next(
        one.question for one in told.told if one.question and one.question.name == "deaths"
    )
    assert deaths.high == 296


def test_a_routine_question_does_not_cut_off_the_farmers_own_talk() -> None:
    mine = batch()
    talk = OpenQuestion(1, "heat", "menu", "heat", local(_day(1), 6, 0))
    talking = replace(case(mine), question=talk)
    [text] = due(talking, mine, calendar(), local(_day(1), 6, 30))
    assert text.question is None
    later = replace(talking, question=replace(talk, asked_at=local(_day(1), 1)))
    [text] = due(later, mine, calendar(), local(_day(1), 6, 30))
    assert text.question is not None


def test_a_check_back_comes_at_its_hour_and_is_noted() -> None:
    mine = batch(complaint=_complaint(local(_day(4), 10)))
    [check] = due(case(mine), mine, calendar(), local(_day(4), 10, 0))[1:] or due(
        case(mine), mine, calendar(), local(_day(4), 10, 0)
    )
    assert check.question is not None
    assert check.question.name == "check_back"
    assert ChangeComplaint(7, {"check_at": None, "checks": 1}) in check.writes


def test_the_next_moment_knows_the_check_back() -> None:
    mine = batch(complaint=_complaint(local(_day(4), 10)))
    assert next_moment(case(mine), mine, calendar(), local(_day(4), 9)) == local(_day(4), 10)


def test_a_check_back_of_the_night_takes_the_place_of_the_mornings_question() -> None:
    mine = batch(complaint=_complaint(local(_day(5), 2)))
    assert due(case(mine), mine, calendar(), local(_day(5), 2)) == ()
    [text] = due(case(mine), mine, calendar(), local(_day(5), 6, 30))
    assert text.slot == "morning"
    assert text.question is not None
    assert text.question.name == "check_back"
    assert any(isinstance(one, ChangeComplaint) for one in text.writes)


@pytest.mark.parametrize(("house", "day"), [("open", 15), ("brooder", 5)])
def test_a_heap_is_looked_at_in_the_night_too(house: str, day: int) -> None:
    heap = _complaint(local(_day(day), 2), cause="cold", signals=("piled_near_heat",))
    mine = batch(house=house, complaint=heap)
    [check] = due(case(mine), mine, calendar(), local(_day(day), 2))
    assert check.klass == "danger"


def test_an_open_complaint_delays_the_routine_question() -> None:
    mine = batch(complaint=_complaint(local(_day(1), 9)))
    [text] = due(case(mine), mine, calendar(), local(_day(1), 6, 30))
    assert text.question is None


def test_two_silent_days_in_the_first_week_are_told_to_the_adviser_once() -> None:
    told = play(batch(), 8)
    assert [(age, one.kind) for age, one in told.noted] == [(3, "silent")]


def test_a_farmer_who_writes_is_not_called_silent() -> None:
    events = tuple(event("deaths", _day(age), n=0) for age in range(0, 30, 2))
    assert play(batch(events=events), 28).noted == []


def test_days_on_which_we_could_not_write_are_no_silence() -> None:
    mine = batch()
    told = Play(case(mine), mine, [], [])
    for age in (1, 6):
        told.at(local(_day(age), 6, 30))
    assert told.noted == []


def test_later_five_silent_days_bring_one_kind_line_and_one_note() -> None:
    told = play(batch(events=(event("deaths", _day(20), n=0),)), 40)
    late = [age for age, _ in told.noted if age > 20]
    assert late == [26]
    assert [age for age in told.saying("heard_nothing") if age > 20] == [26]


def test_of_two_batches_on_one_phone_the_younger_asks_and_each_is_named() -> None:
    older = batch(id=1, name="Amina", placed_on=_day(-9), arrived_at=local(_day(-9), 8))
    younger = batch(id=2, name="Juma")
    both = case(older, younger)
    first, second = Play(both, older, [], []), Play(both, younger, [], [])
    for age in range(1, 12):
        now = local(_day(age), 6, 30)
        first.case = replace(first.case, batches=(first.batch, second.batch))
        first.at(now)
        second.case = replace(second.case, batches=(first.batch, second.batch))
        second.at(now)
    asked = [{one.local.date() for one in of.told if one.question} for of in (first, second)]
    assert asked[0]
    assert asked[1]
    assert not asked[0] & asked[1]
    assert all("Amina:" in one.text for one in first.told)
    assert all("Juma:" in one.text for one in second.told)


def test_a_single_batch_is_not_named() -> None:
    assert not any("Amina" in one.text for one in play(batch(name="Amina"), 10).told)


def test_a_check_back_of_the_night_waits_for_the_morning_text_even_after_five() -> None:
    mine = batch(complaint=_complaint(local(_day(5), 2)))
    assert due(case(mine), mine, calendar(), local(_day(5), 5, 30)) == ()


def test_a_short_row_with_a_fire_clause_leaves_the_question_out_too() -> None:
    mine = batch()
    now = local(_day(7), 6, 30)
    [plain] = due(case(mine), mine, calendar(), now)
    assert plain.question is not None
    at_seven = calendar().rows["morning"][7]
    burning = tuple(replace(row, fire=row.id == "widen_7") for row in at_seven)
    changed = {**calendar().rows["morning"], 7: burning}
    fiery = replace(calendar(), rows={**calendar().rows, "morning": changed})
    [text] = due(case(mine), mine, fiery, now)
    assert text.question is None
