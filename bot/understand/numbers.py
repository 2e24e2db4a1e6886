"""Tokens in, numbers out: digits, number words of every language, and mixes of both. Pure.

Called by `annotate`. "two hundred and fifty", "mia mbili hamsini na tano", "soixante-quinze",
"5 hundred", "3 mille", "saba na nusu", "a dozen".
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from bot.understand.patterns import Span
from bot.understand.tidy import Token

Little = Mapping[str, frozenset[str]]  # words by what they do
LEAST_FOR = 20  # of the figure behind a "4" that is "for"


@dataclass(frozen=True, slots=True)
class Number:
    """A number at tokens start..end. weak: a word such as "one" that may mean no figure."""

    start: int
    end: int
    value: float
    weak: bool = False
    spelt: bool = False


@dataclass(frozen=True, slots=True)
class _Item:
    start: int
    end: int
    value: float
    word: bool
    weak: bool
    first: bool  # the multiplier comes first in this word's language


@dataclass(frozen=True, slots=True)
class NumberSpans:
    """What the annotation knows of numbers: spans by value and the little words."""

    values: Mapping[int, Sequence[Span]]
    first_values: Mapping[int, Sequence[Span]]
    amounts: Mapping[float, Sequence[Span]]
    joiners: frozenset[int]
    halves: Mapping[int, int]
    weak: frozenset[int]


def find_numbers(tokens: Sequence[Token], spans: NumberSpans, little: Little) -> list[Number]:
    """All numbers of a text, in order. little: little words, by what they do."""
    items = _items(tokens, spans, little)
    found: list[Number] = []
    at = 0
    while at < len(tokens):
        number = _number_at(at, items, spans)
        if number is None:
            at += 1
            continue
        number = _without_the_next(number, tokens, spans, little)
        number = (
            _and_half(number, tokens, little)
            or _decimal(number, tokens, items, little)
            or _half_of(number, tokens, spans, little)
            or number
        )
        wrong = instead(tokens, number.start, little)
        if not wrong and not _is_a_word(number, found, items, tokens, little):
            found.append(number)
        at = number.end
    return found


def instead(tokens: Sequence[Token], at: int, little: Little) -> bool:
    """ "3 au lieu de 4": what stands there was wrong."""
    return any(
        " ".join(one.text for one in tokens[max(at - len(words.split()), 0) : at]) == words
        for words in little["instead"]
    )


def _is_a_word(
    number: Number,
    before: Sequence[Number],
    items: Mapping[int, _Item],
    tokens: Sequence[Token],
    little: Little,
) -> bool:
    """ "sorry 4 late reply", "sold all 4 22000", "want 2 start": the figure is the word that sounds
    so."""
    at = number.start
    if not 0 < at < len(tokens) - 1 or number.end != at + 1:
        return False
    last, following = tokens[at - 1].text, tokens[at + 1].text
    if tokens[at].text == "2":
        counted = at + 2 < len(tokens) and tokens[at + 2].text in little["held"]
        done = last in little["two_is_to_behind"] and following in little["to_do"] and not counted
        return done or (last in little["towards"] and following in little["places"])
    if tokens[at].text != "4":
        return False
    if following in little["four_is_for_whom"] or (
        last in little["four_is_for_behind"] and at + 1 not in items
    ):
        return last not in little["figure_follows"]
    return _leads_to_a_figure(at, before, items, tokens, little)


def _leads_to_a_figure(
    at: int,
    before: Sequence[Number],
    items: Mapping[int, _Item],
    tokens: Sequence[Token],
    little: Little,
) -> bool:
    """ "how many trays 4 two hundred", "sold all 4 22000", "40 birds 4 90000": one figure follows,
    and no unit."""
    follower = items.get(at + 1)
    if follower is None:
        return False
    end = follower.end
    while end in items and items[end].word:
        end += 1
    figured = end < len(tokens) and (end in items or tokens[end].text in ("kg", "g", "gram", "l"))
    small = not follower.word and follower.value < LEAST_FOR
    if figured or small:
        return False
    asked = any(one.text in little["how_many"] for one in tokens[:at])
    beside = bool(before) and before[-1].end in (at, at - 1) and follower.value >= 10 * LEAST_FOR
    return asked or tokens[at - 1].text in little["all_of_it"] or beside


def _without_the_next(
    number: Number, tokens: Sequence[Token], spans: NumberSpans, little: Little
) -> Number:
    """ "a bag of 50 and half a bag": the half is of the bag behind it."""
    at = number.end
    of = at + 1 < len(tokens) and tokens[at].text in little["of_half"]
    if not of or tokens[at + 1].text not in little["held"] or number.value == int(number.value):
        return number
    joiners = [one for one in range(number.start + 1, at) if one in spans.joiners]
    if not joiners or spans.halves.get(joiners[-1] + 1) != at:
        return number
    return replace(number, end=joiners[-1], value=number.value - 0.5)


def _and_half(number: Number, tokens: Sequence[Token], little: Little) -> Number | None:
    """ "sita unusu": six and a half, the joiner grown on."""
    grown = number.end < len(tokens) and tokens[number.end].text in little["and_half"]
    return Number(number.start, number.end + 1, number.value + 0.5) if grown else None


def _decimal(
    number: Number, tokens: Sequence[Token], items: Mapping[int, _Item], little: Little
) -> Number | None:
    """ "one point seven", "deux virgule cinq"."""
    at = number.end
    tail = items.get(at + 1) if at < len(tokens) and tokens[at].text in little["point"] else None
    if tail is None or number.value != int(number.value) or not 0 < tail.value < 100:
        return None
    part = tail.value / (10 if tail.value < 10 else 100)
    return Number(number.start, tail.end, number.value + part, spelt=True)


def _half_of(
    number: Number, tokens: Sequence[Token], spans: NumberSpans, little: Little
) -> Number | None:
    """ "half a dozen"."""
    if number.value != 0.5 or number.end >= len(tokens):
        return None
    skip = tokens[number.end].text in little["half_of"]
    whole = _amount_at(number.end + skip, None, spans)
    if whole is None or whole.value < 10:
        return None
    return Number(number.start, whole.end, whole.value / 2, spelt=True)


def _items(tokens: Sequence[Token], spans: NumberSpans, little: Little) -> dict[int, _Item]:
    items: dict[int, _Item] = {}
    for first, table in ((False, spans.values), (True, spans.first_values)):
        for value, places in table.items():
            for span in places:
                other = items.get(span.start)
                if other is None or other.end < span.end:
                    weak = span.start in spans.weak and span.end == span.start + 1
                    items[span.start] = _Item(span.start, span.end, value, True, weak, first)
    for at, token in enumerate(tokens):
        if token.value is not None:
            items[at] = _Item(at, at + 1, token.value, False, False, False)
    for at in _thousands_apart(tokens, little):
        whole = float(tokens[at].text + tokens[at + 1].text)
        items[at] = _Item(at, at + 2, whole, False, False, False)
    return items


def _thousands_apart(tokens: Sequence[Token], little: Little) -> Iterator[int]:
    """ "15 000", "at 2 750": where a space sets the thousands apart."""
    for at, (first, second) in enumerate(itertools.pairwise(tokens)):
        if not (first.text.isdigit() and second.text.isdigit() and len(second.text) == 3):
            continue
        priced = at > 0 and (
            tokens[at - 1].text in little["priced_at"] or tokens[at - 1].text == "@"
        )
        if len(first.text) <= 3 and (second.text == "000" or (priced and len(first.text) <= 2)):
            yield at


def _number_at(at: int, items: Mapping[int, _Item], spans: NumberSpans) -> Number | None:
    item = items.get(at)
    if item is None:
        part = _amount_at(at, None, spans)
        return _counted(part, items) if part else _half_at(at, spans)
    number = (
        _multiplier_first(item, items, spans)
        if item.first
        else _multiplier_last(item, items, spans)
    )
    unit = item.value if item.first and item.value >= 1000 else 1.0
    return _with_half(_amount_at(number.end, number, spans) or number, spans, unit)


def _amount_at(at: int, before: Number | None, spans: NumberSpans) -> Number | None:
    for amount, places in spans.amounts.items():
        for span in places:
            if span.start == at:
                if before is None:
                    return Number(at, span.end, amount, spelt=True)
                return Number(before.start, span.end, before.value * amount, spelt=True)
    return None


def _counted(part: Number, items: Mapping[int, _Item]) -> Number:
    """ "robo tatu": three quarters; "dazeni mbili": two dozen."""
    follower = items.get(part.end)
    if follower is None or not follower.first:
        return part
    quarters = part.value == 0.25 and follower.value == 3
    if quarters or (part.value > 1 and follower.value < part.value):
        return Number(part.start, follower.end, part.value * follower.value, spelt=True)
    return part


def _half_at(at: int, spans: NumberSpans) -> Number | None:
    if at in spans.halves:
        return Number(at, spans.halves[at], 0.5, weak=True, spelt=True)
    return None


def _with_half(number: Number, spans: NumberSpans, unit: float = 1.0) -> Number:
    """unit: what the half is of; "laki mbili na nusu" is 250,000."""
    end = number.end
    if end in spans.halves and number.weak:
        return Number(number.start, spans.halves[end], 0.5, weak=True, spelt=True)
    part = _amount_at(end + 1, None, spans) if end in spans.joiners else None
    if part is not None and part.value < 1 and number.value < 1000:
        return Number(number.start, part.end, number.value + part.value)  # "mbili na robo"
    for skip in (1, 2):
        if end in spans.joiners and end + skip in spans.halves:
            return Number(number.start, spans.halves[end + skip], number.value + unit / 2)
    return number


def _next(item: _Item, items: Mapping[int, _Item], spans: NumberSpans) -> tuple[_Item | None, bool]:
    """The number item that follows, and whether a joiner stands between."""
    follower = items.get(item.end)
    if follower is not None:
        return follower, False
    if item.end in spans.joiners:
        return items.get(item.end + 1), True
    return None, False


def _multiplier_last(item: _Item, items: Mapping[int, _Item], spans: NumberSpans) -> Number:
    """English and French order: two hundred and fifty, trois mille deux cents."""
    total, current, last = 0.0, 0.0, item
    scale = 10_000_000_000.0  # of the last multiplier
    here: _Item | None = item
    joined = False
    while here is not None and not here.first:
        if here.value in (100, 1000, 1_000_000) and here.word:
            if here.value == 100:
                if current >= 100 or joined:
                    break
                current = max(current, 1) * 100
            else:
                if total and here.value >= scale:
                    break
                scale = here.value
                total += max(current, 1) * here.value
                current = 0
        elif here is item:
            current = here.value
            if not here.word and current != int(current):
                million = items.get(here.end)
                if million is None or million.value != 1_000_000 or million.first:
                    last = here
                    break
        elif total and _thousands_of(here, items):
            current = here.value  # "1 million 300 mille"
        elif last is item and _spoken(item, here, items):
            current = current * 100 + here.value
        elif here.word and (item.word or last is not item) and _fits(current, here.value, total):
            current += here.value
        else:
            break
        last = here
        here, joined = _next(here, items, spans)
        if here is not None and not here.word and not (total and _thousands_of(here, items)):
            break
    return Number(item.start, last.end, total + current, item.weak and last is item, item.word)


def _thousands_of(item: _Item, items: Mapping[int, _Item]) -> bool:
    """Figures before the word for a thousand."""
    behind = items.get(item.end)
    return not item.word and behind is not None and behind.word and behind.value == 1000


def _spoken(item: _Item, here: _Item, items: Mapping[int, _Item]) -> bool:
    """ "one eighty" is 180, "two fifty" 250: the hundred is left out; "two twenty kilo" is none."""
    tens = here.value in range(20, 100, 10) and here.end not in items
    return item.word and item.value in range(1, 10) and item.end == here.start and tens


def _fits(current: float, value: float, total: float) -> bool:
    if value >= 100 or value != int(value):
        return False
    if current == 0 and total:
        return True
    if current % 100 == 0 and current:
        return True
    return current % 10 == 0 and current % 100 >= 20 and 0 < value < 10


def _multiplier_first(item: _Item, items: Mapping[int, _Item], spans: NumberSpans) -> Number:
    """Swahili order: elfu moja mia tano, mia mbili hamsini na tano."""
    total, last, ceiling = 0.0, item, 10_000_000_000.0
    here: _Item | None = item
    while here is not None and here.value < ceiling:
        if here.word and not here.first and here is not item:
            break
        if here.value in (100, 1000, 100_000, 1_000_000):
            follower, joined = _next(here, items, spans)
            ceiling = here.value
            if follower is not None and not joined and _times(here.value, follower):
                total += here.value * follower.value
                last = follower
            else:
                total += here.value
                last = here
        elif not here.word and here is not item:
            break
        elif item.value == 100_000 and here is not item and here.value < 100:
            thousand = items.get(here.end)
            total += here.value * 1000  # "laki mbili na arobaini (elfu)": 240,000
            last = thousand if thousand is not None and thousand.value == 1000 else here
            break
        else:
            total += here.value
            last = here
            ceiling = 10 if here.value >= 10 else 1
        here, _ = _next(last, items, spans)
    return Number(item.start, last.end, total, item.weak and last is item, True)


def _times(multiplier: float, follower: _Item) -> bool:
    if multiplier == 100:
        return 1 <= follower.value <= 9
    return 1 <= follower.value <= 99 and not (follower.word and not follower.first)
