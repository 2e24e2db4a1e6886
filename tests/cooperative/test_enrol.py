"""A list, tried: what becomes of each row."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bot.cooperative.columns import Entry
from bot.cooperative.enrol import (
    House,
    Known,
    Outcome,
    People,
    as_json,
    check,
    counted,
    dry_run,
    from_json,
    seal,
    texts_of,
)

HOUSE = House(
    "KE",
    {"english": "en", "swahili": "sw", "kiswahili": "sw", "sw": "sw"},
    "English, Kiswahili",
    lambda number: number.startswith("+254"),
)
AMINA = Known(1, "+254700000001", "active", 11, "Amina", "M1", "sw", "Kilima")
JUMA = Known(2, "+254700000002", "invited", 12, "Juma", "M2", "sw", None)
STOPPED = Known(3, "+254700000003", "stopped", 13, "Neema", None, "sw", None)
NOBODY = Known(4, "+254700000004", "invited", None)
PEOPLE = People((AMINA, JUMA, STOPPED, NOBODY), frozenset({"+254700000005"}))


def tried(*entries: Entry) -> list[Outcome]:
    return dry_run(check(entries, HOUSE), PEOPLE)


def one(**cells: str) -> Outcome:
    return tried(replace(Entry(2), **cells))[0]  # type: ignore[arg-type]


def test_an_unknown_phone_is_new() -> None:
    found = one(phone="0700000009", name="Ouma", member="m9", language="Kiswahili", place="Mto")
    assert found.status == "new"
    assert found.farm is not None
    assert (found.farm.number, found.farm.member, found.farm.language) == (
        "+254700000009", "M9", "sw",
    )  # fmt: skip


def test_what_is_known_already_is_as_before() -> None:
    assert one(phone="0700000001", name="Amina", member="M1", place="Kilima").status == "same"
    assert one(phone="0700000001").status == "same"


def test_what_the_list_says_otherwise_is_changed_and_shown() -> None:
    found = one(phone="0700000001", name="Amina W.", member="m1")
    assert found.status == "changed"
    assert [(it.column, it.before, it.after) for it in found.changes] == [
        ("name", "Amina", "Amina W.")
    ]


def test_the_language_of_a_farmer_who_joined_is_their_own() -> None:
    assert one(phone="0700000001", language="English").status == "same"
    assert one(phone="0700000002", language="English").status == "changed"


def test_who_never_agreed_may_get_another_phone_by_the_member_number() -> None:
    found = one(phone="0700000009", member="M2")
    assert found.status == "changed"
    assert [it.column for it in found.changes] == ["phone"]
    assert texts_of([found]) == 1


@pytest.mark.parametrize(
    ("cells", "why"),
    [
        ({"phone": "0700000009", "member": "M1"}, "member_elsewhere"),
        ({"phone": "0700000002", "member": "M1"}, "member_elsewhere"),
        ({"phone": "0700000003"}, "phone_stopped"),
        ({"phone": "0700000004"}, "phone_asked"),
        ({"phone": "0700000005"}, "phone_shut"),
        ({"phone": "+255700000001"}, "phone_abroad"),
        ({"phone": "0700000009", "name": "x" * 41}, "name_long"),
        ({"phone": "0700000009", "name": "0700"}, "name_no_letters"),
        ({"phone": "0700000009", "member": "x" * 21}, "member_long"),
        ({"phone": "0700000009", "member": "2026-03-04T00:00:00"}, "made_a_date"),
        ({"phone": "0700000009", "place": "2026-03-04"}, "made_a_date"),
        ({"phone": "0700000009", "member": "1.5"}, "member_fraction"),
        ({"phone": "0700000009", "place": "x" * 41}, "place_long"),
        ({"phone": "0700000009", "language": "Latin"}, "language_unknown"),
        ({"phone": "700000009"}, "phone_zero"),
        ({"name": "Amina"}, "phone_none"),
    ],
)
def test_a_wrong_row_says_why(cells: dict[str, str], why: str) -> None:
    found = one(**cells)
    assert (found.status, [it.key for it in found.why]) == ("wrong", [why])


def test_all_that_is_wrong_with_a_row_is_said_at_once() -> None:
    found = one(phone="12", name="x" * 41, language="Latin")
    assert [it.key for it in found.why] == ["phone_length", "name_long", "language_unknown"]


def test_the_first_of_two_rows_counts_and_the_second_names_it() -> None:
    found = tried(
        Entry(2, phone="0700000009", member="M9"),
        Entry(3, phone="+254 700 000 009"),
        Entry(4, phone="0700000008", member="m9"),
        Entry(5, phone="700000009"),
    )
    assert [it.status for it in found] == ["new", "double", "double", "wrong"]
    assert [dict(it.why[0].values).get("row") for it in found[1:3]] == ["2", "2"]


def test_a_member_number_that_lost_its_zeros_is_the_same_member() -> None:
    found = tried(
        Entry(2, phone="0700000009", member="0007"), Entry(3, phone="0700000008", member="7")
    )
    assert [it.status for it in found] == ["new", "double"]


def test_every_status_is_counted_even_where_there_is_none() -> None:
    found = counted(tried(Entry(2, phone="0700000009")))
    assert found == {"wrong": 0, "double": 0, "new": 1, "changed": 0, "same": 0}


def test_outcomes_come_back_from_json_as_they_were() -> None:
    found = tried(
        Entry(2, phone="0700000009"),
        Entry(3, phone="0700000009"),
        Entry(4, phone="0700000002", name="J."),
        Entry(5),
    )
    assert from_json(as_json(found)) == found


def test_a_seal_fits_one_list_of_one_cooperative_with_these_outcomes() -> None:
    first, other = tried(Entry(2, phone="0700000009")), tried(Entry(2, phone="0700000008"))
    made = seal(b"key", 1, "file", first)
    assert made == seal(b"key", 1, "file", tried(Entry(2, phone="0700000009")))
    others = {
        seal(b"other", 1, "file", first),
        seal(b"key", 2, "file", first),
        seal(b"key", 1, "another", first),
        seal(b"key", 1, "file", other),
    }
    assert made not in others
    assert len(others) == 4
