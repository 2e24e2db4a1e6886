"""Words that a cooperative taught the reader: what its farmers say, put in words that the reader
knows. In: a text, the words. Out: the text to read, or its meaning. Pure. Called by turn.take and
the page "Unread words".

A taught word stands for others only in texts of its language, and never makes less of a danger: a
STOP, a sign of danger or a number of dead that is read without it holds.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence
from functools import lru_cache

from bot.cooperative.said import Said
from bot.facts.farm import Case, TaughtWord
from bot.facts.talk import Intent, Meaning
from bot.handbook.shapes import Handbook

GRAVE = 3  # of a sign's danger
SHORTEST, LONGEST, LONGEST_MEANING = 3, 30, 60
MOST_WORDS = 200
_WORDS = re.compile(r"[^\W\d_]+(?:['’ -][^\W\d_]+){0,2}")


def instead(text: str, taught: Sequence[TaughtWord], language: str) -> str:
    """The text with each taught word replaced by what it means. What was put in is not looked at
    again."""
    words = {one.word.casefold(): one.means for one in taught if one.language == language}
    if not words:
        return text
    return _pattern(tuple(words)).sub(lambda found: words[found[0].casefold()], text)


@lru_cache(maxsize=64)
def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    """The longest word first, whole words only."""
    listed = "|".join(re.escape(one) for one in sorted(words, key=len, reverse=True))
    return re.compile(rf"(?<!\w)(?:{listed})(?!\w)", re.IGNORECASE)


def heard(read: Callable[[str], Meaning], text: str, case: Case, handbook: Handbook) -> Meaning:
    """The meaning of a text, its taught words in place. read: the reader, for this farm."""
    said = read(text)
    other = instead(text, case.cooperative.taught, case.language)
    if other == text:
        return said
    signs = handbook.causes.signs
    grave = frozenset(code for code, sign in signs.items() if sign.danger >= GRAVE)
    again = read(other)
    return said if makes_less(said, again, grave) else again


def makes_less(before: Meaning, after: Meaning, grave: Collection[str]) -> bool:
    """Whether something that must never be lost is lost between two readings."""
    facts = (before.facts(), after.facts())
    stops = [any(one.intent is Intent.STOP for one in each) for each in facts]
    signs = [{sign for one in each for sign in one.signals if sign in grave} for each in facts]
    dead = [sum(one.slots.deaths or 0 for one in each) for each in facts]
    return stops[0] != stops[1] or not signs[0] <= signs[1] or dead[1] < dead[0]


def wrong_with(word: str, means: str) -> Said | None:
    """Why this can't be taught: a reason under `unread.fault` in desk.yaml; None where it can."""
    if not _WORDS.fullmatch(word) or not SHORTEST <= len(word) <= LONGEST:
        return Said.of("word")
    if not means.strip() or len(means) > LONGEST_MEANING or not means.isprintable():
        return Said.of("means", most=LONGEST_MEANING)
    if re.search(rf"(?<!\w){re.escape(word)}(?!\w)", means, re.IGNORECASE):
        return Said.of("same")
    return None


def words_of(text: str) -> list[str]:
    """The single words of a text that may be taught, each once."""
    found = re.findall(r"[^\W\d_]+(?:['’-][^\W\d_]+)*", text)
    return list(dict.fromkeys(one.casefold() for one in found if SHORTEST <= len(one) <= LONGEST))
