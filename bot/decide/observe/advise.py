"""An action for a cause, with the time we look again."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from math import ceil

from bot.decide.common import asked_batch, maybe, say
from bot.decide.observe.scene import CHECKS, Scene, taken, tell
from bot.diagnosis.action import Advice, actions, advise, look_again
from bot.diagnosis.danger import (
    CHILLING,
    DIRTY_LITTER,
    HEAPS,
    SMOKE,
    pressed,
    screaming_heap,
)
from bot.diagnosis.keep import keep
from bot.diagnosis.stake import opposed
from bot.diagnosis.story import LOOK_AT, PECKED, RATS
from bot.diagnosis.weigh import COMFORTABLE, Evidence, Weighed
from bot.facts.farm import Case
from bot.facts.talk import Decision, Line, Why

REFERS = ("sick_more",)
HEAP_CHECK = timedelta(minutes=20)  # in a heap those below smother; common practice, no source
# These say by themselves that a heap is parted.
PARTS_THE_HEAP = (
    "smother",
    "believe_cold",
    "believe_cold_hang",
    "power_bulb",
    "uneven_gas",
    "cold_damp",
    "cold_damp_hang",
    "cold_damp_none",
    "cold_floor",
    "damp_draught",
    "uneven_apart",
    "uneven_stove",
    "uneven_fire",
    "uneven_relight",
    "uneven_hanging",
    "uneven_more",
    "better_some_cold",
)
# These have each stove, heater or bulb looked at; the first ask whether all work.
ALL_WORK = ("uneven_hanging", "uneven_stove", "uneven_fire")
LOOKS_AT_THE_HEAT = (*ALL_WORK, "uneven_gas", "uneven_relight", "uneven_pant", "uneven_two")
ALL_TRIED = {"hot": "all_tried_hot", **dict.fromkeys(CHILLING, "all_tried_cold")}
AT_THE_FEED = (
    "uneven_size",
    "jostling",
    "feed_out_of_reach",
    "crowd_at_water",
)  # they climb to reach it
BESIDE_A_HEAP = ("hot", "uneven_heat")
# Places and beaks tell of the flock's heat; hanging wings may be of one ill bird.
FLOCK_HEAT = (
    "panting",
    "away_from_heat",
    "piled_near_heat",
    "crowded_one_side",
    "at_edges_or_walls",
)
# At night nobody asks: a text of its own says what to look for and what to do then.
NIGHT_WATCH = {
    "cold": "watch_cold",
    "draught": "watch_cold",
    "hot": "watch_hot",
    "ammonia": "watch_hot",
    "fumes": "watch_air",
}
# What else helps, or comes before it, in a text behind it: a wood fire smokes.
BEHIND = {
    "power_bulb": "power_stove",
    "hot_wood": "smoke_first",
    "hot_open_wood": "smoke_first",
}
RELIT, ELSE = ("relight_gas", "relight_bulb", "relight_fire"), "heat_else"  # nothing left at night?
SMOKES, WICK = "fumes_fire", "fumes_wick"
CROWDED_HOT, PECKED_APART = "hot_crowded", "pecked_apart"
WOUNDS = (PECKED, "wounded")
WIND_IN, OPENS_A_SIDE = "rain_or_wind_in", ("ammonia", "hot")
NEEDS_A_LOOK = ("sick", "fumes", "predator", "feed_problem")  # not acted on unasked beside another
DAMP, DAMP_TEXT = "damp_litter", "damp"
# Of these the air or the birds come before the floor; the others speak of it themselves.
NOT_BESIDE_DAMP = ("hot", "fumes", "sick", "ammonia", DAMP, "comfortable")
SPEAK_OF_LITTER = (
    "cold_damp",
    "cold_damp_hang",
    "cold_damp_none",
    "damp_draught",
    "smother",
    "wet_chicks",
    "feed_salty",
)
NIGHT_BEAST, AFTER_ROUTINE = "predator", timedelta(minutes=30)
A_WHILE = timedelta(hours=2)  # sooner than that no night has passed
HEAT_PLAIN = "hot_open"
ANTS = "ants_out"
HEAT_DANGER, HEAT_CHECK = "heat_danger", timedelta(minutes=30)


def looked_for(case: Case) -> str | None:
    """The sign that our last advice asked to look for, in words and without a menu."""
    return "stove_out" if _last_given(case) in LOOKS_AT_THE_HEAT else None


def asked_if_all_work(case: Case) -> bool:
    """Whether our last advice asked if every stove, heater or bulb works."""
    return _last_given(case) in ALL_WORK


def _last_given(case: Case) -> str | None:
    batch = asked_batch(case)
    complaint = batch.complaint if batch else None
    known = complaint is not None and complaint.state == "open" and complaint.tried
    return complaint.tried[-1] if complaint and known else None


def advise_on(scene: Scene, weighed: Weighed, cause: str, *before: Line) -> Decision:
    """The next action for a cause; when all were tried, the adviser. A text that tells nothing new
    before we look again is no word that the last one failed."""
    if _still_waiting(scene, cause):
        return go_on(scene, weighed, cause)
    advice = next_action(scene, cause, weighed.also)
    if advice is None:
        return all_tried(scene, weighed, cause)
    return give(scene, weighed, cause, advice, *before)


def _still_waiting(scene: Scene, cause: str) -> bool:
    """Whether the action for this cause was just given, and nobody says what came of it."""
    complaint = scene.batch.complaint if scene.batch else None
    look = scene.story.look_at
    if complaint is None or look is None or complaint.cause != cause:
        return False
    answered = scene.heard.worked or scene.heard.hang or scene.value_c is not None
    return bool(complaint.tried) and not answered and scene.case.now < look


def go_on(scene: Scene, weighed: Weighed, cause: str) -> Decision:
    """Go on as said; what was told since brings the action that fits it, or a second trouble's."""
    assert scene.batch is not None
    assert scene.batch.complaint is not None
    complaint = scene.batch.complaint
    beast = cause == NIGHT_BEAST and RATS in scene.heard.signals  # they crowd for fear of it
    if not beast and not set(scene.heard.signals) <= set(complaint.signals):
        first = _first(scene, cause, weighed.also)
        if first not in scene.story.tried:
            advice = next_action(scene, cause, weighed.also)
            assert advice is not None
            return give(scene, weighed, cause, advice)
        other = _also(scene, weighed, cause) or _new_trouble(scene, cause)
        if other is not None and not _waits_for_evening(scene, cause, other[0]):
            return give(scene, weighed, *other)
    writes = keep(scene.batch, scene.story, cause=cause, check_at=complaint.check_at)
    key = _of_this(scene, cause)
    lines = (say(key), *until_look(scene)) if key else _until_look(scene, cause)
    return Decision((*taken(scene), *lines), writes, None, Why(cause=cause))


def _new_trouble(scene: Scene, cause: str) -> tuple[str, Advice] | None:
    """What is told for the first time speaks by itself for another trouble that had no action yet:
    its first one, where that does no harm to what was begun."""
    assert scene.batch is not None
    assert scene.batch.complaint is not None
    known = scene.batch.complaint.signals
    new = tuple(one for one in scene.heard.signals if one not in known)
    weighed = scene.weigh(Evidence(new, (), scene.circumstances))
    other = weighed.top
    if not weighed.sure or other in (COMFORTABLE, cause) or f"advice:{other}" in scene.story.asked:
        return None
    if other in NEEDS_A_LOOK or opposed(cause, other, scene.handbook.causes):
        return None
    advice = next_action(scene, other)
    return None if advice is None else (other, advice)


def _waits_for_evening(scene: Scene, cause: str, other: str | None) -> bool:
    """Nobody carries litter among grown birds that pant."""
    grown = scene.circumstances.open_house and not scene.circumstances.night
    return cause == "hot" and other == DAMP and grown


def _of_this(scene: Scene, cause: str) -> str | None:
    """What answers a thing told once the action was given: wounds, smoke that is still there, the
    holes of a beast, litter that is wet while they pant, the wind on a side that is to be
    opened."""
    told = set(scene.heard.signals)
    if told.intersection(WOUNDS):
        return PECKED_APART
    if cause == "fumes" and SMOKE in told:
        return WICK if "kerosene" in scene.circumstances.heats else "heat_smoky"
    if cause == NIGHT_BEAST and RATS in told:
        return "predator_hole"
    if cause == "hot" and told.intersection(DIRTY_LITTER):
        return "litter_evening"
    return "lee_side" if cause in OPENS_A_SIDE and told == {WIND_IN} else None


def _until_look(scene: Scene, cause: str) -> tuple[Line, ...]:
    """How long it still needs; a heap at night is parted meanwhile."""
    look = scene.story.look_at
    assert look is not None
    at = look.astimezone(scene.case.cooperative.zone)
    if cause == "sick":
        return (say("go_on_one", at=at),)
    if at.date() > scene.case.local.date():
        return (say("go_on_day", at=at),)
    left = ceil((look - scene.case.now) / timedelta(minutes=1))
    heap = is_heap(scene, cause)
    return (*((say("heap_apart"),) if heap else ()), say("go_on", at=at, n=left))


def until_look(scene: Scene) -> tuple[Line, ...]:
    """When we look again, where that is still to come."""
    look = scene.story.look_at
    if look is None or look <= scene.case.now:
        return ()
    at = look.astimezone(scene.case.cooperative.zone)
    key = "after_tomorrow" if at.date() > scene.case.local.date() else "after_at"
    return (maybe(key, at=at),)


def _first(scene: Scene, cause: str, also: str | None) -> str:
    content = scene.handbook.causes.causes[cause]
    return actions(content, scene.story.signals, scene.circumstances, also)[0]


def next_action(scene: Scene, cause: str, also: str | None = None) -> Advice | None:
    """The first action that is left for a cause. A deadly reading has its own; after it the plain
    one of heat would say less."""
    tried = scene.story.tried
    if cause == "hot" and scene.heat == "danger" and HEAT_DANGER not in tried:
        return Advice(HEAT_DANGER, HEAT_CHECK)
    done = (*tried, HEAT_PLAIN) if HEAT_DANGER in tried else tried
    causes = scene.handbook.causes
    return advise(cause, scene.story.signals, scene.circumstances, done, causes, also)


def _also(scene: Scene, weighed: Weighed, cause: str) -> tuple[str, Advice] | None:
    """A second trouble that holds as well and has had no action yet, with its first."""
    other = weighed.also if weighed.also != cause else weighed.top
    if other is None or other == cause or f"advice:{other}" in scene.story.asked:
        return None
    advice = next_action(scene, other)
    return None if advice is None else (other, advice)


def give(scene: Scene, weighed: Weighed, cause: str, advice: Advice, *before: Line) -> Decision:
    """This action, and when we look again. A second trouble's own stands in a text behind it,
    where the first does not speak of both."""
    why = scene.why(weighed, cause)
    first = [sign for sign in why.because if sign in scene.story.signals]
    others = [sign for sign in scene.story.signals if sign not in first]
    heap = is_heap(scene, cause)
    if heap:
        advice = replace(advice, check_in=min(advice.check_in, HEAP_CHECK), urgent=True)
    if cause == NIGHT_BEAST and advice.key != ANTS:
        advice = replace(advice, check_in=_till_morning(scene))
    look = () if not advice.check_in else (_look_mark(scene, advice),)
    story = replace(scene.story, signals=(*first, *others)).marked(*look, f"advice:{cause}")
    given: tuple[str, ...] = (advice.key,)
    second = _second(scene, weighed, cause, advice)
    more: tuple[tuple[Line, ...], ...] = ()
    if second is not None:
        other, further = second
        story = story.marked(f"advice:{other}")
        if further is not None:
            given, more = (*given, further.key), ((say("also"), say(further.key)),)
    elif _wet_floor(scene, cause, advice):
        story = story.marked(f"advice:{DAMP}")
        given, more = (*given, DAMP_TEXT), ((say("also"), say(DAMP_TEXT)),)
    behind = _behind(scene, advice.key)
    if behind is not None:
        more = (*more, (say(behind),))
    after: tuple[Line, ...] = ()
    check_at = None
    if advice.check_in and story.checks < CHECKS and scene.batch is not None:
        local = scene.case.local
        check_at, waits = look_again(local, advice, scene.case.cooperative.routine_at)
        if waits:
            watch = NIGHT_WATCH.get(cause, "watch_else")
            more = (*more, (say(watch, look=local + advice.check_in, at=check_at),))
        else:
            tomorrow = check_at.date() > local.date()
            key = "after_tomorrow" if tomorrow else "after_at"
            after = ((say if heap else maybe)(key, at=check_at),)
    writes = keep(scene.batch, story, cause=cause, actions=given, check_at=check_at)
    lines = (*taken(scene), *before, *part_heap(scene, cause, advice.key), say(advice.key), *after)
    return Decision(lines, writes, None, why, referred=advice.key in REFERS, more=more)


def _behind(scene: Scene, key: str) -> str | None:
    """What else helps: of a paraffin stove its wick and its fuel; the wounded of a crowd."""
    if key == SMOKES and "kerosene" in scene.circumstances.heats:
        return WICK
    if key.startswith(CROWDED_HOT) and PECKED in scene.story.signals:
        return PECKED_APART
    if key in RELIT and scene.circumstances.night:
        return ELSE
    return BEHIND.get(key)


def _till_morning(scene: Scene) -> timedelta:
    """What comes by night shows in the morning: then they are counted."""
    local, at = scene.case.local, scene.case.cooperative.routine_at
    morning = datetime.combine(local.date(), at, local.tzinfo) + AFTER_ROUTINE
    return (morning if morning > local + A_WHILE else morning + timedelta(days=1)) - local


def _wet_floor(scene: Scene, cause: str, advice: Advice) -> bool:
    """Wet litter told of just now, beside a cause whose action says nothing of it: dry litter over
    the wet helps nobody."""
    wet = bool(set(DIRTY_LITTER).intersection(scene.heard.signals))
    said = advice.key in SPEAK_OF_LITTER or DAMP_TEXT in scene.story.tried
    return wet and not said and cause not in NOT_BESIDE_DAMP


def _look_mark(scene: Scene, advice: Advice) -> str:
    at = (scene.case.now + advice.check_in).astimezone(UTC)
    return f"{LOOK_AT}{at.isoformat(timespec='minutes')}"


def part_heap(scene: Scene, cause: str, key: str = "") -> tuple[Line, ...]:
    """Hands first, at any hour, where they lie in a heap, or crowd at one side and cry; at one side
    in silence at night only, or where something was done in vain."""
    failed, told = bool(scene.story.worked), scene.story.signals
    now = scene.circumstances.night or failed or screaming_heap(told)
    heap = now and pressed(told, cause, failed=failed)
    feeding = bool(set(AT_THE_FEED).intersection(told))
    lying = bool(set(HEAPS).intersection(told)) and not feeding
    heap = heap or (cause in (*CHILLING, *BESIDE_A_HEAP) and lying)
    return (say("heap_apart"),) if heap and key not in PARTS_THE_HEAP else ()


def is_heap(scene: Scene, cause: str) -> bool:
    """Pressed together at night: it is looked at again soon, at any hour."""
    failed = bool(scene.story.worked)
    return scene.circumstances.night and pressed(scene.story.signals, cause, failed=failed)


def _second(
    scene: Scene, weighed: Weighed, cause: str, advice: Advice
) -> tuple[str, Advice | None] | None:
    """The second trouble with the action to say behind the first; that is None where the first
    speaks of both."""
    if weighed.top != cause or advice.urgent or len(acted_on(scene, weighed)) < 2:
        return None
    if any(is_heat_of_one(scene, cause, other) for other in (weighed.top, weighed.also)):
        return None
    if (cause, weighed.also) == ("thirst", "feed_problem"):
        return None  # who has nothing to drink leaves any feed
    if _waits_for_evening(scene, cause, weighed.also):
        return DAMP, None
    found = _also(scene, weighed, cause)
    said = found is not None and (advice.both or found[1].key == advice.key)
    return (found[0], None) if found and said else found


def acted_on(scene: Scene, weighed: Weighed) -> tuple[str, ...]:
    """The causes to act on: of two whose actions do harm to each other the more dangerous alone."""
    if weighed.also is None or opposed(weighed.top, weighed.also, scene.handbook.causes):
        return (weighed.top,)
    return (weighed.top, weighed.also)


def is_heat_of_one(scene: Scene, cause: str, other: str | None) -> bool:
    """Whether only an ill bird's look speaks of heat or cold: that of all is not changed for it."""
    told = set(FLOCK_HEAT).intersection(scene.story.signals)
    return cause == "sick" and not told and other in ("hot", "cold")


def all_tried(scene: Scene, weighed: Weighed, cause: str) -> Decision:
    """Nothing is left to try: the vet or the adviser, and what holds until then."""
    writes = keep(scene.batch, scene.story, cause=cause)
    told = tell(scene, f"{cause} is not better after all we know to try", "tried", cause)
    lines = (*taken(scene), say(ALL_TRIED.get(cause, "all_tried")))
    why = scene.why(weighed, cause)
    return Decision(lines, (*writes, told), None, why, referred=True)


def without_hour(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """The lines but for when we look again, where something else needs the room."""
    return tuple(line for line in lines if not line.key.startswith("after_"))
