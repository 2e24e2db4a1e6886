"""What one look has settled: a bird that kicked and got up, a sneeze of dust, legs on a slippery
floor, dead that lay in a heap.

In: the scene, with the answer to such a look. Out: what is said of it; None where no look was
answered, or it told of something that is weighed. Common practice, no source. Called by answer.
"""

from __future__ import annotations

from datetime import timedelta

from bot.decide.common import say
from bot.decide.observe.advise import give, go_on
from bot.decide.observe.scene import Scene, taken
from bot.diagnosis.action import Advice
from bot.diagnosis.keep import close
from bot.diagnosis.story import DEAD, FIT, HEAP, LEGS, SNEEZE, SNEEZING, TWISTED
from bot.diagnosis.weigh import COMFORTABLE
from bot.facts.talk import Decision, Why

AFTER_DUST = Advice("air_dust", timedelta(hours=4))
AFTER_SPLAY = Advice("splay", timedelta(hours=4))


def settled_by_a_look(scene: Scene) -> Decision | None:
    """The answer to a look that ends it."""
    asked = scene.case.question.name if scene.case.question else ""
    heard = scene.heard
    if asked == FIT and TWISTED in heard.not_signals:
        why = Why(cause=COMFORTABLE, because=heard.signals)
        return Decision((*taken(scene), say("fit_ok")), close(scene.batch), None, why)
    if asked == SNEEZE and scene.answer == "sneeze_few":
        return give(scene, scene.weigh(), "ammonia", AFTER_DUST)
    few = SNEEZING in heard.signals and SNEEZING not in heard.many
    if few and _waits_for_the_dust(scene):
        return go_on(scene, scene.weigh(), "ammonia")
    if asked == LEGS and scene.answer == "legs_slip":
        return give(scene, scene.weigh(), "sick", AFTER_SPLAY)
    went_cold = {HEAP, "stove_out", "no_power"}.intersection(heard.signals)
    if asked == DEAD and went_cold:
        behind = ((say("still_danger"),),) if scene.alarm else ()
        referred = scene.alarm is not None
        return Decision((say("look_heap"),), (), None, Why(cause="cold"), referred, behind)
    return None


def _waits_for_the_dust(scene: Scene) -> bool:
    """The air was opened against dust, and the hour to look again has not come."""
    look = scene.story.look_at
    told = AFTER_DUST.key in scene.story.tried and look is not None and scene.case.now < look
    kept = scene.batch is not None and scene.batch.complaint is not None
    return told and kept
