"""What concerns the person and not the birds: stop, start, help, language, thanks, a call.

In: the meaning and the case. Out: consent written, language changed, the adviser told. Called by
`turn.choose`.
"""

from __future__ import annotations

from bot.decide.common import answer, menu, say
from bot.facts.farm import Case
from bot.facts.talk import Decision, Meaning
from bot.facts.writes import (
    AnswerCare,
    CancelWaiting,
    CloseQuestion,
    LeaveNumber,
    SetConsent,
    SetLanguage,
    TellAdviser,
    Write,
)
from bot.handbook.shapes import Handbook


def stop(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The whole service ends at once, with one confirmation and none to a second STOP."""
    del meaning, handbook
    if case.phone.consent == "stopped":
        return Decision(writes=(CancelWaiting(),))
    writes = (SetConsent("stopped", "own text"), CancelWaiting(), CloseQuestion())
    return Decision((say("stopped"),), writes)


def start(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Only the phone itself can opt in again."""
    del meaning, handbook
    if case.person is None:
        again = case.phone.consent == "stopped"
        return Decision((say("hello_new"),), (SetConsent("active", "own text"),) if again else ())
    writes = () if case.phone.consent == "active" else (SetConsent("active", "own text"),)
    return Decision((say("started" if case.batches else "started_new"),), writes)


def help_(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What can be sent, with examples to type."""
    del meaning, handbook
    return answer(say("help_batch" if case.batches else "help_new"))


def language(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Change the language; without one named, ask."""
    del case
    wanted = meaning.slots.lang or meaning.slots.answer
    known = handbook.texts.tongues
    if wanted is None or wanted not in known:
        choices = handbook.texts.choices
        asked = menu("language", "ask_language", tuple(known), "yes_no", choices=choices)
        return Decision(question=asked)
    return Decision((say("language_set"),), (SetLanguage(wanted), CloseQuestion()))


def thanks(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """A lone thanks, ok or thumb gets no answer."""
    del meaning, case, handbook
    return Decision()


def call_me(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """A person is wanted: always possible, always on the adviser's list."""
    del meaning, handbook
    batch = case.batch
    tell = TellAdviser("call_me", "asks to be called", batch.id if batch else None)
    return Decision((say("will_call"),), (tell, CloseQuestion()))


def not_me(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The phone is in other hands: nothing more goes there, and whoever texts from it next is a
    stranger. Where several people use it, only the adviser is told: one of them answered."""
    del meaning, handbook
    batch = case.batch
    tell = TellAdviser("not_me", "says the phone is not the farmer's", batch.id if batch else None)
    if case.is_shared:
        return Decision((say("not_me_shared"),), (CloseQuestion(), tell))
    asked: tuple[Write, ...] = tuple(
        AnswerCare(one.id, agreed=False) for one in case.contacts if one.state == "asked"
    )
    stopping: tuple[Write, ...] = (
        SetConsent("stopped", "not me"),
        CancelWaiting(),
        CloseQuestion(),
        LeaveNumber(),
    )
    writes = (*asked, *stopping, tell) if case.phone.id else (tell,)
    return Decision((say("not_me"),), writes)
