"""Facts with figures out of a text: deaths, readings, feed, water, weight, sales, treatments.

In: a `Scene`. Out: `Fact`s in the order said. Pure; called by `read`. Order matters: what one
reader takes for its own (a price, a weight) is not offered to the next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause
from bot.understand.asked import asks
from bot.understand.dates import in_pairs
from bot.understand.deaths import apart, day_in, deaths
from bot.understand.numbers import Number
from bot.understand.patterns import Span
from bot.understand.placed import COOLEST, WARMEST, by_place, counts
from bot.understand.quantities import Quantity
from bot.understand.sales import (
    FEEDING,
    beside,
    beside_birds,
    of_the_dead,
    of_the_weighed,
    per_kg,
    trade,
)
from bot.understand.scene import Fact, Scene
from bot.understand.spent import FUELS, paid
from bot.understand.taken import corrected, counted, moved, taken
from bot.understand.treated import treated

MOST_A_DAY = 1000.0  # kg or litres that a smallholder's flock may take in a day
LOWEST_C, HIGHEST_C = -5.0, 60.0
_GOODS, GOODS_REACH = ("litter", "heat"), 3  # of what a bag may be else; words behind the bag
NEAR_NOW = 4  # words between "now" and its reading
# Anywhere in the text, what figures count that are no readings.
_COUNTING = ("dead", "lost", "culled", "sold", "feed", "price", "ask_only", "bag_word")
GONE = (Intent.SOLD, Intent.TAKEN, Intent.CULLED)
MOST_WEIGHED = 100  # birds of a sample
LIGHT = 20.0  # below it a figure without a unit is of kilograms, from it of grams
LEAST_G = 100.0  # of a bird whose weight is told without a word for it
MOST_UNLIKE = 4.0  # how many times the lightest of a sample the heaviest may weigh
_LISTED = ("dead", "feed", "water", "temperature", "humidity")
# Facts of something that was done; told of a time to come they are none.
DONE = (Intent.SOLD, Intent.FEED, Intent.TREATED, Intent.EXPENSE, Intent.FUEL, Intent.CULLED)


def find_facts(scene: Scene) -> list[Fact]:
    """Every fact of the text, each kind once, in the order said."""
    weights = list(_weights(scene))
    weighed = [fact.at for fact in weights]
    found = [*deaths(scene), *readings(scene), *trade(scene, weighed), *treated(scene)]
    found += [*weights, *stores(scene, weights)]
    found += [*taken(scene), *counted(scene), *moved(scene)]
    found = [fact for fact in found if not (_to_come(scene, fact) or _asked_about(scene, fact))]
    found = [fact for fact in found if not _killed_for(fact, found)]
    found = [fact for fact in found if not _paid_for_fuel(fact, found)]
    if any(fact.intent in GONE for fact in found):
        found = [fact for fact in found if not _only_not_dead(scene, fact)]
    found.sort(key=lambda fact: fact.at)
    once: dict[tuple[Intent, str | None], Fact] = {}
    for fact in found or corrected(scene):
        once.setdefault((fact.intent, fact.slots.way), fact)
    return list(once.values())


def _killed_for(fact: Fact, told: list[Fact]) -> bool:
    """ "killed 6 for the feast": eaten, and not counted as dead once more."""
    same = (one.slots.count for one in told if one.intent is Intent.TAKEN)
    return fact.intent is Intent.DEATHS and fact.slots.deaths in same and bool(fact.slots.deaths)


def _paid_for_fuel(fact: Fact, told: list[Fact]) -> bool:
    """ "bought gas 24 kg for 25000": the money stands with the fuel, and is no second expense."""
    prices = (one.slots.price for one in told if one.intent is Intent.FUEL)
    return fact.intent is Intent.EXPENSE and fact.slots.price in prices


def _only_not_dead(scene: Scene, fact: Fact) -> bool:
    """ "not dead, I sold 12": says what happened to them, and is no count of the dead."""
    if fact.intent is not Intent.DEATHS or fact.slots.deaths != 0:
        return False
    words = scene.text.spans.get("dead", ())
    said = any(
        scene.text.tokens[one.start - 1].text in scene.text.little["not_before"]
        for one in words
        if one.start
    )
    return said or any(one.denied and one.denier < 0 for one in words)


def _to_come(scene: Scene, fact: Fact) -> bool:
    """ "i will sell 20 tomorrow": nothing was done yet."""
    return fact.intent in DONE and any(
        clause.has("@future")
        for clause in scene.text.clauses
        if clause.start <= fact.at < clause.end
    )


def _asked_about(scene: Scene, fact: Fact) -> bool:
    """ "can i sell the rest quick", "shall i add 20 litres": nothing was done yet."""
    return fact.intent in (*DONE, Intent.WATER) and any(
        asks(scene.text, clause)
        for clause in scene.text.clauses
        if clause.start <= fact.at < clause.end
    )


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
                or list(_named_reading(scene, "temperature"))
                or hung_reading(scene)
                or _of_a_place(scene)
                or _went_to(scene)
            )
    for one in scene.of_kind("percent"):
        if scene.has("humidity") or scene.hearing.prompt == "humidity":
            yield Fact(Intent.HUMIDITY, Slots(rh_pct=one.value), one.start)
            break
    else:
        yield from _named_reading(scene, "humidity")


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


def _of_a_place(scene: Scene) -> list[Fact]:
    told = by_place(scene)
    return [told] if told is not None else []


def _named_reading(scene: Scene, name: str) -> Iterator[Fact]:
    for clause in scene.text.clauses:
        if not clause.has(name):
            continue
        numbers = scene.in_truth(scene.plain_numbers) or scene.near(clause, scene.plain_numbers)
        numbers = [one for one in numbers if not one.weak and not scene.is_put_right(one)]
        if clause.has("dead"):  # "8 chicks die when temp is good"
            numbers = [one for one in numbers if not scene.text.at("bird", one.end)]
        word = clause.spans[name][0]
        numbers = [one for one in numbers if not _dead_before(scene, one, word)]
        beside = any(_right_behind(scene, name, one) for one in numbers)
        of_both = name == "temperature" and clause.has("humidity") and len(numbers) == 1
        named = any(not scene.text.at("~shows", one.start) for one in clause.spans[name])
        if not numbers or (of_both and not (beside and named)):
            continue
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


def stores(scene: Scene, weights: Sequence[Fact]) -> Iterator[Fact]:
    """Feed and water: which of them a mass belongs to, if it is no weight, is told by the words
    about it."""
    sold = scene.sold_at is not None
    fed = {span.start for span in scene.text.spans.get("fed", ())}
    fed -= {span.start for span in scene.text.spans.get("taken", ())}  # "the hotel took 60"
    stocked = scene.has("bought") and not scene.has("buyer")  # "sold 20 and bought 2 bags of 50"
    if sold and not (fed or stocked or scene.has("feed", "water") or scene.of_kind("litres")):
        return
    masses = _put_right(scene, scene.of_kind("grams", "bags"))
    litres = _put_right(scene, scene.of_kind("litres"))
    litres = [one for one in litres if not _stands_ready(scene, one)]
    burnt = [one for one in (*masses, *litres) if _burnt(scene, one)]
    masses = [one for one in masses if one not in burnt]
    litres = [one for one in litres if one not in burnt]
    if burnt and not scene.has("ask_only"):
        yield _fuel(scene, burnt[0])
    masses = [one for one in masses if not _other_goods(scene, one)]
    kept = [one for one in masses if _still_there(scene, one)]
    masses = [one for one in masses if one not in kept]
    if kept and not masses and not scene.has("mould", "ask_only", "@question"):
        yield _stock(kept[0])
    if weights or sold:
        bags = {one.start for one in masses if stocked and one.bags is not None}
        masses = [one for one in masses if one.start in bags or _eaten(scene, one)]
    if masses and not scene.has("ask_only"):
        total = _today(scene, masses)
        came = total.kind == "bags" or total.bags is not None
        bought = scene.has("bought") or (came and scene.has("arrived"))
        move = "in" if bought else "eaten"
        price = paid(scene, total) if bought and not (sold and scene.has("buyer")) else None
        if total.unit != "gram" or scene.has("feed", "fed", "bought"):
            kg = round(total.value / 1000, 3) if total.kind == "grams" else None
            yield Fact(
                Intent.FEED,
                Slots(
                    kg=kg,
                    bags=total.value if total.kind == "bags" else total.bags,
                    feed_move=move,
                    price=price,
                    price_per="all" if price is not None else None,
                ),
                total.start,
            )
    if litres:
        one = _today(scene, litres)
        yield Fact(Intent.WATER, Slots(litres=round(one.value, 2)), one.start)
    elif not masses and not burnt:
        yield from _bare_store(scene)
    if len(scene.text.clauses) > 1 and not scene.has("plan", "ask_only", "@question"):
        yield from _bare_clauses(scene)
    if not scene.has("plan", "ask_only", "@question"):
        yield from _bare_list(scene)


def _still_there(scene: Scene, one: Quantity) -> bool:
    """ "3 bags left", "3 sacs sont prets": what is there, and not what was eaten."""
    clause = _clause_of(scene, one)
    return clause.has("remaining", "at_hand") and not clause.has("fed", "eat", "bought")


def _stands_ready(scene: Scene, one: Quantity) -> bool:
    """ "she carried 3 jerricans, they are ready": water that nobody drank yet."""
    sentence = _clause_of(scene, one).sentence
    said = [part for part in scene.text.clauses if part.sentence == sentence]
    return any(part.has("at_hand") for part in said) and not any(part.has("drink") for part in said)


def _clause_of(scene: Scene, one: Quantity) -> Clause:
    return next(part for part in scene.text.clauses if part.start <= one.start < part.end)


def _stock(one: Quantity) -> Fact:
    """Feed that is there: how long it lasts is what helps."""
    kg = round(one.value / 1000, 3) if one.kind == "grams" else None
    bags = one.value if one.kind == "bags" else one.bags
    slots = Slots(figure="feed_left", topic="feed_amount", kg=kg, bags=bags)
    return Fact(Intent.ASK, slots, one.start)


def _bare_store(scene: Scene) -> Iterator[Fact]:
    """ "feed 12": a figure without a unit right beside the word, where no other fact takes it."""
    if len(scene.plain_numbers) != 1 or scene.sold_at is not None:
        return
    if scene.has("dead", "temperature", "plan", "price"):
        return
    number = scene.plain_numbers[0]
    if number.weak or number.value > MOST_A_DAY:
        return  # "the bag of feed is 3400": a price; "grains de mil": millet, and no thousand
    for name, intent in (("feed", Intent.FEED), ("water", Intent.WATER)):
        for span in scene.text.spans.get(name, ()):
            if number.start - span.end in (0, 1) and number.end == len(scene.text.tokens):
                slots = Slots(kg=number.value, feed_move="eaten")
                if intent is Intent.WATER:
                    slots = Slots(litres=number.value)
                yield Fact(intent, slots, span.start)
                return


def _bare_clauses(scene: Scene) -> Iterator[Fact]:
    """ "no dead, feed 17, water 34": a clause of the word and its figure alone."""
    for clause in scene.text.clauses:
        figures = scene.near(clause, scene.plain_numbers)
        if len(figures) != 1 or clause.end - clause.start > 3 or figures[0].end != clause.end:
            continue
        value = figures[0].value
        if value > MOST_A_DAY or clause.has("price", "dead", "temperature"):
            continue
        if clause.has("water") and not scene.of_kind("litres"):
            yield Fact(Intent.WATER, Slots(litres=value), clause.start)
        elif clause.has("feed") and not scene.of_kind("grams", "bags"):
            yield Fact(Intent.FEED, Slots(kg=value, feed_move="eaten"), clause.start)


def _bare_list(scene: Scene) -> Iterator[Fact]:
    """ "dead 2 feed 20 water 40": a row of words, each with its figure right behind it."""
    named = [
        name for one in scene.text.numbers for name in _LISTED if _right_behind(scene, name, one)
    ]
    if len(set(named)) < 2:
        return
    for number in scene.plain_numbers:
        if number.weak or number.value > MOST_A_DAY or not _ends_a_piece(scene, number.end):
            continue
        if _right_behind(scene, "water", number) and not scene.of_kind("litres"):
            yield Fact(Intent.WATER, Slots(litres=number.value), number.start)
        elif _right_behind(scene, "feed", number) and not scene.of_kind("grams", "bags"):
            yield Fact(Intent.FEED, Slots(kg=number.value, feed_move="eaten"), number.start)


def _right_behind(scene: Scene, name: str, number: Number) -> bool:
    return any(span.end == number.start for span in scene.text.spans.get(name, ()))


def _ends_a_piece(scene: Scene, at: int) -> bool:
    """Whether the text ends there, or a mark, a joining word or the next word of a list follows."""
    if at >= len(scene.text.tokens) or scene.text.tokens[at].kind == "mark":
        return True
    return any(scene.text.at(name, at) for name in (*_LISTED, "@joins", "@and"))


def _today(scene: Scene, found: list[Quantity]) -> Quantity:
    """The figure for today when two days are named, else the first."""
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
        alone = _in_the_clause_of_today(scene, found)
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


def _put_right(scene: Scene, found: list[Quantity]) -> list[Quantity]:
    """ "not 52 litres but 42": the figures that stand, where a wrong one is denied."""
    wrong = [one for one in found if scene.text.at("@neg", one.start - 1)]
    if not wrong:
        return found
    right = [one for one in found if one not in wrong]
    behind = [one for one in scene.plain_numbers if one.start >= wrong[0].end and not one.weak]
    said = [one for one in scene.text.numbers if wrong[0].start <= one.start < wrong[0].end]
    if right or len(behind) != 1 or len(said) != 1 or not said[0].value:
        return right or found
    return [replace(wrong[0], value=wrong[0].value / said[0].value * behind[0].value)]


def _in_the_clause_of_today(scene: Scene, found: list[Quantity]) -> Quantity | None:
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
    said = [number for number in scene.text.numbers if one.start <= number.start < one.end]
    other = [number for number in scene.plain_numbers if not number.weak]
    hours = [span.start for span in scene.text.spans.get("hour_word", ())]
    figures = sorted(number.start for number in (*said, *other))
    if len(said) != 1 or not other or len(hours) != len(figures) or not said[0].value:
        return one
    today = all(day.offset == 0 for day in scene.days)
    each = _by_turns(hours, figures) or _by_turns(figures, hours)
    if not (each and today) or scene.has("dead", "lost", "temperature", "sold"):
        return one
    rest = sum(number.value for number in other)
    return replace(one, value=one.value * (1 + rest / said[0].value))


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
    hours = [span.start for span in scene.text.spans.get("hour_word", ())]
    if len(hours) == 2:
        pairs = hours[0] < first.start < hours[1] < second.start
        return pairs or first.end <= hours[0] < second.start < hours[1]
    gap = range(first.end, second.start)
    return len(gap) <= 3 and any(scene.text.at("@joiner", at) for at in gap[:2])


def _other_day(scene: Scene, one: Quantity) -> Quantity:
    """ "jana lita 15 leo 18": the unit is said once, the figure of today stands beside its day."""

    figures = sorted([one.start, *(number.start for number in scene.plain_numbers)])

    def day(at: int) -> int:
        near = min(scene.days, key=lambda day: min(abs(day.start - at), abs(day.end - 1 - at)))
        if len(figures) == len(scene.days) == 2 and in_pairs(scene.days, figures):
            near = scene.days[figures.index(at)]
        return near.resolved(scene.hearing.today, past=True)

    said = [number for number in scene.text.numbers if one.start <= number.start < one.end]
    today = [number for number in scene.plain_numbers if day(number.start) == 0]
    if len(said) != 1 or len(today) != 1 or not said[0].value or day(one.start) == 0:
        return one
    return replace(one, value=one.value / said[0].value * today[0].value)


def _weights(scene: Scene) -> Iterator[Fact]:
    """Single weights, an average, or a total of N birds."""
    text = scene.text
    if scene.sold_at is not None and text.has("average", "weigh") and not per_kg(scene):
        mass = next((one for one in scene.of_kind("grams") if _of_a_bird(one.value)), None)
        if mass is not None and mass.bags is None:
            yield Fact(Intent.WEIGHT, Slots(avg_g=round(mass.value, 1)), mass.start)
    if scene.sold_at is not None:
        yield from _sample_before_the_sale(scene)
    if scene.sold_at is not None or scene.has("bought"):
        return
    numbers = [one for one in scene.plain_numbers if not one.weak]
    series = _series(scene)
    masses = [one for one in scene.of_kind("grams") if not _eaten(scene, one)]
    told = scene.has("weigh", "bird", "average") or len(masses) > 1 or _as_many(scene, series)
    told = told or (scene.has("in_turn") and scene.has("@unit:kg", "@unit:gram"))
    told = told or _in_grams(scene) or text.has("@unit:gram")  # "412 398 440, that's grams"
    if len(series) >= 3 and (told or _only_figures(scene)):
        yield Fact(
            Intent.WEIGHT, Slots(weights_g=tuple(series)), numbers[0].start if numbers else 0
        )
        return
    weighing = text.has("weigh", "average", "each")
    read_off = text.has("temperature", "humidity") and not text.has("average", "@unit:gram")
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
    mass = _today(scene, masses)
    birds = [
        one
        for one in numbers
        if one.value == int(one.value)
        and 2 <= one.value <= 200
        and (_of_birds(scene, one) or _shares(scene, mass, one))
        and not of_the_dead(scene, one)
    ]
    if mass.bags is not None:
        return
    if birds and not text.has("average", "each"):
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
        clause = next(one for one in scene.text.clauses if one.start <= mass.start < one.end)
        birds = [one.value for one in scene.near(clause, scene.plain_numbers)]
        if len(birds) == 1 and birds[0] > 1 and _of_a_bird(mass.value / birds[0]):
            average = round(mass.value / birds[0], 1)
            yield Fact(Intent.WEIGHT, Slots(avg_g=average), mass.start)
            return


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


def only_other_goods(scene: Scene) -> bool:
    """Whether all that is told in bags or by mass is litter or fuel."""
    masses = scene.of_kind("grams", "bags")
    return bool(masses) and all(_other_goods(scene, one) for one in masses)


def _other_goods(scene: Scene, mass: Quantity) -> bool:
    """Bags of litter or charcoal are no feed, whatever is said of pouring or eating beside them;
    nor is food for people."""
    if _for_the_table(scene, mass):
        return True
    behind = range(mass.end, mass.end + GOODS_REACH)
    named = next(
        (name for at in behind for name in (*FEEDING, *_GOODS) if scene.text.at(name, at)), None
    )
    if named in _GOODS:
        return True
    return any(
        clause.has(*_GOODS) and not clause.has("feed", "fed", "eat")
        for clause in scene.text.clauses
        if clause.start <= mass.start < clause.end
    )


def _for_the_table(scene: Scene, mass: Quantity) -> bool:
    """ "25 kg of rice for the family", "10 kg of fish": what people eat or sell, right behind the
    mass. What birds may eat as well is theirs unless the household is named."""
    if scene.has("bird", "feeder"):
        return False
    beside = range(mass.start - 1, mass.end + GOODS_REACH)
    if any(scene.text.at("table_food", at) for at in beside):
        return True
    staple = any(scene.text.at("staple", at) for at in beside)
    return staple and (scene.has("home_use", "sold") or scene.has("field_word"))


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


def _eaten(scene: Scene, mass: Quantity) -> bool:
    """A mass whose clause speaks of feed and of no weighing."""
    masses = scene.of_kind("grams")
    if any(_of_a_bird_beside_feed(scene, one) for one in masses):
        return scene.has(*FEEDING) and not _of_a_bird_beside_feed(scene, mass)
    return any(
        clause.has("feed", "fed", "eat") and not clause.has("weigh", "average")
        for clause in scene.text.clauses
        if clause.start <= mass.start < clause.end
    )


def _burnt(scene: Scene, mass: Quantity) -> bool:
    """A measure with the name of a fuel right beside it, and none of feed."""
    near = beside(mass)
    return _fuel_named(scene, mass) is not None and not any(
        scene.text.at("feed", at) for at in near
    )


def _fuel(scene: Scene, mass: Quantity) -> Fact:
    """Fuel burnt or bought, with its kind, and what was paid for it."""
    price = paid(scene, mass)
    bought = scene.has("bought") or price is not None
    slots = Slots(
        kg=round(mass.value / 1000, 3) if mass.kind == "grams" else None,
        litres=round(mass.value, 2) if mass.kind == "litres" else None,
        heat=_fuel_named(scene, mass),
        feed_move="in" if bought else "eaten",
        price=price,
    )
    return Fact(Intent.FUEL, slots, mass.start)


def _fuel_named(scene: Scene, mass: Quantity) -> str | None:
    near = beside(mass)
    return next(
        (kind for kind in FUELS if any(scene.text.at(f"@heat:{kind}", at) for at in near)), None
    )


def _of_one_bird(scene: Scene, mass: Quantity) -> bool:
    """ "they are 1.5 kg now": a mass that one bird of this age may have."""
    if mass.value < 4000 and scene.has("bird", "reached"):
        return True
    low, high = plausible(scene.hearing.age_days)
    feeding = _clause_of(scene, mass).has("feed", "fed", "eat", "bought", "price", "finished")
    return low <= mass.value <= high and scene.has("@plural", "@few") and not feeding


def plausible(age: int | None) -> tuple[float, float]:
    """Widest weights of one bird at an age, g: about a third to twice a broiler's curve."""
    if age is None:
        return 30.0, 4000.0
    middle = 42 + 9.5 * age + 1.15 * age * age
    return middle * 0.3, middle * 2.2


def _shares(scene: Scene, mass: Quantity, number: Number) -> bool:
    """ "twenty of them pulled 19 kilos": so many birds that each has a weight of its age."""
    low, high = plausible(scene.hearing.age_days)
    feeding = scene.has("feed", "fed", "eat", "bought", "price", "finished", "heat", "litter")
    of_them = scene.has("@plural", "vessel") and number.end <= mass.start
    return of_them and not feeding and low <= mass.value / number.value <= high


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
        if one.bags is None and not _eaten(scene, one)
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
