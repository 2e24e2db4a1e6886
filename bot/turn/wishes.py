"""Wishes told by whole texts of fixed words, of people and phones and of an order: "caretaker
0700...", "my name is Amina", "forget me", "plan", "order cancelled". In: a text, the words of all
languages (terms.yaml, `wishes`), the region of numbers. Out: a meaning, or None: then the reader
reads the text. Pure. Called by turn.take.

They change who is written to and what, so no guess is made: anything else in the text, and it is
none.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from bot.facts.farm import LONGEST_NAME
from bot.facts.talk import Intent, Meaning, Slots
from bot.handbook.shape_texts import Phrase, Texts
from bot.say.plain import plain
from bot.understand.senders import e164

WISHES, POLITE = "wishes", "polite"  # the list of terms.yaml, and its words to be passed over
LONGEST = 120  # letters; a longer text is a report
_NUMBER = re.compile(r"\+?\d(?:[ -]?\d){6,14}")
_FIGURE = re.compile(r"\d")
_WORD = re.compile(r"[a-z']+")


def wish_of(text: str, texts: Texts, region: str) -> Meaning | None:
    """What is wished for people and phones, in any language."""
    if len(text) > LONGEST:
        return None
    tidy = plain(text).lower()
    number = _NUMBER.search(tidy)
    beside = _NUMBER.sub(" ", tidy)
    if _FIGURE.search(beside):
        return None  # a report
    listed = texts.phrases(WISHES)
    words = tuple(word for word in _WORD.findall(beside) if not _is_polite(word, listed))
    for language, code, phrase in listed.get(words[0], ()) if words else ():
        rest = None if code == POLITE else _behind(words, phrase, code)
        if rest is None:
            continue
        found = _meaning(code, rest, e164(number.group(), region) if number else None)
        if found is not None and (number is None or found.slots.phone is not None):
            return Meaning(found.intent, found.slots, language=language)
    return None


def _is_polite(word: str, listed: Mapping[str, Sequence[Phrase]]) -> bool:
    """Whether a word says nothing but please."""
    alone = (word,)
    return any(code == POLITE and phrase == alone for _, code, phrase in listed.get(word, ()))


def _behind(words: tuple[str, ...], phrase: tuple[str, ...], code: str) -> tuple[str, ...] | None:
    """The words behind the phrase, where the text is it or begins with it; a name may follow."""
    most = 1 if code in ("caretaker", "name", "owner") else 0
    rest = words[len(phrase) :]
    return rest if words[: len(phrase)] == phrase and len(rest) <= most else None


def _meaning(code: str, rest: tuple[str, ...], number: str | None) -> Meaning | None:
    name = rest[0][:LONGEST_NAME].capitalize() if rest else None
    if code == "caretaker":
        if name is not None and number is None:
            return None  # "caretaker sick" is a report
        return Meaning(Intent.CARETAKER, Slots(phone=number, name=name))
    if code == "caretaker_here":
        return Meaning(Intent.CARETAKER, Slots(answer="here"))
    if code == "caretaker_off":
        return Meaning(Intent.CARETAKER, Slots(answer="off"))
    if code in ("name", "owner"):
        return None if name is None else Meaning(Intent(code), Slots(name=name))
    return Meaning(Intent(code))
