"""Checking back: better, the same or worse."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from bot.decide.common import maybe, say
from bot.decide.observe.advise import (
    HEAP_CHECK,
    HEAT_CHECK,
    advise_on,
    all_tried,
    give,
    is_heat_of_one,
    next_action,
    without_hour,
)
from bot.decide.observe.asking import ask, behaviour, doubts
from bot.decide.observe.relief import hot_vet, stays_mark, stays_told, taken_back
from bot.decide.observe.scene import CHECKS, Scene, taken, tell
from bot.decide.observe.spot import second_look
from bot.diagnosis.action import SMOTHER, Advice
from bot.diagnosis.danger import (
    AIR_AGAIN,
    CHILLING,
    FIRES,
    PILING,
    SMOKE,
    TO_LOOK,
    by_heat,
    smothering,
)
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.keep import close, keep
from bot.diagnosis.story import ONE_LOOK, PECKED, PEOPLE_MARK, POISONED
from bot.diagnosis.weigh import COMFORTABLE, Weighed, speaking
from bot.facts.talk import Decision, Why
from bot.understand.people import GRAVE

ONE_NEEDS_A_DAY = Advice("one_day", timedelta(hours=6))
OF_THE_HOUR = ("place", "sound", "body", "heat", "weather")  # "better" says that they are past
BY_THE_AIR = ("cold", "hot", "draught", "uneven_heat")  # heat or air is not changed unasked
CROWDING, OF_THE_TABLE = (
    "crowding",
    ("hunger", "thirst", "feed_problem"),
)  # fed, and they still peck
WORSE_TELLS = 2  # so many times worse, and the adviser is told
SAY_ADVISER = (
    "watch",
    "all_tried",
    "all_tried_cold",
    "all_tried_hot",
)  # these say by themselves that the adviser is told


def checked(scene: Scene, worked: str) -> Decision:
    """Better: kept on, or closed when we had looked. Same or worse: what comes next."""
    if worked == "better":
        if _is_without_heat(scene):
            return _heat_back(scene)
        if _some_left(scene):
            return _a_little_better(scene)
        bad_air = scene.story.cause == "fumes"
        other = None if bad_air or scene.alarm is not None else _second_trouble(scene)
        if other is not None:
            return advise_on(*other)
        ends = scene.story.checks > 0 or scene.story.complaint_id is None
        writes = close(scene.batch) if ends else ()
        lines = (*taken(scene), say(_better(scene)))
        told = Decision(lines, writes, None, Why(cause=COMFORTABLE))
        if scene.alarm is None or scene.story.complaint_id is None:
            return told
        if scene.alarm.values.get("kind") in (TO_LOOK, "dull") and scene.batch is not None:
            over = taken_back(scene, scene.batch, "better after the look")
            return replace(told, writes=(*told.writes, *over))
        if scene.batch is None or stays_told(scene):
            return told
        mark = stays_mark(scene, scene.batch)
        more = ((say("still_danger"),),)
        return replace(told, writes=(*told.writes, mark), more=more, referred=True)
    if scene.story.cause == "fumes":
        return _still_bad_air(scene, worked)
    cause = scene.story.cause
    if cause == "hot" and scene.alarm is not None and by_heat(scene.story.signals):
        return _still_dying_of_heat(scene, worked)
    if smothering(scene.story.signals, scene.circumstances):
        return _still_a_heap(scene, worked)
    if cause is None:
        return behaviour(scene, taken(scene), Why(cause=UNCLEAR))
    scene = replace(scene, story=scene.story.marked(f"worked:{cause}:{worked}"))
    told = second_look(scene, cause) or _next(scene, cause, worked)
    worse = sum(answer == "worse" for _, answer in scene.story.worked)
    if worse < WORSE_TELLS and scene.story.checks < CHECKS:
        return told
    reason = f"{cause} is {worked} after {len(scene.story.worked)} tries"
    line = tell(scene, reason, worked, cause)
    lines = without_hour(told.lines)
    if all(one.key not in SAY_ADVISER for one in lines):
        lines = (*lines, maybe("to_adviser"))
    return replace(told, lines=lines, writes=(*told.writes, line))


def _wrong(scene: Scene) -> set[str]:
    """What was told just now that nobody sees where all is well."""
    signs = scene.handbook.causes.signs
    return {one for one in scene.heard.signals if one in signs and not signs[one].calm}


def _is_without_heat(scene: Scene) -> bool:
    """The air is good again and hurt nobody: the heat was out meanwhile, of gas always, and else
    where they are told to be cold."""
    bad_air = scene.story.cause == "fumes" and POISONED not in scene.story.asked
    return bad_air and bool(scene.story.tried) and (_of_gas(scene) or bool(_wrong(scene)))


def _of_gas(scene: Scene) -> bool:
    return "gas" in scene.circumstances.heats


def _heat_back(scene: Scene) -> Decision:
    """The heat comes back without what leaked or smoked, and they are looked at again."""
    back = Advice("better_gas" if _of_gas(scene) else "better_air", HEAT_CHECK, urgent=True)
    return give(scene, scene.weigh(), "cold", back)


def _some_left(scene: Scene) -> bool:
    """Better, and a few are still as they were: what was begun goes on, and is looked at again."""
    told = bool(scene.story.tried) and scene.story.cause is not None and scene.alarm is None
    return told and bool(_wrong(scene)) and scene.story.checks < CHECKS


def _a_little_better(scene: Scene) -> Decision:
    """Go on so, and carry back those that left the others."""
    cause = scene.story.cause
    assert cause is not None
    key = "better_some_cold" if cause in CHILLING else "better_some"
    minutes = (
        HEAP_CHECK
        if cause in CHILLING
        else timedelta(minutes=scene.handbook.causes.causes[cause].check_in)
    )
    return give(scene, scene.weigh(), cause, Advice(key, minutes, urgent=cause in CHILLING))


def _better(scene: Scene) -> str:
    """Into a house that poisoned somebody no fire goes back that night; what was opened against the
    heat is not left so into the evening; whoever was cold at night is looked at till morning."""
    cause, here = scene.story.cause, scene.circumstances
    if cause == "fumes" and not set(here.heats).intersection(FIRES) and _no_smoke(scene):
        return "better_no_fire"
    if cause == "fumes":
        return "better_poisoned" if _somebody_was_ill(scene) else "better_air"
    if cause == "hot" and not here.night:
        warmed = here.band != "big" and set(here.heats) != {"none"}
        return "better_hot" if warmed else "better_hot_open"
    if cause == "ammonia":
        return "better_top"  # shut up for the night it would be back by morning
    complaint = scene.batch.complaint if scene.batch else None
    before = (*scene.story.signals, *(complaint.signals if complaint else ()))
    pressed_by_cold = cause in CHILLING and {*PILING, "no_power"}.intersection(before)
    return "better_night" if here.night and pressed_by_cold else "better"


def _somebody_was_ill(scene: Scene) -> bool:
    """People or birds fell ill of the air; smoke alone is gone with a fire that burns clean."""
    asked, signs = scene.story.asked, scene.handbook.causes.signs
    wrong = {one for one in scene.story.signals if one in signs and not signs[one].calm}
    grave = any(f"{PEOPLE_MARK}{one}" in asked for one in GRAVE)
    return POISONED in asked and (grave or wrong != {SMOKE})


def _no_smoke(scene: Scene) -> bool:
    """Told that nothing smokes, where no fire warms them: a head that aches has another cause."""
    return bool(
        {SMOKE, "stove_out"}.intersection((*scene.heard.not_signals, *scene.story.not_signals))
    )


def _second_trouble(scene: Scene) -> tuple[Scene, Weighed, str] | None:
    """What is left once the signs of the cause that was treated are gone: another cause that they
    name, where it was not treated yet."""
    cause = scene.story.cause
    if cause is None or _wrong(scene):
        return None
    signs = scene.handbook.causes.signs
    gone = speaking(cause, scene.evidence, scene.handbook.causes)
    left = tuple(
        one
        for one in scene.story.signals
        if one in signs
        and (one not in gone or signs[one].kind == "illness")  # that is not healed by the hour
        and signs[one].kind not in OF_THE_HOUR
    )
    rest = replace(scene, story=replace(scene.story, signals=left), verdict=None)
    weighed = rest.weigh()
    known = weighed.top in (cause, COMFORTABLE) or f"advice:{weighed.top}" in scene.story.asked
    return None if known or not left or not weighed.sure else (rest, weighed, weighed.top)


def _still_bad_air(scene: Scene, worked: str) -> Decision:
    """The air is no better: people out is said again in full, whatever else was tried."""
    at = scene.case.now + AIR_AGAIN
    writes = keep(scene.batch, scene.story, cause="fumes", check_at=at)
    line = tell(scene, f"bad air is {worked}", "air", "fumes")
    why = Why(cause="fumes")
    return Decision((say("danger_fumes"),), (*writes, line), None, why, referred=True)


def _still_dying_of_heat(scene: Scene, worked: str) -> Decision:
    """They die of heat and are no better: the vet and cooling, however often; never warmth."""
    at = scene.case.now + HEAT_CHECK if scene.story.checks < CHECKS else None
    story = scene.story.marked(f"worked:hot:{worked}")
    writes = keep(scene.batch, story, cause="hot", check_at=at)
    line = tell(scene, f"birds die of heat, {worked}", worked, "hot")
    after = () if at is None else (maybe("after_at", at=at.astimezone(scene.case.local.tzinfo)),)
    lines = (say(hot_vet(scene)), *after)
    return Decision(lines, (*writes, line), None, Why(cause="hot"), referred=True)


def _still_a_heap(scene: Scene, worked: str) -> Decision:
    """Still piled up: hands first, whatever else was tried; once, what is wrong where they lie."""
    again = scene.story.marked(f"worked:cold:{worked}")
    look = second_look(replace(scene, story=again), "cold") if SMOTHER in again.tried else None
    tried = tuple(one for one in again.tried if one != SMOTHER)
    scene = replace(scene, story=replace(again, tried=tried))
    told = look or advise_on(scene, scene.weigh(), "cold")
    if scene.story.checks < CHECKS and worked == "same":
        return told
    line = tell(scene, "they still pile up and may smother", "heap", "cold")
    return replace(told, writes=(*told.writes, line))


def _is_one(scene: Scene) -> bool:
    """Whether one or a few weak birds were looked at, and have not had their day yet."""
    return ONE_LOOK in scene.story.asked and ONE_NEEDS_A_DAY.key not in scene.story.tried


def _next(scene: Scene, cause: str, worked: str) -> Decision:
    """The next action while the cause still leads, else the next cause, or a question; worse after
    all that is known for it, or ill birds that are no better, the vet."""
    weighed = scene.weigh()
    if cause in OF_THE_TABLE and PECKED in scene.heard.signals:
        room = next_action(scene, CROWDING)
        if room is not None:
            return give(scene, weighed, CROWDING, room)
    if cause == "sick" and worked == "same" and _is_one(scene):
        return give(scene, weighed, cause, ONE_NEEDS_A_DAY)
    left = next_action(scene, cause)
    if left is not None and ONE_NEEDS_A_DAY.key in scene.story.tried:
        return give(scene, weighed, cause, left)
    if weighed.top == cause and left is not None:
        looks = cause != "sick" and doubts(scene, weighed)
        return ask(scene, weighed) if looks else give(scene, weighed, cause, left)
    other = weighed.top not in (COMFORTABLE, cause)
    if weighed.sure and other and not is_heat_of_one(scene, cause, weighed.top):
        looks = weighed.top in BY_THE_AIR or doubts(scene, weighed)
        return ask(scene, weighed) if looks else advise_on(scene, weighed, weighed.top)
    if weighed.top == cause or (left is None and (worked == "worse" or cause == "sick")):
        return all_tried(scene, weighed, cause)
    return ask(scene, weighed)
