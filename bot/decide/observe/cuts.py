"""What is answered before it is weighed: spread and quiet again, dry litter, a cut of water or
power. In: the scene. Out: the answer, or None. Called by answer.
"""

from __future__ import annotations

from bot.decide.common import say
from bot.decide.observe.advise import advise_on
from bot.decide.observe.scene import Scene, taken
from bot.diagnosis.keep import close
from bot.diagnosis.weigh import COMFORTABLE
from bot.facts.talk import Decision, Why
from bot.husbandry.feed_water import water_ml
from bot.husbandry.limits import LAST_AGE

AIR_CAUSES = ("cold", "hot", "draught")
LAST_SPOT_AGE = 20  # from 21 no warm spot is needed


def before_weighing(scene: Scene) -> Decision | None:
    """The answer to what needs no weighing; None where something does."""
    if _calm_again(scene):
        why = Why(cause=COMFORTABLE, because=scene.heard.signals)
        return Decision((*taken(scene), say("comfortable")), close(scene.batch), None, why)
    only_litter = set(scene.story.asked) <= {"litter"}
    if scene.heard.taken == ("dry", "") and not scene.story.signals and only_litter:
        return Decision((*taken(scene), say("litter_good")), close(scene.batch))
    if _is_cut(scene, "no_water", "not_drinking"):
        return _water_cut(scene)
    if _is_cut(scene, "no_power") and "bulb" in scene.circumstances.heats:
        return advise_on(scene, scene.weigh(), "cold")
    if _is_cut(scene, "no_power") and (scene.circumstances.age or 0) > LAST_SPOT_AGE:
        return Decision((say("power_dark"),))
    return None


def _calm_again(scene: Scene) -> bool:
    """Spread and quiet after what was done against too hot or too cold: it is over, whatever was
    seen before."""
    signs = scene.handbook.causes.signs
    told = scene.heard.signals
    calm = bool(told) and all(one in signs and signs[one].calm for one in told)
    return calm and bool(scene.story.tried) and scene.story.cause in AIR_CAUSES


def _is_cut(scene: Scene, cut: str, *beside: str) -> bool:
    """Whether a cut is all that is wrong, with nothing seen of the birds but what it brings."""
    return cut in scene.heard.signals and set(scene.story.signals) <= {cut, *beside}


def _water_cut(scene: Scene) -> Decision:
    """The water supply is cut: what they need today, and from where."""
    age, batch = scene.circumstances.age, scene.batch
    why = Why(cause="thirst", because=("no_water",))
    if age is None or batch is None or age > LAST_AGE:
        return Decision((say("water_cut_plain"),), why=why)
    litres = water_ml(age, scene.handbook.husbandry).value_ml * batch.alive / 1000
    return Decision((say("water_cut", litres=max(1, round(litres))),), why=why)
