"""Loads content/screens.yaml: the menus of the phone's own dial-in (USSD).

In: the content folder, the texts, the signs there are. Out: `Screens`. Called by `handbook.load`.
A menu nobody reaches, one too deep, a sixth choice or an unknown text, sign or question is refused.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

from bot.facts.talk import Intent
from bot.handbook.shape_screens import (
    ASKED,
    DATE,
    HOW_MANY,
    MOST_CHOICES,
    MOST_SCREENS,
    NEW_BATCH,
    STARTS,
    Choice,
    Menu,
    Screens,
)
from bot.handbook.shape_texts import Texts
from bot.handbook.strict import Section, read_section

ACTIONS = ("menu", "ask", "want", "see", "many", "day", "later")


def load_screens(content: Path, texts: Texts, signs: Collection[str]) -> Screens:
    """Every menu. Raises HandbookError naming the file and the key."""
    file = read_section(content / "screens.yaml")
    section = file.section("menus")
    file.done()
    screens = {name: _menu(section.section(name), name, texts, signs) for name in section.keys()}
    for name in (*STARTS, HOW_MANY, DATE):
        if name not in screens:
            section.refuse(name, "must be there")
    depths = depths_of(screens)
    for name, menu in screens.items():
        for choice in menu.choices:
            if choice.menu is not None and choice.menu not in screens:
                section.refuse(name, f"leads to {choice.menu}, which is no menu")
        if name not in depths:
            section.refuse(name, "is reached from nowhere")
        if depths[name] >= MOST_SCREENS:
            section.refuse(name, f"is screen {depths[name]}; {MOST_SCREENS} in all, the answer too")
    return screens


def depths_of(screens: Screens) -> Mapping[str, int]:
    """The place of each menu on the longest way from a first screen; the first is 1. How many show
    a sign is asked one screen behind it; which day, behind the number of chicks."""
    found: dict[str, int] = {}
    waiting = [(name, 1) for name in STARTS]
    while waiting:
        name, depth = waiting.pop()
        if name not in screens or found.get(name, 0) >= depth or depth > MOST_SCREENS:
            continue
        found[name] = depth
        for choice in screens[name].choices:
            waiting += [(choice.menu, depth + 1)] if choice.menu else []
            waiting += [(HOW_MANY, depth + 1)] if choice.how_many else []
            waiting += [(DATE, depth + 2)] if choice.ask == NEW_BATCH else []
    return found


def _menu(section: Section, name: str, texts: Texts, signs: Collection[str]) -> Menu:
    head = _text(section, "head", texts)
    choices = tuple(_choice(one, texts, signs) for one in section.sections("choices"))
    if not 0 < len(choices) <= MOST_CHOICES:
        section.refuse("choices", f"must be 1 to {MOST_CHOICES}")
    section.done()
    return Menu(name, head, choices)


def _choice(section: Section, texts: Texts, signs: Collection[str]) -> Choice:
    label = _text(section, "label", texts)
    if sum(section.has(name) for name in ACTIONS) != 1:
        section.refuse("", f"must do one of {', '.join(ACTIONS)}")
    sign = _one_of(section, "see", signs)
    want = _one_of(section, "want", [one.value for one in Intent])
    choice = Choice(
        label,
        menu=section.text("menu") if section.has("menu") else None,
        ask=_one_of(section, "ask", ASKED),
        want=Intent(want) if want else None,
        see=sign,
        how_many=section.flag("how_many", False),
        many=section.flag("many") if section.has("many") else None,
        day=section.whole("day") if section.has("day") else None,
        later=section.flag("later", False),
    )
    if choice.how_many and sign is None:
        section.refuse("how_many", "needs a sign to see")
    section.done()
    return choice


def _one_of(section: Section, key: str, known: Collection[str]) -> str | None:
    if not section.has(key):
        return None
    value = section.text(key)
    if value not in known:
        section.refuse(key, f"{value!r} is not known")
    return value


def _text(section: Section, key: str, texts: Texts) -> str:
    value = section.text(key)
    if value not in texts.shapes:
        section.refuse(key, f"{value!r} is not listed in texts/screens.yaml")
    if texts.shapes[value].file != "screens":
        section.refuse(key, f"{value!r} is a text of {texts.shapes[value].file}.yaml")
    return value
