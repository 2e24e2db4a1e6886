"""Which batch a text is about, where a phone has several with birds in them.

In: what was said and the case. Out: the case with that batch last, which the answers take; where
the text leaves it open, the question "Which?" behind the answer. What was put down for the wrong
batch is taken back there and put down for the right one. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace
from math import log

from bot.decide.common import UNPLACED, about, answer, menu, say, too_many
from bot.decide.named import Named, named, running_batches
from bot.errors import OutsideRange
from bot.facts.farm import WAYS_OUT, Batch, Case, Event, OpenQuestion
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Slots, Value
from bot.facts.writes import AddEvent, ChangeBatch, CloseQuestion, UndoEvents, Write
from bot.handbook.shape_husbandry import Husbandry
from bot.handbook.shapes import Handbook
from bot.husbandry.growth import weight_g
from bot.ledger.entries import last_entries
from bot.ledger.settle import replaced_by
from bot.say.plain import plain

WHICH = "which"
MOVED = "moved"  # what a question carries: which entries are to be placed
SALE_AGE = 21  # nobody sells or eats broilers younger (common practice, no source)
TWICE = log(2)
LEAVING = (Intent.SOLD, Intent.TAKEN)
# What belongs to one batch alone: as it is told, and as it is kept.
TOLD = (*LEAVING, Intent.DEATHS, Intent.CULLED, Intent.FEED, Intent.WATER, Intent.WEIGHT,
        Intent.TREATED, Intent.COUNTED)  # fmt: skip
ENTRIES = (*WAYS_OUT, "counted", "feed_in", "feed_eaten", "water", "weight", "treated")


def may_tell(meaning: Meaning) -> bool:
    """Whether a text may tell something that is to be put down for one batch."""
    return any(one.intent in (*TOLD, Intent.OTHER) for one in meaning.facts())


def focused(meaning: Meaning, case: Case, handbook: Handbook, text: str, *, answers: bool) -> Case:
    """The case with the batch that the text is about as the last one."""
    batches = running_batches(case)
    here = [one for one in case.batches if one.state == "running"]
    if len(here) < 2 or not batches:
        return case
    asked = case.question.batch_id if case.question and answers else None
    chosen = next((one for one in here if one.id == asked), None)
    chosen = chosen or told_by(meaning, case, handbook, text) or batches[-1]
    return with_last(case, chosen)


def with_last(case: Case, chosen: Batch) -> Case:
    """The case with this batch as the one that a text is about."""
    others = tuple(one for one in case.batches if one.id != chosen.id)
    return replace(case, batches=(*others, chosen))


def spoken_of(case: Case, text: str, handbook: Handbook) -> Case:
    """The case as a text is heard that names one of several batches: that batch last, and no
    question open that is about another, for it is not the one answered."""
    found = named(text, case, handbook.texts)
    if found is None:
        return case
    if case.question is not None and _is_of_another(case.question, found):
        case = replace(case, question=None)
    return with_last(case, found.batch)


def _is_of_another(question: OpenQuestion, found: Named) -> bool:
    """ "The old ones" answers "Which batch?"; with an entry behind it, it is told anew."""
    if question.name == WHICH:
        return any(letter.isalnum() for letter in found.rest)
    return question.batch_id not in (None, found.batch.id)


def alone(case: Case) -> Case:
    """The case with no other birds than those of the batch that a text is about."""
    batch = case.batch
    kept = tuple(one for one in case.batches if one.state != "running" or one is batch)
    return case if len(kept) == len(case.batches) else replace(case, batches=kept)


def told_by(meaning: Meaning, case: Case, handbook: Handbook, text: str) -> Batch | None:
    """The one batch that what was said can be about: the one that is named, birds sold are the
    grown ones, crops are those of the youngest, a weight belongs to the age that has it. None where
    it may be several."""
    batches = running_batches(case)
    if len(batches) < 2:
        return batches[0] if batches else None
    called = [one for one in batches if _is_called(case.label(one), text)]
    if len(called) == 1:
        return called[0]
    found = named(text, case, handbook.texts)
    if found is not None:
        return found.batch
    facts = meaning.facts()
    if any(one.intent in LEAVING for one in facts):
        grown = [one for one in batches if (one.age(case.today) or 0) >= SALE_AGE]
        return grown[0] if len(grown) == 1 else None
    if any(one.intent is Intent.CROP_CHECK for one in facts):
        return batches[-1]
    grams = next((one.slots.avg_g for one in facts if one.slots.avg_g), None)
    return None if grams is None else _by_weight(batches, grams, case, handbook.husbandry)


def _is_called(label: str | None, text: str) -> bool:
    """Whether what a batch is called stands in a text as words of its own."""
    if label is None:
        return False
    words = plain(text).lower().replace(",", " ").replace(":", " ").replace(".", " ").split()
    wanted = label.lower().split()
    return any(words[at : at + len(wanted)] == wanted for at in range(len(words)))


def _by_weight(batches: list[Batch], grams: float, case: Case, h: Husbandry) -> Batch | None:
    off: list[tuple[float, Batch]] = []
    for one in batches:
        try:
            off.append((abs(log(grams / weight_g(one.age(case.today) or 0, h).value_g)), one))
        except OutsideRange:
            return None
    off.sort(key=lambda pair: pair[0])
    return off[0][1] if off[1][0] - off[0][0] > TWICE else None


def chosen_in_words(meaning: Meaning, case: Case, handbook: Handbook, text: str) -> Meaning:
    """ "The second batch" to "Which batch?", as the menu's digit would say it."""
    if case.question is None or case.question.name != WHICH or meaning.slots.answer is not None:
        return meaning
    found = named(text, case, handbook.texts)
    if found is None or any(letter.isalnum() for letter in found.rest):
        return meaning
    return replace(meaning, slots=Slots(answer=str(found.batch.id)))


def asking_which(decision: Decision, case: Case) -> Decision:
    """The same answer with the question "Which?" behind it, where it made an entry. Where it asks
    something else first, that question carries on that the batch is still to be named."""
    batches = running_batches(case)
    made = {one.batch_id for one in decision.writes if isinstance(one, AddEvent)
            and one.kind in ENTRIES}  # fmt: skip
    if len(batches) < 2 or len(made) != 1:
        return decision
    here = made.pop()
    if decision.question is not None:
        carries = about(decision.question, batch=str(here), **{UNPLACED: "1"})
        return replace(decision, question=carries)
    lines = decision.lines
    if decision.referred:  # the danger text stands alone; the question goes with a line of its own
        lines = (*lines, *(_for_line(one, case) for one in batches if one.id == here))
    return replace(decision, lines=lines, question=_which(batches, case, here))


def asking_at_last(decision: Decision, case: Case) -> Decision:
    """Once what was asked first is answered: which batch what had been told is about."""
    question, batches = case.question, running_batches(case)
    if question is None or UNPLACED not in question.about or decision.question is not None:
        return decision
    here = next((one for one in batches if one.id == question.batch_id), None)
    if here is None or len(batches) < 2:
        return decision
    told = [one.id for one in here.events if one.at == question.asked_at and one.kind in ENTRIES]
    moved = " ".join(str(one) for one in told)
    kept = tuple(one for one in decision.writes if not isinstance(one, CloseQuestion))
    asked = about(_which(batches, case, here.id), **{MOVED: moved})
    lines = (*decision.lines, _for_line(here, case)) if decision.referred else decision.lines
    return replace(decision, lines=lines, writes=kept, question=asked)


def about_this(decision: Decision, case: Case) -> Decision:
    """Of several batches the question is about the one that the text was about."""
    asked, batch = decision.question, case.batch
    if asked is None or batch is None or "batch" in asked.about or len(running_batches(case)) < 2:
        return decision
    return replace(decision, question=about(asked, batch=str(batch.id)))


def saying_whose(decision: Decision, case: Case, named_one: Batch) -> Decision:
    """Where a batch was named its name or day comes back behind what was put down for it."""
    made = any(isinstance(one, AddEvent) and one.kind in ENTRIES and one.batch_id == named_one.id
               for one in decision.writes)  # fmt: skip
    if not made or decision.referred:
        return decision
    line = replace(_for_line(named_one, case), essential=False)
    return replace(decision, lines=(*decision.lines, line))


def _which(batches: list[Batch], case: Case, provisional: int | None) -> Question:
    values: dict[str, Value] = {}
    labels = [case.label(one) for one in batches]
    if all(labels):
        values = {name: label or "" for name, label in zip("abc", labels, strict=False)}
        key = "whose_two" if len(batches) == 2 else "whose_three"
        asked = menu(WHICH, key, tuple(str(one.id) for one in batches), "yes_no", **values)
        return about(asked, batch=str(provisional))
    for name, one in zip("abc", batches, strict=False):
        values[f"{name}_day"] = (one.age(case.today) or 0) + 1
        values[f"{name}_n"] = one.count or 0
    key = "which_two" if len(batches) == 2 else "which_three"
    asked = menu(WHICH, key, tuple(str(one.id) for one in batches), "yes_no", **values)
    return about(asked, batch=str(provisional))


def answer_which(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The batch was named: the last entries go there, if they stand elsewhere."""
    del handbook
    batches = {str(one.id): one for one in case.batches if one.state == "running"}
    here = batches.get(str(case.question.batch_id if case.question else ""))
    chosen = batches.get(meaning.slots.answer or "")
    if here is None or chosen is None:
        return answer(say("nothing_to_undo"))
    if chosen.id == here.id:
        return _for(chosen, case, chosen.alive, (CloseQuestion(),))
    events = _to_be_moved(case, here)
    gone = sum(int(str(one.values["n"])) for one in events if one.kind in WAYS_OUT)
    taken = UndoEvents(tuple(one.id for one in events))
    if gone > chosen.alive:
        kind = next(one.kind for one in events if one.kind in WAYS_OUT)
        doubted = too_many(chosen, kind, gone, case.today)
        return replace(doubted, writes=(taken, *doubted.writes))
    moved = (AddEvent(chosen.id, one.kind, one.on_date, one.values) for one in events)
    writes = (taken, *moved, *_held(here, chosen, events), CloseQuestion())
    return _for(chosen, case, chosen.alive - gone, writes)


def _to_be_moved(case: Case, here: Batch) -> tuple[Event, ...]:
    """What was put down for the wrong batch: the entries that the question names, or what has come
    in their place; else those of the last text that made any."""
    moved = case.question.about.get(MOVED) if case.question else None
    if moved is not None:
        wanted = {int(one) for one in moved.split()}
        return tuple(one for one in here.events if not one.undone and _is_moved(one, wanted, case))
    found = last_entries([here])
    return () if found is None else found[1]


def _is_moved(one: Event, wanted: set[int], case: Case) -> bool:
    """What was told, what has come in its place, and an alarm that the answer to it raised."""
    raised = case.question is not None and one.at == case.question.asked_at
    return raised or one.id in wanted or bool(wanted & set(replaced_by(one)))


def _held(here: Batch, chosen: Batch, events: tuple[Event, ...]) -> tuple[Write, ...]:
    """The alarm that holds a batch goes with what raised it, and the batch that it was not about is
    free again."""
    alarms = {one.id for one in here.live_events("alarm")}
    moved = {one.id for one in events if one.kind == "alarm"}
    if not here.held or not moved or alarms - moved:
        return ()
    return (ChangeBatch(here.id, {"held": False}), ChangeBatch(chosen.id, {"held": True}))


def _for(batch: Batch, case: Case, alive: int, writes: tuple[Write, ...]) -> Decision:
    return Decision((_for_line(batch, case), say("alive_now", n=alive)), writes)


def _for_line(batch: Batch, case: Case) -> Line:
    """Which batch something was put down for: by its name, else by its day."""
    label = case.label(batch)
    if label is not None:
        return say("for_whose", name=label)
    return say("for_batch", day=(batch.age(case.today) or 0) + 1)
