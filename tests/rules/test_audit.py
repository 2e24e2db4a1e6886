"""The packages we depend on: pinned by hash, of a licence we may ship with, and asked after."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.rules.audit import (
    LOCK,
    Package,
    installed,
    is_allowed,
    not_allowed,
    not_in_lock,
    pinned,
    unpinned,
    weak,
)

HASH = "--hash=sha256:" + "0" * 64
PAIR = (Package("one", "1.0", ("MIT",)), Package("two", "2.0", ("MIT",)))


def test_the_lock_pins_every_package_by_hash() -> None:
    lock = LOCK.read_text("utf-8")
    assert len(pinned(lock)) > 50
    assert unpinned(lock) == []


@pytest.mark.parametrize(
    "planted",
    ["one==1.0", f"one>=1.0 \\\n    {HASH}", "one @ https://example.org/one.whl", "one==1.0 \\\n"
     "    --hash=md5:00"],
)  # fmt: skip
def test_a_package_that_is_not_pinned_is_named(planted: str) -> None:
    assert unpinned(f"{planted}\ntwo==2.0 ; python_version < '3.12' \\\n    {HASH}\n") == [
        "one: is not pinned by version and hash"
    ]


def test_everything_installed_has_an_allowed_licence_and_stands_in_the_lock() -> None:
    packages = installed()
    assert len(packages) > 30
    assert not_allowed(packages) == []
    assert not_in_lock(packages, LOCK.read_text("utf-8")) == []


@pytest.mark.parametrize(
    "licences", [(), ("",), ("GPL-3.0-only",), ("MIT AND GPL-2.0-only",), ("MIT", "Proprietary")]
)
def test_a_package_without_an_allowed_licence_is_named(licences: tuple[str, ...]) -> None:
    (line,) = not_allowed([Package("odd", "1", licences), *PAIR])
    assert line.startswith("odd: licence")


def test_where_one_of_two_licences_may_be_chosen_one_will_do() -> None:
    assert is_allowed("GPL-2.0-only OR MIT")
    assert not is_allowed("GPL-2.0-only OR AGPL-3.0-only")


def test_a_package_that_is_not_in_the_lock_is_named() -> None:
    assert not_in_lock(PAIR, f"one==1.0 \\\n    {HASH}\n") == [
        "two: is installed and not in the lock"
    ]


@pytest.mark.parametrize(
    ("told", "lines"),
    [
        ([[], []], []),
        ([[], ["X-1", "X-2"]], ["two 2.0: X-1, X-2"]),
        ([[]], ["two 2.0: was skipped by the source"]),
        ([None, []], ["one 1.0: was skipped by the source"]),
        (None, None),
    ],
)
def test_known_weaknesses_are_named_and_a_skipped_package_is_a_complaint(
    told: Sequence[Sequence[str] | None] | None, lines: list[str] | None
) -> None:
    assert weak(PAIR, lambda _: told) == lines
