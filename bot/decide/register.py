"""A batch is registered or planned, one missing thing asked at a time.

In: REGISTER or PLAN, or the answer to one of its own questions. Out: a draft that grows until the
number and the day are known, then a planned or running batch, then heat and thermometer. Nothing
a farmer said is lost on the way: the draft is a batch in the database. Called by `turn.choose`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from bot.day.planned import LAST_PRICES, last_prices, plan_lines
from bot.day.rows import fire_kept
from bot.decide.common import HEATS, about, ask_heat_count, asked_batch, menu, number, say
from bot.errors import OutsideRange
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Slots, Value
from bot.facts.writes import AddBatch, ChangeBatch, CloseQuestion, Join, SetConsent, Write
from bot.handbook.shapes import Handbook
from bot.husbandry.plan import birds_of_house

LEAST, MOST = 10, 2000  # beyond these a number is read back; the service is made for 50 to 2,000
REFUSED = 20_000  # more than any smallholder keeps: asked again
OLDEST, FARTHEST = 60, 365  # days back and ahead in which a placement is believed
SMALLEST_M2, LARGEST_M2 = 2.0, 800.0  # floors of a smallholder's house
JUST_HERE = 2  # days of age; older birds are not the ones that are still to come
PLANNING = "planning"  # in a question's `about`: its answer leads to the plan
AGAIN = "heat_again"
QUESTIONS = ("count", "count_sure", "date", "hatch_came", "heat", "heat_count", "thermometer",
             "second", AGAIN)  # fmt: skip


def register(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """REGISTER and PLAN: take what was said into a draft, then ask for what is missing. A plan ends
    with the plan itself."""
    begun = _draft(case)
    other = None if begun else _meant(meaning.slots, case)
    if other is not None:
        return _second(meaning, case, other, handbook)
    if meaning.intent is not Intent.PLAN:
        return _grow(meaning.slots, case, begun, handbook)
    slots, line = _of_house(meaning.slots, handbook)
    found = _grow(slots, case, begun, handbook, thinking=True)
    return replace(found, lines=(line,)) if line and found.question else found


def answer_register(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The answer to one of this file's questions."""
    question = case.question
    batch = asked_batch(case)
    if question is None or batch is None:
        return _grow(meaning.slots, case, batch, handbook)
    thinking = PLANNING in question.about
    if question.name == "second":
        return _after_second(meaning, case, batch, handbook)
    if question.name == "count_sure":
        sure = meaning.slots.answer == "yes"
        said = int(question.about["count"]) if sure else meaning.slots.count
        if said is None:
            return Decision(question=_ask_count("ask_count"))
        return _grow(Slots(count=said), case, batch, handbook, thinking=thinking, sure=sure)
    if question.name == AGAIN:
        return _heat_again(meaning.slots, case, batch, handbook, thinking=thinking)
    if question.name in ("heat", "heat_count", "thermometer"):
        return _heat(meaning.slots, case, batch, handbook, thinking=thinking)
    return _grow(meaning.slots, case, batch, handbook, thinking=thinking)


def _of_house(slots: Slots, handbook: Handbook) -> tuple[Slots, Line | None]:
    """The number of birds that the house holds where none was said, and the line that says so."""
    area, h = slots.house_m2, handbook.husbandry
    if area is None or not SMALLEST_M2 <= area <= LARGEST_M2:
        return slots, None
    holds = birds_of_house(area, h)
    if slots.count is None:
        return replace(slots, count=holds), say("plan_house", area=area, n=holds)
    small = say("plan_house_small", area=area, n=holds)
    return slots, small if slots.count > holds else None


def _meant(slots: Slots, case: Case) -> Batch | None:
    """The batch that a registration may repeat or change: a day to come without a number is of the
    chicks that are still to come."""
    coming = [one for one in case.batches if one.state == "planned"]
    only_day = slots.count is None and (slots.date_iso_offset or 0) > 0
    return coming[-1] if coming and only_day else case.batch


def _draft(case: Case) -> Batch | None:
    drafts = [one for one in case.batches if one.state == "draft"]
    return drafts[-1] if drafts else None


def _grow(
    slots: Slots,
    case: Case,
    batch: Batch | None,
    handbook: Handbook,
    *,
    thinking: bool = False,
    sure: bool = False,
) -> Decision:
    """Put what was said into the batch, and ask for the next thing that is missing."""
    count, doubt = _count(slots, batch, sure=sure)
    day, problem = _day(slots, case.today, batch)
    if thinking and day is not None and day < case.today:
        day, problem = None, "ask_date_past"
    changes: dict[str, object] = {"count": count, "placed_on": day}
    if slots.heat:
        changes["heat"] = tuple(slots.heat.split("+"))
    if slots.heat_count:
        changes["heat_count"] = slots.heat_count
    question = doubt or _missing(count, day, problem)
    if question is None and count is not None and day is not None:
        done = _complete(case, batch, changes, count, day, slots)
        return _planned(done, case, batch, changes, handbook) if thinking else done
    writes = _writes(case, batch, {**changes, "state": "draft"})
    opening = () if batch else (say("welcome"),)
    return Decision(opening, writes, _marked(question) if thinking else question)


def _marked(question: Question | None) -> Question | None:
    """The question of somebody who thinks of chicks: its answers lead to the plan."""
    return None if question is None else about(question, **{PLANNING: "yes"})


def _planned(
    done: Decision,
    case: Case,
    batch: Batch | None,
    changes: dict[str, object],
    handbook: Handbook,
) -> Decision:
    """What is said back, and behind it the plan; where the heat is not known it is asked first."""
    count, day = changes["count"], changes["placed_on"]
    if not isinstance(count, int) or not isinstance(day, date) or day <= case.today:
        return done
    line = say("planned", n=count, date=day)
    if done.question is not None:
        return replace(done, lines=(line,), question=_marked(done.question))
    told = changes.get("heat") or (batch.heat if batch else ())
    heat = tuple(str(one) for one in told) if isinstance(told, tuple) else ()
    return replace(done, lines=(line,), more=_plan(case, count, heat, batch, handbook, day))


def _plan(
    case: Case,
    count: int,
    heat: tuple[str, ...],
    batch: Batch | None,
    handbook: Handbook,
    on: date | None = None,
) -> tuple[tuple[Line, ...], ...]:
    """The plan, one line a text; none where the figures do not hold for so many."""
    asked = case.question.about if case.question else {}
    last = {**last_prices(_of_last_time(case, batch)), **_prices_of(asked)}
    try:
        lines = plan_lines(case, count, heat, batch, handbook.husbandry, on, last)
    except OutsideRange:
        return ()
    return tuple((line,) for line in lines)


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
) -> Decision:
    """Number and day are known: say the whole back, and ask about the heat or the arrival."""
    age = (case.today - day).days
    state = "running" if age >= 0 else "planned"
    writes = _writes(case, batch, {**changes, "state": state})
    if age < 0:
        line = say("ordered", n=count, date=day)
    elif age == 0:
        return Decision((say("today", n=count),), writes, _have_they_come())
    else:
        line = say("running", n=count, day=age + 1)
    if slots.hatched and age > 0:
        return Decision((line,), writes, Question("hatch_came", "menu", "date", Line("ask_came")))
    heat = changes.get("heat") or (batch.heat if batch else ())
    return Decision((line,), writes, None if heat else _ask_heat_of(case, batch))


def _of_last_time(case: Case, now: Batch | None) -> Batch | None:
    """The batch before this one, of which heat, thermometer and prices may be as they were."""
    own = None if now is None else now.id
    before = (one for one in (case.ended, *case.batches) if one is not None and one.id != own)
    known = [one for one in before if one.heat]
    return known[-1] if known else None


def _have_they_come() -> Question:
    return menu("arrived", "have_they_come", ("yes", "not_yet"), "yes_no")


def _ask_heat_of(case: Case, batch: Batch | None) -> Question:
    """With what are they kept warm; who kept chicks before is asked whether it is as it was."""
    last = _of_last_time(case, batch)
    if last is None:
        return ask_heat()
    prices = last_prices(last)
    if len(last.heat) != 1:
        return about(ask_heat(), **prices)
    kind, stoves = last.heat[0], last.heat_count
    counted: dict[str, Value] = {} if stoves is None else {"n": stoves}
    key = "ask_heat_kind" if stoves is None else "ask_heat_again"
    asked = menu(AGAIN, key, ("yes", "no"), "yes_no", heat=kind, **counted)
    has = "" if last.thermometer is None else "yes" if last.thermometer else "no"
    return about(asked, heat=kind, stoves=str(stoves or ""), thermometer=has, **prices)


def _heat_again(
    slots: Slots, case: Case, batch: Batch, handbook: Handbook, *, thinking: bool
) -> Decision:
    """1 yes: heat, stoves and thermometer are those of the last batch; how many stoves is asked
    where nobody told. 2 no: asked as of anyone."""
    was = case.question.about if case.question else {}
    same = bool(was.get("heat")) and slots.heat == was["heat"]
    if slots.heat and not same:
        return _heat(slots, case, batch, handbook, thinking=thinking)
    if not (same or slots.answer == "yes") or not was.get("heat"):
        asked = about(ask_heat(), **_prices_of(was))
        return Decision((), (), _marked(asked) if thinking else asked)
    heat, stoves = (was["heat"],), int(was.get("stoves") or 0)
    changes: dict[str, object] = {"heat": heat, "heat_count": stoves or None}
    if was.get("thermometer"):
        changes["thermometer"] = was["thermometer"] == "yes"
    line = say("heat_again_is", n=stoves, heat=heat[0]) if stoves else say("heat_is", heat=heat[0])
    ask = None if was.get("thermometer") else _ask_thermometer()
    if not stoves and not thinking and heat != ("none",):
        ask = ask_heat_count(heat[0])
    plan = _plan(case, batch.count, heat, batch, handbook) if thinking and batch.count else ()
    return Decision((line,), (ChangeBatch(batch.id, changes), CloseQuestion()), ask, more=plan)


def _prices_of(was: Mapping[str, str]) -> dict[str, str]:
    """What a question carries of the prices of the last batch."""
    return {name: was[name] for name in LAST_PRICES if name in was}


def ask_heat() -> Question:
    """With what are they kept warm?"""
    return menu("heat", "ask_heat", HEATS, "heat")


def _heat(
    slots: Slots, case: Case, batch: Batch, handbook: Handbook, *, thinking: bool
) -> Decision:
    """Heat, how many of them, then the thermometer: one at a time. Who only plans gets the plan,
    which says how many they need."""
    heat = tuple((slots.heat or slots.answer or "").split("+")) if not batch.heat else batch.heat
    if not batch.heat and thinking and batch.count:
        plan = _plan(case, batch.count, heat, batch, handbook)
        heated = (ChangeBatch(batch.id, {"heat": heat}), CloseQuestion())
        line = say("heat_is", heat=heat[0])
        return Decision((line,), heated, _ask_thermometer(), more=plan)
    if not batch.heat:
        write = ChangeBatch(batch.id, {"heat": heat, "heat_count": slots.heat_count})
        if slots.heat_count or heat == ("none",):
            return Decision((say("heat_is", heat=heat[0]),), (write,), _ask_thermometer())
        return Decision((), (write,), ask_heat_count(heat[0]))
    if batch.heat_count is None and slots.count:
        write = ChangeBatch(batch.id, {"heat_count": slots.count})
        line = say("heat_count_is", n=slots.count)
        told = batch.thermometer is not None
        return Decision((line,), (write,), None if told else _ask_thermometer())
    if slots.answer in ("yes", "no"):
        has = slots.answer == "yes"
        known = (ChangeBatch(batch.id, {"thermometer": has}), CloseQuestion())
        return Decision((say("thermometer_yes" if has else "thermometer_no"),), known)
    return Decision((), (), _ask_thermometer())


def _ask_thermometer() -> Question:
    return menu("thermometer", "ask_thermometer", ("yes", "no"), "yes_no")


def _second(meaning: Meaning, case: Case, other: Batch, handbook: Handbook) -> Decision:
    """A batch runs or is planned already: is this another one, or the same one told again? Who asks
    for the plan of one that is still to come gets it."""
    slots = meaning.slots
    day = _day(slots, case.today, None)[0]
    if other.count is None or other.placed_on is None:
        return _grow(slots, case, other, handbook)
    moved = other.state == "planned" and slots.count is None and meaning.intent is Intent.REGISTER
    if moved and day is not None and day > case.today and day != other.placed_on:
        # "they come monday instead": the day alone has moved
        changes = {"placed_on": day, "said": fire_kept(other, day)}
        line = say("moved_date", n=other.count, date=day)
        return Decision((line,), _writes(case, other, dict(changes)))
    same_day = day is None or day == other.placed_on
    if slots.count in (None, other.count) and same_day:
        if meaning.intent is Intent.PLAN and other.state == "planned":
            line = say("planned", n=other.count, date=other.placed_on)
            return Decision((line,), more=_plan(case, other.count, other.heat, other, handbook))
        if meaning.intent is Intent.PLAN:
            first, *more = _plan(case, other.count, other.heat, other, handbook) or ((),)
            return Decision(first, more=tuple(more))
        return Decision((say("known_already", n=other.count, date=other.placed_on),))
    if day is not None and day > case.today and (other.age(case.today) or 0) > JUST_HERE:
        thinking = meaning.intent is Intent.PLAN  # grown birds are here: these are other ones
        return _grow(slots, case, None, handbook, thinking=thinking)
    question = menu("second", "second_batch", ("another", "same"), "yes_no", n=other.count,
                    date=other.placed_on)  # fmt: skip
    held = {"count": str(slots.count or ""), "day": day.isoformat() if day else ""}
    return Decision((), (), about(question, **held))


def _after_second(meaning: Meaning, case: Case, batch: Batch, handbook: Handbook) -> Decision:
    """1 another: a new draft with what was said. 2 the same: number or day of this one change."""
    held = case.question.about if case.question else {}
    count = int(held["count"]) if held.get("count") else None
    day = date.fromisoformat(held["day"]) if held.get("day") else None
    offset = (day - case.today).days if day else None
    slots = Slots(count=count, date_iso_offset=offset)
    if meaning.slots.answer == "another":
        return _grow(slots, case, None, handbook)
    return _grow(slots, case, batch, handbook)


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
