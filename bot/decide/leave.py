"""A farmer's own question, "should I ...?", answered before the rest: yes, no, or not yet.

In: the decision on the rest of a text, the meaning, the case. Out: the same with the answer before
it, by the cause that the decision acts on, or that was found of late; where the cause is open, what
is safe whatever it is. Behind an alarm only what it leaves open. Common practice. Called by
`turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import asked_batch, gives_way, open_trouble, say
from bot.diagnosis.danger import FOR_THE_VET, ON_THE_ROAD_AGE
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.story import circumstances_of
from bot.diagnosis.weigh import COMFORTABLE
from bot.facts.farm import Case
from bot.facts.talk import Decision, Intent, Line, Meaning
from bot.understand.fetched import CATCHING, FEED_OFF
from bot.understand.leave import CURE, GIVE, TRUCK
from bot.understand.people import BAD_FEED, USED

MOST = 2  # answers before the rest
ANY = "any"  # whatever else is wrong
CROWDED, OF_ROOM = "crowding", ("move", "ring", "carton")
MORE_ROOM = frozenset(
    "hunger_room crowding crowding_more hot_crowded hot_crowded_fire hot_crowded_open "
    "hot_crowded_night".split()
)  # actions that give them more room
SO = "leave_so"
KEEP, LOOK = "leave_heat_keep", "leave_heat_look"
NO_SALE, IN_THE_HEAT = "leave_sell_wait", "leave_catch_hot"
FEED_HOT, STAYS, NONE_OF_IT = "leave_feed_hot", "leave_feed_stays", "leave_feed_bad"
WET, AIRLESS = ("draught", "damp_litter"), ("hot", "ammonia", "fumes")
NOT_KNOWN = ("sick", "feed_problem", UNCLEAR)  # nobody eats of a flock with one of these
# What is answered, by what is asked and the cause; nothing where neither that nor ANY stands there.
ANSWERS: dict[str, dict[str, str]] = {
    "heat_more": {
        "cold": "leave_more_yes",
        **dict.fromkeys((*AIRLESS, CROWDED), "leave_more_no"),
        **dict.fromkeys(WET, "leave_more_wind"),
        "uneven_heat": "leave_heat_even",
        COMFORTABLE: "leave_more_warm",
        UNCLEAR: LOOK,
        ANY: KEEP,
    },
    "heat_less": {
        "hot": "leave_less_yes",
        **dict.fromkeys(("cold", *WET), "leave_less_no"),
        "uneven_heat": "leave_heat_even",
        UNCLEAR: LOOK,
        ANY: KEEP,
    },
    "open": {**dict.fromkeys(AIRLESS, "leave_open_yes"), ANY: "leave_top"},
    "close": {**dict.fromkeys(AIRLESS, "leave_close_no"), ANY: "leave_top"},
    "water_off": {ANY: "leave_water_stays"},
    "feed_off": {"hot": FEED_HOT, "feed_problem": NONE_OF_IT, ANY: STAYS},
    GIVE: {"hot": FEED_HOT, "thirst": "leave_water_first", "feed_problem": NONE_OF_IT,
           ANY: "leave_feed_yes"},
    "maize": dict.fromkeys(("hunger", "feed_problem"), "leave_maize"),
    "feed_return": {"feed_problem": "leave_return_yes", ANY: "leave_return_wait"},
    "move": {
        "hot": "leave_move_hot",
        "sick": "leave_move_ill",
        CROWDED: "leave_move_room",
        **dict.fromkeys(WET, "leave_move_dry"),
        UNCLEAR: "leave_move_wait",
    },
    **dict.fromkeys(("sell", "slaughter"), dict.fromkeys(NOT_KNOWN, NO_SALE)),
    "catch": {"hot": IN_THE_HEAT, "sick": NO_SALE, ANY: "leave_catch_cool"},
    TRUCK: {"hot": IN_THE_HEAT, "sick": NO_SALE},
    "litter": {ANY: "leave_litter"},
    "is_cold": {"cold": SO, **dict.fromkeys(("hot", "hunger", "thirst"), "leave_not_cold")},
    "is_hot": {"hot": SO, **dict.fromkeys(("cold", "hunger", "draught"), "leave_not_hot")},
    "is_hunger": {"hunger": SO, **dict.fromkeys(("cold", "hot", "thirst"), "leave_not_hunger")},
    "is_thirst": {"thirst": SO, **dict.fromkeys(("cold", "hunger"), "leave_not_thirst")},
    "apart": {ANY: "leave_apart"},
    "cat": {ANY: "leave_no_pet"},
    "carton": {
        **dict.fromkeys((*AIRLESS, CROWDED, "thirst"), "leave_no_boxes"),
        **dict.fromkeys(("cold", "draught"), "leave_boxes"),
    },
    CURE: {ANY: "leave_cure"},
    "ring": {
        **dict.fromkeys(("hot", CROWDED, "thirst"), "leave_ring_no"),
        **dict.fromkeys(("cold", "draught"), "leave_ring_yes"),
        UNCLEAR: "leave_ring_look",
    },
    "let_be": {
        COMFORTABLE: "leave_them",
        **dict.fromkeys(("hot", "cold", "thirst", "hunger", CROWDED, *WET), "leave_them_not"),
    },
}  # fmt: skip
# In the first hours: water before feed, warmth before both.
ON_ARRIVAL = {"cold": "leave_warm_first", ANY: "leave_water_first"}
OWN_ANSWER = frozenset({"heat_more", "heat_less", CURE})  # asked alone in a trouble
OF_CAUSE = frozenset({"is_cold", "is_hot", "is_hunger", "is_thirst"})
ALWAYS = ("water_off", "cat")  # does harm in any flock, well or ill
# What is meant well and does harm has its own answer (`intended`).
MEANT = {CURE: ("medicine", "brew"), GIVE: (BAD_FEED, USED), "feed_return": (BAD_FEED, USED),
         "close": ("seal",), "slaughter": ("eat",), "sell": ("trader",),
         TRUCK: ("trader",), "litter": ("lime", "poison", "medicine")}  # fmt: skip
IN_ALARM = (CURE, "heat_more", "heat_less", "water_off", "feed_off", GIVE, "apart", TRUCK)


def answered_first(decision: Decision, meaning: Meaning, case: Case) -> Decision:
    """What was asked is answered, then the rest of the text."""
    if meaning.slots.figure in (FEED_OFF, CATCHING):
        return decision  # the hours before a sale: it answers all that is asked
    cause = _cause(decision, meaning, case)
    known = decision.why is not None and decision.why.cause is not None
    bare = _only_asks(meaning) and not (known or meaning.means)
    bare = bare and not OF_CAUSE.issuperset(meaning.leave)
    answered = any(one.intent is Intent.ASK for one in meaning.facts()) and decision.lines
    if bare and answered and OWN_ANSWER.issuperset(meaning.leave):
        return decision  # it says already which stove goes where, or who names a medicine
    well = ALWAYS if decision.lines else (*ALWAYS, GIVE)
    told = _answers(meaning, cause, case, tuple(ANSWERS) if cause else well)
    if not told:
        return decision
    if bare:
        return replace(decision, lines=tuple(told), more=())
    return replace(decision, lines=(*told, *decision.lines))


def behind_alarm(alarm: Decision, meaning: Meaning, case: Case) -> Decision:
    """The alarm, and behind it what it leaves open of what was asked."""
    cause = alarm.why.cause if alarm.why else None
    if case.phone.consent == "stopped" or cause in (None, "fumes"):
        return alarm
    told = _answers(meaning, cause, case, IN_ALARM)
    return replace(alarm, more=(*alarm.more, *((line,) for line in told)))


def _answers(meaning: Meaning, cause: str | None, case: Case, acts: tuple[str, ...]) -> list[Line]:
    """The answer to each thing that was asked, each once."""
    mine = [one for one in meaning.leave if one in acts]
    mine = [one for one in mine if not set(MEANT.get(one, ())).intersection(meaning.means)]
    keys = (_answer(one, cause or ANY, case) for one in mine)
    told = dict.fromkeys(one for one in keys if one is not None)
    return [say(key) for key in list(told)[:MOST]]


def _answer(act: str, cause: str, case: Case) -> str | None:
    now = circumstances_of(case, asked_batch(case))
    trouble = open_trouble(case)
    if act in OF_ROOM and trouble is not None and MORE_ROOM.intersection(trouble.tried):
        cause = CROWDED  # more room was advised beside the other
    if act == GIVE and now.age is not None and now.age <= ON_THE_ROAD_AGE:
        return ON_ARRIVAL.get(cause, ON_ARRIVAL[ANY])
    found = ANSWERS[act].get(cause) or ANSWERS[act].get(ANY)
    if found == FEED_HOT and now.band != "big":  # feed is never taken from chicks
        return STAYS if act == "feed_off" else "leave_water_first"
    return found


def _cause(decision: Decision, meaning: Meaning, case: Case) -> str | None:
    """What the decision acts on; else what was found in the trouble at hand; None where nothing is
    wrong that we know of."""
    if decision.why is not None and decision.why.cause is not None:
        open_still = decision.why.cause == COMFORTABLE and decision.question is not None
        return UNCLEAR if open_still else decision.why.cause
    batch = asked_batch(case)
    alarm = batch.open_alarm(case.today) if batch is not None else None
    if alarm is not None and alarm.values.get("kind") in FOR_THE_VET:
        return "sick"
    if any(one.slots.deaths for one in meaning.facts()):
        return UNCLEAR  # some died, and nobody knows of what
    complaint = open_trouble(case)
    return None if complaint is None else complaint.cause or UNCLEAR


def _only_asks(meaning: Meaning) -> bool:
    """Nothing is told beside the question."""
    seen = meaning.signals or meaning.not_signals or meaning.slots.answer
    return not seen and all(gives_way(one) for one in meaning.facts())
