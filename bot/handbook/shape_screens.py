"""The shape of the phone's own menu (USSD): which screens there are and what a digit does.

Made by `handbook.screens`; read by `say`, `turn` and `proof`. Plain dataclasses, no I/O.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bot.facts.talk import Intent

MOST_CHOICES = 5  # people who read little (research on phone interfaces)
MOST_SCREENS = 5  # from the first to the last; what is left goes by SMS
SEPTETS = 150  # of a screen with its prefix; the standard allows 182, some gateways 160
PREFIX = 4  # "CON " or "END "
HOME, HELLO, PAUSED = "home", "hello", "paused"  # a known phone, an unknown one, one that stopped
HOW_MANY, DATE = "how_many", "date"
STARTS = (HOME, HELLO, PAUSED)
NEW_BATCH = "new_batch"
ASKED = (
    "behaviour",
    "deaths",
    "feed",
    "feed_in",
    "weight",
    "language",
    NEW_BATCH,
)  # turn.screens words them


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice; its digit is its place. It does one thing: opens a menu, puts a question (ask),
    wants what an intent does, tells of a sign seen (how_many: asked first), says how many show it,
    gives a day counted from today, or leaves the answer to a text (later)."""

    label: str
    menu: str | None = None
    ask: str | None = None
    want: Intent | None = None
    see: str | None = None
    how_many: bool = False
    many: bool | None = None
    day: int | None = None
    later: bool = False


@dataclass(frozen=True, slots=True)
class Menu:
    """One screen of choices under a head (a key of the texts)."""

    name: str
    head: str
    choices: tuple[Choice, ...]

    @property
    def keys(self) -> tuple[str, ...]:
        """The texts it is made of, in order."""
        return (self.head, *(one.label for one in self.choices))


Screens = Mapping[str, Menu]
