"""Slips put right: the last entry taken back, a figure corrected.

In: UNDO, CORRECT. Out: which entry it was, and what counts now. Nothing is overwritten: what is
taken back stays in the record, marked, and a correction stands for the entry it corrects. Called by
`turn.choose`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

from bot.decide.common import answer, maybe, say, too_many
from bot.facts.farm import WAYS_OUT, Batch, Case, Event
from bot.facts.talk import Decision, Intent, Line, Meaning, Slots
from bot.facts.writes import AddEvent, ChangeBatch, UndoEvents, Write
from bot.handbook.shapes import Handbook
from bot.ledger.entries import FIGURE_OF, figure_of, last_entries
from bot.ledger.settle import REPLACES, replaced_by

RECENT_DAYS = 7  # so far back an entry is taken back, or a wrong figure looked for
WHOLE = (*WAYS_OUT, "counted", "crop")  # birds: never halves


def undo(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Take back the entries of the last text that made any. A batch that they closed runs again."""
    del meaning, handbook
    found = last_entries(_batches(case))
    if found is None or case.now - found[1][0].at > timedelta(days=RECENT_DAYS):
        return answer(say("nothing_to_undo"))
    batch, events = found
    events = (*events, *_completed(batch, events))
    writes: tuple[Write, ...] = (UndoEvents(tuple(one.id for one in events)),)
    if batch.state == "closed":
        writes = (*writes, ChangeBatch(batch.id, {"state": "running"}))
    freed = _frees(batch, events)
    writes = (*writes, *((ChangeBatch(batch.id, {"held": False}),) if freed else ()))
    left = _without(batch, events)
    birds = (say("alive_now", n=left),) if left != batch.alive else ()
    told = [one for one in events if figure_of(one) is not None] or list(events[:1])
    first, *others = _once([_taken_back(one) for one in told])
    rest = tuple(maybe(one.key, **one.values) for one in others)
    after = (say("held_lifted"),) if freed else (maybe("send_again"),)
    return Decision((first, *rest, *birds, *after), writes)


def _frees(batch: Batch, gone: tuple[Event, ...]) -> bool:
    """Whether the alarm that held the batch is among the entries taken back and no other stands."""
    alarms = {one.id for one in batch.live_events("alarm")}
    taken = {one.id for one in gone if one.kind == "alarm"}
    return batch.held and bool(taken) and alarms <= taken


def _once(lines: list[Line]) -> list[Line]:
    return [one for at, one in enumerate(lines) if one not in lines[:at]]


def _completed(batch: Batch, events: tuple[Event, ...]) -> tuple[Event, ...]:
    """The sales of which these entries only tell the money: taken back with it."""
    stood_for = {number for one in events if one.kind == "sold" for number in replaced_by(one)}
    counts = {one.values.get("n") for one in events}
    return tuple(
        one for one in batch.events if one.id in stood_for and one.values.get("n") in counts
    )


def _batches(case: Case) -> Iterator[Batch]:
    yield from case.batches
    if case.ended is not None:
        yield case.ended


def _without(batch: Batch, events: tuple[Event, ...]) -> int:
    """Birds alive without these entries; those they stood for are back in their place."""
    gone = {one.id for one in events}
    back = {number for one in events for number in replaced_by(one)}
    events_left = tuple(
        replace(one, undone=True) if one.id in gone else
        replace(one, undone=False) if one.id in back else one
        for one in batch.events
    )  # fmt: skip
    return replace(batch, events=events_left).alive


def _taken_back(one: Event) -> Line:
    figure = figure_of(one)
    if figure is None:
        return say("undone", what=one.kind)
    return say("undone_figure", what=one.kind, n=_shown(figure))


def _shown(figure: float) -> int | float:
    return int(figure) if figure == int(figure) else figure


def correct(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The right figure in the place of the last one, or of the wrong one that was named."""
    del handbook
    value = meaning.slots.value
    found = _meant(meaning, case)
    if value is None:
        return answer(say("correct_which"))
    if found is None:
        return _placed(meaning.slots, case) or answer(say("correct_which"))
    batch, event, name = found
    was = float(str(event.values[name]))
    if event.kind == "weight" and meaning.slots.was is not None and meaning.slots.was != was:
        value = round(value / meaning.slots.was * was, 1)  # both were told as a total
    if event.kind in WHOLE and value != int(value):
        return answer(say("correct_which"))
    if event.kind in WAYS_OUT and name == "n" and value - was > batch.alive:
        return too_many(batch, event.kind, round(value), event.on_date)
    figure = int(value) if event.kind in WHOLE else value
    values = {**event.values, name: figure, REPLACES: [event.id]}
    write = AddEvent(batch.id, event.kind, event.on_date, values)
    left = batch.alive + round(was - value)
    birds = (say("alive_now", n=left),) if event.kind in WAYS_OUT and name == "n" else ()
    told = say("corrected", what=event.kind, n=_shown(value), was=_shown(was))
    return Decision((told, *birds), (write,))


def _placed(slots: Slots, case: Case) -> Decision | None:
    """ "It was 480 not 500": the number of chicks that came, where no entry holds the wrong one."""
    value, was = slots.value, slots.was
    batch = next((one for one in reversed(case.batches) if one.count and one.count == was), None)
    if batch is None or batch.count is None or value is None or value != int(value):
        return None
    gone = batch.count - batch.alive
    if value < max(1, gone):
        return None
    changed = ChangeBatch(batch.id, {"count": int(value)})
    if batch.state == "planned":
        return Decision((say("corrected_plan", n=int(value), was=batch.count),), (changed,))
    told = say("corrected_count", n=int(value), was=batch.count)
    return Decision((told, say("alive_now", n=int(value) - gone)), (changed,))


def more_dead(meaning: Meaning, case: Case) -> Meaning:
    """A correction that makes the dead of a day more, as the deaths that it adds: danger is judged
    on those. Any other meaning as it is."""
    found = _meant(meaning, case) if meaning.intent is Intent.CORRECT else None
    value = meaning.slots.value
    if found is None or value is None or found[1].kind != "deaths":
        return meaning
    more = round(value - (figure_of(found[1]) or 0))
    if more <= 0:
        return meaning
    offset = (found[1].on_date - case.today).days
    return Meaning(Intent.DEATHS, Slots(deaths=more, date_iso_offset=offset))


def _meant(meaning: Meaning, case: Case) -> tuple[Batch, Event, str] | None:
    """The entry that a correction means, with the name of its figure."""
    was = meaning.slots.was
    if was is not None:
        return next(_with_figure(case, was), None)
    found = last_entries(_batches(case))
    if found is None:
        return None
    batch, events = found
    single = [one for one in events if figure_of(one) is not None]
    return (batch, single[0], FIGURE_OF[single[0].kind]) if len(single) == 1 else None


def _with_figure(case: Case, was: float) -> Iterator[tuple[Batch, Event, str]]:
    """Entries of the last days that hold this figure, the latest first; the price of a sale too."""
    told = [
        (one, batch)
        for batch in _batches(case)
        for one in batch.events
        if not one.undone and (case.today - one.on_date).days <= RECENT_DAYS
    ]
    for one, batch in sorted(told, key=lambda pair: -pair[0].id):
        names = [FIGURE_OF.get(one.kind, ""), *(["price"] if one.kind == "sold" else [])]
        for name in names:
            if one.values.get(name) == was or (one.kind == "weight" and _is_total(one, was)):
                yield batch, one, name


def _is_total(one: Event, told: float) -> bool:
    """Whether this weighing was told as so many kilograms of 10 or 20 birds together."""
    grams = float(str(one.values.get("avg_g", 0)))
    return any(abs(told * 1000 / birds - grams) < 1 for birds in (10, 20))
