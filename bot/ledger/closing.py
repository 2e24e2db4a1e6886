"""How a batch did, by its record: livability, feed conversion, efficiency factor, cost, margin.

In: a batch with its events, the husbandry figures. Out: `Closing`, each figure None where the
record does not say it: nothing is guessed. Pure. Called by the answers and the report.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, fields
from datetime import date
from decimal import Decimal
from statistics import median

from bot.errors import OutsideRange
from bot.facts.farm import Batch
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.forecast import Weighing, forecast_weight, published_prior
from bot.husbandry.limits import LAST_TABLE_AGE
from bot.husbandry.money import production_index
from bot.ledger.ledger import Ledger, ledger_of

LEAST_CONVERSION = 1.0  # less feed a kilogram was not told of, not saved (common practice)
FEW = 10  # birds weighed together where it was not told
LEAST_FARMS = 5  # fewer closings are no middle that stays anonymous (common practice)


@dataclass(frozen=True, slots=True)
class Closing:
    """One batch. age_days: mean age of the birds sold. weight_g: of a bird sold; weighed: whether
    the buyer's scale said so, else it is foretold from the farm's weighings. conversion: feed over
    live weight, the chick's own weight not taken off. index: the efficiency factor. cost_bird,
    cost_kg: all that was spent over what was sold. margin_bird: what was left of a bird sold."""

    placed: int
    sold: int
    dead: int
    livability_pct: float | None
    age_days: float | None
    weight_g: float | None
    weighed: bool
    feed_kg: float | None
    conversion: float | None
    index: float | None
    spent: float | None
    income: float | None
    margin: float | None
    margin_bird: float | None
    cost_bird: float | None
    cost_kg: float | None


def closing_of(batch: Batch, h: Husbandry) -> Closing:
    """The closing of a batch as far as its record goes; also of one that is still being sold."""
    ledger = ledger_of(batch)
    sold = ledger.birds.out["sold"]
    age = _mean_age(batch, ledger)
    grams, weighed = _weight_g(ledger, batch, age, h)
    kg = None if grams is None else sold * grams / 1000
    feed = _feed_kg(ledger)
    conversion = None if kg is None or feed is None or not kg else feed / kg
    if conversion is not None and conversion < LEAST_CONVERSION:
        conversion = None
    money = _Money(ledger)
    return Closing(
        placed=ledger.birds.placed,
        sold=sold,
        dead=ledger.birds.dead,
        livability_pct=ledger.birds.livability_pct,
        age_days=age,
        weight_g=grams,
        weighed=weighed,
        feed_kg=feed,
        conversion=conversion,
        index=_index(ledger.birds.livability_pct, grams, age, conversion, h),
        spent=money.spent,
        income=money.income,
        margin=money.margin,
        margin_bird=_over(money.margin, sold),
        cost_bird=_over(money.spent, sold),
        cost_kg=_over(money.spent, kg),
    )


@dataclass(frozen=True, slots=True)
class Middle:
    """The middle (median) of several closings; None where too few tell it. many: how many."""

    many: int
    livability_pct: float | None
    conversion: float | None
    index: float | None
    age_days: float | None
    weight_g: float | None
    margin_bird: float | None
    cost_kg: float | None


def middle_of(closings: Iterable[Closing], least: int = 1) -> Middle:
    """The middle of each figure over the closings that tell it, at least so many. For the middle
    of other farms `least` is LEAST_FARMS, so that no farm can be read from it."""
    known = tuple(closings)
    names = [one.name for one in fields(Middle) if one.name != "many"]
    found = {name: _middle(known, _getter(name), least) for name in names}
    return Middle(len(known), **found)


def _getter(name: str) -> Callable[[Closing], float | None]:
    return lambda one: getattr(one, name)  # a field of Closing


def _middle(
    closings: Sequence[Closing], get: Callable[[Closing], float | None], least: int
) -> float | None:
    values = [value for one in closings if (value := get(one)) is not None]
    return float(median(values)) if len(values) >= max(1, least) else None


def _mean_age(batch: Batch, ledger: Ledger) -> float | None:
    """Days from placement to the sale, each sale weighed by its birds."""
    sales = [(one.birds, one.on_date) for one in ledger.money.sales if one.birds]
    birds = sum(many for many, _ in sales)
    if not birds or batch.placed_on is None:
        return None
    return sum(many * _age(batch.placed_on, day) for many, day in sales) / birds


def _age(placed: date, day: date) -> int:
    return (day - placed).days


def _weight_g(
    ledger: Ledger, batch: Batch, age: float | None, h: Husbandry
) -> tuple[float | None, bool]:
    """Mean weight of the birds sold, and whether a scale at the sale told it."""
    told = [(one.birds, one.kg) for one in ledger.money.sales if one.birds and one.kg]
    birds = sum(many for many, _ in told)
    if birds and birds == ledger.birds.out["sold"]:
        kg = sum((kg for _, kg in told if kg is not None), Decimal(0))
        return float(kg) * 1000 / birds, True
    if age is None or batch.placed_on is None or not ledger.weighings:
        return None, False
    known = [
        Weighing(_age(batch.placed_on, one.on_date), one.mean_g, one.birds or FEW)
        for one in ledger.weighings
        if 1 <= _age(batch.placed_on, one.on_date) <= LAST_TABLE_AGE
    ]
    if not known:
        return None, False
    try:
        found = forecast_weight(known, min(LAST_TABLE_AGE, round(age)), published_prior(h))
    except OutsideRange:
        return None, False
    return found.value_g, False


def _feed_kg(ledger: Ledger) -> float | None:
    """The feed of the batch: what was bought, else what was told as eaten; None without either."""
    kg = max(ledger.feed.bought_kg, ledger.feed.eaten_kg)
    return float(kg) if kg else None


def _index(
    livability: float | None,
    grams: float | None,
    age: float | None,
    conversion: float | None,
    h: Husbandry,
) -> float | None:
    if livability is None or grams is None or age is None or conversion is None:
        return None
    try:
        return production_index(livability, grams / 1000, age, conversion, h)
    except OutsideRange:
        return None


class _Money:
    """spent: None where no cost was told. income: None where a sale has no price that counts."""

    def __init__(self, ledger: Ledger) -> None:
        money = ledger.money
        self.spent = float(money.out) if money.out else None
        known = bool(money.sales) and not money.unpriced
        self.income = float(money.income) if known else None
        both = self.spent is not None and self.income is not None
        self.margin = float(money.balance) if both else None


def _over(amount: float | None, many: float | None) -> float | None:
    return None if amount is None or not many else amount / many
