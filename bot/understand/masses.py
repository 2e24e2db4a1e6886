"""Which of the masses and measures of a text counts: that of today, the one put right, what birds
ate or what a bird weighs.

In: a `Scene` and its `Quantity`s. Pure; called by `stores` and `weighed`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bot.understand.annotate import Clause, Text
from bot.understand.dates import in_pairs
from bot.understand.numbers import Number
from bot.understand.patterns import Span
from bot.understand.quantities import Quantity
from bot.understand.sales import FEEDING
from bot.understand.scene import Scene

MOST_WEIGHED = 100  # birds of a sample
_GRAMS = ("kg", "gram")
# Beside one of these a mass for so many birds is of something else.
_NO_SAMPLE = (
    *("feed", "eat", "feeder", "bought", "sold", "@unit:money", "heat", "litter", "finished"),
    *("ask_only", "medicine", "vaccine"),
)
MOST_UNLIKE = 4.0  # how many times the lightest of a sample the heaviest may weigh


def _figures_of(scene: Scene, one: Quantity) -> list[Number]:
    """The figures that a measure is made of."""
    return [number for number in scene.text.numbers if one.start <= number.start < one.end]


def that_of_today(scene: Scene, found: list[Quantity]) -> Quantity:
    """The figure for today when two days are named, else the first."""
    found = _sized_alike(found)
    if len(found) == 1 and len(scene.days) > 1:
        return _other_day(scene, found[0])
    if len(found) == 1:
        return _with_other_goes(scene, found[0])
    if len(found) == 2 and _in_two_goes(scene, *found):
        both = found[0].value + found[1].value
        return replace(found[0], value=both, end=found[1].end)
    if len(found) == len(scene.days) == 2 and in_pairs(scene.days, [one.start for one in found]):
        days = [one.resolved(scene.hearing.today, past=True) for one in scene.days]
        if 0 in days:
            return found[days.index(0)]
    if len(found) > 1:
        alone = _in_the_clause_of_that_of_today(scene, found)
        if alone is not None:
            return alone
        for one in found:
            near = sorted(
                scene.days, key=lambda day: min(abs(day.start - one.end), abs(one.start - day.end))
            )
            if near and near[0].resolved(scene.hearing.today, past=True) == 0:
                return one
        if scene.days:
            for one in found:
                near = sorted(
                    scene.days,
                    key=lambda day: min(abs(day.start - one.end), abs(one.start - day.end)),
                )
                if near[0].start > one.start and one is not found[-1]:
                    continue
                if near[0].start < one.start and one is found[-1]:
                    return found[0]
    return found[0]


def _sized_alike(found: list[Quantity]) -> list[Quantity]:
    """ "a bag of 50 and half a bag": of two the one whose size is not told is of the other's."""
    sized = [one for one in found if one.bags]
    plain = [one for one in found if one.kind == "bags"]
    if len(found) != 2 or len(sized) != 1 or len(plain) != 1:
        return found
    kilos = sized[0].value / (sized[0].bags or 1)
    told = replace(plain[0], kind="grams", unit="kg", value=plain[0].value * kilos)
    return [told if one is plain[0] else one for one in found]


def told_right(scene: Scene, found: list[Quantity]) -> list[Quantity]:
    """ "not 52 litres but 42": the figures that stand, where a wrong one is denied."""
    wrong = [one for one in found if scene.text.at("@neg", one.start - 1)]
    truly = scene.in_truth(scene.plain_numbers) if len(found) == 1 else []
    if len(truly) == 1 and truly[0].start >= found[0].end and not truly[0].weak:
        wrong = found  # "lita 60 hapana ni 16"
    if not wrong:
        return [_come_to(scene, one, found) for one in found if not _gone_from(scene, one, found)]
    right = [one for one in found if one not in wrong]
    behind = [one for one in scene.plain_numbers if one.start >= wrong[0].end and not one.weak]
    said = _figures_of(scene, wrong[0])
    if right or len(behind) != 1 or len(said) != 1 or not said[0].value:
        return right or found
    return [replace(wrong[0], value=wrong[0].value / said[0].value * behind[0].value)]


def _gone_from(scene: Scene, one: Quantity, found: list[Quantity]) -> bool:
    """ "from 50 litres to 30 litres": the measure that is no more."""
    said = _figures_of(scene, one)
    others = [other.start for other in found if other is not one]
    return bool(said) and any(scene.went_on_to(one.start, at) for at in others)


def _come_to(scene: Scene, one: Quantity, found: list[Quantity]) -> Quantity:
    """ "from 50 litres to 30": the unit is said once, the figure of now behind."""
    said = _figures_of(scene, one)
    now = [other for other in scene.plain_numbers if scene.went_on_to(one.start, other.start)]
    if len(found) != 1 or len(said) != 1 or len(now) != 1 or not said[0].value:
        return one
    return replace(one, value=one.value / said[0].value * now[0].value)


def _in_the_clause_of_that_of_today(scene: Scene, found: list[Quantity]) -> Quantity | None:
    """ "3 sacks this week... today alone 40kg"."""
    if len(scene.days) != 1 or scene.days[0].offset != 0:
        return None
    at = scene.days[0].start
    clause = next((one for one in scene.text.clauses if one.start <= at < one.end), None)
    told = [one for one in found if clause and clause.start <= one.start < clause.end]
    return told[0] if len(told) == 1 else None


def _with_other_goes(scene: Scene, one: Quantity) -> Quantity:
    """ "6 kg morning and 5 evening", "asubuhi kilo 10, mchana 8, jioni 7": the unit is said once,
    of the goes of a day."""
    said = _figures_of(scene, one)
    other = [number for number in scene.plain_numbers if not number.weak]
    hours = _hours(scene)
    figures = sorted(number.start for number in (*said, *other))
    if len(said) != 1 or not other or len(hours) != len(figures) or not said[0].value:
        return one
    today = all(day.offset == 0 for day in scene.days)
    each = _by_turns(hours, figures) or _by_turns(figures, hours)
    if not (each and today) or scene.has("dead", "lost", "temperature", "sold"):
        return one
    rest = sum(number.value for number in other)
    return replace(one, value=one.value * (1 + rest / said[0].value))


def _hours(scene: Scene) -> list[int]:
    """Where the parts of a day are told; "l'apres midi" is one of them, and "midi" in it none."""
    told = scene.text.spans.get("hour_word", ())
    return [
        one.start
        for one in told
        if not any(other.start < one.start and one.end <= other.end for other in told)
    ]


def _by_turns(first: Sequence[int], second: Sequence[int]) -> bool:
    """Whether one of each stands in turn, those of `first` ahead."""
    turns = [at for pair in zip(first, second, strict=True) for at in pair]
    return turns == sorted(turns)


def _in_two_goes(scene: Scene, first: Quantity, second: Quantity) -> bool:
    """ "morning 4.5kg evening 5 kg", "20 litres and one 5 litres": given in two goes of a day."""
    alike = first.kind == second.kind and (first.unit == second.unit or first.kind != "grams")
    alike = alike and not _of_a_bird_beside_feed(scene, first)
    if not alike or any(day.offset != 0 for day in scene.days):
        return False
    if all(_feed_beside(scene, one) for one in (first, second)):
        return True  # "10kg starter, 5kg grower"
    hours = _hours(scene)
    if len(hours) == 2:
        pairs = hours[0] < first.start < hours[1] < second.start
        return pairs or first.end <= hours[0] < second.start < hours[1]
    gap = range(first.end, second.start)
    joined = any(scene.text.at(name, at) for name in ("@joiner", "@and") for at in gap[:2])
    return len(gap) <= 3 and joined


def _feed_beside(scene: Scene, one: Quantity) -> bool:
    """A feed of its own right behind the mass: "10 kg starter", "10 kg of mash"."""
    named = scene.text.at("feed", one.end) or scene.text.at("feed", one.end + 1)
    return named and one.kind == "grams"


def _other_day(scene: Scene, one: Quantity) -> Quantity:
    """ "jana lita 15 leo 18": the unit is said once, the figure of today stands beside its day."""

    figures = sorted([one.start, *(number.start for number in scene.plain_numbers)])

    def day(at: int) -> int:
        near = min(scene.days, key=lambda day: min(abs(day.start - at), abs(day.end - 1 - at)))
        if len(figures) == len(scene.days) == 2 and in_pairs(scene.days, figures):
            near = scene.days[figures.index(at)]
        return near.resolved(scene.hearing.today, past=True)

    said = _figures_of(scene, one)
    today = [number for number in scene.plain_numbers if day(number.start) == 0]
    if len(said) != 1 or len(today) != 1 or not said[0].value or day(one.start) == 0:
        return one
    return replace(one, value=one.value / said[0].value * today[0].value)


def _of_a_bird_beside_feed(scene: Scene, mass: Quantity) -> bool:
    """ "wana gram 760 na leo wamekula kilo 30": of two masses the one that a bird may weigh, where
    the birds are named before it and the other is far more."""
    masses = [one for one in scene.of_kind("grams") if one.bags is None]
    if len(masses) != 2 or mass not in masses or scene.has("hour_word") or len(scene.days) > 1:
        return False
    other = next(one for one in masses if one is not mass)
    low, high = plausible(scene.hearing.age_days)
    near = range(mass.start - 2, mass.start)
    named = any(
        scene.text.at(name, at) for name in ("@plural", "reached", "@pronouns") for at in near
    )
    return named and low <= mass.value <= high and other.value >= MOST_UNLIKE * mass.value


def eaten(scene: Scene, mass: Quantity) -> bool:
    """A mass whose clause speaks of feed and of no weighing."""
    if of_so_many(scene, mass) is not None:
        return False
    masses = scene.of_kind("grams")
    if any(_of_a_bird_beside_feed(scene, one) for one in masses):
        return scene.has(*FEEDING) and not _of_a_bird_beside_feed(scene, mass)
    return any(
        _of_feeding(clause) and not clause.has("weigh", "average")
        for clause in scene.text.clauses
        if clause.start <= mass.start < clause.end
    )


def of_so_many(scene: Scene, mass: Quantity) -> Number | None:
    """ "ten birds gave 4.2 kg", "2.1kg for five": how many birds came to a mass, each a weight of
    its age, where no feed is told of."""
    if mass.unit not in _GRAMS or mass.bags is not None or scene.has(*_NO_SAMPLE):
        return None
    text = scene.text
    low, high = plausible(scene.hearing.age_days)
    for one in scene.plain_numbers:
        whole = one.value == int(one.value) and 2 <= one.value <= MOST_WEIGHED
        if not whole or scene.of_flock(one) or not low <= mass.value / one.value <= high:
            continue
        end = one.end + text.at("bird", one.end)
        came = any(span.start == end and span.end == mass.start for span in _came_to(text))
        behind = one.start == mass.end + 1 and text.at("for_all", mass.end)
        if came or (behind and text.ends_at(end)):
            return one
    return None


def _came_to(text: Text) -> list[Span]:
    return [*text.spans.get("~came_to", ()), *text.spans.get("~shows", ())]


def _of_feeding(clause: Clause) -> bool:
    """Feed, eating or giving; what a pair of scales "gives" is none."""
    shown = clause.spans.get("~shows", ())
    return clause.has("feed", "eat") or any(
        not any(one.start < span.start and span.end <= one.end for one in shown)
        for span in clause.spans.get("fed", ())
    )


def plausible(age: int | None) -> tuple[float, float]:
    """Widest weights of one bird at an age, g: about a third to twice a broiler's curve."""
    if age is None:
        return 30.0, 4000.0
    middle = 42 + 9.5 * age + 1.15 * age * age
    return middle * 0.3, middle * 2.2
