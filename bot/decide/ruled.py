"""A farmer's question that the rules of the trade answer whatever the flock does: until when the
fire is needed, who may come in, what a neighbour says of water at night.

In: the decision on the rest of a text, the meaning, the case. Out: the same with the answer before
it, or the answer alone where nothing else is told. Common practice; the feed by the phases of
content/husbandry. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import LIVELY, asked_batch, gives_way, open_trouble, say, told_first
from bot.diagnosis.weigh import COMFORTABLE, IN_NEW_HOUSE_FROM
from bot.facts.farm import Case
from bot.facts.talk import Decision, Intent, Line, Meaning
from bot.handbook.shape_husbandry import Husbandry
from bot.handbook.shapes import Handbook
from bot.husbandry.feed_water import feed_phase
from bot.understand.ruled import (
    AGES,
    BARE,
    BROWN,
    LAYER,
    MOULT,
    OF_HEALTHY,
    SCATTERED,
    SELLER,
    SLEEPS,
    SOFT,
    STRETCHED,
    UNFED,
)

LESS_BY_DAY = 10  # age from which they are hardened by less heat by day
STARTER, HEAT_EVEN = "starter", "heat_even"
FIRE, GROWER, SHIFT, TRADER, VISITORS = "fire", "grower", "shift", "trader", "visitors"
NIGHT_WATER, WATER_STAYS = "night_water", "leave_water_stays"
OF_WELL = (FIRE, *OF_HEALTHY)  # another matter where something is wrong with them
CATCHING = "catch_"
OF_CHICKS = (BARE, SHIFT)
# What is asked about is no sign of anything wrong; no other sign may stand beside it.
ITSELF = {
    MOULT: {"feathers_ruffled"},
    STRETCHED: {"lies_still", "wings_spread", "limping_or_down", "lethargic"},
    BROWN: {"droppings_brown"},
    SOFT: {"noisy_distress"},
    LAYER: {"feed_finished"},  # "the shop has nothing else"
}
LAST_DOWN, FIRST_FEED = 35, 3  # ages: the last down falls; they must not wait for their feed
# Intents for which such a question is easily taken: nothing is put down by them.
SEEMS = {
    SELLER: (Intent.SOLD, Intent.COUNTED),
    AGES: (Intent.ARRIVED, Intent.COUNTED),
    VISITORS: (Intent.START,),  # "they want to come in"
    UNFED: (Intent.ARRIVED, Intent.FEED),  # "the feed comes tonight"
}


def before_all(decision: Decision, meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What was asked is answered first, then what was told beside it."""
    wrong = set(meaning.signals) - LIVELY - {HEAT_EVEN}
    for one in meaning.ruled:
        wrong -= ITSELF.get(one, set())
    other = set(OF_WELL) if wrong or open_trouble(case) else set()
    if wrong and any(line.key == WATER_STAYS for line in decision.lines):
        other.add(NIGHT_WATER)  # said in short before what is wrong
    if any(line.key == COMFORTABLE for line in decision.lines):
        other.add(SCATTERED)  # said already
    if any(line.key.startswith(CATCHING) for line in decision.lines):
        other.add(UNFED)  # so long before they are caught
    asked = [one for one in meaning.ruled if one not in other]
    found = (_answer(one, case, handbook.husbandry) for one in asked)
    told = tuple((line,) for line in found if line is not None)
    if not told:
        return decision
    decision = _without(decision, {line.key for (line,) in told})
    if any(one in (*OF_HEALTHY, LAYER) for one in asked) and not wrong and _only_seen(meaning):
        return Decision(told[0], more=told[1:])
    seems = [intent for one in asked for intent in SEEMS.get(one, ())]
    empty = all(gives_way(one) or one.intent in seems for one in meaning.facts())
    if not (wrong or meaning.slots.answer) and (empty or not decision.lines):
        return Decision(told[0], more=told[1:])
    return told_first(decision, *told)


def _without(decision: Decision, keys: set[str]) -> Decision:
    """What is answered first is not said again behind it."""
    texts = [
        tuple(one for one in text if one.key not in keys)
        for text in (decision.lines, *decision.more)
    ]
    return replace(decision, lines=texts[0], more=tuple(text for text in texts[1:] if text))


def _only_seen(meaning: Meaning) -> bool:
    """Nothing is told beside that is taken down."""
    return all(one.intent is Intent.OBSERVE or gives_way(one) for one in meaning.facts())


def _answer(asked: str, case: Case, h: Husbandry) -> Line | None:
    """The text; None where it goes by an age that is not known, or the rule is of another age."""
    batch = asked_batch(case)
    age = batch.age(case.today) if batch is not None else None
    if asked == TRADER and batch is not None and batch.held:
        return None  # nothing leaves: said with who frees it
    if asked == SLEEPS:
        return say("sleep_out")
    if asked in OF_CHICKS and (age is None or age >= IN_NEW_HOUSE_FROM):
        return None
    if asked == MOULT and age is not None and age > LAST_DOWN:
        return None
    if asked == UNFED and age is not None and age <= FIRST_FEED:
        return say("ruled_unfed_young")
    if asked not in (FIRE, GROWER):
        return say(f"ruled_{asked}")
    if age is None or age < 0:
        return None
    if asked == FIRE:
        return say(_fire(age))
    return say("ruled_grower_wait" if feed_phase(age, h) == STARTER else "ruled_grower")


def _fire(age: int) -> str:
    if age >= IN_NEW_HOUSE_FROM:
        return "ruled_fire_grown"
    return "ruled_fire_night" if age >= LESS_BY_DAY else "ruled_fire_young"
