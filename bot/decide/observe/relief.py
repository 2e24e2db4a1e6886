"""All is well after a danger was told: said in words that it is over, or that it is not.

In: a decision that finds the birds comfortable, while a danger of theirs is open. Out: that one
with the alarm taken back, one question where that is not known yet, or the word that it stays.
A danger that was only sleep is taken back by the farmer's word; blood, deaths and a suspected
disease only by the vet. Common practice, no source. Called by answer.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from bot.decide.common import say
from bot.decide.observe.asking import asking, bite_question, one_look, wake_question
from bot.decide.observe.scene import Scene, taken
from bot.diagnosis.danger import ILLNESS, OVER, TO_LOOK
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.story import BROWN, DOWN, DULL, EDGE, LAME, PECKED, RATS, UP, WAKE
from bot.diagnosis.weigh import COMFORTABLE
from bot.facts.farm import Batch, Event
from bot.facts.talk import Decision
from bot.facts.writes import AddEvent, TellAdviser, Write

BLOOD = "bloody_droppings"
OTHERS_WELL = "others_well"
STAYS = "stays"  # in an event: that the danger stays was said
OF_ALL = ("ill", "dull", TO_LOOK)  # alarms that rest on how many look ill
WARMED = ("sick", "sick_vet", "one_day")  # these set a weak bird apart in the warm
BOXED = ("sick", "sick_lame")  # these have a weak bird set apart, and the vet if there are more
CALM = ("fit_ok", "air_dust", "comfortable", "wake_ok", "sleep_close", "brown_normal")


def after_alarm(scene: Scene, decision: Decision) -> Decision:
    """The same decision where no danger is open or it finds no comfort."""
    batch, alarm = scene.batch, scene.alarm
    calm = decision.why is not None and decision.why.cause == COMFORTABLE
    calm = calm and any(one.key in CALM for one in decision.lines)
    if batch is None or alarm is None or not calm:
        return decision
    kind = alarm.values.get("kind")
    looked = WAKE in scene.story.asked or _told(scene, batch, alarm, (UP,))
    if kind == "dull" and decision.why is not None and not looked:
        return asking(scene, wake_question(scene), taken(scene), decision.why)
    if batch.held or _blood_told(batch, alarm) or not _explained(scene, batch, alarm):
        return _stays(scene, batch, decision)
    reason = f"{kind}: says it was none, they get up and look well"
    writes = (*decision.writes, *taken_back(scene, batch, reason))
    return replace(decision, lines=(*taken(scene), say("danger_over")), writes=writes)


def _blood_told(batch: Batch, alarm: Event) -> bool:
    """Blood was told of before this alarm, and nothing has taken that back: that all get up says
    nothing of it."""
    before = [one for one in batch.live_events("alarm") if one.id < alarm.id]
    last = max((one for one in before), key=lambda one: one.id, default=None)
    return last is not None and last.values.get("kind") == "blood"


def _stays(scene: Scene, batch: Batch, decision: Decision) -> Decision:
    """Good news that takes no danger back: said so once, then only whom to tell it."""
    again = stays_told(scene)
    line = say("tell_vet" if again else "danger_stays")
    writes = decision.writes if again else (*decision.writes, stays_mark(scene, batch))
    return replace(decision, lines=(*taken(scene), line), writes=writes, referred=True)


def stays_mark(scene: Scene, batch: Batch) -> Write:
    """That the danger stays was said."""
    return AddEvent(batch.id, "observed", scene.case.today, {STAYS: True})


def stays_told(scene: Scene) -> bool:
    """Whether that was said since the alarm."""
    if scene.batch is None or scene.alarm is None:
        return False
    said = (one for one in scene.batch.live_events("observed") if one.values.get(STAYS))
    return any(one.id > scene.alarm.id for one in said)


def only_one(scene: Scene) -> Decision | None:
    """Told after an alarm of many ill that the others are well: it was of one bird or a few, whose
    look is asked for. None where no such alarm is open, or more ill birds are told of."""
    batch, alarm = scene.batch, scene.alarm
    more = set(scene.heard.signals).intersection((*ILLNESS, DOWN))
    if batch is None or alarm is None or alarm.values.get("kind") not in OF_ALL or more:
        return None
    if OTHERS_WELL not in scene.heard.signals or batch.held:
        return None
    found = asking(scene, one_look(scene), (say("one_only"),), scene.why(scene.weigh(), UNCLEAR))
    return replace(found, writes=(*found.writes, *taken_back(scene, batch, "only one is ill")))


def taken_back(scene: Scene, batch: Batch, reason: str) -> tuple[Write, ...]:
    """The alarm is over by the farmer's word, and the adviser reads why."""
    over = AddEvent(batch.id, "alarm", scene.case.today, {"kind": OVER})
    return (over, TellAdviser("danger", reason, batch.id, {"what": OVER}))


def no_blood(scene: Scene) -> Decision | None:
    """Told that the blood is on the floor, on walls or feathers and not in the droppings: who bit
    them? None where no such alarm is open, or both are known."""
    alarm = scene.alarm
    denied = BLOOD in scene.story.not_signals
    if alarm is None or alarm.values.get("kind") != "blood" or not denied:
        return None
    if {RATS, PECKED}.intersection(scene.story.signals):
        return None
    question = bite_question(scene)
    if question is None:
        return None
    places = tuple(one for one in scene.story.signals if one != EDGE)  # the blood lies at the wall
    here = replace(scene, story=replace(scene.story, signals=places))
    return asking(here, question, taken(here), here.why(here.weigh(), UNCLEAR))


def vet_first(scene: Scene, decision: Decision) -> Decision:
    """While a danger is open no advice is weaker than it was: the vet comes before the box of a
    weak bird, and "worse" is answered with the vet's number whatever else is done."""
    if scene.alarm is None or decision.referred or decision.question is not None:
        return decision
    if scene.alarm.values.get("kind") == TO_LOOK:
        return decision  # the look tells; a vet was named for what it may show
    if any(one.key in BOXED for one in decision.lines):
        lines = tuple(say("sick_vet") if one.key in BOXED else one for one in decision.lines)
        return replace(decision, lines=lines, referred=True)
    if scene.heard.worked == "worse":
        return replace(decision, more=(*decision.more, (say("still_danger"),)), referred=True)
    return decision


def hot_vet(scene: Scene) -> str:
    """The text to the vet with what cools them: grown birds under a roof, chicks in a brooder."""
    return "hot_vet" if scene.circumstances.band == "big" else "hot_vet_chicks"


def no_warmth(scene: Scene, decision: Decision) -> Decision:
    """Birds that pant are never told warmth, however ill they look besides."""
    if "panting" not in scene.story.signals or all(
        line.key not in WARMED for part in (decision.lines, *decision.more) for line in part
    ):
        return decision
    lines = tuple(say(hot_vet(scene)) if one.key in WARMED else one for one in decision.lines)
    return replace(decision, lines=lines, referred=True)


def _explained(scene: Scene, batch: Batch, alarm: Event) -> bool:
    """Whether every sign that made the danger is gone by the farmer's own word."""
    kind = alarm.values.get("kind")
    up = _told(scene, batch, alarm, (UP,))
    if kind == "dull":
        return up
    if kind == TO_LOOK:
        return True
    if kind == "blood":
        brown = _told(scene, batch, alarm, (BROWN,)) or BROWN in _signs(
            batch, alarm, "signals", since=False
        )
        return brown and _denied(scene, batch, alarm, (BLOOD,))
    told = _signs(batch, alarm, "signals", since=False)
    ill = [one for one in ILLNESS if one in told]
    gone = [
        one for one in ill if (up and one in (*DULL, LAME)) or _denied(scene, batch, alarm, (one,))
    ]
    return kind == "ill" and bool(ill) and gone == ill


def _told(scene: Scene, batch: Batch, alarm: Event, signs: Iterable[str]) -> bool:
    """Whether one of these was seen since the alarm."""
    said = {*scene.heard.signals, *_signs(batch, alarm, "signals")}
    return bool(said.intersection(signs))


def _denied(scene: Scene, batch: Batch, alarm: Event, signs: Iterable[str]) -> bool:
    """Whether one of these was said to be absent since the alarm."""
    said = {*scene.heard.not_signals, *_signs(batch, alarm, "not_signals")}
    return bool(said.intersection(signs))


def _signs(batch: Batch, alarm: Event, name: str, *, since: bool = True) -> set[str]:
    """The signs said after the alarm, or in the text that raised it."""
    found: set[str] = set()
    for one in batch.live_events("observed"):
        told = one.values.get(name)
        if (one.at > alarm.at) == since and one.on_date >= alarm.on_date and isinstance(told, list):
            found.update(str(sign) for sign in told)
    return found
