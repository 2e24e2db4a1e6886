"""What of an answer stands on the phone's screen and what goes by SMS, to be kept. Pure.

In: a decision, the voice, the texts, whether a further question still has its screen. Out: `Shown`.
Called by `turn.dial` while the turn is taken.

Advice is kept in the phone: it goes by SMS, and stands on the screen too where it fits. A short
word back stands on the screen alone. Danger is said on the screen first, in one line. A stopped
phone is sent nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from bot.decide.danger import danger_kind
from bot.facts.dial import Place, Screen
from bot.facts.farm import OpenQuestion
from bot.facts.talk import Decision, Line, Question
from bot.handbook.shape_screens import DATE, Screens
from bot.handbook.shape_texts import Texts
from bot.say.render import Voice, compose, compose_all, word
from bot.say.screens import fits, menu_screen, question_screen

FIRES = ("fumes", "dull")  # dangers at which people must leave a fire first
NOTED = ("ack", "fact")  # roles of a short word of what was taken down
AGAIN = ("number_again", "digit_again", "day_again")


@dataclass(frozen=True, slots=True)
class Shown:
    """One answer on the phone. place: where the session stands then. by_sms: texts to be kept."""

    screen: Screen
    place: Place
    by_sms: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Phone:
    """What the answer has to go by. place: where the input came from. stopped: nothing may be sent.
    may_ask: a question still has its screen, and the answer to it the last one."""

    place: Place
    voice: Voice
    texts: Texts
    screens: Screens
    now: datetime
    stopped: bool
    may_ask: bool


def shown(decision: Decision, phone: Phone) -> Shown:
    """The screen that answers, and what is sent beside it."""
    if _asks_again(decision) and phone.place.asked is not None:
        return _same_again(decision.lines[0], phone)
    texts = _by_sms(decision, phone)
    alarm = _alarm(decision)
    if alarm is not None:
        return _last(word(alarm, phone.voice, phone.texts), phone, texts)
    if decision.question is not None:
        asking = _asking(decision, decision.question, phone) if phone.may_ask else None
        if asking is not None and fits(asking.screen.text):
            return asking
        return _last(_say("screen_asks_by_sms", phone), phone, texts)
    if not decision.lines:
        return _last(_say("screen_quiet", phone), phone, ())
    return _told(decision, phone, texts)


def _asks_again(decision: Decision) -> bool:
    return decision.question is None and bool(decision.lines) and decision.lines[0].key in AGAIN


def _same_again(lead: Line, phone: Phone) -> Shown:
    """The question stays on the screen, with a word on what would answer it."""
    place = replace(phone.place, misses=phone.place.misses + 1)
    return Shown(Screen(asked_screen(place, phone, lead), True), place)


def asked_screen(place: Place, phone: Phone, lead: Line | None = None) -> str:
    """The screen of a place at which something is asked."""
    if place.menu is not None:
        menu = phone.screens[place.menu]
        return menu_screen(menu, phone.voice, phone.texts, first=False, lead=lead)
    zero = zero_counts(place.asked)
    return question_screen(place.words, phone.voice, phone.texts, zero_counts=zero, lead=lead)


def zero_counts(question: OpenQuestion | None) -> bool:
    """Whether 0 answers the question, and so does not lead back."""
    return question is not None and question.kind == "number" and (question.low or 0) <= 0


def _alarm(decision: Decision) -> Line | None:
    """The one line for a danger."""
    kind = danger_kind(decision)
    if kind is None:
        return None
    return Line("screen_danger_air" if kind in FIRES else "screen_danger")


def _by_sms(decision: Decision, phone: Phone) -> tuple[str, ...]:
    """All texts of the answer, as an SMS would have them."""
    if phone.stopped or (not decision.lines and decision.question is None):
        return ()
    first = compose_all(decision.lines, decision.question, phone.voice, phone.texts)
    return (*first, *_more(decision, phone))


def _more(decision: Decision, phone: Phone) -> tuple[str, ...]:
    return tuple(
        compose(lines, None, phone.voice, phone.texts, pushed=False) for lines in decision.more
    )


def as_asked(question: Question, now: datetime) -> OpenQuestion:
    """A question as it stands on the screen; no row holds it."""
    return OpenQuestion(
        id=0,
        name=question.name,
        kind=question.kind,
        prompt=question.prompt,
        asked_at=now,
        options=question.options,
        low=question.low,
        high=question.high,
        about=question.about,
    )


def _asking(decision: Decision, question: Question, phone: Phone) -> Shown:
    """The question on the screen; what was said before it where there is room, and by SMS where it
    is advice."""
    words = word(question.line, phone.voice, phone.texts)
    asked = as_asked(question, phone.now)
    menu = DATE if question.name == "date" else None
    place = replace(
        phone.place,
        menu=menu,
        asked=asked,
        words=words,
        sign=None,
        back=(),
        depth=phone.place.depth + 1,
        misses=0,
    )
    screen = asked_screen(place, phone)
    before = " ".join(word(line, phone.voice, phone.texts) for line in decision.lines)
    with_words = f"{before} {screen}" if before else screen
    room = fits(with_words)
    kept = () if phone.stopped else _kept(decision, phone, shown_whole=room)
    return Shown(Screen(with_words if room else screen, True), place, kept)


def _kept(decision: Decision, phone: Phone, *, shown_whole: bool) -> tuple[str, ...]:
    """What goes by SMS beside a question on the screen: advice, and what found no room there but is
    more than a word of what was noted."""
    left = [line for line in decision.lines if phone.texts.shapes[line.key].role not in NOTED]
    keep = _advises(decision.lines, phone) or (bool(left) and not shown_whole)
    first = compose_all(decision.lines, None, phone.voice, phone.texts) if keep else ()
    return (*first, *_more(decision, phone))


def _told(decision: Decision, phone: Phone, texts: tuple[str, ...]) -> Shown:
    """An answer without a question."""
    advises = _advises(decision.lines, phone) or bool(decision.more)
    first = compose(decision.lines, None, phone.voice, phone.texts, pushed=False)
    if fits(first):
        return _last(first, phone, texts if advises else ())
    if phone.stopped:
        return _last(_say("screen_quiet", phone), phone, ())
    short = [line for line in decision.lines if not _advises((line,), phone)]
    ending = _say("screen_by_sms", phone)
    before = compose(short, None, phone.voice, phone.texts, pushed=False)
    whole = f"{before} {ending}".strip()
    return _last(whole if fits(whole) else ending, phone, texts)


def _advises(lines: Sequence[Line], phone: Phone) -> bool:
    """Whether one of the lines gives advice: those carry a source."""
    return any(phone.texts.shapes[line.key].source for line in lines)


def _say(key: str, phone: Phone) -> str:
    return word(Line(key), phone.voice, phone.texts)


def _last(text: str, phone: Phone, by_sms: tuple[str, ...]) -> Shown:
    return Shown(Screen(text, False), replace(phone.place, over=True), by_sms)
