"""Deaths and culls, counted. Whether a number is a danger was decided before (decide.danger).

In: DEATHS or CULLED, or the answer to "3 more, or 3 in all?". Out: the entry, and what it makes of
the batch. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import (
    LIVELY,
    about,
    answer,
    asked_batch,
    closed_if_empty,
    day_of,
    dead_question,
    deaths_kind,
    maybe,
    menu,
    no_batch,
    number,
    on_arrival,
    running,
    say,
    tell_unusual,
    too_many,
)
from bot.diagnosis.danger import LEAST_DEAD, QUIET_SHARE, TO_LOOK, judge_deaths, pressed
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Line, Meaning
from bot.facts.writes import AddEvent, Write
from bot.handbook.shapes import Handbook
from bot.ledger.settle import REPLACES


def deaths(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Take down the deaths of a day; a second number for the same day, or in the same text ("2 in
    the morning, now 5"), is asked about. Deaths that chance hardly explains also go to the
    adviser."""
    batch = running(case)
    said = meaning.slots.deaths
    if batch is None:
        return no_batch(case)
    if said is None:
        return Decision(question=number("deaths", "screen_deaths", "deaths", 0, 20_000))
    day, earlier = day_of(case, meaning), round(meaning.slots.was or 0)
    if said + earlier > batch.alive:
        return too_many(batch, deaths_kind(case, batch), said, day)
    before = batch.total("deaths", day) + earlier
    tells = tell_unusual(case, batch, day, said + earlier, handbook.husbandry)
    if said and before and not on_arrival(case, batch):
        asked = _more_or_in_all(case, batch, said, before)
        first = (AddEvent(batch.id, "deaths", day, {"n": earlier}),) if earlier else ()
        return replace(asked, writes=(*first, *asked.writes, *tells))
    noted = AddEvent(batch.id, deaths_kind(case, batch), day, {"n": said})
    writes: tuple[Write, ...] = (noted, *tells)
    if not said:
        return Decision((say("no_deaths"),), (AddEvent(batch.id, "deaths", day, {"n": 0}),))
    lively = LIVELY.intersection(meaning.signals) and not on_arrival(case, batch)
    question = dead_question() if lively and len(case.batches) == 1 else None
    warned = _in_danger(case, batch) and not on_arrival(case, batch)
    told = Decision(_lines(case, batch, said), writes, question, referred=warned)
    return closed_if_empty(told, batch, batch.alive - said)


def culled(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Birds put down because they were weak: counted apart from deaths."""
    del handbook
    batch = running(case)
    said = meaning.slots.count or meaning.slots.deaths
    if batch is None:
        return no_batch(case)
    if said is None:
        return answer(say("culled_how_many"))
    day, left = day_of(case, meaning), batch.alive - said
    if left < 0:
        return too_many(batch, "culled", said, day)
    write = AddEvent(batch.id, "culled", day, {"n": said})
    lines = (say("fact_culled", n=said), say("alive_now", n=left))
    return closed_if_empty(Decision(lines, (write,)), batch, left)


def _lines(case: Case, batch: Batch, said: int) -> tuple[Line, ...]:
    if on_arrival(case, batch):
        heavy = said > 0.02 * (batch.count or 0)
        first = say("dead_on_arrival", n=said)
        return (first, say("claim_hatchery", n=said)) if heavy else (first,)
    told = (say("fact_deaths", n=said), say("alive_now", n=batch.alive - said))
    if _in_a_heap(batch):
        return (*told, say("heap_apart"))
    if _in_danger(case, batch):
        return (*told, maybe("dead_out"), say("still_danger"))
    alone = sum(one.state == "running" for one in case.batches) == 1
    return (*told, say("dead_out"), *(_threshold(batch, said) if alone else ()))


def _threshold(batch: Batch, said: int) -> tuple[Line, ...]:
    """From how many in a day it is no longer quiet, where this day is: the worry is answered."""
    quiet = judge_deaths(said, batch.alive) == "quiet"
    at = next(
        n for n in range(LEAST_DEAD, batch.alive + LEAST_DEAD) if n > QUIET_SHARE * batch.alive
    )
    return (maybe("deaths_line", n=at),) if quiet else ()


def _in_danger(case: Case, batch: Batch) -> bool:
    """Whether a danger is open that only a vet takes back: no number of dead is quiet then."""
    alarm = batch.open_alarm(case.today)
    told = alarm is not None and alarm.values.get("kind") != TO_LOOK
    return batch.held or told


def _in_a_heap(batch: Batch) -> bool:
    """Whether the birds press together just now: the living come before the dead."""
    open_one = batch.complaint
    if open_one is None or open_one.state != "open":
        return False
    return pressed(open_one.signals, open_one.cause, failed=False)


def _more_or_in_all(case: Case, batch: Batch, said: int, before: int) -> Decision:
    """Two numbers of one day: the worse (more) holds until the farmer says which."""
    write = AddEvent(batch.id, "deaths", case.today, {"n": said})
    question = menu("more_or_all", "more_or_all", ("more", "in_all"), "yes_no", n=said)
    return Decision((say("earlier_today", n=before),), (write,),
                    about(question, said=str(said), before=str(before)))  # fmt: skip


def answer_more_or_all(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """1 more: the sum stands. 2 in all: today's entries give way to the one number."""
    del handbook
    batch = asked_batch(case)
    if batch is None or case.question is None:
        return no_batch(case)
    said = int(case.question.about["said"])
    today = [one for one in batch.live_events("deaths") if one.on_date == case.today]
    if meaning.slots.answer != "in_all":
        total = batch.total("deaths", case.today)
        return Decision((say("deaths_today", n=total), say("alive_now", n=batch.alive)))
    values = {"n": said, REPLACES: [one.id for one in today]}
    writes: tuple[Write, ...] = (AddEvent(batch.id, "deaths", case.today, values),)
    alive = batch.alive + batch.total("deaths", case.today) - said
    return Decision((say("deaths_today", n=said), say("alive_now", n=alive)), writes)
