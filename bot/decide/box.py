"""Chicks that came dead in the box: a claim to the hatchery, no death of the day and no danger.

In: a meaning and the case. Out: both as the rest of the turn is to see them. Called by
`turn.choose`. Dead on arrival is a claim above 2 % (practice).
"""

from __future__ import annotations

from dataclasses import replace

from bot.facts.farm import Batch, Case
from bot.facts.talk import Intent, Meaning

IN_THE_BOX = "dead_in_box"
MANY_DEAD = "sudden_many_deaths"
LAST_AGE = 0  # days: later a box is where the weak ones are kept


def in_the_box(meaning: Meaning, case: Case) -> tuple[Meaning, Case]:
    """The deaths as part of the arrival that is told with them, else of the last hours' arrival."""
    batch = case.batch
    if IN_THE_BOX not in meaning.signals or batch is None or not _young(batch, case):
        return meaning, case
    meaning = _without_alarm(meaning)
    meaning = replace(meaning, parts=tuple(one for one in map(_plain, meaning.parts) if one))
    arrival = next((one for one in meaning.parts if one.intent is Intent.ARRIVED), None)
    dead = next((one for one in meaning.parts if one.intent is Intent.DEATHS), None)
    if arrival is not None and dead is not None:
        came = replace(arrival, slots=replace(arrival.slots, deaths=dead.slots.deaths))
        left = tuple(came if one is arrival else one for one in meaning.parts if one is not dead)
        return replace(meaning, parts=left), case
    here = replace(batch, arrived_at=case.now)
    batches = tuple(here if one is batch else one for one in case.batches)
    return meaning, replace(case, batches=batches)


def _young(batch: Batch, case: Case) -> bool:
    age = batch.age(case.today)
    return age is None or age <= LAST_AGE


def _plain(part: Meaning) -> Meaning | None:
    """A part of the text without the word on the box; None where it told of nothing else."""
    left = tuple(one for one in part.signals if one != IN_THE_BOX)
    empty = part.intent is Intent.OBSERVE and not (left or part.not_signals)
    return None if empty else replace(part, signals=left)


def _without_alarm(meaning: Meaning) -> Meaning:
    def kept(signs: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(one for one in signs if one != MANY_DEAD)

    parts = tuple(_without_alarm(one) for one in meaning.parts)
    return replace(meaning, signals=kept(meaning.signals), many=kept(meaning.many), parts=parts)
