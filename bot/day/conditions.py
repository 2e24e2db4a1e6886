"""Whether the conditions of a row or question hold for a batch now. In: a `When`, where the batch
stands. Out: yes or no. Pure; called by rows, asks and arrival."""

from __future__ import annotations

from bot.day.standing import (
    Standing,
    heat_of,
    is_awaited,
    is_hot,
    is_last_wait_day,
    is_ready,
    is_silent,
    stoves_of,
    troubles,
    weighed_lately,
)
from bot.day.tonight import tonight
from bot.day.warnings import warnings
from bot.facts.farm import Batch
from bot.handbook.shape_calendar import When
from bot.ledger.withdrawal import may_sell, waits_unknown


def holds(when: When, at: Standing) -> bool:
    """Whether all the conditions of a row hold for this batch now."""
    batch = at.batch
    return (
        (not when.heat or heat_of(batch) in when.heat)
        and (not when.nights or (batch.nights or "unknown") in when.nights)
        and (not when.feathered or _feathered(batch) in when.feathered)
        and (when.ready is None or is_ready(batch) == when.ready)
        and (when.thermometer is None or (batch.thermometer is True) == when.thermometer)
        and (when.held is None or batch.held == when.held)
        and (when.awaited is None or is_awaited(batch, at.age) == when.awaited)
        and (when.mix is None or at.case.cooperative.water_mix == when.mix)
        and not troubles(at).intersection(when.well)
        and (not when.troubled or bool(troubles(at).intersection(when.troubled)))
        and (when.moved is None or (batch.house == "open") == when.moved)
        and (not when.vaccine or bool(_vaccine(at) & set(when.vaccine)))
        and (when.several is None or (stoves_of(at) > 1) == when.several)
        and _holds_by_record(when, at)
    )


def _holds_by_record(when: When, at: Standing) -> bool:
    """The conditions that need a look into the batch's record."""
    return (
        (when.hot is None or is_hot(at) == when.hot)
        and (when.weighed is None or weighed_lately(at) == when.weighed)
        and (when.may_sell is None or may_sell(at.batch, at.today) == when.may_sell)
        and (when.last_wait_day is None or is_last_wait_day(at) == when.last_wait_day)
        and (when.wait_unknown is None or waits_unknown(at.batch) == when.wait_unknown)
        and (when.silent is None or is_silent(at) == when.silent)
        and (not when.tonight or tonight(at).kind in when.tonight)
        and (not when.warned or bool(warnings(at).intersection(when.warned)))
    )


def _vaccine(at: Standing) -> set[str]:
    """Whether the cooperative's vet has set a vaccine for today or tomorrow."""
    days = (("today", at.age), ("tomorrow", at.age + 1))
    return {name for name, age in days if age in at.calendar.vaccines}


def _feathered(batch: Batch) -> str:
    return {True: "yes", False: "no", None: "unknown"}[batch.feathered]
