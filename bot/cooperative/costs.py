"""What a cooperative's texts cost and what its farms brought. Pure. In: counts of texts, the
budget, ended batches. Out: figures for the page Costs and its file.

Results of farms are shown from five farms on, one voice each, as the lower quartile, the middle and
the upper quartile: nobody can be read from them, and nobody is named.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import median, quantiles

from bot.facts.farm import Batch
from bot.handbook.shape_husbandry import Husbandry
from bot.ledger.closing import LEAST_FARMS, Closing, closing_of

ALARMS_PCT = (50, 80, 100)
RESULTS = ("livability_pct", "weight_g", "conversion", "index", "margin_bird", "cost_kg")
QUARTER = 3  # months


@dataclass(frozen=True, slots=True)
class Sent:
    """Texts of one kind that went on one day (UTC), and their parts."""

    day: date
    kind: str
    texts: int
    parts: int


@dataclass(frozen=True, slots=True)
class Count:
    """Texts and parts under one name: a kind or a day."""

    name: str
    texts: int
    parts: int


def by_kind(sent: Iterable[Sent]) -> list[Count]:
    """By kind, the dearest first."""
    found = _added((one.kind, one) for one in sent)
    return sorted(found, key=lambda one: (-one.parts, one.name))


def by_day(sent: Iterable[Sent]) -> list[Count]:
    """By day, the newest first."""
    found = _added((one.day.isoformat(), one) for one in sent)
    return sorted(found, key=lambda one: one.name, reverse=True)


def _added(named: Iterable[tuple[str, Sent]]) -> list[Count]:
    texts: dict[str, int] = defaultdict(int)
    parts: dict[str, int] = defaultdict(int)
    for name, one in named:
        texts[name] += one.texts
        parts[name] += one.parts
    return [Count(name, texts[name], parts[name]) for name in texts]


@dataclass(frozen=True, slots=True)
class Spending:
    """The month's parts against its budget. budget: None where as many go as are needed."""

    used: int
    budget: int | None

    @property
    def pct(self) -> int | None:
        """How much of the budget is used [%]."""
        return None if not self.budget else 100 * self.used // self.budget

    @property
    def passed(self) -> int | None:
        """The highest mark that was passed [%]; at 100 only answers and danger go."""
        pct = self.pct
        marks = [mark for mark in ALARMS_PCT if pct is not None and pct >= mark]
        return max(marks, default=None)


@dataclass(frozen=True, slots=True)
class Spread:
    """How one figure came out over several farms. many: how many tell it."""

    name: str
    many: int
    low: float
    middle: float
    high: float


@dataclass(frozen=True, slots=True)
class Season:
    """The batches that were placed in a quarter of a year. farms: how many farms; spreads: of the
    figures that five farms or more tell."""

    year: int
    quarter: int
    farms: int
    spreads: tuple[Spread, ...]


def seasons(batches: Iterable[Batch], h: Husbandry) -> list[Season]:
    """The ended batches by the quarter of their placement, the newest first; of each farm the last
    batch of a quarter."""
    found: dict[tuple[int, int], dict[object, Batch]] = defaultdict(dict)
    for one in batches:
        if one.placed_on is not None:
            quarter = one.placed_on.year, (one.placed_on.month - 1) // QUARTER + 1
            owner = one.owner_id or ("phone", one.phone_id)
            last = found[quarter].get(owner)
            if last is None or last.id < one.id:
                found[quarter][owner] = one
    return [
        Season(year, quarter, len(each), _spreads([closing_of(one, h) for one in each.values()]))
        for (year, quarter), each in sorted(found.items(), reverse=True)
    ]


def _spreads(closings: Sequence[Closing]) -> tuple[Spread, ...]:
    found = []
    for name in RESULTS:
        values = [value for one in closings if (value := getattr(one, name)) is not None]
        if len(values) >= LEAST_FARMS:
            low, middle, high = quantiles(map(float, values), n=4, method="inclusive")
            found.append(Spread(name, len(values), low, middle, high))
    return tuple(found)


def a_batch(parts: Sequence[int]) -> float | None:
    """The parts of our texts to a batch from its first to its last day: the middle; None where none
    has ended."""
    return float(median(parts)) if parts else None
