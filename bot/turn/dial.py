"""The phone's own menu (USSD): one callback in, one screen out, through the same turn as a text.

In: a `Dialled` and what a turn needs. Out: the Screen. Called by the door. One transaction: where
the session stands, what it was answered and what a turn changed are written together; so a repeat
finds its answer and changes nothing.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import Connection
from sqlalchemy.exc import IntegrityError

from bot.facts.dial import Dialled, Place, Screen
from bot.facts.farm import Case, OpenQuestion
from bot.facts.limits import House
from bot.facts.talk import Decision, Incoming, Line
from bot.facts.writes import SetConsent
from bot.handbook.shape_screens import DATE, MOST_SCREENS, STARTS
from bot.handbook.shapes import Handbook
from bot.records.outbox_rows import Text, put
from bot.records.session import Database
from bot.records.sessions import (
    Caller,
    Session,
    caller_of,
    keep_session,
    open_question,
    open_session,
    sessions_today,
)
from bot.say.render import Voice, word
from bot.say.screens import menu_screen
from bot.turn.press import Later, Wanted, asks_of, first_place, pressed
from bot.turn.shown import Phone, Shown, as_asked, asked_screen, shown
from bot.turn.take import EVERYONE, Said, take_within, voice_of
from bot.understand.read import Reader

MOST_MISSES = 3
MOST_INPUTS = 40  # of one session
EMPTY = Screen("", False)


@dataclass(frozen=True)
class Desk:
    """What one callback is taken with."""

    connection: Connection
    handbook: Handbook
    reader: Reader
    dialled: Dialled
    caller: Caller
    account: str
    now: datetime
    house: House

    def voice(self, place: Place) -> Voice:
        caller = self.caller
        return Voice(place.language or caller.language, caller.name, caller.vet_number)

    def say(self, key: str, place: Place) -> str:
        return word(Line(key), self.voice(place), self.handbook.texts)

    @property
    def start(self) -> Place:
        return first_place(self.caller.consent, person=self.caller.person)


def take_dial(
    db: Database,
    handbook: Handbook,
    reader: Reader,
    dialled: Dialled,
    account: str,
    now: datetime,
    house: House = EVERYONE,
) -> Screen:
    """Take one callback: once, whatever happens, and whole or not at all. house: the limits that
    its turns keep to."""
    try:
        with db.write() as connection:
            return _take(connection, handbook, reader, dialled, account, now, house)
    except IntegrityError:  # another callback of this session was quicker by a moment
        with db.write() as connection:
            return _take(connection, handbook, reader, dialled, account, now, house)


def _take(
    connection: Connection,
    handbook: Handbook,
    reader: Reader,
    dialled: Dialled,
    account: str,
    now: datetime,
    house: House,
) -> Screen:
    caller = caller_of(connection, dialled.sender)
    desk = Desk(connection, handbook, reader, dialled, caller, account, now, house)
    if not dialled.sender:
        return Screen(desk.say("screen_no_number", Place(None)), False)
    session = open_session(connection, dialled, now)
    key = hashlib.sha256(dialled.key.encode()).hexdigest()[:20]
    before = session.screens.get(key)
    if before is not None:
        return before
    if dialled.kind == "abort":
        return EMPTY
    place, screen = _enough(desk, session) or _answered(desk, session)
    typed = dialled.typed if _follows(dialled, session) else session.typed
    screens = {**session.screens, key: screen}
    keep_session(connection, replace(session, typed=typed, place=place, screens=screens), now)
    return screen


def _enough(desk: Desk, session: Session) -> tuple[Place, Screen] | None:
    """What stands where a phone has dialled too often today; None where it has not."""
    if session.screens:
        return None
    begun = sessions_today(desk.connection, desk.dialled.sender, desk.now)
    if begun <= desk.house.limits.dials_day:
        return None
    place = replace(desk.start, over=True)
    return place, Screen(desk.say("screen_enough", place), False)


def _answered(desk: Desk, session: Session) -> tuple[Place, Screen]:
    place = _resumed(desk, session)
    screen = _screen_of(desk, place)
    if len(session.screens) >= MOST_INPUTS:
        return _lost(desk, place)
    for number, typed in enumerate(_inputs(desk.dialled, session)):
        place, screen = _pressed(desk, place, typed, number)
        if place.over:
            break
    return place, screen


def _inputs(dialled: Dialled, session: Session) -> Sequence[str]:
    """What is new. At the beginning several inputs may come at once (a longer number was dialled);
    later what stands behind all we have seen is one input, stars and all."""
    if not dialled.joined:
        return (dialled.typed,) if dialled.kind == "input" else ()
    if not session.screens:
        return [one for one in dialled.typed.split("*") if one][:MOST_INPUTS]
    new = dialled.typed.removeprefix(session.typed)
    return (new,) if _follows(dialled, session) else ()  # else the same screen again


def _follows(dialled: Dialled, session: Session) -> bool:
    """Whether what was typed stands behind all that we have seen."""
    seen, typed = session.typed, dialled.typed
    return dialled.joined and typed.startswith(seen) and (not seen or typed[len(seen) :][:1] == "*")


def _resumed(desk: Desk, session: Session) -> Place:
    """Where the session stands; a dropped one goes on at its screen while that still holds."""
    place = session.place
    if place is None or (place.over and not session.screens):
        return desk.start
    if session.screens:
        return place
    moved = place.menu in STARTS and place.menu != desk.start.menu
    dialled_on = desk.dialled.joined and bool(desk.dialled.typed)
    if moved or dialled_on or _is_closed(desk, place.asked):
        return desk.start
    return replace(place, misses=0)


def _is_closed(desk: Desk, asked: OpenQuestion | None) -> bool:
    """Whether a question that a turn asked is open no more: answered by a text, or another was
    asked since."""
    if asked is None or not asked.id:
        return False
    found = open_question(desk.connection, desk.dialled.sender)
    return found is None or found[0] != asked.id


def _pressed(desk: Desk, place: Place, typed: str, number: int) -> tuple[Place, Screen]:
    """One input: to another screen, or through a turn."""
    if place.over:
        return place, _screen_of(desk, place)
    asks = _asks(desk)
    done = pressed(place, typed, desk.start, desk.handbook.screens, asks)
    if isinstance(done, Later):
        return _later(desk, place, done)
    if isinstance(done, Wanted):
        found = _turn(desk, place, done, number)
        return _patient(desk, found.place, found.screen)
    moved = _worded(desk, done.place)
    return _patient(desk, moved, _screen_of(desk, moved, done.lead))


def _asks(desk: Desk) -> Mapping[str, OpenQuestion]:
    return {
        name: as_asked(question, desk.now)
        for name, question in asks_of(desk.handbook.texts).items()
    }


def _worded(desk: Desk, place: Place) -> Place:
    """A place at which a menu's question is put, with its words."""
    if place.asked is None or place.words:
        return place
    line = asks_of(desk.handbook.texts)[place.asked.name].line
    return replace(place, words=word(line, desk.voice(place), desk.handbook.texts))


def _screen_of(desk: Desk, place: Place, lead: Line | None = None) -> Screen:
    """The screen of a place."""
    if place.over:
        return Screen(desk.say("screen_lost", place), False)
    voice, texts = desk.voice(place), desk.handbook.texts
    if place.menu is not None and place.menu != DATE:
        menu, first = desk.handbook.screens[place.menu], place.menu in STARTS
        return Screen(menu_screen(menu, voice, texts, first=first, lead=lead), True)
    return Screen(asked_screen(place, _phone(desk, place, voice), lead), True)


def _patient(desk: Desk, place: Place, screen: Screen) -> tuple[Place, Screen]:
    """After three inputs that led nowhere a text is the better way."""
    return _lost(desk, place) if place.misses >= MOST_MISSES else (place, screen)


def _lost(desk: Desk, place: Place) -> tuple[Place, Screen]:
    return replace(place, over=True), Screen(desk.say("screen_lost", place), False)


def _later(desk: Desk, place: Place, later: Later) -> tuple[Place, Screen]:
    """The question that is open goes by SMS, to be answered there."""
    row = Text(
        business_key=f"ussd:{_id(desk, 0)}",
        phone_id=desk.caller.phone_id,
        to_number=desk.dialled.sender,
        klass="reply",
        text=later.words,
        at=desk.now,
    )
    if desk.caller.phone_id:
        put(desk.connection, row)
    return replace(place, over=True), Screen(desk.say("screen_asks_by_sms", place), False)


def _turn(desk: Desk, place: Place, wanted: Wanted, number: int) -> Shown:
    """Take the turn; what it answers is laid out for the screen while it is taken."""
    found: list[Shown] = []

    def wording(decision: Decision, case: Case, _handbook: Handbook) -> Said:
        voice = voice_of(decision, case)
        stopped = case.phone.consent == "stopped" or _stops(decision)
        phone = replace(_phone(desk, place, voice), stopped=stopped)
        found.append(shown(decision, phone))
        return Said((found[-1].screen.text,), found[-1].by_sms)

    incoming = Incoming(
        message_id=_id(desk, number),
        account=desk.account,
        sender=desk.dialled.sender,
        recipient=desk.dialled.code,
        text=wanted.text,
        at=desk.now,
        channel="ussd",
        meant=wanted.meant,
        asked=wanted.asked,
        language=place.language,
    )
    take_within(desk.connection, desk.handbook, desk.reader, incoming, wording, desk.house)
    if found:
        return _linked(desk, found[-1])
    return Shown(Screen(desk.say("screen_quiet", place), False), replace(place, over=True))


def _linked(desk: Desk, one: Shown) -> Shown:
    """The question on the screen, tied to the one that the turn opened."""
    asked = one.place.asked
    found = open_question(desk.connection, desk.dialled.sender)
    if one.place.over or asked is None or found is None:
        return one
    tied = replace(asked, id=found[0], batch_id=found[1])
    return replace(one, place=replace(one.place, asked=tied))


def _phone(desk: Desk, place: Place, voice: Voice) -> Phone:
    return Phone(
        place=place,
        voice=voice,
        texts=desk.handbook.texts,
        screens=desk.handbook.screens,
        now=desk.now,
        stopped=desk.caller.consent == "stopped",
        may_ask=place.depth + 1 < MOST_SCREENS,
    )


def _stops(decision: Decision) -> bool:
    return any(isinstance(one, SetConsent) and one.state == "stopped" for one in decision.writes)


def _id(desk: Desk, number: int) -> str:
    """The message id of one input: the same for a repeat."""
    said = f"{desk.dialled.session}|{desk.dialled.sender}|{desk.dialled.key}|{number}"
    return "ussd" + hashlib.sha256(said.encode()).hexdigest()[:48]
