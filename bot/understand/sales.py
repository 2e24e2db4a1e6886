"""Birds sold: how many, for how much a bird, a kilo or in all. In: a `Scene`. Out: `Fact`s. Pure.

Called by `facts`. What was spent stands here too, since both tell money.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from bot.facts.talk import Intent, Slots
from bot.understand.numbers import Number
from bot.understand.quantities import LEAST_SUM, Quantity, says_is
from bot.understand.scene import LEAST_PRICE, Fact, Scene, for_each
from bot.understand.seized import seized
from bot.understand.spent import LEAST_MONEY, of_the_purchase, spent_on

ALL_FROM = 100_000.0  # no bird costs so much in any currency of the region: the price of all
DEAR_G = 100_000.0  # more than one sale of a smallholder weighs: "300 kilo" is a price
MILLION, MOST_MILLIONS = 1_000_000, 100  # "m", and how many of them a sale may bring
GIVEN = ("given", "eaten", "stolen")  # ways in which birds leave without money
FEEDING = ("feed", "fed", "eat")
FURTHEST_PRICE = 3  # words between a figure and the price that it is
BESIDE = 2  # words between a mass and what it is of: "4 kg of charcoal", "mkaa kilo 4"


def _of_other_beasts(scene: Scene, sold_at: int) -> bool:
    """ "i sold a goat": another beast is named with the sale, and no bird."""
    return any(
        clause.has("other_beast") and not clause.has("bird")
        for clause in scene.text.clauses
        if clause.start <= sold_at < clause.end
    )


def _of_an_earlier_batch(scene: Scene, sold_at: int) -> bool:
    """ "the batch that i sold in january coughed": no sale of now, and no figure to take down."""
    figures = scene.plain_numbers or scene.quantities
    return not figures and any(
        clause.has("@earlier")
        for clause in scene.text.clauses
        if clause.start <= sold_at < clause.end
    )


def trade(scene: Scene, weighed: Collection[int]) -> Iterator[Fact]:
    """Sales and what was spent. weighed: where masses stand that are weights of birds."""
    if scene.sold_at is not None and _of_other_beasts(scene, scene.sold_at):
        return
    if scene.sold_at is not None and _of_an_earlier_batch(scene, scene.sold_at):
        return
    taken = seized(scene)
    if taken is not None and scene.sold_at in taken.match.used:
        return  # "2 emportes par un epervier"
    if scene.sold_at is not None and not scene.has("plan"):
        numbers = [
            one
            for one in scene.plain_numbers
            if not _a_buyer(scene, one)
            and not (one.weak and scene.text.at("each", one.start))
            and not of_the_dead(scene, one)
            and not of_the_weighed(scene, one.start)
            and not scene.is_put_right(one)
            and not of_the_purchase(scene, one.start)
            and not _given_away(scene, one)
        ]
        money = [one for one in _money(scene) if not of_the_purchase(scene, one.start)]
        crated = _crated(scene, numbers)
        numbers = [one for one in numbers if one not in crated]
        price, rest = _price(scene, numbers, money)
        whole = [one for one in rest if one.value == int(one.value)]
        if scene.has("dead", "lost", "culled"):  # "10 died, the hotel took 20"
            sold_at = scene.sold_at
            whole = [one for one in whole if one.end >= sold_at] or whole
        beside = [one for one in whole if beside_birds(scene, one)]
        count = next((round(one.value) for one in beside or whole), None)
        if crated and price is None and len(rest) == 1:
            price = rest[0].value  # "700/= a bird"
        if crated:
            count = round(crated[0].value * crated[1].value)
        per = _price_per(scene, price) if price is not None else None
        if per == "bird" and count is None and not scene.has("each") and _kilograms(scene, weighed):
            per = "kg"  # "110 kg a 9000": only their mass is told
        if price is not None and (_paid_once(scene, numbers) or _of_so_many(scene, whole, price)):
            per = "all"
        if (
            _sold_the_rest(scene)
            and len(numbers) + len(money) <= 1
            and not (whole and _all_so_many(scene, whole[0]))
        ):
            if count is not None:  # "sold all for 90000": the figure is the money
                small = count < LEAST_PRICE * (scene.hearing.count or 0)  # for all of them
                price, per = float(count), "bird" if scene.has("each") or small else "all"
            count = scene.hearing.count
        elif price is None and len(whole) == 1 and _total_before(scene, whole[0]):
            price, per = whole[0].value, "all"  # "all gone, total 168000"
            every = scene.has("@whole", "whole_all") or scene.text.at("~all", 0)
            count = scene.hearing.count if every else None
        mass = _kilograms(scene, weighed)
        if mass and _paid_for_mass(scene, numbers, price, count):
            price, count = numbers[0].value, None  # "sold 80 kg at 350", "80 kg for 28000"
            per = "all" if price >= LEAST_PRICE * mass else "kg"
        slots = Slots(
            count=count,
            price=price,
            price_per=per,
            date_iso_offset=scene.day(past=True),
            kg=mass if price is None or per == "kg" else None,
        )
        yield Fact(Intent.SOLD, slots, scene.sold_at)
    elif _paid_for_chicks(scene):
        return
    elif "expense" in scene.intents and (scene.of_kind("money") or scene.plain_numbers):
        amounts = [one.value for one in scene.of_kind("money")]
        amounts += [one.value for one in scene.plain_numbers]
        match = scene.intents["expense"][0]
        if max(amounts) < LEAST_MONEY and not scene.has("expense", "@unit:money"):
            return  # "9 ya chakula" is no money
        yield Fact(Intent.EXPENSE, Slots(price=max(amounts), spent_on=spent_on(scene)), match.start)


def guessed_sale(scene: Scene) -> Slots | None:
    """ "customer carry 90 pay 585000 for everything", "40 out at k85 per chicken": of a sale
    in words that nobody knew, the birds and what one, a kilo or all of them cost."""
    money = _money(scene)
    plain = [one for one in scene.plain_numbers if one.value == int(one.value)]
    plain = [one for one in plain if not (one.weak and not scene.text.at("bird", one.end))]
    if len(plain) + len(money) != 2 or len(money) > 1:
        return None
    count, price = sorted(plain, key=lambda one: one.value)[0], max(one.value for one in plain)
    if money:
        price = money[0].value
    if price == count.value or count.value > (scene.hearing.count or count.value):
        return None
    per = _price_per(scene, price)
    prices: list[Number | Quantity] = [*plain, *money]
    first = any(one.value == price and one.start < count.start for one in prices)
    if per == "bird" and first and price >= LEAST_SUM * count.value and not scene.has("each"):
        per = "all"  # "paid me 38500 for the 55"
    return Slots(count=round(count.value), price=price, price_per=per)


def _paid_for_chicks(scene: Scene) -> bool:
    """ "paid the order of 700, they come thursday": a batch that is on its way."""
    ahead = scene.day(past=False)
    coming = ahead is not None and ahead > 0
    chicks = scene.has("order") or (scene.has("coming") and scene.has("bird"))
    return coming and chicks and not scene.of_kind("money", "grams", "bags")


def per_kg(scene: Scene) -> bool:
    """A price of a kilogram; the unit of the feed that was bought or eaten makes none."""
    text = scene.text
    feed = [one for one in scene.of_kind("grams") if of_feed(scene, one)]
    if _behind_a_kilo(scene, scene.plain_numbers) is not None:
        return True
    if any(_price_of_a_kilo(scene, one) for one in scene.of_kind("grams")):
        return True
    said = any(
        (span.end - span.start > 1 or text.tokens[span.start - 1].text == "/")
        and not any(one.start <= span.start < one.end for one in feed)
        for span in text.spans.get("per_kg", ())
    )
    return said or any(text.at("@unit:kg", one.end) for one in scene.of_kind("money"))


def _sold_the_rest(scene: Scene) -> bool:
    """ "sold all", "sold the rest": every bird that was left."""
    rest = scene.text.spans.get("others_rest", ())
    return "sold_all" in scene.intents or any(scene.text.at("sold", one.start - 1) for one in rest)


def _of_so_many(scene: Scene, whole: list[Number], price: float) -> bool:
    """ "sold all 90 for 54000": the figure behind "all" counts them, and no bird costs so much."""
    each = _of_each(scene) or per_kg(scene)
    told = whole and _all_so_many(scene, whole[0]) and not each
    return bool(told) and price >= LEAST_PRICE * whole[0].value


def _paid_for_mass(
    scene: Scene, numbers: Collection[Number], price: float | None, count: int | None
) -> bool:
    """Whether the one figure beside the mass that was sold is its price, and no count of birds."""
    if len(numbers) != 1:
        return False
    return any(scene.priced(one) if price is None else count is None for one in numbers)


def _all_so_many(scene: Scene, number: Number) -> bool:
    """ "sold all 280 at 350 a kilo": the figure right behind "all" counts them."""
    flock = scene.hearing.count or 0
    return scene.text.at("@whole", number.start - 1) and number.value <= flock


def _price_of_a_kilo(scene: Scene, mass: Quantity) -> bool:
    """ "kila kilo 6500", "bei ya kilo ni 330": the figure behind the kilo is its price."""
    said = (span for span in scene.text.spans.get("per_kg", ()) if span.end - span.start > 1)
    text = scene.text
    if mass.value > 1000 and text.at("per_kg", mass.end):
        return True  # "by kilo 250 a kg"
    if mass.value >= DEAR_G and says_is(text, mass.start + 1):
        return True  # "kuku 30 kilo ni 6500"
    offered = mass.start > 0 and text.tokens[mass.start - 1].text in ("kwa", "at", "@")
    if offered and text.tokens[mass.start].value is not None and mass.value >= DEAR_G:
        return True  # "80 kwa 300 kilo"
    return mass.value > 1000 and any(span.start <= mass.start < span.end for span in said)


def of_feed(scene: Scene, mass: Quantity) -> bool:
    """A mass with feed, or eating, right beside it or alone in its clause with it."""
    clause = scene.text.clause_at(mass.start)
    near = [at for at in beside(mass) if clause.start <= at < clause.end]
    near = [at for at in near if not scene.text.at("taken", at)]  # "the hotel took 40, 92 kg"
    close = any(scene.text.at(name, at) for at in near for name in FEEDING)
    fed = clause.has("feed", "eat") or any(
        not scene.text.at("taken", one.start) for one in clause.spans.get("fed", ())
    )
    return close or (fed and not clause.has("sold", "buyer", "price"))


def of_the_dead(scene: Scene, number: Number) -> bool:
    """ "one died, sold 10": a figure of a clause that tells of deaths and of no sale."""
    return any(
        clause.has("dead", "lost", "culled") and not clause.has("sold", "buyer", "price")
        for clause in scene.text.clauses
        if clause.start <= number.start < clause.end
        and not (scene.sold_at is not None and clause.start <= scene.sold_at < clause.end)
    )


def of_the_weighed(scene: Scene, at: int) -> bool:
    """ "ten weighed 24.5 kg, he took 90": a clause of the sample alone."""
    return any(
        clause.has("weigh") and not clause.has("sold", "buyer", "price", "taken", "each")
        for clause in scene.text.clauses
        if clause.start <= at < clause.end
    )


def _given_away(scene: Scene, number: Number) -> bool:
    """ "gave 5 to the church, sold 60": those that went without money, in a clause of their own."""
    told = (one for way in GIVEN for one in scene.intents.get(way, ()))
    return any(number.start in one.used for one in told) and any(
        clause.start <= number.start < clause.end and not clause.has("sold", "buyer", "price")
        for clause in scene.text.clauses
    )


def _crated(scene: Scene, numbers: list[Number]) -> list[Number]:
    """ "12 crates, 9 birds each": how many crates, and how many birds in one."""
    text = scene.text
    crates = [one for one in numbers if text.at("box", one.end)]
    held = [
        one
        for one in numbers
        if text.at("bird", one.end) and text.at("each", one.end + 1) and one not in crates
    ]
    return [*crates, *held] if len(crates) == len(held) == 1 else []


def _money(scene: Scene) -> list[Quantity]:
    """Figures with the name of a money; "2.8m for all" is of millions, where birds are sold."""
    millions = [
        replace(one, value=one.value * MILLION)
        for one in scene.of_kind("length")
        if scene.text.tokens[one.end - 1].text == "m" and one.value <= MOST_MILLIONS
    ]
    return [*scene.of_kind("money"), *millions]


def _price(
    scene: Scene, numbers: list[Number], money: list[Quantity]
) -> tuple[float | None, list[Number]]:
    if money:
        return money[0].value, numbers
    of_the_kilo = _behind_a_kilo(scene, numbers)
    if of_the_kilo is not None:
        return of_the_kilo.value, [one for one in numbers if one is not of_the_kilo]
    by_weight = [one for one in numbers if scene.text.at("per_kg", one.end)]
    masses = [one for one in scene.of_kind("grams") if not _price_of_a_kilo(scene, one)]
    sold_by_mass = bool(masses)  # "110 kg a 9000 le kilo"
    if len(by_weight) == 1 and (len(numbers) > 1 or sold_by_mass):  # "210 per kilo for the 90"
        return by_weight[0].value, [one for one in numbers if one is not by_weight[0]]
    if len(numbers) == 1 and sold_by_mass and _for_a_kilo(scene, numbers[0]):
        return numbers[0].value, []
    if _money_first(scene, numbers):
        return numbers[0].value, numbers[1:]
    of_a_kilo = [one for one in scene.of_kind("grams") if _price_of_a_kilo(scene, one)]
    if of_a_kilo:
        return round(of_a_kilo[0].value / 1000, 3), numbers
    for at, number in enumerate(numbers):
        before = number.start - 1
        if before > 0 and scene.text.at("copula", before):
            before -= 1  # "price was 520"
        while before > 0 and number.start - before <= FURTHEST_PRICE and _whose(scene, before):
            before -= 1  # "price per bird 700", "bei ya kuku 700"
        marked = before >= 0 and (
            scene.text.tokens[before].text == "@" or scene.text.at("price", before)
        )
        if marked and (at or len(numbers) == 1 or scene.text.at("price", before)):
            return number.value, [one for one in numbers if one is not number]
    if len(numbers) > 1:
        return numbers[1].value, [numbers[0], *numbers[2:]]
    return None, numbers


def _whose(scene: Scene, at: int) -> bool:
    """A word that says of what a price is, between it and its figure."""
    per = scene.text.is_little(scene.text.tokens[at].text, "per")
    return per or any(scene.text.at(name, at) for name in ("bird", "each"))


def _behind_a_kilo(scene: Scene, numbers: list[Number]) -> Number | None:
    """ "nimeuza kilo kwa 7500", "the kilo at 350, 80 birds": a kilo with no figure of its own, and
    its price."""
    text = scene.text
    figures = {at for one in text.numbers if not one.weak for at in (one.start - 1, one.end)}
    kilos = (
        span
        for span in text.spans.get("@unit:kg", ())
        if span.start not in figures or text.at("@weak", span.end)
    )
    for kilo in kilos:
        behind = [one for one in numbers if kilo.end < one.start and not one.weak]
        if not behind or behind[0].start - kilo.end > 1 or behind[0].value < LEAST_MONEY:
            continue
        names = ("sold", "~at_price", "copula", "price", "@weak")
        if any(text.at(name, kilo.end) for name in names):
            return behind[0]
    return None


def _for_a_kilo(scene: Scene, number: Number) -> bool:
    """ "vendu 110 kg a 9000": what a kilo cost, or all of them."""
    return scene.priced(number) and number.value >= LEAST_PRICE and not beside_birds(scene, number)


def _money_first(scene: Scene, numbers: list[Number]) -> bool:
    """ "received 12000 for 20 birds", "all for 600000 the 200": the money of all, then how many
    they were."""
    if len(numbers) != 2 or numbers[0].value <= numbers[1].value:
        return False
    if for_each(scene, numbers[0]):
        return True  # "13000 a bird for eighty"
    if numbers[0].value >= ALL_FROM:
        return True
    birds = beside_birds(scene, numbers[1]) or _all_so_many(scene, numbers[1])
    return birds and not beside_birds(scene, numbers[0])


def _paid_once(scene: Scene, numbers: list[Number]) -> bool:
    """The money told is of all the birds: "earned 30000 from 50 birds", "22500 kwa kuku 50"."""
    told = _money_first(scene, numbers) or (scene.has("earned") and not scene.has("sold"))
    told = told and not any(for_each(scene, one) for one in numbers[:1])
    kilo = scene.has("per_kg") or _behind_a_kilo(scene, numbers) is not None
    return told and not _of_each(scene) and not kilo


def _of_each(scene: Scene) -> bool:
    """Whether a price is told of each; "22500 kwa kuku 50", "kwa kuku wote" tell that of all."""
    counted = {one.start for one in scene.text.numbers}
    return any(
        span.end not in counted and not scene.text.at("@whole", span.end)
        for span in scene.text.spans.get("each", ())
    )


def beside_birds(scene: Scene, number: Number) -> bool:
    return scene.text.at("bird", number.end) or scene.text.at("bird", number.start - 1)


def _a_buyer(scene: Scene, number: Number) -> bool:
    """ "un client a pris 15", "wateja watatu wamenunua 15": buyers are no birds."""
    counted = number.weak and scene.text.at("buyer", number.end)
    before = number.start - 1
    people = scene.text.at("buyer", before) and not scene.text.at("taken", before)
    return counted or (number.spelt and people)


def _price_per(scene: Scene, price: float) -> str:
    """ "20 for 16000" is the price of all, "20 at 800" of one."""
    if per_kg(scene):
        return "kg"
    if price >= ALL_FROM and not _of_each(scene):
        return "all"
    behind_for = any(
        one.value == price
        and (
            scene.text.at("for_all", one.start - 1) or scene.text.tokens[one.start - 1].text == "4"
        )
        for one in scene.text.numbers
    )
    figures: list[Number | Quantity] = [*scene.text.numbers, *_money(scene)]
    of_all = any(one.value == price and scene.text.at("@whole", one.end) for one in figures)
    total = scene.has("total") or behind_for or of_all
    return "all" if total and not _of_each(scene) else "bird"


def _total_before(scene: Scene, number: Number) -> bool:
    """ "jumla ni 168000": the figure is of all the birds."""
    near = (number.start - 1, number.start - 2)
    return number.value >= LEAST_MONEY and any(scene.text.at("total", at) for at in near)


def _kilograms(scene: Scene, weighed: Collection[int]) -> float | None:
    """The mass that was sold."""
    grams = [
        one
        for one in scene.of_kind("grams")
        if not of_feed(scene, one)
        and one.start not in weighed
        and not of_the_weighed(scene, one.start)
        and not of_the_purchase(scene, one.start)
        and not scene.text.at("per_kg", one.start)
        and not _price_of_a_kilo(scene, one)
    ]
    return round(grams[0].value / 1000, 3) if grams else None


def beside(mass: Quantity) -> range:
    return range(mass.start - BESIDE, mass.end + BESIDE)
