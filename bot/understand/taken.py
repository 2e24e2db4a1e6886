"""What else changes the number of birds: eaten, given, gone; the living counted; a slip mended.

In: a `Scene`. Out: `Fact`s. Pure; called by `facts`. The patterns stand under `intents` in
words.yaml of each language, by the names below; which figure is meant is told by what the pattern
stands on.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.facts.talk import Intent, Slots
from bot.understand.numbers import Number
from bot.understand.patterns import Match
from bot.understand.quantities import says_is
from bot.understand.replies import NUMBER_PROMPTS
from bot.understand.scene import Fact, Scene
from bot.understand.seized import figure_of, said

WAYS = ("eaten", "given", "stolen", "escaped")
COUNTED, CORRECTED, MOVED = "counted", "corrected", "moved"
FEW_WORDS = 10  # a slip is put right in a short text


def taken(scene: Scene) -> Iterator[Fact]:
    """Birds eaten, given, stolen or escaped, each way once."""
    if scene.has("plan", "sold") or scene.sold_at is not None:
        return
    fed = scene.has("fed") and bool(scene.of_kind("grams", "bags"))
    for way in WAYS:
        if way == "eaten" and fed:
            continue  # "ont mange 34kg auj hier 31"
        for match in said(scene, way):
            number = figure_of(scene, match)
            if number is not None and not _says_of_what(scene, match):
                day = scene.day(past=True)
                slots = Slots(count=round(number.value), way=way, date_iso_offset=day)
                signs = ("rats_or_predator",) if way == "stolen" else ()
                yield Fact(Intent.TAKEN, slots, match.start, signs)
                break


def _says_of_what(scene: Scene, match: Match) -> bool:
    """ "la chaleur a tue un poulet": a phrase of what birds died of, and nobody's meal."""
    return any(
        span.end - span.start > 1 and not match.used.isdisjoint(range(span.start, span.end))
        for span in scene.text.spans.get("dead", ())
    )


def counted(scene: Scene) -> Iterator[Fact]:
    """The living were counted: "counted 285", "285 are left"; that is how many birds there are,
    where this is asked."""
    other = scene.has("dead", "sold", "plan", "order", "arrived", "placed")
    if other or scene.sold_at is not None:
        return
    for match in said(scene, COUNTED):
        number = figure_of(scene, match)
        if number is None or _of_which(scene, number):
            continue
        if number.value > 1 and not number.weak:
            slots = Slots(count=round(number.value), date_iso_offset=scene.day(past=True))
            asked = scene.hearing.prompt == "count"
            yield Fact(Intent.REGISTER if asked else Intent.COUNTED, slots, match.start)
            return
    yield from _counted_before(scene)


def _counted_before(scene: Scene) -> Iterator[Fact]:
    """ "counted them, i have 276": behind that they were counted, no more than how many."""
    clauses, figures = scene.text.clauses, scene.plain_numbers
    if len(clauses) != 2 or len(figures) != 1 or not clauses[0].has("~counted_word"):
        return
    one, behind = figures[0], clauses[1]
    have = behind.has("have", "remaining", "count_verb", "alive") and not behind.has("box")
    whole = one.value > 1 and one.value == int(one.value) and not one.weak
    last = behind.start <= one.start and one.end >= behind.end - 1 and not scene.quantities
    if have and whole and last:
        slots = Slots(count=round(one.value), date_iso_offset=scene.day(past=True))
        yield Fact(Intent.COUNTED, slots, one.start)


def _of_which(scene: Scene, number: Number) -> bool:
    """ "I counted 40 that cough", "nimehesabu 40 wanakohoa": those of a sign, not the living."""
    behind = scene.text.tokens[number.end].text if number.end < len(scene.text.tokens) else ""
    return behind in scene.text.little["which"] or behind.startswith("wana")


def moved(scene: Scene) -> Iterator[Fact]:
    """Chicks that are awaited come on another day: "they come monday instead"."""
    age, day = scene.hearing.age_days, scene.day(past=False)
    coming = age is not None and age < 0 and day is not None and day > 0
    if coming and said(scene, MOVED) and not scene.plain_numbers and not scene.has("plan"):
        at = scene.intents[MOVED][0].start
        yield Fact(Intent.REGISTER, Slots(date_iso_offset=day), at)


def corrected(scene: Scene) -> Iterator[Fact]:
    """ "no it was 4, not 14": the right figure, and the wrong one where it was said."""
    found = scene.intents.get(CORRECTED)
    numbers = [*scene.plain_numbers, *_with_units(scene)]
    numbers = [one for one in numbers if not (one.weak and scene.text.at("wrong", one.end))]
    if len(numbers) == 1 and numbers[0].weak and not scene.text.ends_at(numbers[0].end):
        return  # "c'est une mare la dessous": an article
    if _answers(scene, numbers):
        return
    if not found or not numbers or len(numbers) > 2 or len(scene.text.words()) > FEW_WORDS:
        return
    numbers.sort(key=lambda one: one.start)
    wrong = [one for one in numbers if _denied(scene, one)][-1:] if len(numbers) == 2 else []
    right = [one for one in numbers if one not in wrong]
    if not wrong and scene.has("take_out") and not _put_in_place(scene, right[0]):
        return  # "I wrote 12 dead by mistake, remove": nothing is put in its place
    if len(right) == 1:
        was = wrong[0].value if wrong else None
        yield Fact(Intent.CORRECT, Slots(value=right[0].value, was=was), found[0].start)


def _answers(scene: Scene, numbers: list[Number]) -> bool:
    """ "c'est a 26 ce soir" to the question how warm it is: told, and nothing put right."""
    slip = ("wrong", "@answer:no", "@neg", "~put_right", "i_said", "in_truth", "take_out")
    return scene.hearing.prompt in NUMBER_PROMPTS and len(numbers) == 1 and not scene.has(*slip)


def _denied(scene: Scene, number: Number) -> bool:
    """ "not 14", "14 no"."""
    before = scene.text.at("@neg", number.start - 1)
    return before or scene.text.at("@negafter", number.end)


def _put_in_place(scene: Scene, right: Number) -> bool:
    """ "delete, it was 4": the figure is told anew."""
    before = right.start - 1
    return before >= 0 and (scene.text.at("copula", before) or says_is(scene.text, before))


def _with_units(scene: Scene) -> list[Number]:
    return [
        one
        for one in scene.text.numbers
        if any(quantity.start <= one.start < quantity.end for quantity in scene.quantities)
    ]
