"""Lays out one screen of the phone's own menu (USSD): a head, the choices behind their digits, the
way back. In: a menu or a question's words, a voice. Out: the text without its prefix. Called by
`turn.press` and `turn.shown`; the proof lays out every menu at its longest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bot.facts.talk import Line
from bot.handbook.shape_screens import PREFIX, SEPTETS, Menu
from bot.handbook.shape_texts import BASE, Texts
from bot.say.render import Voice, word
from bot.say.segments import measure

BACK, TOP = "screen_back", "screen_top"
ROOM = SEPTETS - PREFIX


def fits(text: str) -> bool:
    """Whether a text has room on one screen."""
    return measure(text).units <= ROOM


def laid_out(head: str, labels: Sequence[str], foot: str | None) -> str:
    """A screen of choices: one a line, behind its digit."""
    choices = (f"{digit} {label}" for digit, label in enumerate(labels, start=1))
    return "\n".join((head, *choices, *((foot,) if foot else ())))


def menu_screen(
    menu: Menu, voice: Voice, texts: Texts, *, first: bool, lead: Line | None = None
) -> str:
    """A menu, wholly in one language. first: nothing lies before it. lead: what was wrong with the
    last input; left out where there is no room."""
    voice = _one_tongue(menu, voice, texts)
    head, *labels = (word(Line(key, {"signer": voice.signer}), voice, texts) for key in menu.keys)
    text = laid_out(head, labels, None if first else word(Line(BACK), voice, texts))
    return led(text, lead, voice, texts)


def question_screen(
    words: str, voice: Voice, texts: Texts, *, zero_counts: bool, lead: Line | None = None
) -> str:
    """A question with the way back below. zero_counts: 0 is an answer, so only 00 leads away."""
    text = f"{words}\n{word(Line(TOP if zero_counts else BACK), voice, texts)}"
    return led(text, lead, voice, texts)


def led(text: str, lead: Line | None, voice: Voice, texts: Texts) -> str:
    """The same screen with a short word above it, where there is room."""
    if lead is None:
        return text
    whole = f"{word(lead, voice, texts)}\n{text}"
    return whole if fits(whole) else text


def _one_tongue(menu: Menu, voice: Voice, texts: Texts) -> Voice:
    """The voice in the one language that can say the whole menu."""
    codes = {texts.speaker(key, voice.language).code for key in (*menu.keys, BACK)}
    if len(codes) == 1:
        return voice
    own = texts.tongues.get(voice.language)
    return replace(voice, language=(own.falls_back_to if own else None) or BASE)
