"""Questions whose answer is a number: "drinkers for 300", "charcoal tonight 14C". Pure.

In: a `Scene` and its signs. Out: a `Meaning` with the figure asked for and what it hangs on, or
None. The patterns stand in wanted.yaml of each language. Figures in such a text are no reports;
impossible ones (0 birds, 70 C) are kept, so that the answer can say what is wrong. Called by
`read`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bot.facts.talk import Intent, Meaning, Slots
from bot.understand.batches import heats_said, only_how_big
from bot.understand.numbers import Number
from bot.understand.patterns import Match
from bot.understand.scene import THINGS, Scene
from bot.understand.sign import Signs

TOPICS = {
    "capacity": "space",
    "floor": "space",
    "ring": "space",
    "drinkers": "drinkers",
    "feeders": "feeders",
    "curtain": "ventilation",
    "fuel_until": "heating",
    "fuel_night": "heating",
    "sale_day": "sale_age",
    "reach": "weight",
    "weight": "weight",
    "feed_left": "feed_amount",
    "feed_until": "feed_amount",
    "water": "water",
    "budget": "price",
    "profit": "price",
    "cost": "price",
    "even": "price",
    "crates": "sale_age",
    "sample": "weight",
    "litter": "litter",
    "light": "light",
    "heat_stress": "temperature",
    "temperature": "temperature",
    "ill_meat": "disease",
}
# Signs that such a question only seems to tell of.
_SEEMING = {
    "feed_left": frozenset({"feed_finished"}),
    "heat_stress": frozenset({"litter_wet"}),
    "litter": frozenset({"litter_wet"}),
    "ill_meat": frozenset({"unwell", "lethargic", "sudden_many_deaths", "not_eating"}),
}
_TELLS = ("bought", "fed", "sold", "arrived", "placed", "lost", "culled", "treat", "@me", "@past")
LIGHTEST_G, HEAVIEST_G = 200, 5_000  # of one bird of a sample
_HELD = ("drinkers", "feeders")
_LIKE_A_WORD = 4  # "best 4 market", "2 sell": a short word in figures
_FLOCK = 20  # birds; fewer are a part of one
_MOST_WORDS = 12  # of a question that goes without a question word
_DEGREES = 45  # a bare figure up to here, in a question about tonight, is a temperature
_PLANS = ("capacity", "floor", "budget")  # what who thinks of chicks asks for
_FIRE = ("fuel_night", "fuel_until")
_UP_TO = ("feed_until", "fuel_until", "budget")
_BY_AGE = ("weight", "temperature", "light")


def wanted(scene: Scene, signs: Signs) -> Meaning | None:
    """The figure asked for, with the age, birds, floor and prices that the text names."""
    figure = _figure(scene)
    if figure is None or not _asks(scene, figure):
        return None
    if figure in _FIRE and scene.has("smoke", "dizzy", "headache"):
        return None  # bad air goes before any figure
    seeming = _SEEMING.get(figure, frozenset())
    if (set(signs.present) | set(signs.absent)) - seeming:
        return None
    slots = _slots(scene, figure)
    thinks = (
        figure in _PLANS
        and not only_how_big(scene)
        and (scene.has("plan") or "plan" in scene.intents)
    )
    if not thinks:
        return Meaning(Intent.ASK, slots)
    return Meaning(Intent.PLAN, replace(slots, date_iso_offset=scene.day(past=False)))


def _figure(scene: Scene) -> str | None:
    """The figure with the weightiest pattern, of those whose own figures are in the text."""
    found: dict[str, int] = {}
    for clause in scene.text.clauses:
        for match in scene.index.figures.find(clause.spans):
            if not match.denied and _fits(scene, match):
                found[match.name] = max(found.get(match.name, 0), match.weight)
    order = [name for name in TOPICS if name in found]
    return max(order, key=lambda name: found[name], default=None)


def _fits(scene: Scene, match: Match) -> bool:
    name = match.name
    if name == "capacity":
        return bool(scene.of_kind("area"))
    if name == "reach":
        return any(300 <= abs(one.value) <= 9000 for one in scene.of_kind("grams"))
    if name in _BY_AGE:
        return bool(scene.ages) and not scene.quantities and not scene.plain_numbers
    if name in ("water", "drinkers", "feeders"):
        return not scene.of_kind("litres", "grams")
    if name == "heat_stress":
        return bool(scene.of_kind("celsius")) and any(one.days >= 21 for one in scene.ages)
    if name == "litter":
        return bool(scene.of_kind("area")) or bool(scene.plain_numbers)
    return True


def _asks(scene: Scene, figure: str) -> bool:
    """A question, or a few words that can be nothing else."""
    text = scene.text
    asked = text.has("@question", "@if") or any(clause.asked for clause in text.clauses)
    if (
        asked or figure == "ill_meat"
    ):  # "tunaweza kula kuku mgonjwa": told or asked, the answer is no
        return True
    if text.has("@neg", "@negafter") and figure != "even":  # "the price to lose nothing"
        return False
    if figure in ("fuel_night", "fuel_until") and scene.of_kind("grams", "litres"):
        return False  # "4 kg charcoal": what was burnt
    if figure in ("profit", "cost", "even", "sale_day") and not scene.has("sold", "expense"):
        return len(text.words()) <= _MOST_WORDS
    if figure in _HELD and scene.has("dead") and not _names_a_flock(scene):
        return False  # "one under the feeder, dead already"
    tells = [one for one in _TELLS if one != "@past" or figure != "fuel_night"]  # "cette nuit"
    return len(text.words()) <= _MOST_WORDS and not scene.has(*tells)


def _sample(masses: list[float], numbers: list[Number]) -> Number | None:
    """ "nimepima kumi wana kilo 12": how many birds weigh together what one bird never does."""
    if len(masses) != 1 or masses[0] <= HEAVIEST_G:
        return None
    low, high = LIGHTEST_G, HEAVIEST_G
    fits = [one for one in numbers if one.value > 1 and low <= masses[0] / one.value <= high]
    return fits[0] if len(fits) == 1 else None


def _names_a_flock(scene: Scene) -> bool:
    """ "2 dead, drinkers for 300"."""
    return any(one.value >= _FLOCK for one in scene.plain_numbers)


def _slots(scene: Scene, figure: str) -> Slots:
    areas = scene.of_kind("area")
    sides = areas[0].sides if areas else None
    prices = _prices(scene, figure)
    used = {at for at, _ in prices.values()}
    numbers = [one for one in _numbers(scene) if one.start not in used]
    degrees = _degrees(scene, figure, numbers)
    if degrees is not None:
        numbers = [one for one in numbers if one.start != degrees[0]]
    grams, bags = scene.of_kind("grams"), scene.of_kind("bags")
    percents = scene.of_kind("percent")
    lengths = scene.of_kind("length")
    width = sides[1] if sides else lengths[0].value if lengths else None
    masses = [one.value * _sign(scene, one.start) for one in grams]
    sample = _sample(masses, numbers)
    if sample is not None:
        numbers.remove(sample)
        masses = [masses[0] / sample.value]
    return Slots(
        topic=TOPICS[figure],
        figure=figure,
        age_days=_age_days(scene, figure),
        count=_count(scene, numbers),
        house_m2=round(areas[0].value, 1) if areas else None,
        length_m=sides[0] if sides else None,
        width_m=width,
        value_c=degrees[1] if degrees else None,
        rh_pct=percents[0].value if percents else None,
        avg_g=masses[0] if masses and figure in ("reach", "crates", "sale_day") else None,
        kg=round(masses[0] / 1000, 3) if masses and figure == "feed_left" else None,
        bags=bags[0].value if bags and not masses else None,
        heat="+".join(heats_said(scene)) or None,
        price=prices["sale"][1] if "sale" in prices else None,
        price_per=_price_per(scene) if "sale" in prices else None,
        feed_price=prices["feed"][1] if "feed" in prices else None,
        chick_price=prices["chick"][1] if "chick" in prices else None,
    )


def _age_days(scene: Scene, figure: str) -> int | None:
    """The age asked about; where something is counted up to the end of "day 20", the 20 days."""
    if not scene.ages:
        return None
    age = scene.ages[0]
    days = age.days * int(_sign(scene, age.start))
    told = [one.value for one in scene.text.numbers if age.start <= one.start < age.end]
    return days + 1 if figure in _UP_TO and told == [days + 1] else days


def _sign(scene: Scene, at: int) -> float:
    """-1 where a minus stands right before the figure, and nothing that it could count from."""
    tokens = scene.text.tokens
    minus = at > 0 and tokens[at - 1].text == "-"
    return -1.0 if minus and (at == 1 or tokens[at - 2].value is None) else 1.0


def _numbers(scene: Scene) -> list[Number]:
    """Figures without a unit, money too, in order."""
    money = [Number(one.start, one.end, one.value) for one in scene.of_kind("money")]
    plain = [one for one in scene.plain_numbers if not one.weak]
    return sorted((*money, *plain), key=lambda one: one.start)


def _count(scene: Scene, numbers: list[Number]) -> int | None:
    """The number of birds: the one beside the word, else the first."""
    text = scene.text
    whole = [
        one
        for one in numbers
        if one.value == int(one.value)
        and not text.at("dead", one.end)
        and not text.at("dead", one.start - 1)
        and not any(text.at(name, one.end) for name in THINGS)
    ]
    beside = [one for one in whole if text.at("bird", one.end) or text.at("bird", one.start - 1)]
    told = [one for one in whole if one.value > _LIKE_A_WORD or one.spelt]
    for one in beside or told:
        return round(one.value * _sign(scene, one.start))
    return None


def _degrees(scene: Scene, figure: str, numbers: list[Number]) -> tuple[int, float] | None:
    """The outside temperature told with a question about heat: (token, C)."""
    for one in scene.of_kind("celsius"):
        return one.start, one.value * _sign(scene, one.start)
    if figure in ("fuel_night", "fuel_until", "heat_stress"):
        for number in numbers:
            if number.value <= _DEGREES and not scene.text.at("bird", number.end):
                return number.start, number.value * _sign(scene, number.start)
    return None


def _prices(scene: Scene, figure: str) -> dict[str, tuple[int, float]]:
    """Prices told with a question about money: (token, money) of feed, chick and sale."""
    if figure not in ("budget", "cost", "even", "sale_day", "profit"):
        return {}
    found: dict[str, tuple[int, float]] = {}
    numbers = _numbers(scene)
    for name, words in (("feed", ("feed",)), ("sale", ("sell", "buyer", "price"))):
        for number in _behind(scene, numbers, words):
            found.setdefault(name, (number.start, number.value))
    if figure != "sale_day":
        found.pop("sale", None)
        left = [one for one in numbers if one.start not in {at for at, _ in found.values()}]
        chicks = list(_behind(scene, left, ("bird",)))
        if chicks and len(left) > 1:
            found["chick"] = chicks[-1].start, chicks[-1].value
    return found


def _behind(scene: Scene, numbers: list[Number], names: tuple[str, ...]) -> Iterator[Number]:
    """Figures that stand behind a word of these classes, with at most two others between and no
    other figure."""
    text = scene.text
    for number in numbers:
        for back in (1, 2, 3):
            at = number.start - back
            if at < 0 or text.tokens[at].value is not None:
                break
            if any(text.at(name, at) for name in names):
                yield number
                break
            if text.at("feed", at) or text.at("bird", at) or text.at("sell", at):
                break


def _price_per(scene: Scene) -> str:
    return "kg" if scene.has("per_kg", "@unit:kg") else "bird"
