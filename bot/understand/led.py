"""A yes or a no that opens an answer, and what follows: "yes many", "no the litter is wet". Pure.

Called by `read` while a question with yes and no is open. What follows is read by itself; where it
tells nothing ("yes, a lot of them") the text is the answer alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from bot.facts.talk import Hearing, Intent, Meaning, Slots
from bot.understand.annotate import Text
from bot.understand.replies import options_of

SHORT = 6  # words behind a yes or no that may be left unread
SIGHS = (None, "other", "disease", "behaviour", "treatment")  # "yes, what do I do?"


@dataclass(frozen=True, slots=True)
class Led:
    """answer: "yes" or "no". rest: the words behind it."""

    answer: str
    rest: tuple[str, ...]


def opening_answer(text: Text, hearing: Hearing) -> Led | None:
    """The yes or no that opens the text, None where there is none or where it denies what follows
    it ("no smell")."""
    if not {"yes", "no"}.issubset(options_of(hearing)):
        return None
    start = _after_little(text, 0)
    for answer in ("yes", "no"):
        ends = [span.end for span in text.spans.get(f"@answer:{answer}", ()) if span.start == start]
        if not ends or text.at("@if", start):
            continue
        end = max(ends)
        if answer == "no" and not _stands_alone(text, start, end):
            return None
        rest = tuple(token.text for token in text.tokens[_after_little(text, end) :])
        return Led(answer, rest) if rest else None
    return None


def read_led(led: Led, read: Callable[[str], Meaning]) -> Meaning | None:
    """The answer with what was told behind it; None where that is for the whole text to say."""
    told = read(" ".join(led.rest))
    if told.intent is Intent.OBSERVE:
        return replace(told, slots=replace(told.slots, answer=led.answer))
    sigh = told.intent is Intent.ASK and told.slots.topic in SIGHS and told.slots.figure is None
    unread = told.intent in (Intent.OTHER, Intent.THANKS) and told.slots == Slots()
    short = sum(word.isalpha() for word in led.rest) <= SHORT
    return Meaning(Intent.OTHER, Slots(answer=led.answer)) if sigh or (unread and short) else None


def _after_little(text: Text, at: int) -> int:
    while at < len(text.tokens) and (text.tokens[at].kind == "mark" or text.at("@polite", at)):
        at += 1
    return at


def _stands_alone(text: Text, start: int, end: int) -> bool:
    """Whether a no only answers: a break behind it, or the beginning of a new statement."""
    if end >= len(text.tokens) or text.tokens[end].kind == "mark" or not text.at("@neg", start):
        return True
    if text.at("@few", end) and text.at("@weak", end):
        return False  # "no one is coughing"
    return any(text.at(name, end) for name in ("@pronouns", "@article", "@few", "@neg", "litter"))
