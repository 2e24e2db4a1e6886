"""The shape of outgoing texts: what each key may hold, how long it may be, and its wordings.

Made by `handbook.texts`; read by `say` and `proof`. Plain dataclasses, no I/O.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Wording = str | Mapping[str, str]  # one text, or one a plural category ("one", "other")


@dataclass(frozen=True, slots=True)
class TextShape:
    """One key: its role, its budget in septets, its placeholders (name -> type of value).

    file: where it is listed ("answers", "figures", "daily", "actions"). fire: it adds heat, lights
    a stove or closes curtains, so its wording must keep the top open on two sides.
    """

    key: str
    file: str
    role: str
    budget: int
    values: Mapping[str, str]
    source: tuple[str, ...] = ()
    fire: bool = False


@dataclass(frozen=True, slots=True)
class Tongue:
    """What one language says: `wordings` by key, `terms` by list and code."""

    code: str
    wordings: Mapping[str, Wording]
    terms: Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class Texts:
    """All outgoing texts. types: name of a value type -> its longest realistic value, or
    "date", "vet", or "word:<list>" for types that a language words itself."""

    shapes: Mapping[str, TextShape]
    tongues: Mapping[str, Tongue]
    types: Mapping[str, str]
    roles: Mapping[str, int]
