"""How a form of rules is read, and who may approve it."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.cooperative.rules import (
    GROUPS,
    MONTHS,
    Asking,
    fields_of,
    may_approve,
    read,
    values_of,
    with_values,
)
from bot.facts.farm import Cooperative, VaccineDay
from bot.facts.limits import Limits

TODAY = date(2026, 3, 10)
COOP = Cooperative(
    1, "Mkulima", "Africa/Nairobi", "KE", "sw", vet_number="+254700000099",
    quiet=("friday 12:00-13:30", "12:30-13:00", "2026-12-25 06:00-20:00"),
    normals=((27.5, 13.0),) * MONTHS, prices={"chick": 100.0, "kg": 250.5, "part": 0.85},
    budget=5000, programme=(VaccineDay(8, "Gumboro, in water", "Dr. Asha", date(2026, 3, 1)),),
    second_from=20, limits={"answers_day": 25},
)  # fmt: skip


def asking(coop: Cooperative = COOP) -> Asking:
    return Asking(coop, Limits(), ("en", "fr", "sw"), TODAY)


def faults(group: str, **changes: str) -> set[tuple[str, str]]:
    fields = {**fields_of(group, values_of(group, COOP)), **changes}
    return {(one.field, one.said.key) for one in read(group, fields, asking())[1]}


@pytest.mark.parametrize("group", GROUPS)
def test_a_form_that_is_sent_as_it_was_filled_in_changes_nothing(group: str) -> None:
    values, wrong = read(group, fields_of(group, values_of(group, COOP)), asking())
    assert not wrong
    assert values == values_of(group, COOP)
    assert with_values(COOP, group, values) == COOP


def test_what_is_typed_as_people_type_it_is_understood() -> None:
    typed = {"name": "Kuku  Bora", "language": "fr", "vet_number": "00254 700-000 088",
             "authority_number": "0700 000 077"}  # fmt: skip
    values, wrong = read("names", typed, asking())
    assert not wrong
    assert values == {"name": "Kuku Bora", "language": "fr", "vet_number": "+254700000088",
                      "authority_number": "+254700000077"}  # fmt: skip
    hours = {"allowed_from": "6:00", "allowed_to": "20h00", "routine_at": "0630",
             "night_at": "17.30"}  # fmt: skip
    assert read("hours", hours, asking())[0]["allowed_to"] == "20:00"
    prices, _ = read("prices", {"chick": "1 200,50"}, asking())
    assert prices == {"prices": {"chick": 1200.5}}
    accents = {"day_0": "9", "words_0": "Gumboro, à l’eau", "vet": "Dr. Asha"}
    rows, _ = read("vaccines", accents, asking())
    assert rows["programme"] == [[8, "Gumboro, a l'eau", "Dr. Asha", "2026-03-10"]]


def test_a_row_of_the_programme_keeps_its_vet_until_it_is_changed() -> None:
    fields = {**fields_of("vaccines", values_of("vaccines", COOP)), "vet": "Dr. Juma",
              "day_1": "15", "words_1": "Newcastle, eye", "on": "2026-03-09"}  # fmt: skip
    values, wrong = read("vaccines", fields, asking())
    assert not wrong
    assert [row[2:] for row in values["programme"]] == [
        ["Dr. Asha", "2026-03-01"],
        ["Dr. Juma", "2026-03-09"],
    ]
    moved, _ = read("vaccines", {**fields, "day_0": "10"}, asking())
    assert moved["programme"][0] == [9, "Gumboro, in water", "Dr. Juma", "2026-03-09"]


def test_the_hours_leave_room_for_both_texts_of_a_day() -> None:
    assert faults("hours") == set()
    assert faults("hours", allowed_from="08:00") == {("routine_at", "routine")}
    assert faults("hours", allowed_to="17:00") == {("night_at", "night")}
    assert faults("hours", allowed_from="04:30") == {("allowed_from", "allowed")}
    whole_day = {"quiet_on_0": "", "quiet_from_0": "06:00", "quiet_to_0": "20:00"}
    assert faults("hours", **whole_day) == {("quiet_from_0", "quiet_long")}
    one_friday = {**whole_day, "quiet_on_0": "friday"}
    assert faults("hours", **one_friday) == set()


@settings(deadline=None)
@given(st.dictionaries(
    st.sampled_from(["name", "vet_number", "region", "timezone", "allowed_from", "night_at",
                     "quiet_from_0", "quiet_to_0", "quiet_on_0", "day_0", "words_0", "vet", "on",
                     "warm_1", "cold_1", "chick", "budget", "part", "second_from"]),
    st.text(max_size=30),
))  # fmt: skip
def test_whatever_is_typed_is_read_or_refused_and_never_breaks(typed: dict[str, str]) -> None:
    for group in GROUPS:
        values, wrong = read(group, typed, asking())
        if not wrong:
            later = with_values(COOP, group, values)
            assert values_of(group, later) == values
            assert len(later.name) <= 11
            assert later.allowed_from < later.allowed_to


def test_two_look_at_a_change_while_there_are_two() -> None:
    assert not may_approve(7, 7, 2)
    assert may_approve(7, 8, 2)
    assert may_approve(7, 7, 1)
    assert may_approve(None, 7, 2)


def test_own_limits_never_reach_beyond_the_services() -> None:
    house = Limits(answers_day=20, answers_hour=9)
    assert COOP.within(house) == house
    assert COOP.within(Limits()).answers_day == 25
