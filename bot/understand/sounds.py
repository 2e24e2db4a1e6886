"""A word written as it is heard in, the known words of that language that sound the same out. Pure.

"kolé o mur", "menregistrer", "mosh": each language folder says by its `sounds` how its own words
are texted by ear, and by its `elisions` which letters are run into the next word. Called by
`annotate` for words that nothing else knows, in the language of the text only.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from functools import cached_property, lru_cache

from rapidfuzz import fuzz

from bot.handbook.shape_words import Language
from bot.understand.lexicon import Entry, Lexicon

SHORTEST, LONGEST = 3, 24
MOST_REMEMBERED = 1_000  # words
SHORTEST_KEY = 2
SHORTEST_VERB = 3
SHORTEST_STEM = 3  # letters of a key that a longer word may begin with
LONGEST_ENDING = 3
CLEARLY = 6.0  # how much more alike the best must be than the best of another meaning
VOWELS = frozenset("aeiouyh")


class Sounds:
    """The words of one language by how they sound; built at the first word that nothing knows."""

    def __init__(self, language: Language, at: int, lexicon: Lexicon) -> None:
        self._rules = [(re.compile(pattern), put) for pattern, put in language.sounds]
        self._elisions = sorted(language.elisions, key=len, reverse=True)
        self._lexicon, self._at = lexicon, at
        self._remembered = lru_cache(MOST_REMEMBERED)(self._find)

    @cached_property
    def _words(self) -> dict[str, set[str]]:
        return self._by_key(self._lexicon.exact, SHORTEST_KEY)

    @cached_property
    def _stems(self) -> dict[str, set[str]]:
        return self._by_key(self._lexicon.prefixes, SHORTEST_STEM)

    @cached_property
    def _verbs(self) -> dict[str, set[str]]:
        stems = self._by_key(self._lexicon.stems, SHORTEST_KEY)
        for key, words in self._by_key(self._lexicon.open_stems, SHORTEST_KEY).items():
            stems[key] |= words
        return stems

    def _by_key(self, table: dict[str, list[Entry]], shortest: int) -> dict[str, set[str]]:
        found: dict[str, set[str]] = defaultdict(set)
        for word, entries in table.items():
            own = any(entry.language == self._at for entry in entries)
            if own and word.isalpha() and word not in self._lexicon.unspelt:
                key = self.key(word)
                if len(key) >= shortest:
                    found[key].add(word)
        return found

    def key(self, word: str) -> str:
        """How the word sounds, by the rules of its language."""
        for pattern, put in self._rules:
            word = pattern.sub(put, word)
        return word

    def heard(self, word: str) -> str | None:
        """The known word that was meant, or None where none or two of other meaning fit."""
        if not self._rules or not SHORTEST <= len(word) <= LONGEST or not word.isalpha():
            return None
        return self._remembered(word)

    def _find(self, word: str) -> str | None:
        key = self.key(word)
        found = self._words.get(key, set()) if len(key) >= SHORTEST_KEY else set()
        return self._best(word, found or self._begun(key)) or self._verb(word)

    def _verb(self, word: str) -> str | None:
        """A form of a verb whose stem sounds like the rest of the word ("wanahala")."""
        for prefix, rest in self._lexicon.verb_parts(word):
            if prefix in self._lexicon.verb_prefixes[self._at] and len(rest) >= SHORTEST_VERB:
                stem = self._best(rest, self._verbs.get(self.key(rest), ()))
                if stem is not None:
                    return prefix + stem
        return None

    def _begun(self, key: str) -> set[str]:
        """Stems with which the word begins, the longest first."""
        for length in range(len(key), max(SHORTEST_STEM, len(key) - LONGEST_ENDING) - 1, -1):
            if key[:length] in self._stems:
                return self._stems[key[:length]]
        return set()

    def _best(self, word: str, found: Iterable[str]) -> str | None:
        ranked = sorted(found, key=lambda one: (-fuzz.ratio(word, one), one))
        if not ranked:
            return None
        meant = self._meaning(ranked[0])
        others = [one for one in ranked[1:] if self._meaning(one) != meant]
        if others and fuzz.ratio(word, ranked[0]) - fuzz.ratio(word, others[0]) < CLEARLY:
            return None
        return ranked[0]

    def _meaning(self, word: str) -> frozenset[str]:
        return frozenset(
            entry.name
            for entry in self._entries(word)
            if entry.language == self._at and not entry.name.startswith("=")
        )

    def _entries(self, word: str) -> Iterable[Entry]:
        stems = (*self._lexicon.stems.get(word, ()), *self._lexicon.open_stems.get(word, ()))
        return (*self._lexicon.look_up(word), *stems)

    def apart(self, word: str) -> tuple[str, str] | None:
        """An elided letter and the word it was run into ("dabreuvoir", "lair"), or None."""
        for letter in self._elisions:
            rest = word[len(letter) :]
            elided = word.startswith(letter) and len(rest) >= SHORTEST and rest[0] in VOWELS
            if elided and (self._known(rest) or self.heard(rest) is not None):
                return letter, rest
        return None

    def _known(self, word: str) -> bool:
        return any(entry.language == self._at for entry in self._lexicon.look_up(word))
