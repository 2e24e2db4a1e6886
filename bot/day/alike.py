"""Which farms the calendar can't tell apart, so that a morning is worked out once for all of them.
In: a case and its batch. Out: a key, equal for two farms that are told the same at the same moment,
and the case with what does not count taken out. Pure; called by turn.plan.

Ids and numbers don't count. Of the moment when a farmer was last heard, or the chicks arrived, only
the day and the part of the day count once that day is over. A farm with several batches, an open
complaint or entries of its own is like no other.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import fields, replace
from datetime import datetime, timedelta
from operator import attrgetter
from typing import Any

from bot.day.rows import EVENING
from bot.facts.farm import Batch, Case, OpenQuestion, Phone

HOURS_COUNT = timedelta(days=2)  # since arrival: so long texts speak of the hour of it
_MIDNIGHT: dict[str, Any] = {"hour": 0, "minute": 0, "second": 0, "microsecond": 0}
_OF_BATCH = attrgetter(
    *(
        one.name
        for one in fields(Batch)
        if one.name
        not in ("id", "arrived_at", "events", "complaint", "owner_id", "owner", "phone_id", "_memo")
    )
)
_OF_PHONE = attrgetter(
    *(
        one.name
        for one in fields(Phone)
        if one.name not in ("id", "number", "muted_until", "heard_at")
    )
)


def alike(case: Case, batch: Batch) -> Hashable | None:
    """The key of all farms like this one; None where there is none."""
    if batch.events or len(case.batches) > 1 or batch.complaint is not None:
        return None
    return (
        case.cooperative.id,
        case.language,
        _OF_PHONE(case.phone),
        _is_muted(case),
        _heard(case),
        _OF_BATCH(batch),
        case.person is not None and batch.owner_id not in (None, case.person.id),
        _arrived(case, batch),
        _asked(case.question),
    )


def coarse(case: Case, batch: Batch) -> tuple[Case, Batch]:
    """The same farm without what no key holds: what is worked out of it holds for all like it."""
    question = case.question
    batch = replace(batch, arrived_at=_arrived(case, batch))
    phone = replace(case.phone, heard_at=_heard(case))
    if question is not None and question.pushed:
        question = OpenQuestion(0, question.name, "", "", case.now, pushed=True)
    return replace(case, phone=phone, batches=(batch,), question=question), batch


def _is_muted(case: Case) -> bool:
    return case.phone.muted_until is not None and case.now < case.phone.muted_until


def _heard(case: Case) -> datetime | None:
    """The last word of the farmer: the day, and the moment where it is of today."""
    heard = case.phone.heard_at
    if heard is None:
        return None
    local = heard.astimezone(case.cooperative.zone)
    return heard if local.date() == case.today else local.replace(**_MIDNIGHT)


def _arrived(case: Case, batch: Batch) -> datetime | None:
    """The arrival: its moment while that counts, later the day and whether it was evening."""
    arrived = batch.arrived_at
    if arrived is None or case.now - arrived < HOURS_COUNT:
        return arrived
    local = arrived.astimezone(case.cooperative.zone)
    evening = local.time() >= EVENING
    return local.replace(**_MIDNIGHT | {"hour": EVENING.hour if evening else 0})


def _asked(question: OpenQuestion | None) -> Hashable:
    if question is None:
        return None
    return question.name if question.pushed else (question.name, question.asked_at)
