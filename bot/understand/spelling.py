"""An unknown word in, the known word it was meant to be out, or None. Pure; called by `annotate`.

Exact words never come here. First the sound (kreve, diare), then rapidfuzz with a cut-off that
depends on length. A word of danger needs more likeness than a harmless one, so that a slip in a
common word never raises an alarm.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Collection, Container, Iterable
from functools import lru_cache

from rapidfuzz import fuzz, process
from rapidfuzz.distance import OSA

from bot.understand.lexicon import Lexicon

SLIPS_KEPT = 1_000  # unknown words whose reading is remembered; the longest unused goes first
SHORTEST = 5  # letters: shorter words are taken only as they stand
CUT_OFF = {5: 88.0, 6: 83.0, 7: 85.0}
LONG_CUT_OFF = 84.0
DANGER_CUT_OFF = 88.0
SHORTEST_SLIP = 6  # letters of a danger word in which one may be wrong
SHORTEST_RUN, LONGEST_RUN, SHORTEST_PART = 7, 24, 3  # letters of run-together words
STEM_CUT_OFF, DANGER_STEM_CUT_OFF = 85.0, 92.0
LITTLE = frozenset({"no", "my", "in"})  # the only shorter parts
VOWELS = frozenset("aeiouy")
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
        self._by_first: dict[tuple[int, str], list[str]] = defaultdict(list)
        self._by_sound: dict[str, set[str]] = defaultdict(set)
        self._corrected = lru_cache(SLIPS_KEPT)(self._find)
        self._parts = lru_cache(SLIPS_KEPT)(self._parted)
        self._verbs = lru_cache(SLIPS_KEPT)(self._find_verb)
        for word in sorted(set(known)):
            if len(word) >= SHORTEST and word.isalpha():
                self._by_length[len(word)].append(word)
                self._by_first[len(word), word[0]].append(word)
                self._by_sound[sound(word)].add(word)

    def correct(self, word: str) -> str | None:
        """The known word that was meant, or None."""
        if len(word) < SHORTEST or len(word) > 24 or not word.isalpha():
            return None
        return self._corrected(word)

    def _find(self, word: str) -> str | None:
        alike = self._by_sound.get(sound(word), set())
        safe = sorted(one for one in alike if one not in self._danger or one[0] == word[0])
        if safe and len(sound(word)) >= 4:
            return max(safe, key=lambda one: fuzz.ratio(word, one))
        cut_off = CUT_OFF.get(len(word), LONG_CUT_OFF)
        best = process.extractOne(word, self._near(word), scorer=fuzz.ratio, score_cutoff=cut_off)
        if best is None:
            return None
        found, score, _ = best
        if found in self._danger and not _safe_slip(word, found, score):
            return None
        return found

    def _near(self, word: str) -> list[str]:
        """Known words of about this length that it may be meant for."""
        lengths = range(len(word) - 2, len(word) + 3)
        if len(word) <= LONGEST_STRICT:
            return [one for at in lengths for one in self._by_first.get((at, word[0]), ())]
        return [one for at in lengths for one in self._by_length.get(at, ())]

    def verb(self, word: str, lexicon: Lexicon) -> str | None:
        """A form of a known verb that a misspelt one was meant to be ("wanahma"), or None."""
        if not SHORTEST < len(word) <= LONGEST_RUN or not word.isalpha():
            return None
        return self._verbs(word, lexicon)

    def _find_verb(self, word: str, lexicon: Lexicon) -> str | None:
        stems = [stem for stem in lexicon.stems if len(stem) > 3]
        return next(
            (
                prefix + stem
                for prefix, rest in lexicon.verb_parts(word)
                for stem in [near_stem(rest, stems, self._danger)]
                if stem is not None
            ),
            None,
        )

    def split(self, word: str, known: Callable[[str], bool]) -> tuple[str, ...]:
        """Two or three known words written without the space ("birdspiling"), or ().

        The longer first word wins.
        """
        if not SHORTEST_RUN <= len(word) <= LONGEST_RUN or not word.isalpha():
            return ()
        return self._parts(word, known, 3)

    def _parted(self, word: str, known: Callable[[str], bool], most: int) -> tuple[str, ...]:
        if most < 3 and known(word):
            return (word,)
        if most == 1:
            return ()
        for at in range(len(word) - 2, 1, -1):
            head, rest = word[:at], word[at:]
            if len(head) + len(rest) < SHORTEST_RUN or not known(head):
                continue
            parts = self._parted(rest, known, most - 1)
            if parts and all(len(one) >= SHORTEST_PART or one in LITTLE for one in (head, *parts)):
                return (head, *parts)
        return ()


def near_stem(rest: str, stems: Collection[str], danger: Container[str]) -> str | None:
    """The verb stem that a misspelt one was meant to be ("hma" for "hema"), or None."""
    for stem in stems:
        if stem[:-1] == rest and stem[-1] in VOWELS:
            return stem  # the last vowel is often left off: "wamefarik"
    best = process.extractOne(rest, stems, scorer=fuzz.ratio, score_cutoff=STEM_CUT_OFF)
    if best is None or best[0][0] != rest[0]:
        return None
    return None if best[0] in danger and best[1] < DANGER_STEM_CUT_OFF else best[0]


def _safe_slip(word: str, found: str, score: float) -> bool:
    """Two letters swapped, one left out or too many, or a wrong vowel, in a word long enough."""
    if found[0] != word[0]:
        return False
    if score >= DANGER_CUT_OFF:
        return True
    if len(word) < SHORTEST_SLIP or OSA.distance(word, found) != 1:
        return False
    wrong = [(a, b) for a, b in zip(word, found, strict=False) if a != b]
    replaced = len(word) == len(found) and len(wrong) == 1
    return not replaced or set(wrong[0]) <= VOWELS
