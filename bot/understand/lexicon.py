"""The words of all languages, indexed for looking up. In: `Words`. Out: `Lexicon`.

Built once by `read.compile_words`; read by `annotate`. Every entry of the folders becomes a class
of words; a word written into a pattern becomes a class of its own, so that patterns know only
classes. Names that begin with @ are grammar, with = words of patterns, with ~ words that say
something only beside a figure (nothing is learned of those), others as in the folders.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import NamedTuple

from bot.handbook.shape_words import Language, Words

_CLEAN = re.compile(r"[^a-z0-9*=\- ]+")
SHORTEST_BARE = 3  # letters of a stem right behind a person: "wakoroma", and "chakula" is no verb
WORDS_KEPT = 4_000  # words whose classes are remembered; the one longest unused goes first
READINGS_KEPT = 4_000  # classes with the languages of a text; some 1 kB each
Flag = int
IN_PATTERNS = "=~"  # the first letter of classes that mean nothing by themselves
DENIED, PAST, IF, VERB, MINE, FUTURE = 1, 2, 4, 8, 16, 32
_FLAGS = {
    "plain": VERB,
    "negative": DENIED | VERB,
    "past": PAST | VERB,
    "if": IF,
    "mine": MINE,
    "noun": 0,
    "future": FUTURE | VERB,
}


class Entry(NamedTuple):
    """A word belongs to a class. language: index of the folder. flags: from its verb form."""

    name: str
    language: int
    flags: Flag = 0


Phrases = Mapping[str, Sequence[tuple[tuple[str, ...], Entry]]]  # by their second class


class Reading(NamedTuple):
    """What a word says wherever it stands. entries: in the languages of the text. classes: each
    with whether it is denied, and past. phrases: those it may begin, of each of its classes."""

    entries: tuple[Entry, ...]
    names: frozenset[str]
    classes: tuple[tuple[str, bool, bool], ...]
    phrases: tuple[Phrases, ...]


@dataclass(slots=True, eq=False)
class Lexicon:
    """Looks up single words (with their verb forms) and phrases."""

    codes: tuple[str, ...]
    exact: dict[str, list[Entry]] = field(default_factory=lambda: defaultdict(list))
    prefixes: dict[str, list[Entry]] = field(default_factory=lambda: defaultdict(list))
    stems: dict[str, list[Entry]] = field(default_factory=lambda: defaultdict(list))
    open_stems: dict[str, list[Entry]] = field(default_factory=lambda: defaultdict(list))
    verb_prefixes: list[dict[str, Flag]] = field(default_factory=list)
    bare_prefixes: list[frozenset[str]] = field(default_factory=list)
    phrases: dict[str, dict[str, list[tuple[tuple[str, ...], Entry]]]] = field(
        default_factory=lambda: defaultdict(lambda: defaultdict(list))
    )  # by their first class and their second
    unspelt: set[str] = field(default_factory=set)
    _found: Callable[[str], tuple[Entry, ...]] = field(init=False)
    _read: Callable[[tuple[Entry, ...], frozenset[int]], Reading] = field(init=False)

    def __post_init__(self) -> None:
        self._found = lru_cache(WORDS_KEPT)(self._find)
        self._read = lru_cache(READINGS_KEPT)(self._reading)

    def add(self, name: str, form: str, language: int) -> None:
        """Put a form as written in a folder (word, phrase, stem) into a class."""
        words = _cleaned(form)
        if len(words) == 1:
            self._add_word(name, words[0], language)
        elif words:
            mark = "~=" if name[0] == "~" else "="
            parts = tuple(self.literal(word, language, mark) for word in words)
            self.phrases[parts[0]][parts[1]].append((parts, Entry(name, language)))

    def literal(self, form: str, language: int, mark: str = "=") -> str:
        """The class of its own for a word of a pattern or phrase."""
        name = f"{mark}{form}"
        self._add_word(name, form, language)
        return name

    def _add_word(self, name: str, form: str, language: int) -> None:
        entry = Entry(name, language)
        if form.startswith("="):
            self.unspelt.add(form[1:])
            _append(self.exact[form[1:]], entry)
        elif form.startswith("-"):
            stem = form[1:].rstrip("*")
            _append((self.open_stems if form.endswith("*") else self.stems)[stem], entry)
        elif form.endswith("*"):
            _append(self.prefixes[form[:-1]], entry)
        else:
            _append(self.exact[form], entry)

    def is_word(self, word: str) -> bool:
        """Whether it stands in a folder as it is, or is a form of a verb there."""
        if word in self.exact:
            return True
        return len(word) > 5 and any(entry.flags & VERB for entry in self.look_up(word))

    def verb_parts(self, word: str) -> Iterable[tuple[str, str]]:
        """Every way to read a word as verb prefix and stem, the longest prefix first."""
        for prefixes in self.verb_prefixes:
            for length in range(min(len(word) - 3, 12), 2, -1):
                if word[:length] in prefixes:
                    yield word[:length], word[length:]

    def look_up(self, word: str) -> tuple[Entry, ...]:
        """All classes of a word as it stands; () when it is unknown."""
        return self._found(word)

    def reading(self, known: tuple[Entry, ...], active: frozenset[int]) -> Reading:
        """What a word with these classes says in a text of these languages."""
        return self._read(known, active)

    def _reading(self, known: tuple[Entry, ...], active: frozenset[int]) -> Reading:
        entries = _kept(known, active)
        names = dict.fromkeys(entry.name for entry in entries)
        phrases = tuple(self.phrases[name] for name in names if name in self.phrases)
        return Reading(entries, frozenset(names), tuple(_classes(entries)), phrases)

    def _find(self, word: str) -> tuple[Entry, ...]:
        found = list(self.exact.get(word, ()))
        for length in range(2, len(word) + 1):
            found.extend(self.prefixes.get(word[:length], ()))
        if len(word) > 3:
            found.extend(self._verb_forms(word))
        if all(entry.name[0] in IN_PATTERNS for entry in found):
            found.extend(self._bare_forms(word))
        return tuple(dict.fromkeys(found))

    def _bare_forms(self, word: str) -> Iterable[Entry]:
        """A person and a stem with nothing between ("wakoroma"), where no other word is meant."""
        for language, prefixes in enumerate(self.bare_prefixes):
            for length in range(1, len(word) - SHORTEST_BARE + 1):
                if word[-1] == "a" and word[:length] in prefixes:
                    yield from self._with_stem(word[length:], language, VERB)

    def _verb_forms(self, word: str) -> Iterable[Entry]:
        for language, prefixes in enumerate(self.verb_prefixes):
            for length in range(1, min(len(word) - 1, 12)):
                flags = prefixes.get(word[:length])
                if flags is not None:
                    yield from self._with_stem(word[length:], language, flags)

    def _with_stem(self, rest: str, language: int, flags: Flag) -> Iterable[Entry]:
        stems = [rest]
        if rest[-1] in "ie":
            stems.append(rest[:-1] + "a")
        for stem in stems:
            for entry in self.stems.get(stem, ()):
                if entry.language == language:
                    yield Entry(entry.name, language, flags)
        for length in range(2, len(rest) + 1):
            for entry in self.open_stems.get(rest[:length], ()):
                if entry.language == language:
                    yield Entry(entry.name, language, flags)


def _kept(known: tuple[Entry, ...], active: frozenset[int]) -> tuple[Entry, ...]:
    """A word that an active language knows is read in that language only."""
    inside = tuple(entry for entry in known if entry.language in active)
    if not inside:
        return known
    return inside + tuple(
        entry for entry in known if entry.name[0] in IN_PATTERNS and entry not in inside
    )


def _classes(known: tuple[Entry, ...]) -> Iterable[tuple[str, bool, bool]]:
    flags: dict[str, int] = {}
    every = 0
    for entry in known:
        every |= entry.flags
        flags[entry.name] = flags.get(entry.name, 0) | entry.flags
    if every & (VERB | IF):  # one that may only suppose: "wakihema", if they pant
        yield "@verb" if every & VERB else "@ifform", False, False
    if every & FUTURE:
        yield "@future", False, False
    own = [entry for entry in known if entry.name[0] not in IN_PATTERNS]
    if own and all(entry.flags & MINE for entry in own):
        yield "@me", False, False
    for name, flag in flags.items():
        denied = flag & DENIED and not _also_plain(known, name)
        yield name, bool(denied), bool(flag & PAST)


def _also_plain(known: Iterable[Entry], name: str) -> bool:
    """The same word may also be a plain form of the class: then it is not taken for denied."""
    return any(entry.name == name and not entry.flags & DENIED for entry in known)


def _append(entries: list[Entry], entry: Entry) -> None:
    if entry not in entries:
        entries.append(entry)


def _cleaned(form: str) -> list[str]:
    words = _CLEAN.sub(" ", form.lower().replace("ng'", "ng")).split()
    return [part for word in words for part in _split_hyphen(word)]


def _split_hyphen(word: str) -> list[str]:
    if word.startswith("-") or "-" not in word:
        return [word]
    return [part for part in word.split("-") if part]


def build(words: Words) -> Lexicon:
    """Index every folder."""
    lexicon = Lexicon(tuple(language.code for language in words.languages))
    for index, language in enumerate(words.languages):
        _add_verbs(lexicon, language)
        for name, forms in _grammar(language):
            for form in forms:
                lexicon.add(name, form, index)
    return lexicon


def _add_verbs(lexicon: Lexicon, language: Language) -> None:
    prefixes: dict[str, Flag] = {}
    lexicon.bare_prefixes.append(frozenset(language.verbs.get("bare", ())))
    for kind, forms in language.verbs.items():
        if kind == "bare":
            continue
        for form in forms:
            prefixes[form] = prefixes.get(form, 0) | _FLAGS[kind]
    lexicon.verb_prefixes.append(prefixes)


def _grammar(language: Language) -> Iterable[tuple[str, tuple[str, ...]]]:
    yield from language.classes.items()
    yield from ((f"@{name}", forms) for name, forms in language.grammar.items())
    yield from ((f"~{name}", forms) for name, forms in language.counting.items())
    yield "@neg", language.denial.before
    yield "@negafter", language.denial.after
    yield "@notneg", language.denial.no_denial
    yield "@stop", language.stop
    yield "@start", language.start
    yield "@help", language.help
    yield "@common", language.common
    yield "@harmless", language.harmless
    yield from ((f"@unit:{name}", forms) for name, forms in language.units.items())
    yield from ((f"@answer:{name}", forms) for name, forms in language.answers.items())
    yield from ((f"@heat:{name}", forms) for name, forms in language.heats.items())
    yield from ((f"@language:{name}", forms) for name, forms in language.languages.items())
    yield f"@language:{language.code}", (language.name, language.own_name)
    yield from _number_words(language)
    yield from _day_words(language)


def _number_words(language: Language) -> Iterable[tuple[str, tuple[str, ...]]]:
    numbers = language.numbers
    kind = "@first" if numbers.multiplier_first else "@number"
    yield from ((f"{kind}:{value}", forms) for value, forms in numbers.values.items())
    yield from ((f"@amount:{value}", forms) for value, forms in numbers.dozen.items())
    yield "@joiner", numbers.joiners
    yield "@half", numbers.half
    yield "@weak", numbers.never


def _day_words(language: Language) -> Iterable[tuple[str, tuple[str, ...]]]:
    days = language.days
    yield from ((f"@month:{at}", forms) for at, forms in enumerate(days.months, start=1))
    yield from ((f"@weekday:{at}", forms) for at, forms in enumerate(days.weekdays))
    yield from ((f"@day:{offset}", forms) for offset, forms in days.relative.items())
    yield "@days", days.day_words
    yield "@weeks", days.week_words
