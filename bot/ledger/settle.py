"""Which entries of a record count. An entry is never overwritten: one that is taken back is marked,
and a correction is an entry of its own that stands for others ("replaces": their ids). Pure.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from operator import attrgetter

from bot.facts.farm import Event

REPLACES = "replaces"


def settled(events: Iterable[Event]) -> tuple[Event, ...]:
    """The events in the order told, those marked undone for which a later one stands. A correction
    that is taken back gives the entries it stood for their place again; one that is corrected in
    its turn does not. Settling twice changes nothing."""
    told = sorted(events, key=attrgetter("id"))
    if not any(REPLACES in one.values for one in told):
        return tuple(told)
    given_way = {
        number for one in told if not one.undone for number in replaced_by(one) if number < one.id
    }
    return tuple(replace(one, undone=True) if one.id in given_way else one for one in told)


def replaced_by(one: Event) -> set[int]:
    """The ids of the entries that a correction stands for."""
    ids = one.values.get(REPLACES)
    return {int(str(number)) for number in ids} if isinstance(ids, list | tuple) else set()
