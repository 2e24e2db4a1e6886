"""What is sealed opens for whom and with what it was sealed, and untouched."""

from __future__ import annotations

import pytest

from bot.cooperative.sealed import seal, unseal

SECRET, TEXT = b"of the service", "JBSWY3DPEHPK3PXP"


def test_what_was_sealed_opens_again_and_never_looks_the_same() -> None:
    kept = seal(SECRET, 7, TEXT)
    assert unseal(SECRET, 7, kept) == TEXT
    assert kept != seal(SECRET, 7, TEXT)
    assert TEXT not in kept


@pytest.mark.parametrize(("secret", "whose"), [(b"another", 7), (b"", 7), (SECRET, 8)])
def test_it_opens_with_no_other_secret_and_for_nobody_else(secret: bytes, whose: int) -> None:
    assert unseal(secret, whose, seal(SECRET, 7, TEXT)) is None


@pytest.mark.parametrize("kept", ["", "A", "JBSWY3DPEHPK3PXP", "é"])
def test_what_was_never_sealed_does_not_open(kept: str) -> None:
    assert unseal(SECRET, 7, kept) is None


def test_what_was_cut_does_not_open() -> None:
    assert unseal(SECRET, 7, seal(SECRET, 7, TEXT)[:-8]) is None
