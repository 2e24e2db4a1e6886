"""Who looks after whose birds, and on which phone. In: what was wished, and the case. Out: the
caretaker's phone asked, its answer taken, names set. Called by `turn.choose`.

Nobody is texted on another's word: the caretaker's phone is asked once, and agrees itself.
"""

from __future__ import annotations

from bot.decide.common import answer, menu, no_batch, say
from bot.facts.farm import Case, Contact
from bot.facts.talk import Decision, Intent, Meaning, Push, Question
from bot.facts.writes import (
    AnswerCare,
    AskCaretaker,
    CancelWaiting,
    CareHere,
    CloseQuestion,
    EndCare,
    Forget,
    SetConsent,
    SetName,
    SetOwner,
    TellAdviser,
    Write,
)
from bot.handbook.shapes import Handbook

CARE, JOIN, FORGET = "care", "join", "forget"


def caretaker(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """ "caretaker 0700 000 002": that phone is asked first; "caretaker off" takes it back."""
    del handbook
    if case.person is None:
        return answer(say("hello_new"))
    if meaning.slots.answer == "off":
        return Decision((say("caretaker_off"),), (EndCare(),))
    number = meaning.slots.phone
    if meaning.slots.answer == "here" or number == case.phone.number:
        return Decision((say("caretaker_here"),), (CareHere(),))
    if number is None:
        return answer(say("caretaker_number"))
    question = menu(CARE, "ask_care", ("yes", "no"), who=case.person.name or case.phone.number)
    tell = TellAdviser("caretaker", "names a caretaker, whose phone is asked")
    writes = (AskCaretaker(number, meaning.slots.name), tell)
    return Decision((say("caretaker_asked", phone=number),), writes, push=Push(question=question))


def answer_care(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The asked phone's own yes or no; the owner is told of it."""
    del handbook
    asked = asked_contact(case)
    if asked is None:
        return no_batch(case)
    agreed = meaning.slots.answer == "yes"
    return _care(asked, case, agreed=agreed)


def _care(asked: Contact, case: Case, *, agreed: bool) -> Decision:
    writes: tuple[Write, ...] = (AnswerCare(asked.id, agreed), CloseQuestion())
    if case.phone.consent != "active":
        consent = SetConsent("active", "own text") if agreed else SetConsent("stopped", "said no")
        writes = (consent, *writes)
    if asked.role == "owner":  # a farmer's new phone: there is nobody else to tell
        return Decision((say("phone_yes" if agreed else "care_no"),), writes)
    told = Push((say("care_agreed" if agreed else "care_refused", phone=case.phone.number),))
    return Decision((say("care_yes" if agreed else "care_no"),), writes, push=told)


def ask_join() -> Question:
    """A cooperative invites one of its members."""
    return menu(JOIN, "ask_join", ("yes", "no"))


def ask_new_phone() -> Question:
    """The adviser says that this is a known farmer's phone now."""
    return menu(CARE, "ask_new_phone", ("yes", "no"))


def answer_join(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The invited phone's own yes or no."""
    del case, handbook
    return _join(agreed=meaning.slots.answer == "yes")


def _join(*, agreed: bool) -> Decision:
    if agreed:
        return Decision((say("joined"),), (SetConsent("active", "own text"), CloseQuestion()))
    writes = (SetConsent("stopped", "said no"), CancelWaiting(), CloseQuestion())
    return Decision((say("join_no"),), writes)


def invited(meaning: Meaning, case: Case, text: str) -> Decision | None:
    """What an invited phone says once its question has run out: START or a digit still counts.
    None: it wants something else."""
    digit = text.strip(" .()")
    agreed = meaning.intent is Intent.START or digit == "1"
    if case.question is not None or not (agreed or digit == "2"):
        return None
    asked = asked_contact(case)
    return _join(agreed=agreed) if asked is None else _care(asked, case, agreed=agreed)


def forget_me(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Asked back once, because it can't be undone."""
    del meaning, handbook
    if not case.phone.id:
        return answer(say("nothing_held"))
    return Decision(question=menu(FORGET, "ask_forget", ("yes", "no")))


def answer_forget(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """All about the person is erased; a phone that others use goes on for them."""
    del handbook
    if meaning.slots.answer != "yes":
        return Decision((say("forget_no"),), (CloseQuestion(),))
    if case.is_shared:
        return Decision((say("forgotten_shared"),), (CloseQuestion(), Forget()))
    stopping = (SetConsent("stopped", "forget me"), CancelWaiting(), CloseQuestion())
    return Decision((say("forgotten"),), (*stopping, Forget()))


def about_me(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What is held, by kind: a sender's number can be forged, so no figure of the farm is shown."""
    del meaning, handbook
    if not case.phone.id:
        return answer(say("nothing_held"))
    tell = TellAdviser("about_me", "asks what we hold about them")
    return Decision((say("about_me", n=len(case.batches)),), (tell,))


def asked_contact(case: Case) -> Contact | None:
    """What this phone has been asked to look after and not answered yet, the last asked."""
    asked = [one for one in case.contacts if one.state == "asked"]
    return asked[-1] if asked else None


def name(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What the person is called; said only where a phone serves several."""
    del handbook
    if case.person is None or meaning.slots.name is None:
        return answer(say("hello_new"))
    return Decision((say("name_set", name=meaning.slots.name),), (SetName(meaning.slots.name),))


def owner(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """ "belongs to Juma": the batch is another's who shares this phone."""
    del handbook
    if case.batch is None or meaning.slots.name is None:
        return no_batch(case)
    return Decision(
        (say("owner_set", name=meaning.slots.name),),
        (SetOwner(case.batch.id, meaning.slots.name),),
    )
