"""The Handbook: all content, loaded and checked, as one frozen value. Made by `handbook.load`;
read by everything that thinks. No I/O."""

from __future__ import annotations

from dataclasses import dataclass

from bot.handbook.shape_calendar import Calendar
from bot.handbook.shape_causes import Causes
from bot.handbook.shape_husbandry import Husbandry
from bot.handbook.shape_screens import Screens
from bot.handbook.shape_texts import Texts


@dataclass(frozen=True, slots=True)
class Handbook:
    """What a good trainer holds in the head: figures, causes, the calendar, the words to say, the
    screens of the phone's own menu."""

    husbandry: Husbandry
    causes: Causes
    calendar: Calendar
    texts: Texts
    screens: Screens
