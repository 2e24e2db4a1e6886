"""Which batch a text is about, where a phone has several with birds in them.

In: what was said and the case. Out: the case with that batch last, which the answers take; where
the text leaves it open, the question "Which?" behind the answer. What was put down for the wrong
batch is taken back there and put down for the right one. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace
from math import log

from bot.decide.common import about, answer, menu, say, too_many
from bot.errors import OutsideRange
from bot.facts.farm import WAYS_OUT, Batch, Case
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Value
from bot.facts.writes import AddEvent, CloseQuestion, UndoEvents, Write
from bot.handbook.shape_husbandry import Husbandry
from bot.handbook.shapes import Handbook
from bot.husbandry.growth import weight_g
from bot.ledger.entries import last_entries
from bot.say.plain import plain

WHICH = "which"
SALE_AGE = 21  # nobody sells or eats broilers younger (common practice, no source)
MOST = 3  # batches that a menu lists, the youngest
TWICE = log(2)
LEAVING = (Intent.SOLD, Intent.TAKEN)
# Entries that belong to one batch alone.
ENTRIES = (*WAYS_OUT, "counted", "feed_in", "feed_eaten", "water", "weight", "treated")


def running_batches(case: Case) -> list[Batch]:
    """The batches with birds in them, the youngest first."""
    found = [one for one in case.batches if one.state == "running" and one.placed_on is not None]
    return sorted(found, key=lambda one: one.age(case.today) or 0)


def focused(meaning: Meaning, case: Case, h: Husbandry, text: str, *, answers: bool) -> Case:
    """The case with the batch that the text is about as the last one."""
    batches = running_batches(case)
    if len(batches) < 2:
        return case
    asked = case.question.batch_id if case.question and answers else None
    chosen = next((one for one in batches if one.id == asked), None)
    chosen = chosen or told_by(meaning, case, h, text) or batches[0]
    others = tuple(one for one in case.batches if one.id != chosen.id)
    return replace(case, batches=(*others, chosen))


def told_by(meaning: Meaning, case: Case, h: Husbandry, text: str) -> Batch | None:
    """The one batch that what was said can be about: the one whose name is said, birds sold are the
    grown ones, crops are those of the youngest, a weight belongs to the age that has it. None where
    it may be several."""
    batches = running_batches(case)
    if len(batches) < 2:
        return batches[0] if batches else None
    named = [one for one in batches if _is_named(case.label(one), text)]
    if len(named) == 1:
        return named[0]
    facts = meaning.facts()
    if any(one.intent in LEAVING for one in facts):
        grown = [one for one in batches if (one.age(case.today) or 0) >= SALE_AGE]
        return grown[0] if len(grown) == 1 else None
    if any(one.intent is Intent.CROP_CHECK for one in facts):
        return batches[0]
    grams = next((one.slots.avg_g for one in facts if one.slots.avg_g), None)
    return None if grams is None else _by_weight(batches, grams, case, h)


def _is_named(label: str | None, text: str) -> bool:
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


def asking_which(decision: Decision, case: Case) -> Decision:
    """The same answer with the question "Which?" behind it, where it made an entry and asks nothing
    else."""
    batches = running_batches(case)[:MOST]
    made = {one.batch_id for one in decision.writes if isinstance(one, AddEvent)
            and one.kind in ENTRIES}  # fmt: skip
    if len(batches) < 2 or len(made) != 1 or decision.question is not None:
        return decision
    here = made.pop()
    lines = decision.lines
    if decision.referred:  # the danger text stands alone; the question goes with a line of its own
        lines = (*lines, *(_for_line(one, case) for one in batches if one.id == here))
    return replace(decision, lines=lines, question=_which(batches, case, here))


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
    batches = {str(one.id): one for one in running_batches(case)}
    here = batches.get(str(case.question.batch_id if case.question else ""))
    chosen = batches.get(meaning.slots.answer or "")
    if here is None or chosen is None:
        return answer(say("nothing_to_undo"))
    if chosen.id == here.id:
        return _for(chosen, case, chosen.alive, (CloseQuestion(),))
    found = last_entries([here])
    events = () if found is None else found[1]
    gone = sum(int(str(one.values["n"])) for one in events if one.kind in WAYS_OUT)
    taken = UndoEvents(tuple(one.id for one in events))
    if gone > chosen.alive:
        kind = next(one.kind for one in events if one.kind in WAYS_OUT)
        doubted = too_many(chosen, kind, gone, case.today)
        return replace(doubted, writes=(taken, *doubted.writes))
    moved = (AddEvent(chosen.id, one.kind, one.on_date, one.values) for one in events)
    return _for(chosen, case, chosen.alive - gone, (taken, *moved, CloseQuestion()))


def _for(batch: Batch, case: Case, alive: int, writes: tuple[Write, ...]) -> Decision:
    return Decision((_for_line(batch, case), say("alive_now", n=alive)), writes)


def _for_line(batch: Batch, case: Case) -> Line:
    """Which batch something was put down for: by its name, else by its day."""
    label = case.label(batch)
    if label is not None:
        return say("for_whose", name=label)
    return say("for_batch", day=(batch.age(case.today) or 0) + 1)
