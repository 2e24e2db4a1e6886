"""The shape of what the reader knows of each language: words by class, patterns, grammar, examples.

Made by `handbook.words` from content/languages/; read by `understand`. Plain dataclasses, no I/O.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class NumberWords:
    """How a language says numbers. values: the words of each amount."""

    values: Mapping[int, tuple[str, ...]]
    joiners: tuple[str, ...]
    multiplier_first: bool
    half: tuple[str, ...]
    dozen: Mapping[float, tuple[str, ...]]
    never: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Days:
    """How a language says days. relative: whole days from today -> words."""

    months: tuple[tuple[str, ...], ...]
    weekdays: tuple[tuple[str, ...], ...]
    relative: Mapping[int, tuple[str, ...]]
    in_days: tuple[str, ...]
    ago: tuple[str, ...]
    day_words: tuple[str, ...]
    week_words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Denial:
    """How a language denies: words before or after what they deny, and how far they reach."""

    before: tuple[str, ...]
    after: tuple[str, ...]
    reach: int
    no_denial: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SignPatterns:
    """What a sign sounds like: patterns that say it is there, and that it is absent."""

    present: tuple[str, ...]
    absent: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Language:
    """One language folder, as written; patterns are still text.

    sounds: (regular expression, put) in order, from a spelling to how it is heard; elisions:
    letters run into the next word. told_of: patterns of whom or of which
    time a clause tells. replies: how farmers say each option of a question, by its name.
    """

    code: str
    name: str
    own_name: str
    days: Days
    numbers: NumberWords
    units: Mapping[str, tuple[str, ...]]
    answers: Mapping[str, tuple[str, ...]]
    stop: tuple[str, ...]
    stop_with: tuple[str, ...]
    told_of: Mapping[str, tuple[str, ...]]
    start: tuple[str, ...]
    help: tuple[str, ...]
    denial: Denial
    grammar: Mapping[str, tuple[str, ...]]
    counting: Mapping[str, tuple[str, ...]]
    verbs: Mapping[str, tuple[str, ...]]
    classes: Mapping[str, tuple[str, ...]]
    intents: Mapping[str, tuple[str, ...]]
    topics: Mapping[str, tuple[str, ...]]
    figures: Mapping[str, tuple[str, ...]]
    heats: Mapping[str, tuple[str, ...]]
    languages: Mapping[str, tuple[str, ...]]
    common: tuple[str, ...]
    harmless: tuple[str, ...]
    signs: Mapping[str, SignPatterns]
    sounds: tuple[tuple[str, str], ...] = ()
    elisions: tuple[str, ...] = ()
    little: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    replies: Mapping[str, Mapping[str, tuple[str, ...]]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Words:
    """All languages together. danger_signs: signs of content/signs.yaml with danger 3."""

    languages: tuple[Language, ...]
    signs: tuple[str, ...]
    danger_signs: frozenset[str]


@dataclass(frozen=True, slots=True)
class Example:
    """A text as a farmer might send it, and what it means. also: intents that are as right.
    context: of the farm, as in contract 1, complete. unread: nobody looked at it while words
    were added, so that it shows how far they carry."""

    language: str
    text: str
    intent: str
    also: tuple[str, ...] = ()
    slots: Mapping[str, object] = field(default_factory=dict)
    signals: tuple[str, ...] = ()
    not_signals: tuple[str, ...] = ()
    cause: tuple[str, ...] = ()
    red_flag: bool = False
    context: Mapping[str, object] = field(default_factory=dict)
    unread: bool = False
