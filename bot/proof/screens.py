"""Every screen of the phone's own menu fits at the longest realistic values, in every language.
In: Texts and Screens. Out: faults. Called by proofread."""

from __future__ import annotations

from collections.abc import Iterator

from bot.handbook.shape_screens import PREFIX, SEPTETS, STARTS, Menu, Screens
from bot.handbook.shape_texts import Texts, Tongue
from bot.proof.fault import Fault
from bot.proof.longest import at_longest
from bot.say.screens import BACK, laid_out
from bot.say.segments import measure

QUESTIONS = (
    "question",
    "short_question",
    "choice",
    "ask",
    "menu",
)  # roles of what may stand on a screen as asked


def check_screens(texts: Texts, screens: Screens) -> Iterator[Fault]:
    """Menus that are too long; roles that leave no room for the way back."""
    sizes = texts.roles
    for role in QUESTIONS:
        total = PREFIX + sizes[role] + 1 + sizes["foot"]
        if total > SEPTETS:
            why = f"may take {total} septets on a screen; it holds {SEPTETS}"
            yield Fault("texts/roles.yaml", f"{role} + foot", why)
    if PREFIX + sizes["ending"] > SEPTETS:
        yield Fault("texts/roles.yaml", "ending", f"with its prefix longer than {SEPTETS}")
    for tongue in texts.tongues.values():
        for menu in screens.values():
            yield from _menu(menu, tongue, texts)


def _menu(menu: Menu, tongue: Tongue, texts: Texts) -> Iterator[Fault]:
    if not all(key in tongue.wordings for key in (*menu.keys, BACK)):
        return  # said in the language it falls back to; keys.py names what may not be left out
    head, *labels, foot = (_longest(key, tongue, texts) for key in (*menu.keys, BACK))
    way_back = None if menu.name in STARTS else foot
    units = PREFIX + measure(laid_out(head, labels, way_back)).units
    if units > SEPTETS:
        why = f"the screen takes {units} septets at its longest; it holds {SEPTETS}"
        yield Fault(f"languages/{tongue.code}/screens.yaml", menu.head, why)


def _longest(key: str, tongue: Tongue, texts: Texts) -> str:
    found = (text for _, text in at_longest(texts.shapes[key], tongue, texts))
    return max(found, key=lambda text: measure(text).units)
