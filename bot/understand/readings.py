"""Temperature and humidity out of a text: with a unit, by the word beside, or by where it hangs.

In: a `Scene`. Out: `Fact`s. Pure; called by `facts`.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause
from bot.understand.dead_figure import apart, day_in
from bot.understand.numbers import Number
from bot.understand.patterns import Span
from bot.understand.placed import COOLEST, OLDEST, WARMEST, beside_the_birds, by_place, counts
from bot.understand.quantities import Quantity
from bot.understand.scene import Fact, Scene

LOWEST_C, HIGHEST_C = -5.0, 60.0
_TAKEN_IN = ("weigh", "average", "water", "eat", "fed", "drank", "drink", "litter")
LEAST_PCT = 20.0  # of the air's humidity, where nothing names it
NEAR_NOW = 4  # words between "now" and its reading
_OF_WHAT_IS_SHOWN = ("~shows", "copula", "@pronouns", "@day:0", "@now", "~beside_time")
# Anywhere in the text, what figures count that are no readings.
_COUNTING = ("dead", "lost", "culled", "sold", "feed", "price", "ask_only", "bag_word")


def readings(scene: Scene) -> Iterator[Fact]:
    """Temperature and humidity: with a unit, or a bare figure beside the word."""
    now = _degrees_of_now(scene)
    if now is not None:
        yield Fact(Intent.TEMPERATURE, read_degrees(now.value), now.start)
    for one in _inside(scene) if now is None else ():
        if not scene.has("ask_only"):
            yield Fact(Intent.TEMPERATURE, temperature_slots(one.value), one.start)
        break
    else:
        if now is None:
            yield from (
                _lone_letter(scene)
                or _in_and_out(scene)
                or list(_named_reading(scene, "temperature"))
                or hung_reading(scene)
                or _of_a_place(scene)
                or _went_to(scene)
                or _in_tenths(scene)
            )
    for one in scene.of_kind("percent"):
        named = scene.has("humidity") or scene.hearing.prompt == "humidity"
        if named or _of_one_meter(scene, one):
            yield Fact(Intent.HUMIDITY, Slots(rh_pct=one.value), one.start)
            break
    else:
        yield from _named_reading(scene, "humidity")


def _in_and_out(scene: Scene) -> list[Fact]:
    """ "dedans 33 dehors 19", "24 outside 32 inside": each figure with its word, and nothing is
    counted."""
    text = scene.text
    figures = [one for one in scene.plain_numbers if not one.weak]
    if len(figures) != 2 or not (text.has("indoors") and text.has("@outside")):
        return []
    if scene.quantities or scene.has(*_COUNTING, "bird", "weigh", "water") or scene.ages:
        return []
    words = sorted((text.spans[name][0].start, name) for name in ("indoors", "@outside"))
    turns = sorted((*(at for at, _ in words), *(one.start for one in figures)))
    apart = {turns.index(one.start) // 2 for one in figures} == {0, 1}
    inside = figures[[name for _, name in words].index("indoors")]
    if not apart or not COOLEST <= inside.value <= WARMEST:
        return []
    return [Fact(Intent.TEMPERATURE, temperature_slots(inside.value), inside.start)]


def _of_one_meter(scene: Scene, percent: Quantity) -> bool:
    """ "30c 65%": beside a temperature a percentage that counts nothing is of the air."""
    if not scene.has("@unit:celsius", "temperature") or scene.has(*_COUNTING):
        return False
    text, end = scene.text, percent.end
    ends = text.ends_at(end) or text.at("@and", end)
    return ends and LEAST_PCT <= percent.value <= 100


def _inside(scene: Scene) -> list[Quantity]:
    """The degrees that are told; not those of the air outside where another reading is told too:
    "18 degrees outside but under the lamp 33"."""
    told = scene.of_kind("celsius")
    away = {
        at for span in scene.text.spans.get("@outside", ()) for at in (span.start - 1, span.end)
    }
    kept = [one for one in told if not away & {one.start, one.end - 1}]
    if kept or not told:
        return kept
    figures = [one for one in scene.plain_numbers if COOLEST <= one.value <= WARMEST]
    if len(figures) != 1 or counts(scene, figures[0]) or scene.has(*_COUNTING):
        return told
    one = figures[0]
    return [Quantity("celsius", one.value, one.start, one.end, "celsius")]


def temperature_slots(value: float) -> Slots:
    """An impossible reading stores no value."""
    return Slots(value_c=value if LOWEST_C <= value <= HIGHEST_C else None)


def read_degrees(value: float) -> Slots:
    """A bare figure: 20-45 is Celsius, 68-113 Fahrenheit."""
    if 68 <= value <= 113:
        return Slots(value_c=round((value - 32) * 5 / 9, 1))
    return temperature_slots(value)


def _degrees_of_now(scene: Scene) -> Number | None:
    """ "the sun was on it, it said 41, in the shade now 30": of two readings the one of now, or of
    the shade, which stands right behind its word or, at the end, before it."""
    told = scene.has("temperature", "in_sun", "in_shade", "@unit:celsius")
    if not told or not scene.has("just_now", "in_shade") or scene.has("ask_only", "dead"):
        return None
    degrees = [Number(one.start, one.end, one.value) for one in scene.of_kind("celsius")]
    plain = [one for one in scene.plain_numbers if not one.weak]
    found = sorted((*degrees, *plain), key=lambda one: one.start)
    if len(found) != 2 or any(not COOLEST <= one.value <= HIGHEST_C for one in found):
        return None
    spans = (span for name in ("just_now", "in_shade") for span in scene.text.spans.get(name, ()))
    marks = [span.end for span in spans if span.start >= found[0].end]
    if not marks:
        return None
    behind = found[1].start - min(marks)
    return found[1] if -NEAR_NOW <= behind <= NEAR_NOW else None


def _lone_letter(scene: Scene) -> list[Fact]:
    """ "t 31", "rh 55 t 31": nothing but the letter and a figure that a brooder may have, humidity
    told beside it or not."""
    text = scene.text
    words = [at for at, one in enumerate(text.tokens) if one.kind == "word"]
    letters = [at for at in words if text.tokens[at].text == "t"]
    rest = [at for at in words if at not in letters and not text.at("humidity", at)]
    if len(letters) != 1 or rest or len(scene.plain_numbers) != len(words):
        return []
    figure = next((one for one in scene.plain_numbers if one.start == letters[0] + 1), None)
    if figure is None or not COOLEST <= figure.value <= WARMEST:
        return []
    return [Fact(Intent.TEMPERATURE, temperature_slots(figure.value), letters[0])]


def hung_reading(scene: Scene) -> list[Fact]:
    """ "put it on the floor where the chicks are, now it says 27 after 10 min": the one figure that
    a brooder may have, where we spoke of the thermometer, and that counts nothing."""
    if not scene.hearing.hung or scene.quantities or scene.has(*_COUNTING):
        return []
    figures = [
        one
        for one in scene.plain_numbers
        if COOLEST <= one.value <= WARMEST and not one.weak and not counts(scene, one)
    ]
    if len(figures) != 1:
        return []
    return [Fact(Intent.TEMPERATURE, temperature_slots(figures[0].value), figures[0].start)]


def _went_to(scene: Scene) -> list[Fact]:
    """ "fell to 27 in the night", "tombe a 27": the one figure, which a brooder may have."""
    if scene.quantities or scene.has("feed", "water", "weigh", "price", "sold", "bird", "ask_only"):
        return []
    figures = [one for one in scene.plain_numbers if scene.text.at("went_to", one.start - 1)]
    if len(figures) != 1 or not COOLEST <= figures[0].value <= WARMEST:
        return []
    return [Fact(Intent.TEMPERATURE, temperature_slots(figures[0].value), figures[0].start)]


def _in_tenths(scene: Scene) -> list[Fact]:
    """ "we get 33.5 before they come": a figure with tenths, where chicks have heat and no weight,
    feed or money is told of."""
    figures = scene.text.numbers
    if len(figures) != 1 or scene.quantities or scene.has(*_COUNTING, *_TAKEN_IN):
        return []
    one, age = figures[0], scene.hearing.age_days
    asked = scene.hearing.prompt not in (None, "temperature")
    if asked or age is None or age > OLDEST or one.value == int(one.value):
        return []
    if not COOLEST <= one.value <= WARMEST or scene.text.clauses[0].asked:
        return []
    return [Fact(Intent.TEMPERATURE, temperature_slots(one.value), one.start)]


def _of_a_place(scene: Scene) -> list[Fact]:
    told = by_place(scene) or beside_the_birds(scene)
    return [told] if told is not None else []


def _named_reading(scene: Scene, name: str) -> Iterator[Fact]:
    for clause in scene.text.clauses:
        if not clause.has(name):
            continue
        numbers = scene.in_truth(scene.plain_numbers) or scene.near(clause, scene.plain_numbers)
        numbers = [one for one in numbers if not one.weak and not scene.is_put_right(one)]
        numbers = numbers or _shown_behind(scene, clause)
        if clause.has("dead"):  # "8 chicks die when temp is good"
            numbers = [one for one in numbers if not _counts_the_dead(scene, one, name)]
        word = clause.spans[name][0]
        numbers = [one for one in numbers if not _dead_before(scene, one, word)]
        beside = any(scene.right_behind(name, one) for one in numbers)
        of_both = name == "temperature" and clause.has("humidity") and len(numbers) == 1
        named = any(not scene.text.at("~shows", one.start) for one in clause.spans[name])
        if not numbers or (of_both and not (beside and named)):
            continue
        if len(numbers) == 2 and scene.went_on_to(numbers[0].start, numbers[1].start):
            numbers = numbers[1:]
        today = [one for one in numbers if day_in(scene, clause, one.start) == 0]
        if len(numbers) > 1 and len(scene.days) > 1 and today:
            numbers = today[-1:]
        elif len(scene.days) > 1 and not today:
            numbers = _of_today(scene, clause) or numbers
        value = min(
            numbers, key=lambda one: apart(one, word.start, word.end) + (one.end <= word.start)
        )
        if name == "temperature":
            yield Fact(Intent.TEMPERATURE, read_degrees(value.value), word.start)
        elif 0 <= value.value <= 100:
            yield Fact(Intent.HUMIDITY, Slots(rh_pct=value.value), word.start)
        return


def _shown_behind(scene: Scene, told: Clause) -> list[Number]:
    """ "I looked at the thermometer, it shows 33": the clause behind tells what is shown."""
    text = scene.text
    at = next(at for at, one in enumerate(text.clauses) if one is told) + 1
    for clause in text.clauses[at : at + 1]:
        figures = [one for one in scene.near(clause, scene.plain_numbers) if not one.weak]
        said = {at for one in figures for at in range(one.start, one.end)}
        plain = all(
            at in said or any(text.at(name, at) for name in _OF_WHAT_IS_SHOWN)
            for at in range(clause.start, clause.end)
        )
        if plain and len(figures) == 1 and COOLEST <= figures[0].value <= WARMEST:
            return figures
    return []


def _counts_the_dead(scene: Scene, number: Number, name: str) -> bool:
    """ "8 chicks die when temp is good", "il a fait 3 morts"; but "temp 30 dead 0"."""
    dead = scene.text.at("dead", number.end) and not any(
        span.end == number.start and span.end - span.start == 1
        for span in scene.text.spans.get(name, ())
    )
    return dead or scene.text.at("bird", number.end)


def _dead_before(scene: Scene, number: Number, word: Span) -> bool:
    """ "two dead and the temp at their backs is 31": told before the word of the reading."""
    return number.end < word.start and scene.text.at("dead", number.end)


def _of_today(scene: Scene, told: Clause) -> list[Number]:
    """ "temp was 31 yesterday, 29 today": the one figure of the clause that tells of today."""
    for clause in scene.text.clauses:
        figures = [one for one in scene.near(clause, scene.plain_numbers) if not one.weak]
        other = clause is told or clause.has("dead", "humidity")
        if len(figures) == 1 and not other and day_in(scene, clause, figures[0].start) == 0:
            return figures
    return []
