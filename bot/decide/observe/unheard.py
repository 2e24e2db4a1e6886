"""What is said in a trouble at hand to a text that tells nothing we know, or only asks for help.

In: the case, and the text that was not understood, or "what do I do?". Out: what we know so far and
the one thing to look at, the advice once more, or the safest action with the adviser told; never
"not understood" twice running. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import maybe, menu, running, say
from bot.decide.observe.advise import until_look
from bot.decide.observe.asking import ask, behaviour, put_again, safest
from bot.decide.observe.scene import Scene, scene_of, tell
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.story import CHECK, STALE, WORKED
from bot.facts.farm import Case, Event
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Why
from bot.facts.writes import KeepUnread
from bot.handbook.shapes import Handbook

FULL_TEXTS = 3  # of one danger a day
KINDS = ("fumes", "notifiable", "deaths", "blood", "ill", "dull")
ASKED_IN_TROUBLE = (None, "other", "disease", "behaviour")  # topics of "is it serious?"
MANY_WORDS = 4  # of a wish for help that is more than the order HELP
NOTHING = Meaning(Intent.OTHER)


def in_trouble(case: Case) -> bool:
    """Whether something is wrong with the birds we talk of: a complaint of late, an
    alarm, or deaths today."""
    batch = running(case)
    if batch is None:
        return False
    one = batch.complaint
    fresh = one is not None and one.state == "open" and case.now - one.opened_at < STALE
    dead = batch.total("deaths", case.today) > 0
    return fresh or dead or batch.open_alarm(case.today) is not None


def asks_for_help(meaning: Meaning, case: Case, text: str) -> bool:
    """ "?", "help me", "is it serious", "what do I do": of the trouble at hand, or where many words
    tell that there is one."""
    if not any(one.isalnum() for one in text):
        return bool(text.strip()) and in_trouble(case)
    told = meaning.signals or meaning.not_signals or meaning.slots.figure
    if meaning.intent is Intent.HELP:
        words = len(text.split())
        return in_trouble(case) or (words >= MANY_WORDS and running(case) is not None)
    topic = meaning.intent is Intent.ASK and meaning.slots.topic in ASKED_IN_TROUBLE
    next_ = meaning.intent is Intent.NEXT and len(text.split()) > 1  # "what do I do"
    return (topic or next_) and not told and in_trouble(case)


def not_heard(case: Case, handbook: Handbook, text: str) -> Decision:
    """The second text running that told us nothing: what we know, and the one thing to look at; the
    third: the safest action, and the adviser."""
    scene = scene_of(NOTHING, case, handbook)
    kept = KeepUnread(text, case.question.name if case.question else None)
    if scene.alarm is not None:
        found = _of_the_alarm(scene, scene.alarm)
    elif case.recent.misses > 1:
        found = safest(scene, scene.weigh())
    else:
        found = where_we_are(case, handbook)
    writes = (*found.writes, kept)
    if scene.alarm is not None or case.recent.misses > 1:
        writes = (*writes, tell(scene, "two texts running were not understood", "unheard"))
    return replace(found, writes=writes)


def where_we_are(case: Case, handbook: Handbook) -> Decision:
    """What we know and the next look: the danger, the open question, the advice once more, or the
    question that settles most."""
    scene = scene_of(NOTHING, case, handbook)
    if scene.alarm is not None:
        return _of_the_alarm(scene, scene.alarm)
    weighed = scene.weigh()
    again = _open_question(scene)
    if again is not None:
        return Decision(_so_far(scene), (), again, scene.why(weighed, UNCLEAR))
    story = scene.story
    if story.tried and story.cause is not None and story.look_at is not None:
        lines = (say(story.tried[-1]), *until_look(scene))
        return Decision(lines, (), None, Why(cause=story.cause))
    if not story.signals:
        return behaviour(scene, (), scene.why(weighed, UNCLEAR))
    return ask(scene, weighed, *_so_far(scene), even=True)


def _open_question(scene: Scene) -> Question | None:
    """Our open question once more, with what it carries."""
    asked = scene.case.question
    if asked is None:
        return None
    if asked.name == CHECK:
        again: Question | None = menu(CHECK, "q_worked", WORKED, "worked")
    else:
        again = put_again(scene, asked)
    return replace(again, about=asked.about) if again else None


def _so_far(scene: Scene) -> tuple[Line, ...]:
    told = scene.story.signals
    return (maybe("so_far", sign=told[-1]),) if told else ()


def _of_the_alarm(scene: Scene, alarm: Event) -> Decision:
    """What to do in this danger, in full while that may go today, else in one line."""
    kind = str(alarm.values.get("kind"))
    full = kind in KINDS and scene.case.recent.danger_today.get(kind, 0) < FULL_TEXTS
    line = say(f"danger_{kind}" if full else "still_danger")
    return Decision((line,), (), _open_question(scene), Why(), referred=True)
