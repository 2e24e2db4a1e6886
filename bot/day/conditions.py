"""Whether the conditions of a row or question hold for a batch now. In: a `When`, where the batch
stands. Out: yes or no. Pure; called by rows, asks and arrival."""

from __future__ import annotations

from typing import NamedTuple

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
from bot.handbook.shape_calendar import When
from bot.ledger.withdrawal import may_sell, waits_unknown


class Traits(NamedTuple):
    """What a farm is, as far as rows ask for it and no entry has to be looked into: many farms have
    the same. Named as in `When`."""

    heat: str
    nights: str
    feathered: str
    ready: bool
    thermometer: bool
    held: bool
    awaited: bool
    mix: bool
    several: bool
    moved: bool
    troubles: frozenset[str]
    vaccine: frozenset[str]


def traits(at: Standing) -> Traits:
    """The traits of the farm where the batch stands."""
    if "traits" not in at.memo:
        at.memo["traits"] = _traits(at)
    found: Traits = at.memo["traits"]
    return found


def _traits(at: Standing) -> Traits:
    batch = at.batch
    return Traits(
        heat=heat_of(batch),
        nights=batch.nights or "unknown",
        feathered=_FEATHERED[batch.feathered],
        ready=is_ready(batch),
        thermometer=batch.thermometer is True,
        held=batch.held,
        awaited=is_awaited(batch, at.age),
        mix=at.case.cooperative.water_mix,
        several=stoves_of(at) > 1,
        moved=batch.house == "open",
        troubles=troubles(at),
        vaccine=_vaccine(at),
    )


def holds(when: When, at: Standing) -> bool:
    """Whether all the conditions of a row hold for this batch now."""
    return holds_for(when, traits(at)) and holds_by_record(when, at)


def holds_for(when: When, farm: Traits) -> bool:
    """Whether the conditions hold that ask for no entry."""
    return (
        (not when.heat or farm.heat in when.heat)
        and (not when.nights or farm.nights in when.nights)
        and (not when.feathered or farm.feathered in when.feathered)
        and (when.ready is None or farm.ready == when.ready)
        and (when.thermometer is None or farm.thermometer == when.thermometer)
        and (when.held is None or farm.held == when.held)
        and (when.awaited is None or farm.awaited == when.awaited)
        and (when.mix is None or farm.mix == when.mix)
        and farm.troubles.isdisjoint(when.well)
        and (not when.troubled or not farm.troubles.isdisjoint(when.troubled))
        and (when.moved is None or farm.moved == when.moved)
        and (not when.vaccine or not farm.vaccine.isdisjoint(when.vaccine))
        and (when.several is None or farm.several == when.several)
    )


def holds_by_record(when: When, at: Standing) -> bool:
    """The conditions that need a look into the batch's record."""
    return not when.looks or (
        (when.hot is None or is_hot(at) == when.hot)
        and (when.weighed is None or weighed_lately(at) == when.weighed)
        and (when.may_sell is None or may_sell(at.batch, at.today) == when.may_sell)
        and (when.last_wait_day is None or is_last_wait_day(at) == when.last_wait_day)
        and (when.wait_unknown is None or waits_unknown(at.batch) == when.wait_unknown)
        and (when.silent is None or is_silent(at) == when.silent)
        and (not when.tonight or tonight(at).kind in when.tonight)
        and (not when.warned or bool(warnings(at).intersection(when.warned)))
    )


def _vaccine(at: Standing) -> frozenset[str]:
    """Whether the vet has set a vaccine for today or tomorrow: in the cooperative's own programme;
    where it keeps none, in the calendar."""
    days = (("today", at.age), ("tomorrow", at.age + 1))
    own = {one.age for one in at.case.cooperative.programme}
    if own:
        return frozenset(f"programme_{name}" for name, age in days if age in own)
    return frozenset(name for name, age in days if age in at.calendar.vaccines)


_FEATHERED = {True: "yes", False: "no", None: "unknown"}
