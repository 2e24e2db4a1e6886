"""Who looks after whose birds, and on which phone. In: what was wished, and the case. Out: the
caretaker's phone asked, its answer taken, names set. Called by `turn.choose`.

Nobody is texted on another's word: the caretaker's phone is asked once, and agrees itself.
"""

from __future__ import annotations

from bot.decide.common import answer, menu, no_batch, say
from bot.facts.farm import Case, Contact
from bot.facts.talk import Decision, Meaning, Push
from bot.facts.writes import (
    AnswerCare,
    AskCaretaker,
    CareHere,
    CloseQuestion,
    EndCare,
    SetConsent,
    SetName,
    SetOwner,
    TellAdviser,
    Write,
)
from bot.handbook.shapes import Handbook

CARE = "care"


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
    writes: tuple[Write, ...] = (AnswerCare(asked.id, agreed), CloseQuestion())
    if case.phone.consent == "invited":
        consent = SetConsent("active", "own text") if agreed else SetConsent("stopped", "said no")
        writes = (consent, *writes)
    told = Push((say("care_agreed" if agreed else "care_refused", phone=case.phone.number),))
    return Decision((say("care_yes" if agreed else "care_no"),), writes, push=told)


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
