"""A sign in a clause, and the signs of a text."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign in a clause. denied: said to be absent. many: of many birds, or heavy."""

    name: str
    start: int
    denied: bool
    many: bool
    clause: int
    past: bool = False
    weight: int = 1
    guessed: bool = False
    end: int = 0


@dataclass(frozen=True, slots=True)
class Signs:
    """present, absent, many: codes in the order said. starts: where each stands. aside: named, but
    of others' birds, of another time or of no bird at all."""

    present: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    many: tuple[str, ...] = ()
    at: int = 0
    guessed: bool = False
    asked_about: bool = False
    aside: frozenset[str] = frozenset()
