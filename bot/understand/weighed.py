"""What birds weigh: one, a sample in a row, a total of so many; by a word for it or by the figures.

In: a `Scene`. Out: `Fact`s. Pure; called by `facts`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bot.facts.talk import Intent, Slots
from bot.understand.masses import (
    MOST_UNLIKE,
    MOST_WEIGHED,
    eaten,
    of_so_many,
    plausible,
    that_of_today,
)
from bot.understand.numbers import Number
from bot.understand.quantities import Quantity
from bot.understand.sales import beside_birds, of_the_dead, of_the_weighed, per_kg
from bot.understand.scene import Fact, Scene

LIGHT = 20.0  # below it a figure without a unit is of kilograms, from it of grams
LEAST_G = 100.0  # of a bird whose weight is told without a word for it


def weights_told(scene: Scene) -> Iterator[Fact]:
    """Single weights, an average, or a total of N birds."""
    text = scene.text
    if scene.sold_at is not None and text.has("average", "weigh") and not per_kg(scene):
        mass = next((one for one in scene.of_kind("grams") if _of_a_bird(one.value)), None)
        if mass is not None and mass.bags is None:
            yield Fact(Intent.WEIGHT, Slots(avg_g=round(mass.value, 1)), mass.start)
    if scene.sold_at is not None:
        yield from _sample_before_the_sale(scene)
    if scene.sold_at is not None or (scene.has("bought") and not text.has("weigh")):
        return
    numbers = [one for one in scene.plain_numbers if not one.weak]
    series = _series(scene)
    masses = [one for one in scene.of_kind("grams") if not eaten(scene, one)]
    told = scene.has("weigh", "bird", "average") or len(masses) > 1 or _as_many(scene, series)
    told = told or (scene.has("in_turn") and scene.has("@unit:kg", "@unit:gram"))
    told = told or _in_grams(scene) or text.has("@unit:gram")  # "412 398 440, that's grams"
    if len(series) >= 3 and (told or _only_figures(scene)):
        yield Fact(
            Intent.WEIGHT, Slots(weights_g=tuple(series)), numbers[0].start if numbers else 0
        )
        return
    pair = _pair(scene, numbers)
    if pair:
        yield Fact(Intent.WEIGHT, Slots(weights_g=pair), numbers[0].start)
        return
    weighing = text.has("weigh", "average", "each")
    read_off = text.has("temperature", "humidity") and not text.has("average", "@unit:gram")
    if not masses and (total := _bare_total(scene, numbers)) is not None:
        yield Fact(Intent.WEIGHT, Slots(avg_g=total), numbers[0].start)
        return
    if not masses:
        behind = [one for one in numbers if text.at("average", one.start - 1)]
        numbers = behind if len(numbers) > 1 and len(behind) == 1 else numbers
        if (
            text.has("weigh", "average")
            and len(numbers) == 1
            and (numbers[0].value >= 20 or _kilos_of_a_bird(numbers[0].value))
            and not (read_off or (beside_birds(scene, numbers[0]) and not text.has("weigh")))
        ):
            value = numbers[0].value
            value *= 1000 if value < 20 else 1
            yield Fact(Intent.WEIGHT, Slots(avg_g=value), numbers[0].start)
        return
    mass = that_of_today(scene, masses)
    sample = of_so_many(scene, mass)
    birds = (
        [sample]
        if sample is not None
        else [
            one
            for one in numbers
            if one.value == int(one.value)
            and 2 <= one.value <= 200
            and (_of_birds(scene, one) or _shares(scene, mass, one) or _asked(scene))
            and not of_the_dead(scene, one)
        ]
    )
    if mass.bags is not None:
        return
    if birds and not _of_each(scene, birds[0]):
        average = mass.value / birds[0].value
        if average < 20:
            average = mass.value
        yield Fact(Intent.WEIGHT, Slots(avg_g=round(average, 1)), mass.start)
    elif weighing or mass.unit == "gram" or _of_one_bird(scene, mass):
        yield Fact(Intent.WEIGHT, Slots(avg_g=round(mass.value, 1)), mass.start)


def _sample_before_the_sale(scene: Scene) -> Iterator[Fact]:
    """ "ten weighed 24.5 kg, the buyer took 90": so many birds and what they weighed together."""
    for mass in scene.of_kind("grams"):
        if not of_the_weighed(scene, mass.start):
            continue
        clause = scene.text.clause_at(mass.start)
        birds = [one.value for one in scene.near(clause, scene.plain_numbers)]
        if len(birds) == 1 and birds[0] > 1 and _of_a_bird(mass.value / birds[0]):
            average = round(mass.value / birds[0], 1)
            yield Fact(Intent.WEIGHT, Slots(avg_g=average), mass.start)
            return


def _pair(scene: Scene, numbers: list[Number]) -> tuple[float, ...]:
    """ "weighed two, 860 and 890", "nimepima wawili 1.2 1.3": two figures behind the number of
    birds, each a weight of its age."""
    if len(numbers) != 3 or numbers[0].value != 2 or not scene.has("weigh") or scene.quantities:
        return ()
    low, high = plausible(scene.hearing.age_days)
    grams = [one.value * 1000 if one.value < LIGHT else one.value for one in numbers[1:]]
    alike = all(max(low, LEAST_G) <= one <= high for one in grams)
    return tuple(round(one, 1) for one in grams) if alike else ()


def _bare_total(scene: Scene, numbers: list[Number]) -> float | None:
    """ "total ya kuku kumi 8.6": so many birds, and kilograms of all without their unit; what they
    come to each, a weight of the age."""
    if len(numbers) != 2 or not scene.has("weigh", "total") or scene.sold_at is not None:
        return None
    count = next((one for one in numbers if beside_birds(scene, one)), None)
    mass = next((one for one in numbers if one is not count), None)
    if count is None or mass is None or not 2 <= count.value <= MOST_WEIGHED:
        return None
    low, high = plausible(scene.hearing.age_days)
    average = mass.value * 1000 / count.value
    fine = mass.value != int(mass.value) and count.value == int(count.value)
    return round(average, 1) if fine and low <= average <= high else None


def _of_each(scene: Scene, birds: Number) -> bool:
    """Whether a mass is told of each; "kilo 10.5 kwa kuku kumi" tells that of ten."""
    names = ("average", "each")
    told = [one for name in names for one in scene.text.spans.get(name, ())]
    return any(one.end != birds.start for one in told)


def _as_many(scene: Scene, series: list[float]) -> bool:
    """ "four of them 610 590 640 605": as many figures as birds, each a weight of the age."""
    low, high = plausible(scene.hearing.age_days)
    alike = bool(series) and all(max(low, LEAST_G) <= one <= high for one in series)
    first = scene.text.numbers[0] if scene.text.numbers else None
    return alike and first is not None and first.value == len(series)


def _kilos_of_a_bird(value: float) -> bool:
    """ "1.15 on average": kilograms, since nothing else has a fraction."""
    return value != int(value) and value < 5


def _in_grams(scene: Scene) -> bool:
    """ "1210 1180 1305 gram": a list whose last figure carries the unit."""
    return any(one.kind == "grams" and one.bags is None for one in scene.quantities[-1:])


def _of_a_bird(grams: float) -> bool:
    return 300 <= grams <= 5000


def _of_one_bird(scene: Scene, mass: Quantity) -> bool:
    """ "they are 1.5 kg now": a mass that one bird of this age may have."""
    if mass.value < 4000 and scene.has("bird", "reached"):
        return True
    low, high = plausible(scene.hearing.age_days)
    feeding = scene.text.clause_at(mass.start).has(
        "feed", "fed", "eat", "bought", "price", "finished"
    )
    of_them = scene.has("@plural", "@few", "@pronouns", "in_turn")  # "the biggest is 2.1 kg"
    return low <= mass.value <= high and of_them and not feeding


def _shares(scene: Scene, mass: Quantity, number: Number) -> bool:
    """ "twenty of them pulled 19 kilos": so many birds that each has a weight of its age."""
    low, high = plausible(scene.hearing.age_days)
    feeding = scene.has("feed", "fed", "eat", "bought", "price", "finished", "heat", "litter")
    of_them = scene.has("@plural", "vessel") and number.end <= mass.start
    return of_them and not feeding and low <= mass.value / number.value <= high


def _asked(scene: Scene) -> bool:
    """ "6 kg les dix" to the question what ten weigh."""
    return scene.hearing.prompt == "weight" and not scene.has("feed", "fed", "eat", "bought")


def _of_birds(scene: Scene, number: Number) -> bool:
    near = range(number.start - 3, number.end + 2)
    return any(scene.text.at("bird", at) for at in near) or scene.has("weigh", "total")


def _series(scene: Scene) -> list[float]:
    """Three or more weights of single birds [g] told one after another, each with its unit or the
    unit once; the number of birds that were weighed is none of them."""
    runs: list[list[tuple[Number, float | None]]] = [[]]
    end = 0
    for number, grams in _may_be_weights(scene):
        if not all(_in_a_list(scene, at) for at in range(end, number.start)):
            runs.append([])
        runs[-1].append((number, grams))
        end = number.end
    longest = max(runs, key=len)
    fine = any(number.value != int(number.value) for number, _ in longest)
    kilos = fine or any(grams is not None and number.value < LIGHT for number, grams in longest)
    found = [(number, _grams_of(number, grams, kilos=kilos)) for number, grams in longest]
    sample = next((one for one in longest[:1] + longest[-1:] if _counts(scene, one, longest)), None)
    found = [one for one, told in zip(found, longest, strict=True) if told is not sample]
    weights = [grams for _, grams in found]
    alike = len(weights) >= 3 and max(weights) <= MOST_UNLIKE * min(weights)
    return weights if alike and min(weights) >= LIGHT else []


def _may_be_weights(scene: Scene) -> Iterator[tuple[Number, float | None]]:
    """Figures that may be a bird's weight, with the grams of those that carry a unit."""
    masses = {
        one.start: one
        for one in scene.of_kind("grams")
        if one.bags is None and not eaten(scene, one)
    }
    held = {at: one for one in masses.values() for at in range(one.start, one.end)}
    plain = {one.start for one in scene.plain_numbers}
    for number in scene.text.numbers:
        mass = held.pop(number.start, None)
        digits = scene.text.tokens[number.start].text.isdigit()
        counts = digits and number.value < MOST_WEIGHED and beside_birds(scene, number)
        counts = counts or scene.text.tokens[number.start - 1].text in scene.text.little["label"]
        whole_word = number.spelt and number.value == int(number.value)
        if mass is not None:
            yield replace(number, end=mass.end), mass.value
            held = {at: one for at, one in held.items() if one is not mass}
        elif number.start in plain and not (number.weak or counts or whole_word):
            yield number, None


def _in_a_list(scene: Scene, at: int) -> bool:
    """What may stand between two weights of a list."""
    names = ("@unit:kg", "@unit:gram", "@joiner", "@joins", "@weak", "weigh", "in_turn")
    token = scene.text.tokens[at]
    labelled = token.kind != "word" or token.text in scene.text.little["label"]
    return labelled or any(scene.text.at(one, at) for one in names)


def _grams_of(number: Number, grams: float | None, *, kilos: bool) -> float:
    if grams is not None:
        return grams
    return round(number.value * 1000) if kilos and number.value < LIGHT else number.value


def _counts(
    scene: Scene, told: tuple[Number, float | None], others: list[tuple[Number, float | None]]
) -> bool:
    """ "nimepima 5 1.8 1.9 ...": how many birds were weighed, before or behind as many weights."""
    number, grams = told
    whole = scene.text.tokens[number.start].text.isdigit()
    return grams is None and whole and number.value == len(others) - 1


def _only_figures(scene: Scene) -> bool:
    return all(
        token.kind != "word" or scene.text.at("@unit:gram", at)
        for at, token in enumerate(scene.text.tokens)
    )
