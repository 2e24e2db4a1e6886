"""What is asked before grown birds are fetched: how long they go without feed, whether water stays,
at what hour they are caught, who comes in. Pure.

In: a `Scene` and its signs. Out: a `Meaning` with the figure asked for and the hour told, or None.
Called by `read`, before the figures of wanted.yaml. Birds that are told to be ill or dead are no
matter of hours: None.
"""

from __future__ import annotations

from bot.facts.talk import Intent, Meaning, Slots
from bot.understand.asked import asks
from bot.understand.denial import BENIGN
from bot.understand.scene import YOUNGEST_SOLD, Scene
from bot.understand.sign import Signs

FEED_OFF, CATCHING = "feed_off", "catching"
TOPIC = "sale_age"
OF_THE_TABLE = ("feed", "feeder", "eat", "fed", "fasting", "water", "drinker")
OF_THE_CATCH = ("comes_in", "which_hour", "midday")
# Signs that taking feed or water away only seems to tell of.
SEEMING = BENIGN | {"no_water", "not_eating", "not_drinking", "feed_finished", "feed_out_of_reach"}
OTHERWISE = ("dead", "lost", "sick", "culled", "medicine", "vaccine", "bought", "other_house")
CLOCK_TURN, DARK_TURN = 6, 18  # hours between a clock that begins at dawn, or at dusk, and ours
FEW_WORDS = 8  # of a text that only tells of the day


def before_they_go(scene: Scene, signs: Signs) -> Meaning | None:
    """Feed, water, the hour or the gate, where birds old enough to sell are about to be fetched."""
    age = scene.hearing.age_days
    if age is not None and age < YOUNGEST_SOLD:
        return None
    if not SEEMING.issuperset((*signs.present, *signs.absent)) or scene.has(*OTHERWISE):
        return None
    if any((one.offset or 0) < 0 for one in scene.days):
        return None  # they are gone
    ahead = any(one.offset != 0 for one in scene.days)
    comes = scene.has("buyer") and (ahead or scene.has("coming", "@future", "comes_in"))
    if not scene.has("birds_go") and not comes:
        return None
    table = scene.has(*OF_THE_TABLE)
    catch = scene.has(*OF_THE_CATCH) or bool(scene.clock)
    asked = any(asks(scene.text, one) or one.asked for one in scene.text.clauses)
    figures = bool(scene.plain_numbers or scene.quantities)
    only_told = ahead and len(scene.text.words()) <= FEW_WORDS and scene.has("sell", "birds_go")
    if not (table or catch or only_told) or (figures and not asked):
        return None
    figure = FEED_OFF if table or not catch else CATCHING
    return Meaning(Intent.ASK, Slots(topic=TOPIC, figure=figure, time=_hour(scene)))


def _hour(scene: Scene) -> str | None:
    """The hour at which they are fetched, HH:MM; noon where only the middle of the day is told."""
    hours = [f"{one:02d}:00" for one in _from_dawn(scene)]
    told = [*hours, *(time for _, _, time in scene.clock)]
    return told[0] if told else "12:00" if scene.has("midday") else None


def _from_dawn(scene: Scene) -> list[int]:
    """Hours of a clock that counts from six, by day or in the dark."""
    turn = DARK_TURN if scene.has("dark_hours") else CLOCK_TURN
    clock = {span.end for span in scene.text.spans.get("clock_word", ())}
    said = (one for one in scene.text.numbers if one.start in clock and one.value <= 12)
    return [(int(one.value) + turn) % 24 for one in said]
