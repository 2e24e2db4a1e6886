"""What the readers of facts share: an annotated text with its figures, days and ages. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from bot.facts.talk import Hearing, Intent, Slots
from bot.understand.annotate import Clause, Text
from bot.understand.dates import Age, Day, find_ages, find_days
from bot.understand.index import Index
from bot.understand.leave import leave
from bot.understand.numbers import Number
from bot.understand.patterns import Match, Span
from bot.understand.quantities import LEAST_SUM, Quantity, find_quantities

LEAST_PRICE = 50  # of a bird in any currency of the region
YOUNGEST_SOLD = 20  # days
# Beside one of these "20 went at 400 each" tells of no sale.
NOT_SOLD = (
    *("dead", "lost", "culled", "feed", "water", "medicine", "vaccine", "heat", "litter", "box"),
    *("order", "plan", "weigh", "me_buy", "@unit:bag", "@question", "@if"),
)
BEHIND_A_SALE = ("dead", "lost", "culled", "feed", "water", "heat", "litter")
# What may stand beside a count of birds and its price where no sale is named.
_OF_A_PRICE = (
    *("bird", "@whole", "each", "total", "price", "~at_price", "buyer", "@article", "@polite"),
    *("@pronouns", "@day:0", "copula", "@unit:money", "trade"),
)
# Words that may stand between a wrong figure and the right one.
_OF_A_SLIP = (
    *("~put_right", "dead", "lost", "deaths", "bird", "@day:0", "hour_word", "just_now", "copula"),
    *("@answer:no", "@polite", "@pronouns", "@article"),
)
THINGS = ("drinker", "feeder", "heat", "light_word")  # a figure before one counts no birds


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing a farmer told. at: the token where it begins. signals: signs it carries."""

    intent: Intent
    slots: Slots
    at: int
    signals: tuple[str, ...] = ()
    not_signals: tuple[str, ...] = ()


def for_each(scene: Scene, number: Number) -> bool:
    """ "13000 a bird", "450 each": what one bird costs, its word right behind the figure and no
    other figure behind that ("60 each 500")."""
    ends = [one.end for one in scene.text.spans.get("each", ()) if one.start == number.end]
    return bool(ends) and all(one.start != ends[0] for one in scene.text.numbers)


@dataclass
class Scene:
    """A text ready to be read for facts."""

    text: Text
    index: Index
    hearing: Hearing

    @cached_property
    def days(self) -> list[Day]:
        """Every day said."""
        return find_days(self.text, self.index, self.hearing.today)

    @cached_property
    def ages(self) -> list[Age]:
        """Every age said."""
        return find_ages(self.text, self.days)

    @cached_property
    def quantities(self) -> list[Quantity]:
        """Every figure with a unit."""
        named: list[Day | Age] = [*self.days, *self.ages]
        taken = {at for one in named for at in range(one.start, one.end)}
        return find_quantities(self.text, taken)

    @cached_property
    def plain_numbers(self) -> list[Number]:
        """Figures that are neither a day, nor an age, nor carry a unit."""
        named: list[Day | Age | Quantity] = [*self.days, *self.ages, *self.quantities]
        taken = {at for one in named for at in range(one.start, one.end)}
        clock = {at for match in self.clock for at in range(match[0], match[1])}
        clock |= {span.end for span in self.text.spans.get("clock_word", ())}
        minutes = {span.start for span in self.text.spans.get("minutes", ())}
        clock |= {one.start for one in self.text.numbers if one.end in minutes}
        figures = (one for one in self.text.numbers if one.start not in taken | clock)
        told = [one for one in figures if not self._says_to(one)]
        if self.has("part_of"):
            told = [one for one in told if not self._of_the_dead_before(one, told)]
        return self._mended(told)

    def _of_the_dead_before(self, part: Number, told: list[Number]) -> bool:
        """ "15 died, of which 10 at night": some of those counted before; but of "302 came, of
        which 2 dead" the dead are told behind."""
        of_a_day = any(0 <= day.start - part.end <= 1 for day in self.days)  # "of which 2 today"
        if of_a_day or not self.text.at("part_of", part.start - 1):
            return False
        whole = [one for one in told if one.end < part.start and one.value >= part.value]
        return bool(whole) and any(
            self.text.at(name, at)
            for name in ("dead", "lost")
            for at in (whole[-1].start - 1, whole[-1].start - 2, *range(whole[-1].end, part.start))
        )

    def _mended(self, figures: list[Number]) -> list[Number]:
        """ "12 dead sorry i mean 2": the right figure stands in the place of the wrong one."""
        if not self.has("~put_right", "@answer:no"):
            return figures
        kept = figures[:1]
        for one in figures[1:]:
            if self._puts_right(kept[-1], one):
                kept[-1] = replace(kept[-1], value=one.value, weak=one.weak, spelt=one.spelt)
            else:
                kept.append(one)
        return kept

    def _puts_right(self, wrong: Number, right: Number) -> bool:
        gap = range(wrong.end, right.start)
        said = any(span.start in gap for span in self.text.spans.get("~put_right", ()))
        said = said or self._told_anew(wrong, right)
        more = any(self.text.at("~added", at) for at in (right.start - 1, right.end))
        return said and not more and all(self._of_a_slip(at) for at in gap)

    def _told_anew(self, wrong: Number, right: Number) -> bool:
        """ "14 dead no 4 dead": the figure and its word once more behind a "no"."""
        no = self.text.at("@answer:no", right.start - 1)
        return no and all(self.text.at("dead", one.end) for one in (wrong, right))

    def _of_a_slip(self, at: int) -> bool:
        """What may stand between a wrong figure and the right one."""
        token = self.text.tokens[at]
        told = token.kind == "mark" or token.text in self.text.little["is"]
        return told or any(self.text.at(name, at) for name in _OF_A_SLIP)

    def _says_to(self, number: Number) -> bool:
        """ "i want 2 start next month": the figure is the word that sounds so."""
        tokens, at = self.text.tokens, number.start
        if tokens[at].text != "2" or not 0 < at < len(tokens) - 1:
            return False
        return self.text.at("~wanting", at - 1) and self.text.at("~doing", at + 1)

    @cached_property
    def clock(self) -> list[tuple[int, int, str]]:
        """Times of day: 14:30, 10h, 7am, as (start, end, HH:MM)."""
        found = []
        tokens = self.text.tokens
        for at, token in enumerate(tokens):
            if token.value is None or token.value > 24 or token.value != int(token.value):
                continue
            hour, following = int(token.value), [one.text for one in tokens[at + 1 : at + 3]]
            if not following:
                continue
            minutes = tokens[at + 2].value if len(following) > 1 else None
            two = len(following) > 1 and len(following[1]) == 2  # "at 6h 3 died" is 3 dead
            if following[0] in (":", "h") and two and minutes is not None and minutes < 60:
                found.append((at, at + 3, f"{hour:02d}:{int(minutes):02d}"))
            elif following[0] in ("h", "heures", "heure", "am", "pm", "hrs"):
                hour += 12 if following[0] == "pm" and hour < 12 else 0
                found.append((at, at + 2, f"{hour:02d}:00"))
        return found

    @cached_property
    def intents(self) -> dict[str, list[Match]]:
        """Intent patterns that are found, by intent."""
        found: dict[str, list[Match]] = {}
        for clause in self.text.clauses:
            for match in self.index.intents.find(clause.spans):
                found.setdefault(match.name, []).append(match)
        return found

    @cached_property
    def leave(self) -> tuple[str, ...]:
        """What is asked about that the farmer might do."""
        return leave(self.text, self.hearing, self.index.replies)

    @cached_property
    def sold_at(self) -> int | None:
        """The token where a sale is told, by the seller ("sold 20") or by what the buyer did
        ("hotel took 35", "40 went at 220"); None where none is."""
        spans = self.text.spans
        starts = [one.start for one in spans.get("sold", ())]
        if "sold_to_me" in spans:  # "they sold me a bad sack": bought
            bought = spans["sold_to_me"]
            starts = [at for at in starts if not any(one.start <= at < one.end for one in bought)]
            return min(starts, default=None)
        if not self.has("bag_word") or self.has("bird", "buyer"):  # "picked up 6 bags 25kg each"
            starts += [match.start for match in self.intents.get("sold", ())]
        if self.has("buyer") and self.has("bought", "taken") and self.plain_numbers:
            starts += [one.start for one in spans["buyer"] if not self._bought_elsewhere(one)]
        if not starts and self._let_go_at_a_price():
            starts += [one.start for one in spans["let_go"]]
        if not starts and self._money_for_birds():
            starts += [one.start for name in ("earned", "buyer") for one in spans.get(name, ())]
        if not starts and self._birds_at_a_price():
            starts += [min(one.start for one in self.plain_numbers)]
        return min(starts, default=None)

    def _bought_elsewhere(self, buyer: Span) -> bool:
        """ "my neighbour bought 30 birds at 600": where ours are too young to be sold, not ours."""
        young = (self.hearing.age_days or 0) < YOUNGEST_SOLD
        others = self.text.spans.get("@others", ())
        named = any(buyer.start <= one.end and one.start < buyer.end for one in others)
        return young and named and self.text.at("bought", buyer.end - 1)

    def _birds_at_a_price(self) -> bool:
        """ "40 at 650 each", "all 40 for 26000": nothing but so many birds, old enough to sell, and
        what one or all of them cost."""
        hearing, text = self.hearing, self.text
        if hearing.prompt is not None or (hearing.age_days or 0) < YOUNGEST_SOLD:
            return False
        sums = [Number(one.start, one.end, one.value) for one in self.of_kind("money")]
        plain = [one for one in self.plain_numbers if not one.weak]
        if len(plain) + len(sums) != 2 or len(self.quantities) != len(sums) or not plain:
            return False
        count, price = sorted((*plain, *sums), key=lambda one: one.value)
        if count in sums or count.value > (hearing.count or 0) or price.value < LEAST_SUM:
            return False
        if self.priced(count):
            return False  # "400 at 120"
        figures = {at for one in (count, price) for at in range(one.start, one.end)}
        told = price in sums or self.has("each", "total", "price") or self.priced(price)
        return told and all(
            at in figures or any(text.at(name, at) for name in _OF_A_PRICE)
            for at, token in enumerate(text.tokens)
            if token.kind != "mark"
        )

    def _money_for_birds(self) -> bool:
        """ "earned 30000 from 50 birds": money of grown birds, and how many they were; "paid 450 a
        bird for 60"."""
        grown = (self.hearing.age_days or 0) >= YOUNGEST_SOLD
        if not grown or not self.has("earned", "buyer") or self.has(*NOT_SOLD):
            return False
        plain = [one for one in self.plain_numbers if not one.weak]
        priced = [one for one in plain if one.value >= LEAST_PRICE and for_each(self, one)]
        if len(plain) == 2 and priced:
            return not self.has("wants", "only_offered", "@future")
        if not self.has("bird") or not self.has("earned"):
            return False
        figures = [*(one.value for one in plain)]
        figures += [one.value for one in self.of_kind("money")]
        return len(figures) == 2 and max(figures) >= LEAST_PRICE * min(figures) > 0

    def _let_go_at_a_price(self) -> bool:
        """ "j'ai livre 25 poulets, 1800 le kilo", "40 partis pour 120000 le tout": birds old enough
        to sell went, and what one, a kilo or all of them cost is told."""
        if not self.has("let_go"):
            return False
        priced = self.has("each", "per_kg", "total") or bool(self.of_kind("money"))
        priced = priced or any(
            one.value >= LEAST_PRICE and self.priced(one) for one in self.plain_numbers
        )
        figures = [one.start for one in self.plain_numbers if not one.weak]
        figures += [one.start for one in self.of_kind("money", "grams")]
        grown = (self.hearing.age_days or 0) >= YOUNGEST_SOLD
        told = priced and len(figures) > 1 and grown
        return told and not self._of_no_sale(sorted(figures)[1])

    def _of_no_sale(self, second: int) -> bool:
        """Words that tell of no sale. What is told behind its two figures is another matter: "gave
        out 20 for 9000, 2 died"."""
        other = [name for name in NOT_SOLD if name not in BEHIND_A_SALE]
        if self.has(*other):
            return True
        spans = (span for name in BEHIND_A_SALE for span in self.text.spans.get(name, ()))
        return any(span.start < second for span in spans)

    def has(self, *names: str) -> bool:
        """Whether any of the classes stands in the text."""
        return self.text.has(*names)

    def day(self, *, past: bool, default: int | None = None) -> int | None:
        """The day said, as whole days from today."""
        for one in self.days:
            return one.resolved(self.hearing.today, past=past)
        return default

    def right_behind(self, name: str, number: Number) -> bool:
        """Whether a figure stands right behind an entry of a class."""
        return any(span.end == number.start for span in self.text.spans.get(name, ()))

    def near(self, clause: Clause, numbers: Iterable[Number]) -> list[Number]:
        """The numbers that stand in a clause."""
        return [one for one in numbers if clause.start <= one.start < clause.end]

    def is_put_right(self, number: Number) -> bool:
        """ "not 20 but 2 died", "520 not 250", "sio vifo 6 ni 2": the wrong figure of the two."""
        before = number.start - 1
        if self.text.at("deaths", before) and any(
            one.start > before + 1 for one in self.text.numbers
        ):
            before -= 1
        return number.value > 1 and self.text.at("@neg", before)

    def in_truth(self, numbers: Iterable[Number]) -> list[Number]:
        """The figures behind "actually": "I typed 20 dead, in fact it is 2"; and behind "i said 3
        dead it is 2" the second."""
        told = max((span.end for span in self.text.spans.get("in_truth", ())), default=None)
        if told is None:
            return self._said_anew(numbers)
        near = range(told, told + 3)
        return [one for one in numbers if one.start in near and not self.is_put_right(one)]

    def _said_anew(self, numbers: Iterable[Number]) -> list[Number]:
        said = max((span.end for span in self.text.spans.get("i_said", ())), default=None)
        behind = [one for one in numbers if said is not None and one.start >= said]
        same = {one.value for one in behind[1:]}  # "i said 12 dead it is 2. two"
        return behind[1:2] if len(same) == 1 else []

    def priced(self, number: Number) -> bool:
        """ "at 400", "@ 400": a word that leads to a price stands before it."""
        before = number.start - 1
        if before < 0:
            return False
        return self.text.tokens[before].text == "@" or self.text.at("~at_price", before)

    def went_on_to(self, first: int, then: int) -> bool:
        """ "from 33 down to 27": of a figure that begins at a token, where the one begins that it
        came to."""
        tokens, little = self.text.tokens, self.text.little
        led = then > 0 and tokens[then - 1].text in little["up_to"]
        before = (tokens[at].text for at in (first - 1, first - 2) if at >= 0)
        return led and first < then and any(one in little["from_figure"] for one in before)

    def of_flock(self, number: Number) -> bool:
        """ "4 of 1000": the flock, not some of it."""
        spans = self.text.spans.get("@out_of", ())
        return number.value == self.hearing.count or any(one.end == number.start for one in spans)

    def of_kind(self, *kinds: str) -> list[Quantity]:
        """Figures of some kinds."""
        return [one for one in self.quantities if one.kind in kinds]
