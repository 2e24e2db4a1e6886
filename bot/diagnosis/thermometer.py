"""What a reading is worth as evidence. In: the case's readings, the story. Out: a verdict of
`shape_causes.VERDICTS`, or None. Called by `decide.observe`.

Without a thermometer behaviour is the thermometer; against the chicks it is never believed.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from bot.diagnosis.weigh import Circumstances
from bot.errors import OutsideRange
from bot.facts.farm import Batch
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.temperature import judge_temperature

RECENT = timedelta(hours=2)  # a reading older than this says nothing of now; expert judgement
VERDICT = {
    "cold": "far_below",
    "low": "below",
    "comfortable": "right",
    "high": "above",
    "hot": "far_above",
}
AGAINST = {"cold": ("right", "above", "far_above"), "hot": ("right", "below", "far_below")}
SIDES = {"far_below": "cold", "below": "cold", "above": "hot", "far_above": "hot"}
FAR = ("far_below", "far_above")


def verdict(value_c: float, circumstances: Circumstances, husbandry: Husbandry) -> str | None:
    """Far below, below, right, above or far above the target; None for an impossible reading."""
    try:
        judged = judge_temperature(value_c, circumstances.age, husbandry, night=circumstances.night)
    except OutsideRange:
        return None
    return VERDICT[judged]


def last_reading(batch: Batch | None, now: datetime) -> float | None:
    """The last temperature told, where it is recent [C]."""
    found = batch.live_events("temperature") if batch else ()
    if not found or now - found[-1].at > RECENT:
        return None
    value = found[-1].values.get("value_c")
    return float(value) if isinstance(value, int | float) else None


def contradicts(verdict_now: str | None, cause: str) -> bool:
    """Whether the thermometer speaks against what the chicks show."""
    if cause == "comfortable":
        return verdict_now in FAR
    return verdict_now in AGAINST.get(cause, ())
