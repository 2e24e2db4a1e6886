"""Facts with figures out of a text: deaths, readings, feed, water, weight, sales, treatments.

In: a `Scene`. Out: `Fact`s in the order said. Pure; called by `read`. Order matters: what one
reader takes for its own (a price, a weight) is not offered to the next.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause
from bot.understand.numbers import Number
from bot.understand.patterns import Span
from bot.understand.quantities import Quantity
from bot.understand.scene import Fact, Scene
from bot.understand.supposed import of_others

LOWEST_C, HIGHEST_C = -5.0, 60.0
DEFAULT_COUNT = 300


def find_facts(scene: Scene) -> list[Fact]:
    """Every fact of the text, each kind once, in the order said."""
    found = [*deaths(scene), *readings(scene), *trade(scene), *treated(scene), *stores(scene)]
    found.sort(key=lambda fact: fact.at)
    once: dict[Intent, Fact] = {}
    for fact in found:
        once.setdefault(fact.intent, fact)
    return list(once.values())


def deaths(scene: Scene) -> Iterator[Fact]:
    """The figure of today where two days are named; "no deaths" is 0."""
    told: list[tuple[int, int | None, int]] = []  # (token, day or None, how many)
    for at, clause in enumerate(scene.text.clauses):
        if not clause.has("dead", "lost", "culled"):
            if told:
                told.extend(_none_today(scene, clause))
            continue
        word = min(
            span.start for name in ("dead", "lost", "culled") for span in clause.spans.get(name, ())
        )
        if of_others(scene.text, clause, word):
            continue
        found = _deaths_in(scene, clause)
        if found is not None:
            told.append((found[0], _day_in(scene, clause, found[0]), found[1]))
            told.extend(_second_figure(scene, clause, found[0]))
        elif at and clause.has("dead"):
            told.extend(_before_comma(scene, at))
    if not told:
        return
    told.extend(_summed_up(scene, told))
    today = [one for one in told if one[1] == 0]
    at, _, dead = (today[-1:] or [one for one in told if one[1] is None] or told)[0]
    count = scene.hearing.count or DEFAULT_COUNT
    danger = dead >= max(3, 0.02 * count)
    culled = not scene.has("dead", "lost")
    yield Fact(
        Intent.CULLED if culled else Intent.DEATHS,
        Slots(deaths=None if culled else dead, count=dead if culled else None),
        at,
        ("sudden_many_deaths",) if danger and not culled else (),
    )


def _none_today(scene: Scene, clause: Clause) -> Iterator[tuple[int, int | None, int]]:
    """ "yesterday 2 died, today none", "hier 2 morts, aujourd'hui 1": only a day and a figure."""
    if _day_in(scene, clause, clause.start) != 0:
        return
    figures = scene.near(clause, scene.plain_numbers)
    if clause.has("@neg") and not figures:
        yield clause.start, 0, 0
    elif len(figures) == 1 and clause.end - clause.start <= 4 and not scene.quantities:
        yield figures[0].start, 0, round(figures[0].value)


def _summed_up(
    scene: Scene, told: list[tuple[int, int | None, int]]
) -> list[tuple[int, int | None, int]]:
    """ "one was dead and my wife stepped on another, so 2": the figure that sums up."""
    for span in scene.text.spans.get("@sum", ()):
        for one in scene.plain_numbers:
            most = max(dead for _, _, dead in told)
            last = one.end == len(scene.text.tokens) and one.start == span.end
            if last and most < one.value <= 3 * most + 3 and one.start > told[0][0]:
                return [(one.start, 0, round(one.value))]
    return []


def _before_comma(scene: Scene, at: int) -> Iterator[tuple[int, int | None, int]]:
    """ "today 2, dead": the figure stands alone before the comma."""
    clause = scene.text.clauses[at - 1]
    if clause.sentence == scene.text.clauses[at].sentence:
        alone = scene.near(clause, scene.plain_numbers)
        if len(alone) == 1 and clause.end - clause.start <= 3 and not alone[0].weak:
            yield alone[0].start, _day_in(scene, clause, alone[0].start), round(alone[0].value)


def _deaths_in(scene: Scene, clause: Clause) -> tuple[int, int] | None:
    """Where, and how many; None where nothing countable is said."""
    words = clause.spans.get("dead", []) or clause.spans.get("culled", [])
    weak = not words
    words = words or clause.spans.get("lost", [])
    if weak and not _birds_lost(scene, clause):
        return None
    numbers = [
        one
        for one in scene.near(clause, scene.plain_numbers)
        if one.value == int(one.value)
        and not _after_mark(scene, one)
        and not any(scene.text.at(name, one.start) for name in ("die_many", "die_rate"))
    ]
    numbers = [one for one in numbers if not _of_how_many(scene, one)] or numbers
    word = words[0]
    numbers.sort(key=lambda one: _apart(one, word.start, word.end))
    today = [one for one in numbers if _day_in(scene, clause, one.start) == 0]
    if len(numbers) > 1 and today and len(scene.days) > 1:
        numbers = today
    if numbers:
        best = numbers[0]
        if best.weak and clause.has("@neg") and _apart(best, word.start, word.end) <= 3:
            return best.start, 0
        return min(best.start, word.start), round(best.value)
    if any(span.denied for span in words) or clause.has("zero"):
        return word.start, 0
    if clause.has("a_bird") and not clause.has("@many", "@plural"):
        return word.start, 1
    return None


def _of_how_many(scene: Scene, number: Number) -> bool:
    """ "4 of 1000": the flock, not the dead."""
    spans = scene.text.spans.get("@out_of", ())
    return number.value == scene.hearing.count or any(span.end == number.start for span in spans)


def _second_figure(
    scene: Scene, clause: Clause, first: int
) -> Iterator[tuple[int, int | None, int]]:
    """ "3 died yesterday and 1 today" in one clause: the figure near the other day counts too."""
    if _day_in(scene, clause, first) == 0:
        return
    for one in scene.near(clause, scene.plain_numbers):
        figure = one.value == int(one.value) and not (one.weak and not one.spelt)
        if one.start > first and figure and not _of_how_many(scene, one):
            day = _day_in(scene, clause, one.start)
            if day == 0:
                yield one.start, day, round(one.value)
    if clause.has("@neg"):
        for span in clause.spans["@neg"]:
            if span.start > first and _day_in(scene, clause, span.start) == 0:
                yield span.start, 0, 0


def _birds_lost(scene: Scene, clause: Clause) -> bool:
    """ "lost" is a death only with birds or a bare figure, not a phone, weight or money."""
    if clause.has("lost_other", "weigh", "person_thing"):
        return False
    numbers = scene.near(clause, scene.plain_numbers)
    return bool(numbers) or clause.has("bird") or any(s.denied for s in clause.spans["lost"])


def _after_mark(scene: Scene, number: Number) -> bool:
    before = number.start - 1
    return before >= 0 and scene.text.tokens[before].text in ("@", "$")


def _apart(number: Number, start: int, end: int) -> int:
    return start - number.end if number.end <= start else number.start - end


def _day_in(scene: Scene, clause: Clause, near: int) -> int | None:
    """The day said closest to a token of a clause; None where none is said."""
    days = [day for day in scene.days if clause.start <= day.start < clause.end]
    if not days:
        return None
    best = min(days, key=lambda day: min(abs(day.start - near), abs(day.end - 1 - near)))
    return best.resolved(scene.hearing.today, past=True)


def readings(scene: Scene) -> Iterator[Fact]:
    """Temperature and humidity: with a unit, or a bare figure beside the word."""
    for one in scene.of_kind("celsius"):
        if not scene.has("ask_only"):
            yield Fact(Intent.TEMPERATURE, temperature_slots(one.value), one.start)
        break
    else:
        yield from _named_reading(scene, "temperature")
    for one in scene.of_kind("percent"):
        if scene.has("humidity") or scene.hearing.prompt == "humidity":
            yield Fact(Intent.HUMIDITY, Slots(rh_pct=one.value), one.start)
            break
    else:
        yield from _named_reading(scene, "humidity")


def temperature_slots(value: float) -> Slots:
    """An impossible reading stores no value."""
    return Slots(value_c=value if LOWEST_C <= value <= HIGHEST_C else None)


def read_degrees(value: float) -> Slots:
    """A bare figure: 20-45 is Celsius, 68-113 Fahrenheit."""
    if 68 <= value <= 113:
        return Slots(value_c=round((value - 32) * 5 / 9, 1))
    return temperature_slots(value)


def _named_reading(scene: Scene, name: str) -> Iterator[Fact]:
    for clause in scene.text.clauses:
        if not clause.has(name):
            continue
        numbers = [one for one in scene.near(clause, scene.plain_numbers) if not one.weak]
        if not numbers:
            continue
        word = clause.spans[name][0]
        today = [one for one in numbers if _day_in(scene, clause, one.start) == 0]
        if len(numbers) > 1 and len(scene.days) > 1 and today:
            numbers = today[-1:]
        value = min(
            numbers, key=lambda one: _apart(one, word.start, word.end) + (one.end <= word.start)
        )
        if name == "temperature":
            yield Fact(Intent.TEMPERATURE, read_degrees(value.value), word.start)
        elif 0 <= value.value <= 100:
            yield Fact(Intent.HUMIDITY, Slots(rh_pct=value.value), word.start)
        return


def trade(scene: Scene) -> Iterator[Fact]:
    """Sales and what was spent."""
    if scene.has("sold") and not scene.has("plan"):
        numbers = list(scene.plain_numbers)
        money = scene.of_kind("money")
        price, rest = _price(scene, numbers, money)
        whole = [one for one in rest if one.value == int(one.value)]
        beside = [one for one in whole if _beside_birds(scene, one)]
        count = next((round(one.value) for one in beside or whole), None)
        slots = Slots(
            count=count,
            price=price,
            price_per=_price_per(scene) if price is not None else None,
            date_iso_offset=scene.day(past=True),
            kg=_kilograms(scene) if scene.of_kind("grams") and price is None else None,
        )
        yield Fact(Intent.SOLD, slots, scene.text.spans["sold"][0].start)
    elif "expense" in scene.intents and (scene.of_kind("money") or scene.plain_numbers):
        amounts = [one.value for one in scene.of_kind("money")]
        amounts += [one.value for one in scene.plain_numbers]
        match = scene.intents["expense"][0]
        yield Fact(Intent.EXPENSE, Slots(price=max(amounts)), match.start)


def _price(
    scene: Scene, numbers: list[Number], money: list[Quantity]
) -> tuple[float | None, list[Number]]:
    if money:
        return money[0].value, numbers
    for at, number in enumerate(numbers):
        before = number.start - 1
        marked = before >= 0 and (
            scene.text.tokens[before].text == "@" or scene.text.at("price", before)
        )
        if marked and (at or len(numbers) == 1 or scene.text.at("price", before)):
            return number.value, [one for one in numbers if one is not number]
    if len(numbers) > 1:
        return numbers[1].value, [numbers[0], *numbers[2:]]
    return None, numbers


def _beside_birds(scene: Scene, number: Number) -> bool:
    return scene.text.at("bird", number.end) or scene.text.at("bird", number.start - 1)


def _price_per(scene: Scene) -> str:
    if scene.has("per_kg"):
        return "kg"
    return "all" if scene.has("total") and not scene.has("each") else "bird"


def treated(scene: Scene) -> Iterator[Fact]:
    """A vaccine or medicine that was given, with its name as typed."""
    words = [*scene.text.spans.get("vaccine", ()), *scene.text.spans.get("medicine", ())]
    words += scene.text.spans.get("treat", ())
    words = [span for span in words if not _only_bought(scene, span)]
    named = _given_product(scene) if not words else None
    if named is not None:
        words = [named]
    if not words or scene.has("plan") or any(_coming(scene)):
        return
    given = scene.has("treat", "fed", "given", "done_word", "finished") or scene.days
    if not given:
        return
    denied = any(
        span.denied
        for clause in scene.text.clauses
        for name in ("treat", "vaccine", "medicine", "given", "fed")
        for span in clause.spans.get(name, ())
    )
    if denied:
        return
    yield Fact(
        Intent.TREATED,
        Slots(
            product=_product(scene),
            date_iso_offset=scene.day(past=True, default=0),
            days=next((age.days for age in scene.ages), None),
        ),
        min(span.start for span in words),
    )


def _only_bought(scene: Scene, word: Span) -> bool:
    """The medicine was bought, which says nothing of giving it."""
    for clause in scene.text.clauses:
        if clause.start <= word.start < clause.end and clause.has("bought"):
            given = clause.has("given", "fed", "treat")
            return not given or _nearer(clause, word, "bought", ("given", "fed", "treat"))
    return False


def _nearer(clause: Clause, word: Span, name: str, others: tuple[str, ...]) -> bool:
    def apart(names: tuple[str, ...]) -> int:
        return min(
            abs(span.start - word.start) for one in names for span in clause.spans.get(one, ())
        )

    return apart((name,)) < apart(others)


def _given_product(scene: Scene) -> Span | None:
    """ "gave xxx yesterday": a name that no folder knows, right behind "gave" or before "given"."""
    for clause in scene.text.clauses:
        for span in clause.spans.get("given", ()):
            for at in (span.end, span.end + 1, span.start - 1):
                if clause.start <= at < clause.end and _unknown(scene, at):
                    return Span(at, at + 1) if len(scene.text.tokens[at].text) >= 5 else None
    return None


def _coming(scene: Scene) -> Iterator[bool]:
    for day in scene.days:
        yield (day.offset or 0) > 0


def _product(scene: Scene) -> str | None:
    """The longest run of words that name it, as typed."""
    text = scene.text
    names = [*text.spans.get("vaccine", ()), *text.spans.get("medicine", ())]
    core = {at for span in names for at in range(span.start, span.end)}
    named = _given_product(scene) if not core else None
    if named is not None:
        core = {named.start}
    if not core:
        core = {
            at
            for at, token in enumerate(text.tokens)
            if token.kind == "word" and not scene.index.lexicon.look_up(token.text)
        }
    if not core:
        return None
    start = end = min(core)
    while end + 1 < len(text.tokens) and _part_of_name(scene, end + 1, core):
        end += 1
    while start > 0 and _unknown(scene, start - 1):
        start -= 1
    return " ".join(token.text for token in text.tokens[start : end + 1])[:60]


def _unknown(scene: Scene, at: int) -> bool:
    token = scene.text.tokens[at]
    return token.kind == "word" and not scene.index.lexicon.look_up(token.text)


def _part_of_name(scene: Scene, at: int, core: set[int]) -> bool:
    if at in core or _unknown(scene, at):
        return True
    linking = scene.text.tokens[at].text in (
        "ya",
        "de",
        "d",
        "for",
        "contre",
        "wa",
        "against",
        "du",
    )
    return linking and (
        at + 1 in core or (at + 1 < len(scene.text.tokens) and _unknown(scene, at + 1))
    )


def stores(scene: Scene) -> Iterator[Fact]:
    """Feed, water and weights: which one a mass belongs to is told by the words about it."""
    yield from _weights(scene)
    if scene.has("sold"):
        return
    weighed = any(True for _ in _weights(scene))
    masses = scene.of_kind("grams", "bags")
    if masses and not weighed and not scene.has("ask_only"):
        total = _today(scene, masses)
        move = "in" if scene.has("bought") else "eaten"
        if total.unit != "gram" or scene.has("feed", "fed", "bought"):
            kg = round(total.value / 1000, 3) if total.kind == "grams" else None
            yield Fact(
                Intent.FEED,
                Slots(
                    kg=kg,
                    bags=total.value if total.kind == "bags" else total.bags,
                    feed_move=move,
                ),
                total.start,
            )
    litres = scene.of_kind("litres")
    if litres:
        one = _today(scene, litres)
        yield Fact(Intent.WATER, Slots(litres=round(one.value, 2)), one.start)
    elif not masses:
        yield from _bare_store(scene)


def _bare_store(scene: Scene) -> Iterator[Fact]:
    """ "feed 12": a figure without a unit right beside the word, where no other fact takes it."""
    if len(scene.plain_numbers) != 1 or scene.has("dead", "sold", "temperature", "plan", "price"):
        return
    number = scene.plain_numbers[0]
    for name, intent in (("feed", Intent.FEED), ("water", Intent.WATER)):
        for span in scene.text.spans.get(name, ()):
            if number.start - span.end in (0, 1) and number.end == len(scene.text.tokens):
                slots = Slots(kg=number.value, feed_move="eaten")
                if intent is Intent.WATER:
                    slots = Slots(litres=number.value)
                yield Fact(intent, slots, span.start)
                return


def _today(scene: Scene, found: list[Quantity]) -> Quantity:
    """The figure for today when two days are named, else the first."""
    if len(found) > 1:
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


def _kilograms(scene: Scene) -> float | None:
    grams = scene.of_kind("grams")
    return round(grams[0].value / 1000, 3) if grams else None


def _weights(scene: Scene) -> Iterator[Fact]:
    """Single weights, an average, or a total of N birds."""
    text = scene.text
    if scene.has("sold", "bought"):
        return
    numbers = [one for one in scene.plain_numbers if not one.weak]
    series = _series(scene)
    if len(series) >= 3 and (scene.has("weigh", "bird", "average") or _only_figures(scene)):
        yield Fact(
            Intent.WEIGHT, Slots(weights_g=tuple(series)), numbers[0].start if numbers else 0
        )
        return
    weighing = text.has("weigh", "average", "each")
    masses = scene.of_kind("grams")
    if not masses:
        if text.has("weigh", "average") and len(numbers) == 1 and numbers[0].value >= 20:
            value = numbers[0].value
            yield Fact(Intent.WEIGHT, Slots(avg_g=value), numbers[0].start)
        return
    mass = _today(scene, masses)
    birds = [
        one
        for one in numbers
        if one.value == int(one.value) and 2 <= one.value <= 200 and _of_birds(scene, one)
    ]
    fed = text.has("feed", "fed", "eat") and not text.has("weigh", "average")
    if fed or mass.bags is not None:
        return
    if birds and not text.has("average", "each"):
        average = mass.value / birds[0].value
        if average < 20:
            average = mass.value
        yield Fact(Intent.WEIGHT, Slots(avg_g=round(average, 1)), mass.start)
    elif weighing or mass.unit == "gram" or (mass.value < 4000 and text.has("bird", "reached")):
        yield Fact(Intent.WEIGHT, Slots(avg_g=round(mass.value, 1)), mass.start)


def _of_birds(scene: Scene, number: Number) -> bool:
    near = range(number.start - 3, number.end + 2)
    return any(scene.text.at("bird", at) for at in near) or scene.has("weigh", "total")


def _series(scene: Scene) -> list[float]:
    """Three or more figures in a row that could be birds' weights in grams (or kilograms)."""
    values: list[float] = []
    for number in scene.text.numbers:
        if number.value >= 30 and not number.spelt:
            values.append(number.value)
        elif number.value != int(number.value) and number.value < 5:
            values.append(round(number.value * 1000))
    return values


def _only_figures(scene: Scene) -> bool:
    return all(
        token.kind != "word" or scene.text.at("@unit:gram", at)
        for at, token in enumerate(scene.text.tokens)
    )
