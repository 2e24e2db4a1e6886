"""What one input at the phone's own menu (USSD) does: it leads to another screen, or a turn is to
be taken. Pure. In: where the session stands, what was typed. Out: `Moved` or `Wanted`. Called by
`turn.dial`.

0 leads back, 00 to the first screen. Words are never a choice: they are taken as a text is, so that
STOP and danger are heard at every screen.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, replace

from bot.decide.common import behaviour_menu, menu, number, say
from bot.facts.dial import Place
from bot.facts.farm import OpenQuestion
from bot.facts.talk import Intent, Line, Meaning, Question, Slots
from bot.handbook.shape_screens import (
    HELLO,
    HOME,
    HOW_MANY,
    MOST_CHOICES,
    NEW_BATCH,
    PAUSED,
    Choice,
    Menu,
    Screens,
)
from bot.handbook.shape_texts import Texts
from bot.turn.shown import zero_counts

BACK, FIRST = "0", "00"
ALWAYS = ("8", "9")  # call me, not me: accepted in every menu that is a question
LONGEST = 160  # of one input that is read; the standard allows no more
MOST_BIRDS, MOST_KG, MOST_WEIGHT = 20_000, 5_000, 80_000


@dataclass(frozen=True, slots=True)
class Moved:
    """Another screen is shown, or the same again. lead: what was wrong with the input."""

    place: Place
    lead: Line | None = None


@dataclass(frozen=True, slots=True)
class Wanted:
    """A turn is to be taken. text: what is kept of it. meant: what was chosen; None: the text is
    read. asked: the question it answers."""

    text: str
    meant: Meaning | None = None
    asked: OpenQuestion | None = None


@dataclass(frozen=True, slots=True)
class Later:
    """The question stays open and goes by SMS."""

    words: str


def first_place(consent: str, *, person: bool, language: str | None = None) -> Place:
    """Where a session begins: known phones at home, those that stopped or were only invited apart,
    unknown ones with a kind word."""
    if consent in ("stopped", "invited"):
        return Place(PAUSED)
    return Place(HOME) if person else Place(HELLO, language=language)


def pressed(
    place: Place, typed: str, start: Place, screens: Screens, asks: Mapping[str, OpenQuestion]
) -> Moved | Wanted | Later:
    """What this input does. start: where 00 leads. asks: the questions of the menus, by name."""
    said = tidy(typed)
    if not said:
        return Moved(place)
    if said == FIRST:
        return Moved(replace(start, language=place.language))
    if said == BACK and not zero_counts(place.asked):
        return Moved(_back(place, start))
    if place.menu is not None:
        return _at_menu(place, screens[place.menu], said, asks)
    return _at_question(place, said, start)


def tidy(typed: str) -> str:
    """One input as it was meant: digits of every script are ASCII, the keys * and # beside it are
    no part of it."""
    plain = unicodedata.normalize("NFKC", typed)[:LONGEST]
    digits = "".join(str(unicodedata.decimal(one)) if one.isdecimal() else one for one in plain)
    return digits.strip(" \t\r\n*#.")


def _back(place: Place, start: Place) -> Place:
    if not place.back:
        return replace(start, language=place.language)
    *before, last = place.back
    depth = max(1, place.depth - 1)
    return Place(last, back=tuple(before), depth=depth, language=place.language)


def _at_menu(
    place: Place, shown: Menu, said: str, asks: Mapping[str, OpenQuestion]
) -> Moved | Wanted | Later:
    if _figure(said) is None:
        return _words(place, said)
    digit = int(said) if len(said) == 1 else 0
    if not 1 <= digit <= len(shown.choices):
        return _missed(place, say("screen_only", n=len(shown.choices)))
    return _chosen(place, shown.choices[digit - 1], asks)


def _chosen(
    place: Place, choice: Choice, asks: Mapping[str, OpenQuestion]
) -> Moved | Wanted | Later:
    if choice.menu is not None:
        return Moved(_deeper(place, choice.menu))
    if choice.ask is not None:
        return Moved(_put(place, choice.ask, asks))
    if choice.see is not None and choice.how_many:
        return Moved(replace(_deeper(place, HOW_MANY), sign=choice.see))
    if choice.see is not None:
        return _seen(choice.see, many=False)
    if choice.many is not None and place.sign is not None:
        return _seen(place.sign, many=choice.many)
    if choice.day is not None:
        day = Meaning(Intent.REGISTER, Slots(date_iso_offset=choice.day))
        return Wanted(f"day {choice.day:+d}", day, place.asked)
    if choice.want is not None:
        return Wanted(choice.want.value, Meaning(choice.want))
    return Later(place.words)


def _seen(sign: str, *, many: bool) -> Wanted:
    codes = (sign,)
    meaning = Meaning(Intent.OBSERVE, signals=codes, many=codes if many else ())
    return Wanted(f"{sign.replace('_', ' ')}{', many' if many else ''}", meaning)


def _deeper(place: Place, name: str) -> Place:
    back = (*place.back, place.menu) if place.menu else place.back
    return Place(name, back=back, depth=place.depth + 1, language=place.language)


def _put(place: Place, name: str, asks: Mapping[str, OpenQuestion]) -> Place:
    """A question of the menu's own: nothing is open on the phone until it is answered."""
    return replace(_deeper(place, ""), menu=None, asked=asks[name])


def _at_question(place: Place, said: str, start: Place) -> Moved | Wanted:
    question = place.asked
    if question is None:
        return _words(place, said)
    figure = _figure(said)
    if figure is None:
        return _words(place, said)
    if question.kind == "number":
        low, high = question.low or 0, question.high or MOST_BIRDS
        if not low <= figure <= high:
            return _missed(place, say("screen_range", low=_whole(low), high=int(high)))
    elif question.options and not (said in ALWAYS or figure in range(1, len(question.options) + 1)):
        return _missed(place, say("screen_only", n=len(question.options)))
    if question.name == "language" and start.menu == HELLO and said not in ALWAYS:
        return Moved(replace(start, language=question.options[int(figure) - 1]))
    if question.name == "feed_in":
        bought = Meaning(Intent.FEED, Slots(kg=figure, feed_move="in"))
        return Wanted(f"{said} kg", bought, question)
    return Wanted(said, None, question)


def _words(place: Place, said: str) -> Wanted:
    return Wanted(said, None, place.asked)


def _missed(place: Place, lead: Line) -> Moved:
    return Moved(replace(place, misses=place.misses + 1), lead)


def _figure(said: str) -> float | None:
    try:
        return float(said.replace(",", ".")) if said[0].isdecimal() else None
    except ValueError:
        return None


def _whole(low: float) -> int:
    return int(low) if low == int(low) else int(low) + 1


def asks_of(texts: Texts) -> Mapping[str, Question]:
    """The questions that the menus put, by name. Nothing is open on the phone until they are
    answered."""
    codes = tuple(texts.tongues)[:MOST_CHOICES]
    return {
        "behaviour": behaviour_menu(),
        "deaths": number("deaths", "screen_deaths", "deaths", 0, MOST_BIRDS),
        "feed": number("feed", "ask_feed", "feed", 0.1, MOST_KG),
        "feed_in": number("feed_in", "screen_feed_in", "feed", 0.1, MOST_KG),
        "weight": number("weight", "ask_weight", "weight", 0.1, MOST_WEIGHT),
        "language": menu("language", "ask_language", codes, "yes_no", choices=texts.choices),
        NEW_BATCH: number(NEW_BATCH, "ask_count", "count", 1, MOST_BIRDS),
    }
