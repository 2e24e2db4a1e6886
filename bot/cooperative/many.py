"""Saying one thing to many: to whom, how much it is, who must agree. Pure. In: a wish and what is
known. Out: whether it may go. Called by the page "Say to many"."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from bot.facts.farm import Cooperative

PART = "part"  # the name of its price
OLDEST = 120  # days of age


@dataclass(frozen=True, slots=True)
class Wish:
    """To whom. place, language: "" for all. from_day, to_day: of the batch, 1 is the day of
    placement; both None: whoever joined, with a batch or without."""

    place: str = ""
    language: str = ""
    from_day: int | None = None
    to_day: int | None = None

    def placed_between(self, today: date) -> tuple[date, date] | None:
        """The days of placement that are meant, first and last; None where the age is all one."""
        if self.from_day is None and self.to_day is None:
            return None
        youngest = self.from_day or 1
        oldest = self.to_day or OLDEST
        return today - timedelta(days=oldest - 1), today - timedelta(days=youngest - 1)


@dataclass(frozen=True, slots=True)
class Cost:
    """People, parts in all, and what they cost; None where no price of a part is set."""

    people: int
    parts: int
    money: float | None


def cost_of(people: int, parts: int, cooperative: Cooperative) -> Cost:
    """What a text of so many parts to so many people comes to."""
    price = cooperative.prices.get(PART)
    return Cost(people, people * parts, None if price is None else people * parts * price)


def needs_second(people: int, cooperative: Cooperative) -> bool:
    """Whether somebody else must agree before it goes."""
    return people >= cooperative.second_from


def may_agree(made_by: int, staff_id: int) -> bool:
    """Nobody agrees to their own."""
    return made_by != staff_id
