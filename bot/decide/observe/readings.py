"""Readings alone: a temperature, a humidity."""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import asked_batch, menu, say
from bot.decide.observe.advise import advise_on, go_on
from bot.decide.observe.asking import ask_where_it_hangs, asking, behaviour
from bot.decide.observe.chicks import weighed_up
from bot.decide.observe.scene import Scene, taken
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.question import LITTER
from bot.diagnosis.story import HANG, WORRIED
from bot.diagnosis.thermometer import FAR, RECENT, SIDES
from bot.diagnosis.weigh import COMFORTABLE
from bot.facts.farm import Case
from bot.facts.talk import Decision, Why

DRY_PCT, WET_PCT = 30, 75  # HYLINE-RED p. 29: under 30 % too dry; above 75 % from memory
LOOK_FIRST = {"cold": "low_look", "hot": "high_look"}
LAST_SPOT_AGE = 20  # from 21 no warm spot is needed, so no day's figure is named


def thermometer_spoken_of(case: Case) -> bool:
    """Whether we spoke of where the thermometer hangs: a figure may be what it reads there."""
    batch = asked_batch(case)
    if batch is None or not 0 <= (batch.age(case.today) or 0) <= LAST_SPOT_AGE:
        return False
    complaint = batch.complaint
    told = (one for one in batch.live_events("observed") if HANG in one.values)
    lately = any(case.now - one.at <= RECENT for one in told)
    asked = case.question is not None and case.question.name == HANG
    spoken = complaint is not None and any(one.startswith(HANG) for one in complaint.asked)
    return lately or asked or spoken


def bare_reading(scene: Scene, value_c: float) -> Decision:
    """A figure and nothing else: right, or what to do if the chicks say so too, and where it
    hangs. Grown birds have no warm spot: anywhere in the house is where they live."""
    weighed = scene.weigh()
    if scene.heat == "watch" and not scene.story.tried:
        return Decision((say("heat_watch", c=value_c),), (), None, Why(cause=COMFORTABLE))
    judged = scene.verdict or "right"
    if judged == "right":
        return _right(scene, value_c)
    cause = SIDES[judged]
    shown = () if scene.heard.hang else (say("temp_is", c=value_c),)
    if scene.story.hang == "no":
        lines = (*taken(scene), say("hang_there"))
        return behaviour(scene, lines, Why(cause=UNCLEAR))
    grown = (scene.circumstances.age or 0) > LAST_SPOT_AGE
    if scene.story.hang is None and not scene.story.tried and not grown:
        why = scene.why(weighed, cause if judged in FAR else UNCLEAR)
        return ask_where_it_hangs(scene, (say(LOOK_FIRST[cause], c=value_c),), why)
    return advise_on(scene, weighed, cause, *shown)


def hangs_elsewhere(scene: Scene) -> Decision:
    """Words that tell of some other place: how it should hang, and what the chicks do, unless that
    is known and something was begun for it."""
    if scene.story.tried and scene.story.cause is not None:
        found = go_on(scene, scene.weigh(), scene.story.cause)
        return replace(found, lines=(say("hang_there"), *found.lines))
    return behaviour(scene, (say("hang_there"),), Why(cause=UNCLEAR))


def _right(scene: Scene, value_c: float) -> Decision:
    """The reading is right. After an action, or where more was told that we did not read, the
    chicks have the last word."""
    age = scene.circumstances.age
    right = say("temp_good", c=value_c)
    if age is not None and age <= LAST_SPOT_AGE:
        right = say("temp_right", c=value_c, day=age + 1)
    why = Why(cause=COMFORTABLE, because=("temperature",))
    if scene.story.tried or WORRIED in scene.story.asked:
        return behaviour(scene, (right,), why)
    return Decision((right,), (), None, why)


def humid(scene: Scene, rh_pct: float) -> Decision:
    """Humidity alone: dry air or wet litter; between, good."""
    shown = say("humid_is", rh=rh_pct)
    if rh_pct < DRY_PCT:
        return Decision((shown, say("humid_dry")), why=Why(cause=UNCLEAR))
    if rh_pct > WET_PCT and not scene.story.signals:
        question = menu("litter", "ask_litter", LITTER, "litter")
        return asking(scene, question, (shown,), Why(cause=UNCLEAR))
    if scene.story.signals and scene.heard.signals:
        return weighed_up(scene)
    return Decision((shown, say("humid_good")), why=Why(cause=COMFORTABLE))
