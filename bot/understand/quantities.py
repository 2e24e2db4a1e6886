"""Numbers with their units out of an annotated text. Pure; called by `facts`.

Temperatures in C, masses in grams, water in litres, areas in square metres; the unit may stand
before or after the figure ("9 kg", "kilo 9"), bags may carry their size ("3 sacks of 25").
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, replace

from bot.understand.annotate import Text
from bot.understand.numbers import Number

JERRYCAN_L = 20.0
HOTTEST = 113.0  # the highest reading anyone means, in F; above it a lone "c" is a word ("c bon")
LONGEST_M = 60.0  # of a smallholder's house; a larger figure behind "sur" counts birds
MOST_VESSELS = 50
LETTERS_IN_A_ROW = 3
FURTHEST_TIMES = 3  # words between a vessel and how often it was filled
FURTHEST_VESSEL = 5  # words between how often it was filled and what it holds
FURTHEST_HOUSE = 3  # words back from a length to the house it is of
FURTHEST_SIZE = 6  # words between bags and what each holds
BAG_SIZES_KG = (10, 20, 25, 50, 70)
MOST_SIZED = 2  # words that size it, between a figure and its unit
MOST_BAGS, HEAVIEST_BAG_KG = 100, 100
FOOT_M = 0.3048
PACE_M = 0.75
LEAST_TENTHS = 10  # a figure behind a kilo that is no digit of it
LEAST_G = 20  # of a bird
LEAST_SUM = 100  # of money, where nothing else tells that a figure is one
FURTHEST_EACH = 4  # tokens between a vessel and what each of them weighs
_HOLDS = ("drinker", "@unit:bag", "@unit:jerrycan", "@unit:bucket")
_UNITS = (
    "celsius",
    "fahrenheit",
    "percent",
    "kg",
    "gram",
    "tonne",
    "bag",
    "litre",
    "millilitre",
    "jerrycan",
    "bucket",
    "square_metre",
    "square_foot",
    "metre",
    "foot",
    "pace",
    "money",
)
_GRAMS = {"kg": 1000.0, "gram": 1.0, "tonne": 1_000_000.0}
_LITRES = {"litre": 1.0, "millilitre": 0.001}


@dataclass(frozen=True, slots=True)
class Quantity:
    """kind: celsius, percent, grams, bags, litres, area, length, money or time. sides: of an area
    told by its length and width [m]."""

    kind: str
    value: float
    start: int
    end: int
    unit: str = ""
    bags: float | None = None
    sides: tuple[float, float] | None = None


def find_quantities(text: Text, taken: set[int]) -> list[Quantity]:
    """All figures with a unit, in order; `taken` holds tokens that already are days or ages."""
    found: list[Quantity] = []
    numbers = [one for one in text.numbers if one.start not in taken]
    used: set[int] = set()
    first = bool(text.values("@first"))
    for number in numbers:
        unit = _unit_after(text, number)
        counted = first or text.at("bird", number.start - 1) or _mass_then_money(text, number, unit)
        counted = counted or _count_then_money(number, unit, numbers)
        priced = _mass_then_money(text, number, unit) and _is_figure(numbers, unit)
        if priced or (unit is not None and counted and _units_first(text, numbers, unit[1])):
            continue  # "kuku 10 kilo 4.5": the unit belongs to the figure behind it
        if unit is not None:
            found.append(_quantity(number, *unit))
            used |= set(range(number.start, unit[1]))
    for number in numbers:
        some = _one_behind(text, number, numbers) or _half_a_bag(text, number)
        if number.start in used or (number.weak and not some):
            continue  # "le sac sent la cave": it smells
        before = _unit_before(text, number, used)
        if before is not None:
            name, start = before
            found.append(replace(_quantity(number, name, number.end), start=start))
            used |= set(range(start, number.end))
    found.extend(_areas(text, numbers, found))
    found.sort(key=lambda one: one.start)
    return _merged(text, found, numbers)


def _units_first(text: Text, numbers: list[Number], end: int) -> bool:
    """Whether the row of units and figures that goes on ends on a figure: "kilo 2 kilo 1.8"."""
    end += end < len(text.tokens) and says_is(text, end)
    follower = next((one for one in numbers if one.start == end), None)
    if follower is None:
        return False
    if text.at("@unit:gram", end - 1) and follower.value < LEAST_G:
        return False  # "420 455 460 gramu wanne": four birds
    unit = _unit_after(text, follower)
    if unit is None:
        return not _of_a_kilo(text, follower.end)
    return _units_first(text, numbers, unit[1])


def _mass_then_money(text: Text, number: Number, unit: tuple[str, int] | None) -> bool:
    """ "kilo 100 sh 7200": the figure has the unit before it, and the money is of the next."""
    before = text.at("@unit:kg", number.start - 1) or text.at("@unit:bag", number.start - 1)
    return before and unit is not None and unit[0] == "money"


def _is_figure(numbers: list[Number], unit: tuple[str, int] | None) -> bool:
    """Whether a figure stands right behind a unit: "kilo 140 shilingi 6500 kwa kilo"."""
    return unit is not None and any(one.start == unit[1] for one in numbers)


def _count_then_money(number: Number, unit: tuple[str, int] | None, numbers: list[Number]) -> bool:
    """ "sold 12 sh 6800": a sum stands right behind the name of the money, and before it a figure
    too small to be one."""
    if unit is None or unit[0] != "money" or number.value >= LEAST_SUM:
        return False
    return any(one.start == unit[1] and one.value >= LEAST_SUM for one in numbers)


def _of_a_kilo(text: Text, at: int) -> bool:
    """ "310 a kilo", "320 per kg", "1800 le kilo": what stands there makes a price."""
    return any(one.start == at and one.end - at > 1 for one in text.spans.get("per_kg", ()))


def _unit_after(text: Text, number: Number) -> tuple[str, int] | None:
    at = number.end
    if (
        number.value in (0.25, 0.5, 0.75)
        and at < len(text.tokens)
        and text.tokens[at].text in text.little["of_half"]
    ):
        at += 1  # "half a bag"
    at = _past_the_wrong(text, at)
    while text.at("~sized", at) and at < number.end + MOST_SIZED:
        at += 1  # "2 full bags", "3 gros sacs"
    if at >= len(text.tokens):
        return None
    if text.tokens[at].text == "%":
        return "percent", at + 1
    if text.at("@unit:money", number.start - 1):
        return None  # "sh 320 kilo": a price
    if text.tokens[at].text == "l" and (text.at("each", at) or text.at("hour_word", at)):
        return None  # "2500 l'un": a price; "2 l'apres midi"
    if text.at("feed", at) and text.at("@unit:bag", at + 1):
        return "bag", at + 2  # "3 feed bags"
    if text.at("hour_word", at) and text.at("@unit:litre", at + 1):
        return "litre", at + 2  # "8 evening litres"
    best: tuple[str, int] | None = None
    for name in _UNITS:
        for span in text.spans.get(f"@unit:{name}", ()):
            if span.start == at and (best is None or span.end > best[1]):
                best = name, span.end
    if best is not None and text.tokens[at].text == "c" and text.at("~are", at + 1):
        return None  # "not 3, c'est 5"
    if best is not None and best[0] == "celsius":
        letter = text.tokens[at].text == "c" and number.value > HOTTEST
        return None if letter else _degrees(text, best)
    if best is not None and best[0] == "fahrenheit" and not 68 <= number.value <= 113:
        return "money", best[1]
    return best


def says_is(text: Text, at: int) -> bool:
    """Whether a token joins a word with its figure: "joto ni 30", "dead: 2"."""
    return text.is_little(text.tokens[at].text, "is", "=:")


def _of_a_size(text: Text, word: str) -> bool:
    return text.is_little(word, "of_a_size", "*@")


def _times_a_size(text: Text, word: str) -> bool:
    return text.is_little(word, "times_a_size", "*")


def _past_the_wrong(text: Text, at: int) -> int:
    """ "13 au lieu de 31 kg": the unit stands behind the wrong figure."""
    for words in text.little["instead"]:
        end = at + len(words.split())
        said = " ".join(one.text for one in text.tokens[at:end])
        if said == words and end < len(text.tokens):
            return end + 1 if text.tokens[end].value is not None else at
    return at


def _degrees(text: Text, unit: tuple[str, int]) -> tuple[str, int] | None:
    """ "95 degrees F" is Fahrenheit; "c" far outside any reading is a word ("c'est")."""
    end = unit[1]
    if any(span.start == end for span in text.spans.get("@unit:fahrenheit", ())):
        return "fahrenheit", end + 1
    if any(span.start == end for span in text.spans.get("@unit:celsius", ())):
        end += 1
    return "celsius", end


def _unit_before(text: Text, number: Number, used: set[int]) -> tuple[str, int] | None:
    for back in (1, 2):
        at = number.start - back
        if at < 0 or at in used:
            return None
        between = text.tokens[number.start - 1].text
        sized = text.at("~sized", number.start - 1)  # "magunia makubwa 2"
        if back == 2 and not (sized or text.is_little(between, "between_unit", ":=")):
            return None
        for name in _UNITS:
            if name == "metre" and text.has("humidity", "temperature"):
                continue  # "humidity on my meter 58"
            for span in text.spans.get(f"@unit:{name}", ()):
                letter = len(text.tokens[at].text) == 1 and not _in_a_row(text, name)
                if span.end == at + 1 and not letter and span.start not in used:
                    return name, span.start
    return None


def _half_a_bag(text: Text, number: Number) -> bool:
    """ "gunia nusu la kilo 50", "mfuko robo": a part of one, behind the bag."""
    return 0 < number.value < 1 and text.at("@unit:bag", number.start - 1)


def _one_behind(text: Text, number: Number, numbers: list[Number]) -> bool:
    """ "tani moja", "lita moja": where numbers stand behind what they count, one does as well; but
    "kilo moja 6500" tells the price of one."""
    priced = any(one.start == number.end for one in numbers)
    return (
        number.value == 1
        and not priced
        and any(span.start == number.start for span in text.values("@first").get("1", ()))
    )


def _in_a_row(text: Text, unit: str) -> bool:
    """ "g182 g175 g190": a letter is a unit before its figure where it stands there again and again
    (a lone "g" is "j'ai")."""
    return unit == "gram" and len(text.spans[f"@unit:{unit}"]) >= LETTERS_IN_A_ROW


def _quantity(number: Number, unit: str, end: int) -> Quantity:
    value, kind = number.value, unit
    if unit in _GRAMS:
        kind, value = "grams", value * _GRAMS[unit]
    elif unit in _LITRES:
        kind, value = "litres", value * _LITRES[unit]
    elif unit == "jerrycan":
        kind, value = "litres", value * JERRYCAN_L
    elif unit == "fahrenheit":
        kind, value = "celsius", round((value - 32) * 5 / 9, 1)
    elif unit == "square_metre":
        kind = "area"
    elif unit == "square_foot":
        kind, value = "area", value * FOOT_M**2
    elif unit in ("metre", "foot", "pace"):
        kind = "length"
    elif unit == "bag":
        kind = "bags"
    return Quantity(kind, value, number.start, end, unit)


def _areas(text: Text, numbers: list[Number], found: list[Quantity]) -> Iterator[Quantity]:
    """5x6m, 5 by 6, mita 5 kwa 4, 20 m sur 8, 12ft x 10ft."""
    for first, second in itertools.pairwise(numbers):
        if text.at("@unit:bag", first.start - 1) or text.has("box"):
            continue  # "gunia 4 x 50", "boxes 6 x 102 chicks"
        between = [
            token.text
            for at, token in enumerate(text.tokens[first.end : second.start], start=first.end)
            if not _is_length(text, at)
        ]
        if (
            len(between) != 1
            or not text.is_little(between[0], "by", "*")
            or second.start - first.end > 3
        ):
            continue
        if between[0] == "sur" and (second.value > LONGEST_M or text.has("dead", "lost")):
            continue  # "mortalite 5 sur 300"
        if any(one.start == second.start and one.kind in ("litres", "grams") for one in found):
            continue  # "2 x 20 l", "4 by 25kg"
        units = [
            one.unit
            for one in found
            if one.start <= second.start and one.end >= first.start and one.kind == "length"
        ]
        of_a_house = _house_before(text, first.start)
        told = of_a_house and max(first.value, second.value) <= LONGEST_M
        if between[0] not in ("x", "by", "*", "sur") and not units and not told:
            continue
        if _times_a_size(text, between[0]) and not units and text.has("feed", "@unit:bag"):
            if first.value <= MOST_BAGS and second.value <= HEAVIEST_BAG_KG:
                yield _bags_times(first, second)
            continue
        scale = {"foot": FOOT_M, "pace": PACE_M}.get(units[0] if units else "metre", 1.0)
        if "pace" in units:
            scale = 1.0
        area = first.value * second.value * scale * scale
        if 0 < first.value <= 300 and 0 < second.value <= 300 and area <= 20_000:
            sides = (first.value * scale, second.value * scale)
            yield Quantity(
                "area", round(area, 1), first.start, second.end, "square_metre", sides=sides
            )


def _house_before(text: Text, at: int) -> bool:
    """ "house 5 by 6", "banda ni 5 kwa 6", "banda langu lina 6 kwa 4"."""
    for back in range(1, FURTHEST_HOUSE + 1):
        if any(text.at(name, at - back) for name in ("house", "house_size")):
            return True
        if at < back or text.tokens[at - back].text not in text.little["of_a_house"]:
            return False
    return False


def _bags_times(first: Number, second: Number) -> Quantity:
    """ "growers 3x50": bags and what one weighs."""
    total = first.value * second.value * 1000
    return Quantity("grams", total, first.start, second.end, "kg", first.value)


def _is_length(text: Text, at: int) -> bool:
    return any(text.at(f"@unit:{name}", at) for name in ("metre", "foot", "pace"))


def _merged(text: Text, found: list[Quantity], numbers: list[Number]) -> list[Quantity]:
    """Bags and cans with their size; a kilo and grams; what lies inside an area falls away."""
    areas = [one for one in found if one.kind == "area"]
    found = [
        one
        for one in found
        if one.kind == "area"
        or not any(area.start < one.end and one.start < area.end for area in areas)
    ]
    merged: list[Quantity] = []
    skip = -1
    for at, one in enumerate(found):
        if one.start < skip:
            continue
        follower = found[at + 1] if at + 1 < len(found) else None
        joined = _joined(text, one, follower, numbers)
        merged.append(joined or one)
        skip = (joined or one).end
    return merged


def _joined(
    text: Text, one: Quantity, follower: Quantity | None, numbers: list[Number]
) -> Quantity | None:
    times = _times_behind(text, one, numbers)
    if times is not None:
        return times
    half = _half_behind(text, one)
    if half is not None:
        return _joined(text, half, follower, numbers) or half
    if one.kind == "bags":
        if follower is not None and follower.kind == "grams" and _size_told(text, one, follower):
            total = one.value * follower.value
            return Quantity("grams", total, one.start, follower.end, "kg", one.value)
        size = _size_after(text, one, numbers)
        if size is not None:
            total = one.value * size.value * 1000
            return Quantity("grams", total, one.start, size.end, "kg", one.value)
    if one.unit in ("jerrycan", "bucket"):
        count = one.value / JERRYCAN_L if one.unit == "jerrycan" else one.value
        if follower is not None and _each_weighs(text, one, follower):
            return Quantity("grams", count * follower.value, one.start, follower.end, "kg")
        if follower is not None and follower.kind == "litres" and follower.start - one.end <= 2:
            return Quantity("litres", count * follower.value, one.start, follower.end, "litre")
        size = _size_after(text, one, numbers)
        if size is not None:
            return Quantity("litres", count * size.value, one.start, size.end, "litre")
    if one.unit == "celsius":
        return _tenths(text, one, numbers)
    if one.unit == "litre" and follower is not None and _and_millilitres(one, follower):
        return replace(one, value=one.value + follower.value, end=follower.end)
    if one.unit == "kg" and one.value % 1000 == 0:
        spoken = _spoken_tenth(text, one, numbers)
        if spoken is not None:
            return spoken
    vessels = _vessels_of(text, one, numbers)
    if vessels is not None:
        return vessels
    if one.unit == "kg" and follower is not None and _and_grams(text, one, follower):
        return replace(one, value=one.value + follower.value, end=follower.end)
    if one.unit == "kg" and one.value % 1000 == 0 and not text.at("per_kg", one.start):
        bags = _bags_of(text, one, numbers)
        if bags is not None:
            return bags
        for number in numbers:
            beside = number.start == one.end and not _of_a_kilo(text, number.end)
            if beside and 100 <= number.value < 1000:
                return Quantity("grams", one.value + number.value, one.start, number.end, "kg")
    return None


def _size_told(text: Text, bags: Quantity, size: Quantity) -> bool:
    """ "3 bags of 50 kg"; further off where "each" or the bag again stands between: "mifuko 4 ya
    chakula kila moja 70kg", "5 sacs, le sac de 25 kg"."""
    gap = range(bags.end, size.start)
    figures = any(one.start in gap for one in text.numbers if not one.weak)
    again = any(text.at(name, at) for name in ("each", "@unit:bag") for at in gap)
    return not figures and (len(gap) <= 3 or (len(gap) <= FURTHEST_SIZE and again))


def _each_weighs(text: Text, one: Quantity, mass: Quantity) -> bool:
    """ "2 buckets 9kg each", "2 seaux de 8kg", "ndoo mbili, kila moja kilo 10"."""
    gap = range(one.end, mass.start)
    if mass.kind != "grams" or len(gap) > FURTHEST_EACH:
        return False
    if gap and all(text.at("each", at) or text.tokens[at].kind == "mark" for at in gap):
        return True
    if len(gap) > 1:
        return False
    of = mass.start > one.end and _of_a_size(text, text.tokens[one.end].text)
    return of or text.at("each", mass.end)


def _times_behind(text: Text, one: Quantity, numbers: list[Number]) -> Quantity | None:
    """ "ten kilo bag x3", "the 10l fount 3 times", "lita 10 mara 3"."""
    if one.kind not in ("litres", "grams") or one.bags is not None:
        return None
    at = one.end
    while at < len(text.tokens) and any(text.at(name, at) for name in _HOLDS):
        at += 1
    for twice in text.spans.get("twice", ()) if one.kind == "litres" else ():
        between = any(at <= other.start < twice.start for other in numbers)
        if 0 <= twice.start - at < FURTHEST_TIMES and not between:
            return replace(one, value=one.value * 2, end=twice.end)
    for number in numbers:
        gap = number.start - at
        said = gap == 1 and _times_a_size(text, text.tokens[at].text)
        said = said or (1 < gap <= FURTHEST_TIMES and text.at("times_first", number.start - 1))
        behind = 0 <= gap <= FURTHEST_TIMES and text.at("times_word", number.end)
        first = not any(at <= one.start < number.start for one in numbers)
        times = number.value == int(number.value) and 2 <= number.value <= MOST_BAGS
        if first and (said or behind) and times:
            end = number.end + behind
            bags = number.value if one.kind == "grams" else None
            return replace(one, value=one.value * number.value, end=end, bags=bags)
    return None


def _half_behind(text: Text, one: Quantity) -> Quantity | None:
    """ "un sac et demi", "2 cans and a half": the half stands behind the unit."""
    scale = {"jerrycan": JERRYCAN_L, "kg": 1000.0}.get(one.unit, 1.0)
    for span in text.spans.get("@half", ()):
        linked = any(one.end == at.start for at in text.spans.get("@joiner", ()))
        if linked and span.start - one.end in (1, 2):
            return replace(one, value=one.value + 0.5 * scale, end=span.end)
    return None


def _tenths(text: Text, one: Quantity, numbers: list[Number]) -> Quantity | None:
    """29°5: 29.5."""
    for number in numbers:
        digit = (
            number.start == one.end and text.tokens[one.end].text.isdigit() and number.value < 10
        )
        last = (
            number.end == len(text.tokens)
            or text.tokens[number.end].text in text.little["behind_degrees"]
        )
        if digit and last and one.value == int(one.value):
            return replace(one, value=one.value + number.value / 10, end=number.end)
    return None


def _spoken_tenth(text: Text, one: Quantity, numbers: list[Number]) -> Quantity | None:
    """ "un kilo huit par tete", "2 kilos 3": a digit alone behind the kilos, at the end of what is
    said or before what tells whose weight it is."""
    for number in numbers:
        whole = number.value == int(number.value) and 0 < number.value < LEAST_TENTHS
        if number.start != one.end or not whole or len(text.tokens[one.end - 1].text) <= 2:
            continue
        ends = text.ends_at(number.end)
        if ends or any(text.at(name, number.end) for name in ("each", "average")):
            return replace(one, value=one.value + number.value * 100, end=number.end)
    return None


def _and_millilitres(one: Quantity, follower: Quantity) -> bool:
    """ "54 litres 300 ml"."""
    beside = follower.unit == "millilitre" and follower.start == one.end
    return beside and follower.value < 1


def _and_grams(text: Text, one: Quantity, grams: Quantity) -> bool:
    """ "2 kg and 100 grams"."""
    joined = text.at("@joiner", one.end) and grams.start == one.end + 1
    beside = grams.start == one.end or joined
    whole = one.value % 1000 == 0
    return beside and whole and grams.unit == "gram" and grams.value < 1000


def _vessels_of(text: Text, one: Quantity, numbers: list[Number]) -> Quantity | None:
    """ "three 20 litre jerricans", "4 kegs of 25 litres", "3 basins each about 2kg", "3 times 9
    litres"."""
    if one.unit != "litre" and not (one.unit == "kg" and text.has("fed")):
        return None
    each = text.at("each", one.end)
    held = text.at("@unit:jerrycan", one.end) or text.at("@unit:bucket", one.end)
    for number in numbers:
        gap = range(number.end, one.start)
        if number.end > one.start or len(gap) > FURTHEST_VESSEL or number.value > MOST_VESSELS:
            continue
        if not gap and held:
            total = number.value * one.value
            return Quantity(one.kind, total, number.start, one.end + 1, one.unit)
        near = len(gap) <= FURTHEST_TIMES or text.at("times_word", gap.start)
        if near and _says_times(text, gap, each) and not any(text.at("bird", at) for at in gap):
            return replace(one, value=number.value * one.value, start=number.start)
    return None


def _says_times(text: Text, gap: range, each: bool) -> bool:
    """What stands between how many and how much: "kegs of", "basins each about", "times", "vya"."""
    words = [text.tokens[at].text for at in gap]
    vessel = any(text.at(name, at) for at in gap for name in _HOLDS)
    if vessel and text.at("times_word", gap.start):
        return True  # "filled 3 times the can of 20 litres"
    if len(words) == 1:
        times = _times_a_size(text, words[0]) or text.is_little(words[0], "of_class")
        return times or (each and words[0].isalpha())
    sized = len(words) == 2 and _of_a_size(text, words[1])
    return bool(words) and words[0].isalpha() and (sized or text.at("each", gap.start + 1))


def _bags_of(text: Text, one: Quantity, numbers: list[Number]) -> Quantity | None:
    """ "three 50kg bags", "3 x 25kg", "a quarter of a 50 kg bag": how many, before the size."""
    bag = any(span.start == one.end for span in text.spans.get("@unit:bag", ()))
    for number in numbers:
        gap = [token.text for token in text.tokens[number.end : one.start]]
        feed = text.has("feed", "@unit:bag")  # "4 by 25kg of mash"
        times = len(gap) == 1 and (
            _times_a_size(text, gap[0]) or (feed and text.is_little(gap[0], "by"))
        )
        part = 0 < number.value < 1 and all(word in text.little["of_half"] for word in gap)
        if number.end <= one.start and (times or (bag and (part or not gap))):
            total = number.value * one.value
            return Quantity("grams", total, number.start, one.end + bag, "kg", number.value)
    return None


def _size_beside(text: Text, bags: Quantity, number: Number) -> bool:
    """A usual size right behind the bag, at the end of what is said of feed."""
    ends = text.ends_at(number.end)
    size = number.start == bags.end and number.value in BAG_SIZES_KG
    return size and ends and text.has("feed") and not text.has("bought", "price")


def _size_after(text: Text, one: Quantity, numbers: list[Number]) -> Number | None:
    for number in numbers:
        gap = [token.text for token in text.tokens[one.end : number.start]]
        if one.kind == "bags" and _size_beside(text, one, number):
            return number  # "feed 1 bag 25"
        far = not gap or number.start < one.end or len(gap) > 3
        if far or number.value > HEAVIEST_BAG_KG:
            continue
        last = _of_a_size(text, gap[-1]) or text.is_little(gap[-1], "the_or_is")
        if _of_a_size(text, gap[0]) and (len(gap) == 1 or last):
            return number  # "6 bags of 25", "half bag of the 50"
        said_again = len(gap) > 1 and text.at("@unit:bag", number.start - 2)
        if one.kind == "bags" and said_again and gap[-1] in text.little["the_or_is"]:
            return number  # "one and a half bags, bag is 25"
    return None
