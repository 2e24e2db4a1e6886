"""Looks for phrases in a text, as word lists of the content name them. In: a text and phrases.
Out: the phrase that is found. Pure; called by fire and medicine.

A phrase is words in order within one sentence, at most two others between neighbours. `light*` is
any word that begins so, `top|upper` one or the other.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

_BETWEEN = r"(?:\W+\w+){0,2}?\W+"
_SENTENCE = re.compile(r"(?<=[.?!])\s+")


def sentences(text: str) -> list[str]:
    """A text cut at its full stops, question marks and exclamation marks."""
    return _SENTENCE.split(text)


def found(phrases: Iterable[str], text: str) -> str | None:
    """The first of the phrases that some sentence of the text holds, or None."""
    for phrase in phrases:
        if any(_pattern(phrase).search(sentence) for sentence in sentences(text)):
            return phrase
    return None


def without(phrases: Iterable[str], text: str) -> str:
    """The text with these phrases taken out."""
    for phrase in phrases:
        text = " ".join(_pattern(phrase).sub(" ", sentence) for sentence in sentences(text))
    return text


@lru_cache(4_096)
def _pattern(phrase: str) -> re.Pattern[str]:
    places = [_place(place) for place in phrase.split()]
    return re.compile(r"\b" + _BETWEEN.join(places), re.IGNORECASE)


def _place(place: str) -> str:
    options = [
        re.escape(one.removesuffix("*")) + (r"\w*" if one.endswith("*") else r"\b")
        for one in place.split("|")
    ]
    return f"(?:{'|'.join(options)})"
