"""An unknown word in, the known word it was meant to be out, or None. Pure; called by `annotate`.

Exact words never come here. First the sound (kreve, diare), then rapidfuzz with a cut-off that
depends on length. A word of danger needs more likeness than a harmless one, so that a slip in a
common word never raises an alarm.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable

from rapidfuzz import fuzz, process

SHORTEST = 5  # letters: shorter words are taken only as they stand
CUT_OFF = {5: 88.0, 6: 83.0, 7: 85.0}
LONG_CUT_OFF = 84.0
DANGER_CUT_OFF = 88.0
LONGEST_STRICT = 9  # letters: up to here the first letter must be right
_SOUNDS = (
    (r"ph", "f"),
    (r"ck|qu|q|c(?=[aoulrt])|k", "k"),
    (r"oo|ou|w(?=[^aeiou]|$)", "u"),
    (r"ee|ea|y|ie", "i"),
    (r"ai|ei", "e"),
    (r"eau|au", "o"),
    (r"x", "ks"),
    (r"z", "s"),
    (r"c", "s"),
    (r"h", ""),
    (r"(.)\1+", r"\1"),
    (r"(?<=...)e?s?$", ""),
)
_RULES = tuple((re.compile(pattern), put) for pattern, put in _SOUNDS)


def sound(word: str) -> str:
    """How a word sounds, roughly, in the three languages: equal for most texting spellings."""
    for pattern, put in _RULES:
        word = pattern.sub(put, word)
    return word


class Speller:
    """Built once over the known words; danger: those that alone may raise an alarm."""

    def __init__(self, known: Iterable[str], danger: frozenset[str]) -> None:
        self._danger = danger
        self._by_length: dict[int, list[str]] = defaultdict(list)
        self._by_sound: dict[str, set[str]] = defaultdict(set)
        self._cache: dict[str, str | None] = {}
        for word in sorted(set(known)):
            if len(word) >= SHORTEST and word.isalpha():
                self._by_length[len(word)].append(word)
                self._by_sound[sound(word)].add(word)

    def correct(self, word: str) -> str | None:
        """The known word that was meant, or None."""
        if len(word) < SHORTEST or len(word) > 24 or not word.isalpha():
            return None
        if word not in self._cache:
            if len(self._cache) > 50_000:
                self._cache.clear()
            self._cache[word] = self._find(word)
        return self._cache[word]

    def _find(self, word: str) -> str | None:
        alike = self._by_sound.get(sound(word), set())
        safe = sorted(one for one in alike if one not in self._danger or one[0] == word[0])
        if safe and len(sound(word)) >= 4:
            return max(safe, key=lambda one: fuzz.ratio(word, one))
        near = [
            one
            for length in range(len(word) - 2, len(word) + 3)
            for one in self._by_length.get(length, ())
        ]
        cut_off = CUT_OFF.get(len(word), LONG_CUT_OFF)
        best = process.extractOne(word, near, scorer=fuzz.ratio, score_cutoff=cut_off)
        if best is None:
            return None
        found, score, _ = best
        if found[0] != word[0] and len(word) <= LONGEST_STRICT:
            return None
        if found in self._danger and (score < DANGER_CUT_OFF or found[0] != word[0]):
            return None
        return found
