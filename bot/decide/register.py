"""A batch is registered or planned, one missing thing asked at a time.

In: REGISTER or PLAN, or the answer to one of its own questions. Out: a draft that grows until the
number and the day are known, then a planned or running batch, then heat and thermometer. Nothing
a farmer said is lost on the way: the draft is a batch in the database. Called by `turn.choose`.
"""

from __future__ import annotations

from datetime import date, timedelta

from bot.decide.common import about, asked_batch, menu, number, say
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Slots
from bot.facts.writes import AddBatch, ChangeBatch, CloseQuestion, Join, SetConsent, Write
from bot.handbook.shapes import Handbook

LEAST, MOST = 10, 2000  # beyond these a number is read back; the service is made for 50 to 2,000
REFUSED = 20_000  # more than any smallholder keeps: asked again
OLDEST, FARTHEST = 60, 365  # days back and ahead in which a placement is believed
QUESTIONS = ("count", "count_sure", "date", "hatch_came", "heat", "heat_count", "thermometer",
             "second")  # fmt: skip


def register(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """REGISTER and PLAN: take what was said into a draft, then ask for what is missing."""
    del handbook
    begun = _draft(case)
    other = None if begun else case.batch
    if other is not None:
        return _second(meaning, case, other)
    return _grow(meaning.slots, case, begun, thinking=meaning.intent is Intent.PLAN)


def answer_register(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The answer to one of this file's questions."""
    del handbook
    question = case.question
    batch = asked_batch(case)
    if question is None or batch is None:
        return _grow(meaning.slots, case, batch, thinking=False)
    if question.name == "second":
        return _after_second(meaning, case, batch)
    if question.name == "count_sure":
        sure = meaning.slots.answer == "yes"
        said = int(question.about["count"]) if sure else meaning.slots.count
        if said is None:
            return Decision(question=_ask_count("ask_count"))
        return _grow(Slots(count=said), case, batch, thinking=False, sure=sure)
    if question.name in ("heat", "heat_count", "thermometer"):
        return _heat(meaning.slots, batch)
    return _grow(meaning.slots, case, batch, thinking=False)


def _draft(case: Case) -> Batch | None:
    drafts = [one for one in case.batches if one.state == "draft"]
    return drafts[-1] if drafts else None


def _grow(
    slots: Slots, case: Case, batch: Batch | None, *, thinking: bool, sure: bool = False
) -> Decision:
    """Put what was said into the batch, and ask for the next thing that is missing."""
    count, doubt = _count(slots, batch, sure=sure)
    day, problem = _day(slots, case.today, batch)
    changes: dict[str, object] = {"count": count, "placed_on": day}
    if slots.heat:
        changes["heat"] = tuple(slots.heat.split("+"))
    if slots.heat_count:
        changes["heat_count"] = slots.heat_count
    question = doubt or _missing(count, day, problem)
    if question is None and count is not None and day is not None:
        return _complete(case, batch, changes, count, day, slots, thinking=thinking)
    writes = _writes(case, batch, {**changes, "state": "draft"})
    opening = () if batch else (say("welcome"),)
    return Decision(opening, writes, question)


def _count(slots: Slots, batch: Batch | None, *, sure: bool) -> tuple[int | None, Question | None]:
    """The number placed, and the question when it is missing or doubtful."""
    said = slots.count
    if said is None:
        known = batch.count if batch else None
        return known, None
    if said <= 0 or said > REFUSED:
        return None, _ask_count("ask_count_again")
    if not sure and not LEAST <= said <= MOST:
        question = menu("count_sure", "count_sure", ("yes", "change"), "yes_no", n=said)
        return None, about(question, count=str(said))
    return said, None


def _ask_count(key: str) -> Question:
    return number("count", key, "count", 1, REFUSED)


def _day(slots: Slots, today: date, batch: Batch | None) -> tuple[date | None, str | None]:
    """The day of age 0, and what is wrong with the one that was said."""
    offset = slots.date_iso_offset
    if offset is None and slots.age_days is not None:
        offset = -slots.age_days
    if offset is None:
        return (batch.placed_on if batch else None), None
    if offset < -OLDEST:
        return None, "ask_date_old"
    if offset > FARTHEST:
        return None, "ask_date_far"
    return today + timedelta(days=offset), None


def _missing(count: int | None, day: date | None, problem: str | None) -> Question | None:
    if count is None:
        return _ask_count("ask_count")
    if day is None:
        return Question("date", "menu", "date", Line(problem or "ask_date"), ())
    return None


def _complete(
    case: Case,
    batch: Batch | None,
    changes: dict[str, object],
    count: int,
    day: date,
    slots: Slots,
    *,
    thinking: bool,
) -> Decision:
    """Number and day are known: say the whole back, and ask about the heat or the arrival."""
    age = (case.today - day).days
    state = "running" if age >= 0 else "planned"
    writes = _writes(case, batch, {**changes, "state": state})
    if age < 0:
        line = say("planned" if thinking else "ordered", n=count, date=day)
    elif age == 0:
        return Decision((say("today", n=count),), writes, _have_they_come())
    else:
        line = say("running", n=count, day=age + 1)
    if slots.hatched and age > 0:
        return Decision((line,), writes, Question("hatch_came", "menu", "date", Line("ask_came")))
    heat = changes.get("heat") or (batch.heat if batch else ())
    return Decision((line,), writes, None if heat else ask_heat())


def _have_they_come() -> Question:
    return menu("arrived", "have_they_come", ("yes", "not_yet"), "yes_no")


def ask_heat() -> Question:
    """With what are they kept warm?"""
    return menu("heat", "ask_heat", ("charcoal", "gas", "bulb", "kerosene", "wood"), "heat")


def _heat(slots: Slots, batch: Batch) -> Decision:
    """Heat, how many of them, then the thermometer: one at a time."""
    heat = tuple((slots.heat or slots.answer or "").split("+")) if not batch.heat else batch.heat
    if not batch.heat:
        write = ChangeBatch(batch.id, {"heat": heat, "heat_count": slots.heat_count})
        if slots.heat_count or heat == ("none",):
            return Decision((say("heat_is", heat=heat[0]),), (write,), _ask_thermometer())
        ask = number("heat_count", "ask_heat_count", "count", 1, 40, heat=heat[0])
        return Decision((), (write,), ask)
    if batch.heat_count is None and slots.count:
        write = ChangeBatch(batch.id, {"heat_count": slots.count})
        line = say("heat_count_is", n=slots.count)
        return Decision((line,), (write,), _ask_thermometer())
    if slots.answer in ("yes", "no"):
        has = slots.answer == "yes"
        writes = (ChangeBatch(batch.id, {"thermometer": has}), CloseQuestion())
        return Decision((say("thermometer_yes" if has else "thermometer_no"),), writes)
    return Decision((), (), _ask_thermometer())


def _ask_thermometer() -> Question:
    return menu("thermometer", "ask_thermometer", ("yes", "no"), "yes_no")


def _second(meaning: Meaning, case: Case, other: Batch) -> Decision:
    """A batch runs or is planned already: is this another one, or the same one told again?"""
    slots = meaning.slots
    day = _day(slots, case.today, None)[0]
    if other.count is None or other.placed_on is None:
        return _grow(slots, case, other, thinking=False)
    same_day = day is None or day == other.placed_on
    if slots.count in (None, other.count) and same_day:
        return Decision((say("known_already", n=other.count, date=other.placed_on),))
    question = menu("second", "second_batch", ("another", "same"), "yes_no", n=other.count,
                    date=other.placed_on)  # fmt: skip
    held = {"count": str(slots.count or ""), "day": day.isoformat() if day else ""}
    return Decision((), (), about(question, **held))


def _after_second(meaning: Meaning, case: Case, batch: Batch) -> Decision:
    """1 another: a new draft with what was said. 2 the same: number or day of this one change."""
    held = case.question.about if case.question else {}
    count = int(held["count"]) if held.get("count") else None
    day = date.fromisoformat(held["day"]) if held.get("day") else None
    offset = (day - case.today).days if day else None
    slots = Slots(count=count, date_iso_offset=offset)
    if meaning.slots.answer == "another":
        return _grow(slots, case, None, thinking=False)
    return _grow(slots, case, batch, thinking=False)


def _writes(case: Case, batch: Batch | None, changes: dict[str, object]) -> tuple[Write, ...]:
    """Join (or opt in again) where needed, then the batch, new or changed."""
    joining: tuple[Write, ...] = ()
    if case.person is None:
        joining = (Join(case.language),)
    elif case.phone.consent != "active":
        joining = (SetConsent("active", "own text"),)
    if batch is None:
        return (*joining, AddBatch(changes))
    return (*joining, ChangeBatch(batch.id, changes))
