"""Counts what a text costs. A text comes in, its parts, encoding and units go out. Called where
content is proofread, where a row is written into the outbox, and by `broodpost figure parts`.

The table is the GSM 7 bit default alphabet and its extension table (3GPP TS 23.038, 6.2.1); the
lengths of single and joined parts are those of 3GPP TS 23.040, 9.2.3.24.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

BASIC = frozenset(
    "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?"
    "¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà"
)
EXTENSION = frozenset("\f^{}\\[~]|€")

SINGLE_SEPTETS, JOINED_SEPTETS = 160, 153
SINGLE_UTF16, JOINED_UTF16 = 70, 67


@dataclass(frozen=True, slots=True)
class Parts:
    """What a text costs on the air.

    parts: messages billed, 0 for an empty text. units: septets for gsm7, UTF-16 units for ucs2,
    both without the headers of joined parts.
    """

    parts: int
    encoding: Literal["gsm7", "ucs2"]
    units: int


def measure(text: str) -> Parts:
    """The parts of `text` as a gateway bills it: 160 septets alone and 153 joined, or 70 and 67
    UTF-16 units; a pair (escape and letter, or two surrogates) is never split between parts."""
    if len(text) <= SINGLE_SEPTETS and BASIC.issuperset(text):
        return Parts(min(len(text), 1), "gsm7", len(text))
    septets = _septets(text)
    if septets is not None:
        parts = _fill(septets, SINGLE_SEPTETS, JOINED_SEPTETS)
        return Parts(parts, "gsm7", sum(septets))
    units = [2 if ord(letter) > 0xFFFF else 1 for letter in text]
    return Parts(_fill(units, SINGLE_UTF16, JOINED_UTF16), "ucs2", sum(units))


def _septets(text: str) -> list[int] | None:
    """Septets of each letter, or None where one is outside the alphabet."""
    letters = set(text)
    if not letters <= BASIC | EXTENSION:
        return None
    return [2 if letter in EXTENSION else 1 for letter in text]


def _fill(units: Iterable[int], single: int, joined: int) -> int:
    """Parts needed when letters of these sizes are laid in one after another."""
    sizes = list(units)
    total = sum(sizes)
    if total <= single:
        return min(total, 1)
    parts, room = 1, joined
    for size in sizes:
        if size > room:
            parts, room = parts + 1, joined
        room -= size
    return parts
