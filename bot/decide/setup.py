"""What the farmer has and pays, told unasked: the heat, a thermometer, the price of feed.

In: SETUP. Out: what the batch has from now on, or the price kept with it, and one line that says
so. Called by `turn.choose`.
"""

from __future__ import annotations

from bot.decide.common import ask_heat_count, no_batch, say
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Meaning, Slots
from bot.facts.writes import AddEvent, ChangeBatch
from bot.handbook.shapes import Handbook
from bot.husbandry.fuel_plan import LAST_HEATED_AGE

NO_FIRE = ("none",)


def setup(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Keep what was told."""
    del handbook
    batch, slots = case.batch, meaning.slots
    if batch is None:
        return no_batch(case)
    if slots.heat:
        return _heat(slots, batch, case)
    if slots.thermometer is not None:
        has = slots.thermometer
        known = ChangeBatch(batch.id, {"thermometer": has})
        return Decision((say("thermometer_yes" if has else "thermometer_no"),), (known,))
    values = {"of": "feed_bag", "amount": slots.feed_price}
    kept = AddEvent(batch.id, "price", case.today, values)
    return Decision((say("fact_feed_price", money=slots.feed_price or 0.0),), (kept,))


def _heat(slots: Slots, batch: Batch, case: Case) -> Decision:
    """Another kind of heat; how many of them is asked while the birds are heated."""
    assert slots.heat is not None
    kinds = tuple(slots.heat.split("+"))
    same = kinds == batch.heat
    stoves = slots.heat_count or (batch.heat_count if same else None)
    write = ChangeBatch(batch.id, {"heat": kinds, "heat_count": stoves})
    heated = kinds != NO_FIRE and (batch.age(case.today) or 0) <= LAST_HEATED_AGE
    asked = ask_heat_count(kinds[0]) if heated and stoves is None else None
    return Decision((say("heat_is", heat=kinds[0]),), (write,), asked)
