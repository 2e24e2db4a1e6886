"""The number of birds: eaten, given, stolen, escaped; the living counted; a number that can't be.

In: TAKEN, COUNTED, or the answer to "what became of them?" and "what is the right number?". Out:
the entry, and what the record shows with it. A count changes no figure: it shows a gap, which is
asked about. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import (
    answer,
    asked_batch,
    closed_if_empty,
    day_of,
    menu,
    no_batch,
    running,
    say,
    too_many,
)
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Line, Meaning
from bot.facts.writes import AddEvent, CloseQuestion, TellAdviser, Write
from bot.handbook.shapes import Handbook
from bot.ledger.birds import EXPLAINS, alive_on
from bot.ledger.ledger import ledger_of
from bot.ledger.settle import REPLACES

# What may have become of birds that a count does not find, and the entries that say so.
FATES = {"died": "deaths", "eaten": "eaten", "sold": "sold", "stolen": "stolen"}
UNKNOWN = "unknown"
NOT_EATEN = {"stolen": "stolen_lock", "escaped": "escaped_look"}
MANY, MANY_SHARE = 3, 0.02  # missing birds that the adviser hears of; as for deaths of a day


def taken(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Birds eaten by the household, given away, stolen or escaped; treated ones are warned of."""
    del handbook
    batch = running(case)
    way, count = meaning.slots.way, meaning.slots.count
    if batch is None or way is None or not count:
        return no_batch(case)
    day = day_of(case, meaning)
    if count > batch.alive:
        return too_many(batch, way, count, day)
    left = batch.alive - count
    lines = (say(f"fact_{way}", n=count), say("alive_now", n=left), *_beside(batch, case, way))
    writes: tuple[Write, ...] = (AddEvent(batch.id, way, day, {"n": count}),)
    return closed_if_empty(Decision(lines, writes), batch, left)


def _beside(batch: Batch, case: Case, way: str) -> tuple[Line, ...]:
    """What must be said with it: birds under treatment are no food."""
    if way in NOT_EATEN:
        return (say(NOT_EATEN[way]),)
    if batch.held:
        return (say("held_no_sale"),)
    if batch.open_alarm(case.today) is not None:
        return (say("sold_caution"),)
    book = ledger_of(batch)
    if book.may_sell_from is None or book.may_sell_from <= case.today:
        return ()
    return (say("eat_unknown") if book.wait_unknown else say("eat_waits", date=book.may_sell_from),)


def counted(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The living, counted: beside the record, and what is missing is asked about."""
    del handbook
    batch = running(case)
    count = meaning.slots.count
    if batch is None or count is None:
        return no_batch(case)
    day = day_of(case, meaning)
    writes: tuple[Write, ...] = (AddEvent(batch.id, "counted", day, {"n": count}),)
    known = alive_on(batch, day)
    gap = known - count
    if gap == 0:
        return Decision((say("counted_same", n=count),), writes)
    if gap < 0:
        return Decision((say("counted_more", n=count, alive=known, gap=-gap),), writes)
    if gap >= max(MANY, MANY_SHARE * known):
        reason = f"{count} counted, {gap} missing of {known}, day {(batch.age(day) or 0) + 1}"
        told = {"n": count, "gap": gap, "alive": known, "day": (batch.age(day) or 0) + 1}
        writes = (*writes, TellAdviser("count", reason, batch.id, told))
    asked = menu("gap", "ask_gap", (*FATES, UNKNOWN))
    return Decision((say("counted_less", n=count, alive=known, gap=gap),), writes, asked)


def close(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The batch is to be closed: it closes by itself when no bird is left, so what became of those
    that are is asked for."""
    del meaning, handbook
    batch = running(case)
    return no_batch(case) if batch is None else answer(say("close_left", n=batch.alive))


def answer_gap(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What became of the birds that were missing; where nobody knows, the gap stays in sight."""
    del handbook
    batch = asked_batch(case)
    counts = ledger_of(batch).birds.counts if batch else ()
    if batch is None or not counts or counts[-1].gap <= 0:
        return Decision((say("nothing_missing"),), (CloseQuestion(),))
    last = counts[-1]
    kind = FATES.get(meaning.slots.answer or "")
    if kind is None:
        return Decision((say("gap_stays", gap=last.gap),), (CloseQuestion(),))
    values = {"n": last.gap, EXPLAINS: last.event_id}
    left = batch.alive - last.gap
    lines = (say(f"fact_{kind}", n=last.gap), say("alive_now", n=left))
    writes = (AddEvent(batch.id, kind, last.on_date, values), CloseQuestion())
    return Decision(lines, writes)


def answer_too_many(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The right number in the place of one that was more than are alive."""
    del handbook
    batch = asked_batch(case)
    kept = batch.live_events("doubted") if batch else ()
    slots = meaning.slots
    count = slots.deaths if slots.count is None else slots.count
    if batch is None or not kept or count is None:
        return answer(say("nothing_to_undo"))
    doubted = kept[-1]
    kind = str(doubted.values["of"])
    if count > batch.alive:
        found = too_many(batch, kind, count, doubted.on_date)
        first = found.writes[0]
        assert isinstance(first, AddEvent)
        values = {**first.values, REPLACES: [doubted.id]}
        return replace(found, writes=(replace(first, values=values), *found.writes[1:]))
    told = {name: value for name, value in doubted.values.items() if name not in ("of", "n")}
    values = {**told, "n": count, REPLACES: [doubted.id]}
    left = batch.alive - count
    lines = (say(f"fact_{kind}", n=count), say("alive_now", n=left))
    event = AddEvent(batch.id, kind, doubted.on_date, values)
    return closed_if_empty(Decision(lines, (event, CloseQuestion())), batch, left)
