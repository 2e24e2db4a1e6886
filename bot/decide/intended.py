"""What a farmer means to do with ill or dead birds: a cure of their own, the pot, the dead where
dogs are, a trader on the way; and what is meant well and does harm at any time: a blanket over the
chicks, every opening shut, kitchen mixtures in the water; weather to be ready for, and boxes that
are not open yet.

In: the decision on the rest of a text, the meaning, the case. Out: the same with a text for each
of these that does harm here, before the rest; behind an alarm. Common practice; no medicine is
ever named. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import asked_batch, gives_way, say, told_first
from bot.diagnosis.danger import HEAT_SIGNS, ON_THE_ROAD_AGE, OVER, TO_LOOK
from bot.diagnosis.story import story_of
from bot.diagnosis.weigh import IN_NEW_HOUSE_FROM
from bot.facts.farm import Case
from bot.facts.talk import Decision, Intent, Line, Meaning

MEDICINE, EAT, DEAD, TRADER = "medicine", "eat", "dead", "trader"
SAID = {MEDICINE: "no_cure", EAT: "no_meat", DEAD: "held_dead", TRADER: "trader_gate"}
COVER, SEAL, LIME, BAD_FEED, BREW = "cover", "seal", "lime", "feed", "brew"
FORCE, BEAK, USED, WET, POISON = "force", "beak", "used", "wet", "poison"
COOL, SMOKE, FUEL, SUN = "cool", "smoke", "fuel", "sun"
BOXES = "boxes"  # those that came lie in them still
PLANS = {one: f"own_{one}" for one in (SEAL, LIME, BAD_FEED, BREW, FORCE, BEAK, WET, POISON)}
PLANS |= {one: f"own_{one}" for one in (SMOKE, FUEL, SUN)}
PLANS[COOL] = PLANS[WET]
PLANS[COVER] = "blanket_off"
AHEAD, OF_CHICKS = ("heat_ahead", "cold_ahead"), "_chicks"  # weather to be ready for
SAID |= PLANS | {USED: PLANS[BAD_FEED], BOXES: "boxes_out"}
# The alarm itself forbids to eat and to sell, and that of bad air opens what is shut.
IN_ALARM = (MEDICINE, DEAD, TRADER, COVER, LIME, BAD_FEED, BREW, FORCE, BEAK)
MOST_IN_ALARM = 2
ROOF = ("hot_open",)
RECORDS = (Intent.TREATED, Intent.SOLD, Intent.TAKEN)  # taken down, with their own cautions


def behind_alarm(alarm: Decision, meaning: Meaning, case: Case) -> Decision:
    """The alarm, and behind it what it leaves unanswered."""
    if case.phone.consent == "stopped":
        return alarm
    told = [(say(SAID[one]),) for one in _meant(meaning) if one in IN_ALARM]
    return replace(alarm, more=(*alarm.more, *told[:MOST_IN_ALARM]))


def before_all(decision: Decision, meaning: Meaning, case: Case) -> Decision:
    """What does harm is answered first, then the rest of the text."""
    told = [one for one in _meant(meaning) if _does_harm(one, case)]
    if WET in told and not _too_hot(meaning, case):
        told.remove(WET)
    if _says_the_roof(decision):
        told = [one for one in told if one not in (WET, COOL)]
    facts = meaning.facts()
    if not told:
        return decision
    if any(one.intent in RECORDS for one in facts):
        refused = tuple((say(SAID[one]),) for one in told if one in (MEDICINE, *PLANS))
        return replace(decision, more=(*decision.more, *refused))
    refers = decision.referred or any(one not in (*PLANS, *AHEAD, USED, BOXES) for one in told)
    lines: list[tuple[Line, ...]] = [(say(_said(one, case)),) for one in told]
    seen = meaning.signals or meaning.slots.answer
    if not seen and all(gives_way(one) for one in facts):
        return Decision(lines[0], decision.writes, None, None, refers, tuple(lines[1:]))
    return replace(told_first(decision, *lines), referred=refers)


def _meant(meaning: Meaning) -> tuple[str, ...]:
    """What is meant; of a cure in the water only that nothing goes into it, and poison laid for a
    beast is no cure."""
    worded = {BREW, POISON}.intersection(meaning.means)
    return tuple(one for one in meaning.means if one != MEDICINE or not worded)


def _said(meant: str, case: Case) -> str:
    """The text; chicks are made ready for the weather otherwise than grown birds."""
    if meant not in AHEAD:
        return SAID[meant]
    batch = asked_batch(case)
    age = batch.age(case.today) if batch else None
    return f"{meant}{OF_CHICKS}" if (age or 0) < IN_NEW_HOUSE_FROM else meant


def _too_hot(meaning: Meaning, case: Case) -> bool:
    """Water is thrown for the heat: on a floor that is washed it is another matter."""
    told = {sign for one in (meaning, *meaning.parts) for sign in one.signals}
    hot = story_of(case, asked_batch(case)).cause == "hot"
    return hot or bool(told.intersection(HEAT_SIGNS))


def _says_the_roof(decision: Decision) -> bool:
    """Whether the advice itself says that the roof is wetted and not the litter."""
    return any(line.key in ROOF for line in decision.lines)


def _does_harm(meant: str, case: Case) -> bool:
    """Whether it is answered. Weather to come, a cure, and what does harm always; washing where
    birds are inside; the pot, the dead and the trader where birds are ill, died, or are held; feed
    put to use where it is bad."""
    batch = asked_batch(case)
    if meant in (BOXES, SUN):
        age = batch.age(case.today) if batch is not None else None
        last = ON_THE_ROAD_AGE if meant == BOXES else IN_NEW_HOUSE_FROM - 1
        return age is not None and 0 <= age <= last
    if meant == COVER and batch is not None:
        return (batch.age(case.today) or 0) < IN_NEW_HOUSE_FROM  # grown birds lie under none
    if meant in AHEAD or (meant in PLANS and meant != LIME):
        return True
    if batch is None:
        return False
    if meant == LIME:
        return batch.state == "running"
    if meant == USED:
        return story_of(case, batch).cause == "feed_problem"
    if meant == MEDICINE:
        return True
    alarm = batch.open_alarm(case.today)
    danger = alarm is not None and alarm.values.get("kind") not in (TO_LOOK, OVER)
    ill = batch.held or danger
    if meant == TRADER:
        return ill
    died = batch.total("deaths", case.today) > 0
    return ill or died or story_of(case, batch).cause == "sick"
