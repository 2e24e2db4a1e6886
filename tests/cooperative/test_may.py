"""Roles, passwords and codes of the desk."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from bot.cooperative.may import IDLE, LONGEST, ROLES, is_open, may
from bot.cooperative.proofs import given_out, hashed, is_good, is_right, step_of
from bot.say.cells import safe_cell

NOW = datetime(2026, 3, 10, 6, 0, tzinfo=UTC)


def test_each_role_may_what_those_before_it_may() -> None:
    for at, role in enumerate(ROLES):
        assert [may(role, needs) for needs in ROLES] == [place <= at for place in range(5)]


@pytest.mark.parametrize(
    ("seen", "ends", "is_so"),
    [
        (timedelta(0), LONGEST, True),
        (-IDLE + timedelta(seconds=1), LONGEST, True),
        (-IDLE, LONGEST, False),
        (timedelta(0), timedelta(0), False),
        (2 * IDLE, LONGEST, False),  # a clock that was set back
    ],
)
def test_a_session_is_open_while_it_is_used_and_young(
    seen: timedelta, ends: timedelta, is_so: bool
) -> None:
    assert is_open(NOW + seen, NOW + ends, NOW) is is_so


def test_a_password_is_known_again_and_nobody_has_none() -> None:
    kept = hashed("maize drum seven hens")
    assert is_right(kept, "maize drum seven hens")
    assert not is_right(kept, "maize drum seven hats")
    assert not is_right(None, "maize drum seven hens")
    assert not is_right("no hash at all", "no hash at all")


def test_two_passwords_given_out_are_never_alike_and_good_enough() -> None:
    found = {given_out() for _ in range(50)}
    assert len(found) == 50
    assert all(is_good(one, "amina") for one in found)


@pytest.mark.parametrize(
    ("password", "is_so"),
    [
        ("five goats on a hill", True),
        ("fivegoatson", False),
        ("aaaaaaaaaaaa", False),
        ("my name is Amina", False),
        ("x1y2" * 33, False),
    ],
)
def test_a_password_is_long_varied_and_not_the_name(password: str, is_so: bool) -> None:
    assert is_good(password, "amina") is is_so


# RFC 6238, appendix B: the table of SHA-1, whose secret is the ASCII text 12345678901234567890.
# It prints eight digits; six are the last six of them (RFC 4226, 5.3).
SECRET = "GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ"
VECTORS = [
    (59, "94287082"),
    (1111111109, "07081804"),
    (1111111111, "14050471"),
    (1234567890, "89005924"),
    (2000000000, "69279037"),
    (20000000000, "65353130"),
]


@pytest.mark.parametrize(("second", "printed"), VECTORS)
def test_codes_are_those_of_the_standard(second: int, printed: str) -> None:
    at = datetime.fromtimestamp(second, UTC)
    assert step_of(SECRET, printed[-6:], at, 0) == second // 30
    assert step_of(SECRET, f"{printed[2:5]} {printed[5:]}", at, 0) == second // 30


def test_a_code_counts_once_and_only_around_its_time() -> None:
    second, printed = VECTORS[2]
    at, code = datetime.fromtimestamp(second, UTC), printed[-6:]
    step = second // 30
    assert step_of(SECRET, code, at, step) is None
    assert step_of(SECRET, code, at, step - 1) == step
    assert step_of(SECRET, code, at + timedelta(seconds=30), 0) == step
    assert step_of(SECRET, code, at + timedelta(seconds=61), 0) is None
    assert step_of(SECRET, "", at, 0) is None
    assert step_of(SECRET, "٠١٢٣٤٥", at, 0) is None


# OWASP, "CSV Injection": cells that begin with one of these are worked out by a spreadsheet.
@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_is_taken_for_a_formula(start: str) -> None:
    assert safe_cell(f"{start}1+1") == f"'{start}1+1"
    assert safe_cell(f"a{start}1") == f"a{start}1"
