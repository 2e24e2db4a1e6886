"""The money of a batch: what was spent, by kind, and the sales. Pure; money in any one currency."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from bot.facts.farm import Event
from bot.ledger.numbers import exact

SPENT_ON = ("chicks", "feed", "heat", "litter", "treatment", "transport", "wages", "other")


@dataclass(frozen=True, slots=True)
class Sale:
    """One sale. price: for a bird, a kilogram or all of them (per "bird", "kg", "all"); None where
    it was not told. kg: live weight of all birds sold, None where it was not told."""

    event_id: int
    on_date: date
    birds: int
    price: Decimal | None
    per: str
    kg: Decimal | None

    @property
    def money(self) -> Decimal | None:
        """What it brought, by what was told alone; None where that does not say it."""
        if self.price is None:
            return None
        if self.per == "all":
            return self.price
        if self.per == "kg":
            return None if self.kg is None else self.price * self.kg
        return self.price * self.birds


@dataclass(frozen=True, slots=True)
class Money:
    """spent: by each of SPENT_ON. sales: oldest first."""

    spent: Mapping[str, Decimal]
    sales: tuple[Sale, ...]

    @property
    def out(self) -> Decimal:
        return sum(self.spent.values(), Decimal(0))

    @property
    def income(self) -> Decimal:
        """What the sales brought, as far as they say."""
        return sum((one.money for one in self.sales if one.money is not None), Decimal(0))

    @property
    def unpriced(self) -> int:
        """Birds sold for which no sum of money is known."""
        return sum(one.birds for one in self.sales if one.money is None)

    @property
    def balance(self) -> Decimal:
        return self.income - self.out


def money_of(live: tuple[Event, ...]) -> Money:
    """The money of a batch by its live events."""
    spent = dict.fromkeys(SPENT_ON, Decimal(0))
    for one in live:
        if one.kind == "expense":
            spent[spent_on(one)] += exact(one.values.get("amount"))
    sold = sorted((one for one in live if one.kind == "sold"), key=lambda o: (o.on_date, o.id))
    return Money(spent, tuple(_sale(one) for one in sold))


def spent_on(one: Event) -> str:
    """The kind of an expense; "other" where it was not told."""
    kind = str(one.values.get("on") or "")
    return kind if kind in SPENT_ON else "other"


def _sale(one: Event) -> Sale:
    price, kg = one.values.get("price"), one.values.get("kg")
    return Sale(
        one.id,
        one.on_date,
        int(str(one.values.get("n") or 0)),
        None if price is None else exact(price),
        str(one.values.get("price_per") or "bird"),
        None if kg is None else exact(kg),
    )
