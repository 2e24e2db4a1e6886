"""What the farmer has and pays, told without being asked: the kind of heat, a thermometer or none,
the price of a bag of feed. In: a `Scene` and its signs. Out: a meaning or None. Pure; called by
`read`. The patterns stand under `intents` in words.yaml of each language, by the names below.
"""

from __future__ import annotations

from bot.facts.talk import Intent, Meaning, Slots
from bot.understand.batches import heats_said
from bot.understand.placed import COOLEST
from bot.understand.scene import Scene
from bot.understand.sign import Signs
from bot.understand.spent import LEAST_MONEY

USES_HEAT, HAS, HAS_NONE, FEED_PRICE = (
    "uses_heat",
    "has_thermometer",
    "no_thermometer",
    "feed_price",
)
MOST_WORDS = 9
MOST_STOVES = 40
BAG_G = 50_000.0  # the bag whose price is kept
LEAST_BAG_G = 10_000.0
_ASKS = ("@question", "@if", "@future", "what_to_do", "ask_only", "plan")
_OTHERS = ("@others", "@earlier", "@set_apart")
_SPENT = ("bought", "sold", "arrived", "fed", "dead", "lost")


def setup(scene: Scene, signs: Signs) -> Meaning | None:
    """One of the three, where a short text tells nothing else."""
    text = scene.text
    named = {USES_HEAT, HAS, HAS_NONE, FEED_PRICE}.intersection(scene.intents)
    if not named or signs.present or signs.absent or len(text.words()) > MOST_WORDS:
        return None
    asked = any(clause.asked for clause in text.clauses)
    open_here = scene.hearing.prompt == "heat"  # the answer is read as one
    if not scene.hearing.has_batch or open_here or asked or scene.has(*_ASKS, *_OTHERS):
        return None
    slots = _heat(scene) or _thermometer(scene) or _feed_price(scene)
    return Meaning(Intent.SETUP, slots) if slots is not None else None


def _heat(scene: Scene) -> Slots | None:
    kinds = heats_said(scene)
    if not _said(scene, USES_HEAT) or len(kinds) != 1 or scene.quantities or scene.has("@past"):
        return None
    counts = [one.value for one in scene.plain_numbers if not one.weak]
    if len(counts) > 1 or any(not 1 <= one <= MOST_STOVES for one in counts):
        return None
    if scene.has("temperature") and any(one >= COOLEST for one in counts):
        return None  # "joto chini ya taa ni 31": a reading
    return Slots(heat=kinds[0], heat_count=round(counts[0]) if counts else None)


def _thermometer(scene: Scene) -> Slots | None:
    if scene.quantities or any(not one.weak for one in scene.plain_numbers):
        return None
    if HAS_NONE in scene.intents:
        return Slots(thermometer=False)
    return Slots(thermometer=True) if _said(scene, HAS) else None


def _feed_price(scene: Scene) -> Slots | None:
    """Of a bag of 50 kg; of another size by its share."""
    if not _said(scene, FEED_PRICE) or scene.has(*_SPENT):
        return None
    figures = [one.value for one in scene.of_kind("money")]
    figures += [one.value for one in scene.plain_numbers if not one.weak]
    sizes = [one.value for one in scene.of_kind("grams")]
    if len(figures) != 1 or figures[0] < LEAST_MONEY or len(sizes) > 1:
        return None
    if any(not LEAST_BAG_G <= one <= BAG_G for one in sizes):
        return None
    return Slots(feed_price=figures[0] * (BAG_G / sizes[0] if sizes else 1.0))


def _said(scene: Scene, name: str) -> bool:
    found = scene.intents.get(name, ())
    return any(not (one.denied or one.deniers) for one in found)
