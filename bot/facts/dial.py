"""What comes in and goes out at the phone's own menu (USSD), whatever style the gateway speaks:
Dialled, Screen, and the Place a session has reached. Made by the doors; used by `turn.dial`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bot.facts.farm import OpenQuestion


@dataclass(frozen=True, slots=True)
class Dialled:
    """One callback of a session.

    kind: the session begins, something was typed, or the phone hung up. session: the gateway's id.
    sender: E.164, or empty where none reached us. code: the number dialled. key: names this
    callback within its session; the same key again is a repeat. typed: what was typed; `joined`:
    everything since the beginning, joined by stars, instead of the last input alone.
    """

    kind: Literal["start", "input", "abort"]
    session: str
    sender: str
    code: str
    key: str
    typed: str = ""
    joined: bool = False


@dataclass(frozen=True, slots=True)
class Screen:
    """What the phone shows. more: an input is awaited (CON); else it is the last (END)."""

    text: str
    more: bool


@dataclass(frozen=True, slots=True)
class Place:
    """Where a session stands. menu: the menu shown, or None. asked: the question shown (beside the
    menu of days: the one that it answers); words: as it was worded. sign: seen, how many is still
    to be said. back: menus on the way here. depth: screens from the first to this one. misses:
    inputs that led nowhere. language: chosen by an unknown phone. over: the last screen was shown.
    """

    menu: str | None
    asked: OpenQuestion | None = None
    words: str = ""
    sign: str | None = None
    back: tuple[str, ...] = ()
    depth: int = 1
    misses: int = 0
    language: str | None = None
    over: bool = False
