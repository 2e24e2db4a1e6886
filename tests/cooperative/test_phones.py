"""Phone numbers as they come in lists, held against the phonenumbers library's own reading."""

from __future__ import annotations

import phonenumbers
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.cooperative.phones import read_phone
from bot.cooperative.said import Said

GOOD = "+254700000001"


@pytest.mark.parametrize(
    "cell",
    [
        "0700000001",
        "0700 000 001",
        "+254 700-000-001",
        "00254700000001",
        "254700000001",
        "(0700) 000001",
        "٠٧٠٠٠٠٠٠٠١",
        "\u00a00700\u00a0000001 ",
        "254700000001.0",
    ],
)
def test_one_number_is_read_however_it_is_written(cell: str) -> None:
    assert read_phone(cell, "KE") == GOOD


@pytest.mark.parametrize(
    ("cell", "why"),
    [
        ("", "phone_none"),
        ("2.54E+11", "phone_shortened"),
        ("2,547E+11", "phone_shortened"),
        ("700000001", "phone_zero"),
        ("700000001.0", "phone_zero"),
        ("0700000001/0700000002", "phone_letters"),
        ("0700000001 0700000002", "phone_length"),
        ("none", "phone_letters"),
        ("07000001", "phone_length"),
        ("070000000123456", "phone_length"),
        ("-", "phone_length"),
        ("020 2000000", "phone_fixed"),
    ],
)
def test_what_is_no_sure_number_is_said_and_never_guessed(cell: str, why: str) -> None:
    found = read_phone(cell, "KE")
    assert isinstance(found, Said)
    assert found.key == why


def test_a_lost_zero_is_said_with_the_number_it_may_have_been() -> None:
    found = read_phone("700000001", "KE")
    assert isinstance(found, Said)
    assert dict(found.values)["full"] == GOOD


def test_where_no_zero_is_dialled_first_none_is_missed() -> None:
    assert read_phone("771234567", "SN") == "+221771234567"


@given(cell=st.text(alphabet="0123456789+() -.eE/x", max_size=24))
def test_a_number_that_is_read_is_one_the_library_reads_too(cell: str) -> None:
    found = read_phone(cell, "KE")
    if isinstance(found, str):
        assert phonenumbers.is_possible_number(phonenumbers.parse(found, None))
        digits = "".join(one for one in cell if one.isdigit())
        assert found[-6:] in digits.removesuffix("0") + digits
