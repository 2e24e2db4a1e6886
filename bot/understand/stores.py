"""Feed, water and fuel out of a text: fetched, eaten, burnt or still there.

In: a `Scene`. Out: `Fact`s. Pure; called by `facts`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause, Text
from bot.understand.masses import eaten, that_of_today, told_right
from bot.understand.patterns import Span
from bot.understand.quantities import Quantity
from bot.understand.sales import FEEDING, beside
from bot.understand.scene import Fact, Scene
from bot.understand.spent import FUELS, paid

_GOODS, GOODS_REACH = ("litter", "heat"), 3  # of what a bag may be else; words behind the bag
# Beside one of these buckets of water are no water of today.
_NOT_GIVEN = (
    *("bought", "plan", "ask_only", "dead", "rain"),
    *("@question", "@if", "@ifform", "@future"),
)
MOST_A_DAY = 1000.0  # kg or litres that a smallholder's flock may take in a day
_LISTED = ("dead", "feed", "water", "temperature", "humidity")


def stores(scene: Scene, weights: Sequence[Fact]) -> Iterator[Fact]:
    """Feed and water: which of them a mass belongs to, if it is no weight, is told by the words
    about it."""
    sold = scene.sold_at is not None
    fed = {span.start for span in scene.text.spans.get("fed", ())}
    fed -= {span.start for span in scene.text.spans.get("taken", ())}  # "the hotel took 60"
    stocked = scene.has("bought") and not scene.has("buyer")  # "sold 20 and bought 2 bags of 50"
    if sold and not (fed or stocked or scene.has("feed", "water") or scene.of_kind("litres")):
        return
    masses = told_right(scene, scene.of_kind("grams", "bags"))
    litres = told_right(scene, scene.of_kind("litres"))
    litres = [one for one in litres if not _stands_ready(scene, one)]
    burnt = [one for one in (*masses, *litres) if _burnt(scene, one)]
    masses = [one for one in masses if one not in burnt]
    litres = [one for one in litres if one not in burnt]
    if burnt and not scene.has("ask_only"):
        yield _fuel(scene, burnt[0])
    dry = [one for one in litres if _of_dry_feed(scene, one)]
    litres = [one for one in litres if one not in dry]
    if dry and not masses and not scene.has("ask_only"):
        move = "in" if scene.has("bought") else "eaten"
        yield Fact(Intent.FEED, Slots(feed_move=move), dry[0].start)
    masses = [one for one in masses if not _other_goods(scene, one)]
    masses = [one for one in masses if not _spoilt_or_offered(scene, one)]
    masses = [one for one in masses if not _not_even(scene, one)]
    kept = [one for one in masses if _still_there(scene, one)]
    masses = [one for one in masses if one not in kept]
    if kept and not masses and not scene.has("mould", "ask_only", "@question"):
        yield _stock(kept[0])
    if weights or sold:
        bags = {one.start for one in masses if stocked and one.bags is not None}
        masses = [one for one in masses if one.start in bags or eaten(scene, one)]
    if masses and not scene.has("ask_only"):
        total = that_of_today(scene, masses)
        bought = _came_in(scene, total)
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
        one = that_of_today(scene, litres)
        yield Fact(Intent.WATER, Slots(litres=round(one.value, 2)), one.start)
    elif not masses and not burnt:
        yield from list(_bare_store(scene)) or _buckets(scene)
    if len(scene.text.clauses) > 1 and not scene.has("plan", "ask_only", "@question"):
        yield from _bare_clauses(scene)
    if not scene.has("plan", "ask_only", "@question"):
        yield from _bare_list(scene)


def _not_even(scene: Scene, one: Quantity) -> bool:
    """ "hatuna hata kilo moja ya chakula", "not even a kilo of mash is left": none of it."""
    if not scene.text.at("~even", one.start - 1):
        return False
    clause = scene.text.clause_at(one.start)
    denied = (*clause.spans.get("@neg", ()), *clause.spans.get("@negafter", ()))
    return any(span.start < one.start for span in denied)


def _came_in(scene: Scene, one: Quantity) -> bool:
    """Feed that was bought, fetched or brought; not what "the birds took"."""
    text = scene.text
    clause = scene.text.clause_at(one.start)
    told = [part for part in text.clauses if part is clause or _of_the_feed(part, clause)]
    fetched = [span for part in told for span in part.spans.get("fetched", ())]
    fetched += text.spans.get("bought", ())
    if any(not _birds_took(text, span) for span in fetched):
        return True
    came = [part for part in text.clauses if part.sentence == clause.sentence]
    alone = any(
        part.has("arrived") and part.has("feed") and not part.has("fed", "eat", "bird")
        for part in came
    )
    bags = one.kind == "bags" or one.bags is not None
    return alone or (bags and scene.has("arrived"))


def _of_the_feed(part: Clause, measured: Clause) -> bool:
    """ "I found feed, 100 kg": the clause before names it, that of the measure nothing else."""
    here = part.sentence == measured.sentence and part.has("feed")
    return here and not measured.has("feed", "fed", "eat")


def _birds_took(text: Text, span: Span) -> bool:
    """ "les poulets ont pris 12 kg": what birds took they ate."""
    near = (span.start - 1, span.start - 2)
    return text.at("taken", span.start) and any(
        text.at(name, at) for name in ("bird", "batch", "@plural") for at in near
    )


def _buckets(scene: Scene) -> Iterator[Fact]:
    """ "3 buckets of water", "ndoo mbili za maji": water, and how much is asked."""
    figures = [one for one in scene.text.numbers if one.value >= 1]
    if len(figures) != 1 or scene.sold_at is not None or scene.has(*_NOT_GIVEN):
        return  # "3 buckets yesterday, one today": they drink less, and that is what helps
    for clause in scene.text.clauses:
        if not clause.has("water", "drank", "drink") or clause.has("feed", "@neg"):
            continue
        for span in clause.spans.get("@unit:bucket", ()):
            beside = (one.end == span.start or span.end == one.start for one in scene.text.numbers)
            if any(beside):
                yield Fact(Intent.WATER, Slots(), span.start)
                return


def _of_dry_feed(scene: Scene, one: Quantity) -> bool:
    """ "chakula debe moja": a tin of feed, whose weight nobody told."""
    return one.unit != "litre" and any(
        clause.has("feed") and not clause.has("water", "drank", "drink")
        for clause in scene.text.clauses
        if clause.start <= one.start < clause.end
    )


def _spoilt_or_offered(scene: Scene, one: Quantity) -> bool:
    """ "one bag got wet, can i give it?", "the shop lends me a bag": neither fed nor here."""
    clause = scene.text.clause_at(one.start)
    told = clause.has("only_offered") or (clause.has("wet", "mould") and not clause.has("bought"))
    return told and (clause.asked or not clause.has("fed", "eat"))


def _still_there(scene: Scene, one: Quantity) -> bool:
    """ "3 bags left", "3 sacs sont prets": what is there, and not what was eaten."""
    clause = scene.text.clause_at(one.start)
    return clause.has("remaining", "at_hand") and not clause.has("fed", "eat", "bought", "fetched")


def _stands_ready(scene: Scene, one: Quantity) -> bool:
    """ "she carried 3 jerricans, they are ready": water that nobody drank yet."""
    sentence = scene.text.clause_at(one.start).sentence
    said = [part for part in scene.text.clauses if part.sentence == sentence]
    return any(part.has("at_hand") for part in said) and not any(part.has("drink") for part in said)


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
    if scene.has("dead", "temperature", "plan", "price", "predator"):
        return
    number = scene.plain_numbers[0]
    if number.weak or not 0 < number.value <= MOST_A_DAY:
        return  # "the bag of feed is 3400": a price; "stock of feed = 0": none is left
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
        name for one in scene.text.numbers for name in _LISTED if scene.right_behind(name, one)
    ]
    if len(set(named)) < 2:
        return
    for number in scene.plain_numbers:
        if number.weak or number.value > MOST_A_DAY or not _ends_a_piece(scene, number.end):
            continue
        if scene.text.at("dead", number.start - 1):
            continue  # "they fell into the water 3"
        if scene.right_behind("water", number) and not scene.of_kind("litres"):
            yield Fact(Intent.WATER, Slots(litres=number.value), number.start)
        elif scene.right_behind("feed", number) and not scene.of_kind("grams", "bags"):
            yield Fact(Intent.FEED, Slots(kg=number.value, feed_move="eaten"), number.start)


def _ends_a_piece(scene: Scene, at: int) -> bool:
    """Whether the text ends there, or a mark, a joining word or the next word of a list follows."""
    if scene.text.ends_at(at):
        return True
    return any(scene.text.at(name, at) for name in (*_LISTED, "@joins", "@and"))


def only_other_goods(scene: Scene) -> bool:
    """Whether all that is told in bags or by mass is litter or fuel."""
    masses = scene.of_kind("grams", "bags")
    return bool(masses) and all(_other_goods(scene, one) for one in masses)


def _other_goods(scene: Scene, mass: Quantity) -> bool:
    """Bags of litter or charcoal are no feed, whatever is said of pouring or eating beside them;
    nor is food for people."""
    if _for_the_table(scene, mass):
        return True
    behind = range(mass.end, min(mass.end + GOODS_REACH, scene.text.clause_at(mass.start).end))
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
