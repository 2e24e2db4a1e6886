"""The second look: they still press together after what was done, so what is wrong where they lie?

In: the scene after a failed try. Out: the one question with hands on the heap first, or the action
that its answer asks for. Called by checking and chicks.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import menu
from bot.decide.observe.advise import HEAP_CHECK, advise_on, give, next_action, part_heap
from bot.decide.observe.scene import CHECKS, Scene, taken
from bot.diagnosis.danger import CHILLING, PILING
from bot.diagnosis.keep import keep
from bot.diagnosis.story import SPOT, SPOT_SIGNS, SPOTS
from bot.diagnosis.weigh import Weighed
from bot.facts.talk import Decision

HUDDLED = (*PILING, "noisy_distress", "feathers_ruffled")


def second_look(scene: Scene, cause: str) -> Decision | None:
    """Wet litter, a dead stove or bulb, wind: asked once a trouble, where warmth did not help."""
    story = scene.story
    if cause not in CHILLING or SPOT in story.asked or scene.batch is None:
        return None
    if not set(HUDDLED).intersection(story.signals) or _cut(scene):
        return None
    story = story.marked(SPOT)
    check_at = scene.case.now + HEAP_CHECK if story.checks < CHECKS else None
    writes = keep(scene.batch, story, cause=cause, check_at=check_at)
    lines = (*taken(scene), *part_heap(scene, cause))
    question = menu(SPOT, "ask_cold_spot", SPOTS)
    return Decision(lines, writes, question, scene.why(scene.weigh(), cause))


def _cut(scene: Scene) -> bool:
    """The fire is out, or the power where bulbs are their heat: what is wrong there is known."""
    told = scene.story.signals
    cut = "no_power" in told and set(scene.circumstances.heats) == {"bulb"}
    return cut or "stove_out" in told


def at_the_spot(scene: Scene, weighed: Weighed) -> Decision | None:
    """What was found there is acted on at once; where it is none of these, the next action."""
    cause, heard = scene.story.cause, scene.heard
    if SPOT not in scene.story.asked or cause is None or not scene.story.worked:
        return None
    for one in _found(scene):
        also = "damp_litter" if one == "cold" and "litter_wet" in heard.signals else None
        advice = next_action(scene, one, also)
        if advice is not None:
            return give(scene, replace(weighed, top=one, also=None), one, advice)
    if set(SPOT_SIGNS.values()) <= set(heard.not_signals):
        return advise_on(scene, weighed, "cold" if cause == "damp_litter" else cause)
    return None


def _found(scene: Scene) -> tuple[str, ...]:
    """The causes to act on, by what was told just now."""
    told = scene.heard.signals
    if "stove_out" in told:
        return ("cold",)
    if "rain_or_wind_in" in told:
        return ("damp_litter", "draught") if "litter_wet" in scene.story.signals else ("draught",)
    if "litter_wet" in told:
        pressed = set(PILING).intersection(scene.story.signals)
        return ("cold", "damp_litter") if pressed else ("damp_litter",)
    return ()
