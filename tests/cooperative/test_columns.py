"""Columns of a list: found by their words, in any order and language."""

from __future__ import annotations

from itertools import permutations

import pytest

from bot.cooperative.columns import (
    COLUMNS,
    MOST_ROWS,
    Entry,
    Line,
    ListFault,
    headings_of,
    read_list,
)

HEADINGS = headings_of(
    {
        "phone": ["Phone, Mobile number", "Téléphone, N° de téléphone", "Simu"],
        "name": ["Name", "Nom", "Jina"],
        "member": ["Member number", "Numéro de membre", "Namba ya mwanachama"],
        "language": ["Language", "Langue", "Lugha"],
        "place": ["Place, Village", "Lieu", "Mahali"],
    }
)
WORDS = {
    "en": ("MOBILE NUMBER", "Name:", " member  number", "Language", "village"),
    "fr": ("n° de telephone", "NOM", "Numero de membre", "Langue", "Lieu"),
    "sw": ("simu", "Jina", "Namba ya Mwanachama", "LUGHA", "Mahali"),
}
FARM = ("0700000001", "Amina", "M1", "sw", "Kilima")


@pytest.mark.parametrize("language", WORDS)
def test_columns_are_found_in_every_order(language: str) -> None:
    for order in permutations(range(len(COLUMNS))):
        lines = [
            Line(1, tuple(WORDS[language][at] for at in order)),
            Line(2, tuple(FARM[at] for at in order)),
        ]
        assert read_list(lines, HEADINGS).entries == (Entry(2, *FARM),)


def test_a_title_may_stand_above_and_empty_rows_between() -> None:
    lines = [
        Line(1, ("Farmers of the north",)),
        Line(2, ()),
        Line(3, ("Phone", "Acres")),
        Line(4, ("0700000001", "2")),
        Line(5, ("", "3")),
        Line(6, ("'0700000002", "")),
    ]
    found = read_list(lines, HEADINGS)
    assert [(one.row, one.phone) for one in found.entries] == [(4, "0700000001"), (6, "0700000002")]
    assert found.unused == ("Acres",)


def test_what_can_not_be_seen_is_taken_out_of_a_cell() -> None:
    lines = [Line(1, ("Phone", "Name")), Line(2, ("0700000001", "A\u200bmi\x07na\n  W."))]
    assert read_list(lines, HEADINGS).entries[0].name == "A mi na W."


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        ([Line(1, ("Name",)), Line(2, ("Amina",))], "no_phone_column"),
        ([Line(1, ("Phone", "Simu")), Line(2, ("1", "2"))], "column_twice"),
        ([Line(1, ("Phone", "Name"))], "no_rows"),
        ([], "no_phone_column"),
    ],
)
def test_a_list_that_can_not_be_used_says_why(lines: list[Line], why: str) -> None:
    with pytest.raises(ListFault) as caught:
        read_list(lines, HEADINGS)
    assert caught.value.key == why


def test_more_rows_than_allowed_are_refused_whole() -> None:
    lines = [Line(1, ("Phone",)), *(Line(n + 2, ("1",)) for n in range(MOST_ROWS + 1))]
    with pytest.raises(ListFault, match="too_many_rows"):
        read_list(lines, HEADINGS)
