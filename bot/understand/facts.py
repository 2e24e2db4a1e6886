"""Facts with figures out of a text: deaths, readings, feed, water, weight, sales, treatments.

In: a `Scene`. Out: `Fact`s in the order said. Pure; called by `read`. Order matters: what one
reader takes for its own (a price, a weight) is not offered to the next.
"""

from __future__ import annotations

from bot.facts.talk import Intent
from bot.understand.asked import asks
from bot.understand.deaths import deaths
from bot.understand.readings import readings
from bot.understand.sales import (
    trade,
)
from bot.understand.scene import Fact, Scene
from bot.understand.stores import stores
from bot.understand.taken import corrected, counted, moved, taken
from bot.understand.treated import treated
from bot.understand.weighed import weights_told

GONE = (Intent.SOLD, Intent.TAKEN, Intent.CULLED)
# Facts of something that was done; told of a time to come they are none.
DONE = (Intent.SOLD, Intent.FEED, Intent.TREATED, Intent.EXPENSE, Intent.FUEL, Intent.CULLED)


def find_facts(scene: Scene) -> list[Fact]:
    """Every fact of the text, each kind once, in the order said."""
    weights = list(weights_told(scene))
    weighed = [fact.at for fact in weights]
    found = [*deaths(scene), *readings(scene), *trade(scene, weighed), *treated(scene)]
    found += [*weights, *stores(scene, weights)]
    told_dead = any(fact.intent is Intent.DEATHS for fact in found)
    found += [*taken(scene), *([] if told_dead else counted(scene)), *moved(scene)]
    found = [fact for fact in found if not (_to_come(scene, fact) or _asked_about(scene, fact))]
    found = [fact for fact in found if not _killed_for(fact, found)]
    found = [fact for fact in found if not _paid_for_fuel(fact, found)]
    if any(fact.intent in GONE for fact in found):
        found = [fact for fact in found if not _only_not_dead(scene, fact)]
    found.sort(key=lambda fact: fact.at)
    once: dict[tuple[Intent, str | None], Fact] = {}
    for fact in found or corrected(scene):
        once.setdefault((fact.intent, fact.slots.way), fact)
    return list(once.values())


def _killed_for(fact: Fact, told: list[Fact]) -> bool:
    """ "killed 6 for the feast": eaten, and not counted as dead once more."""
    same = (one.slots.count for one in told if one.intent is Intent.TAKEN)
    return fact.intent is Intent.DEATHS and fact.slots.deaths in same and bool(fact.slots.deaths)


def _paid_for_fuel(fact: Fact, told: list[Fact]) -> bool:
    """ "bought gas 24 kg for 25000": the money stands with the fuel, and is no second expense."""
    prices = (one.slots.price for one in told if one.intent is Intent.FUEL)
    return fact.intent is Intent.EXPENSE and fact.slots.price in prices


def _only_not_dead(scene: Scene, fact: Fact) -> bool:
    """ "not dead, I sold 12": says what happened to them, and is no count of the dead."""
    if fact.intent is not Intent.DEATHS or fact.slots.deaths != 0:
        return False
    words = scene.text.spans.get("dead", ())
    said = any(
        scene.text.tokens[one.start - 1].text in scene.text.little["not_before"]
        for one in words
        if one.start
    )
    return said or any(one.denied and one.denier < 0 for one in words)


def _to_come(scene: Scene, fact: Fact) -> bool:
    """ "i will sell 20 tomorrow": nothing was done yet."""
    return fact.intent in DONE and any(
        clause.has("@future")
        for clause in scene.text.clauses
        if clause.start <= fact.at < clause.end
    )


def _asked_about(scene: Scene, fact: Fact) -> bool:
    """ "can i sell the rest quick", "shall i add 20 litres": nothing was done yet."""
    return fact.intent in (*DONE, Intent.WATER) and any(
        asks(scene.text, clause)
        for clause in scene.text.clauses
        if clause.start <= fact.at < clause.end
    )
