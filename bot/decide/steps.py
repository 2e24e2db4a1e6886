"""Answers to the calendar's own questions: preparation steps, the vet, feathers, nights.

In: the answer to "1 done 2 not yet", "did you reach the vet?", "feathers on the back?", "how cold
are the nights?". Out: the batch knows it, and what follows is said. Called by `turn.choose`.
"""

from __future__ import annotations

from bot.day.countdown import STEPS, is_late
from bot.decide.common import answer, asked_batch, behaviour_menu, say
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Meaning
from bot.facts.writes import AddEvent, ChangeBatch, CloseQuestion, TellAdviser, Write
from bot.handbook.shapes import Handbook

COLDEST_NIGHT, WARMEST_NIGHT = -10, 32  # C; beyond these it is no night where chicks are raised


def answer_done(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """1 done: good. 2 not yet: a late essential step is told to the adviser, another is asked about
    again. The answer stays with the batch."""
    batch = asked_batch(case)
    asked = case.question.about.get("step", "") if case.question else ""
    steps = [one for one in asked.split(STEPS) if one]
    done = meaning.slots.answer in ("done", "yes")
    kept: tuple[Write, ...] = (CloseQuestion(),)
    if batch is not None:
        told = ({"row": step, "done": done} for step in steps)
        kept = (*(AddEvent(batch.id, "step", case.today, one) for one in told), *kept)
    if done:
        return Decision((say("step_done"),), kept)
    age = batch.age(case.today) if batch else None
    late = [step for step in steps if is_late(step, age, handbook.calendar)]
    if not late:
        return Decision((say("step_again"),), kept)
    name = ", ".join(late).replace("_", " ")
    reason = f"not done yet: {name}" + (f", chicks in {-age} days" if age else "")
    figures = {"steps": late, "days": None if age is None else -age}
    tell = TellAdviser("late", reason, batch.id if batch else None, figures)
    return Decision((say("step_late"),), (tell, *kept))


def answer_vet(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """1 reached: do as the vet says. 2 not yet: call now, and the adviser is told."""
    del handbook
    batch = asked_batch(case)
    if batch is None:
        return answer(say("register_first"))
    if meaning.slots.answer == "yes":
        writes = (AddEvent(batch.id, "vet", case.today, {}), CloseQuestion())
        gone = batch.state == "running" and not batch.alive
        return Decision((say("vet_reached_none" if gone else "vet_reached"),), writes)
    return _no_vet_yet(batch)


def _no_vet_yet(batch: Batch) -> Decision:
    tell = TellAdviser("danger", "no vet reached yet", batch.id, {"what": "no_vet"})
    return Decision((say("vet_not_yet"),), (tell, CloseQuestion()), referred=True)


def answer_vet_said(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What the vet found in a batch that is held. 1 no dangerous disease: it may be sold again, and
    the adviser is told so. 2: it stays held. 3: not seen yet."""
    del handbook
    batch = asked_batch(case)
    if batch is None:
        return answer(say("register_first"))
    if meaning.slots.answer == "vet_free":
        reason = "says the vet found no dangerous disease"
        tell = TellAdviser("danger", reason, batch.id, {"what": "vet_free"})
        freed = ChangeBatch(batch.id, {"held": False})
        return Decision((say("vet_free"),), (freed, tell, CloseQuestion()))
    if meaning.slots.answer == "vet_danger":
        reason = "says the vet found a dangerous disease"
        tell = TellAdviser("danger", reason, batch.id, {"what": "vet_found"})
        return Decision((say("vet_danger"),), (tell, CloseQuestion()), referred=True)
    return _no_vet_yet(batch)


def answer_well(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """All well after days without a word: good. If not, what they see is asked."""
    del case, handbook
    if meaning.slots.answer == "no":
        return Decision(question=behaviour_menu())
    return Decision((say("well_yes"),), (CloseQuestion(),))


def answer_feathers(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Feathers on the back: one of the two things that decide the move."""
    del handbook
    batch = asked_batch(case)
    if batch is None:
        return answer(say("register_first"))
    grown = meaning.slots.answer == "yes"
    writes = (ChangeBatch(batch.id, {"feathered": grown}), CloseQuestion())
    return Decision((say("feathers_yes" if grown else "feathers_no"),), writes)


def answer_nights(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """How cold the nights are: the other. Degrees count as well: from 20 C warm, from 15 cool."""
    del handbook
    batch = asked_batch(case)
    if batch is None:
        return answer(say("register_first"))
    nights = meaning.slots.answer or _by_degrees(meaning.slots.value_c)
    if nights not in ("warm", "cool", "cold"):
        return answer(say("nights_again"))
    degrees = meaning.slots.value_c
    told = () if degrees is None else (AddEvent(batch.id, "night", case.today, {"low_c": degrees}),)
    writes = (ChangeBatch(batch.id, {"nights": nights}), *told, CloseQuestion())
    return Decision((say(f"nights_{nights}"),), writes)


def _by_degrees(degrees: float | None) -> str | None:
    """Common practice, no source: 20 C and more is a warm night, under 15 C a cold one."""
    if degrees is None or not COLDEST_NIGHT <= degrees <= WARMEST_NIGHT:
        return None
    return "warm" if degrees >= 20 else "cool" if degrees >= 15 else "cold"
