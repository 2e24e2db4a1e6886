"""The plan of a batch before it is ordered: floor, things to have, heat, feed, water, litter and
cash, week by week. Pure; ages in days, m2, kg, litres, money in any one currency.

Every figure comes from the files beside this one and is a range where they give one. No price is
invented: without the price of a bag and of a chick there is no cash. Called by the answers, the
calendar and the sheet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil

from bot.handbook.shape_husbandry import Entry, Husbandry
from bot.husbandry.budget import Budget, batch_budget
from bot.husbandry.feed_water import PhaseFeed, feed_bags, feed_by_phase, water_ml
from bot.husbandry.fuel_plan import LAST_HEATED_AGE, FuelRange, bulbs_tonight, fuel_until
from bot.husbandry.growth import DAILY_STRAIN, HOT_STRAIN, weight_g
from bot.husbandry.limits import check, check_count
from bot.husbandry.losses import birds_left
from bot.husbandry.space import (
    capacity_with_equipment,
    drinkers_needed,
    feeders_needed,
    floor_needed,
    litter_bags,
    litter_m3,
    stoves_needed,
)
from bot.husbandry.temperature import spot_temperature_c

USUAL_SALE_AGE = 42  # days (common practice, no source)
WEEK = 7
GROWN_AGE = 28  # from here on the floor stays as it is
BROODED_AGE, COLD_BROODED_AGE = 14, 21  # to which heat is needed: warm nights, cool and cold ones
COOL_C, HOT_C = 21.0, 32.0  # water is told for both


@dataclass(frozen=True, slots=True)
class Needs:
    """What must stand ready, in pieces: for the chicks, then for the grown birds."""

    trays: int
    founts: int
    stoves: int
    tubes: int
    bells: int


@dataclass(frozen=True, slots=True)
class Heat:
    """Heat from the first day on. kind: a fuel of content, "bulb" or "none". fuel: kilograms, from
    warm weeks to cold ones; None where no fuel is burnt. bulbs: of 250 W for the coldest hour of
    the first night (0, 0 where none are). to_age: the age up to which the last heat burns."""

    kind: str
    fuel: FuelRange | None
    bulbs: tuple[int, int]
    dawn_c: float
    to_age: int


@dataclass(frozen=True, slots=True)
class Week:
    """One week. number 0: before they come. Ages are its first and last. target_c: warmest and
    coolest target under the heat (None from age 21). water: litres of its last day at 21 C and at
    32 C. bags: of feed to have bought by its first morning, by phase. cash: least and most money
    paid in it; None where prices are not known."""

    number: int
    first_age: int
    last_age: int
    floor_m2: float
    target_c: tuple[float, float] | None
    water: tuple[float, float]
    bags: Mapping[str, int]
    cash: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole plan. sold: birds that likely live to the sale; kg: what they weigh together."""

    count: int
    sale_age: int
    needs: Needs
    heat: Heat
    litter: int
    phases: tuple[PhaseFeed, ...]
    weeks: tuple[Week, ...]
    sold: float
    kg: float
    budget: Budget | None

    @property
    def feed_kg(self) -> float:
        return sum(one.kg for one in self.phases)

    @property
    def bags(self) -> int:
        return sum(one.bags for one in self.phases)

    def cash(self, first: int, last: int) -> tuple[float, float] | None:
        """Least and most money of the weeks first to last; None where prices are not known."""
        found = [one.cash for one in self.weeks if first <= one.number <= last]
        known = [one for one in found if one is not None]
        if not known or len(known) != len(found):
            return None
        return sum(low for low, _ in known), sum(high for _, high in known)


@dataclass(frozen=True, slots=True)
class Prices:
    """What a bag of feed (50 kg) and a chick cost; None where nobody told."""

    feed_bag: float | None = None
    chick: float | None = None


def birds_of_house(house_m2: float, h: Husbandry) -> int:
    """How many birds a floor holds until the sale, equipment included. Valid for 0.5-5000 m2."""
    return capacity_with_equipment(house_m2, GROWN_AGE, h)


def plan_batch(
    count: int,
    kind: str,
    h: Husbandry,
    *,
    prices: Prices = Prices(),  # frozen
    dawn_c: float | None = None,
    sale_age: int = USUAL_SALE_AGE,
) -> Plan:
    """The plan of so many birds on one kind of heat ("charcoal", "gas", "kerosene", "wood", "bulb"
    or "none"). dawn_c: how cold the nights get; the guess of content where nobody said. Valid for
    1-20,000 birds sold at ages 21-42 and nights of -10 to 35 C (else OutsideRange)."""
    check_count(count)
    check("sale_age", sale_age, 21, USUAL_SALE_AGE, "days old at sale")
    budget = _budget(count, sale_age, prices, h)
    grown = floor_needed(count, GROWN_AGE, h).total_m2
    sold = birds_left(count, 0, sale_age, h)
    return Plan(
        count=count,
        sale_age=sale_age,
        needs=_needs(count, h),
        heat=_heat(count, kind, h.guessed_night.value if dawn_c is None else dawn_c, h),
        litter=litter_bags(litter_m3(max(0.5, grown), h.litter_depth.value), h),
        phases=feed_by_phase(count, 0, sale_age, h),
        weeks=_weeks(count, sale_age, budget, prices, h),
        sold=sold,
        kg=sold * weight_g(sale_age, h, HOT_STRAIN).value_g / 1000,
        budget=budget,
    )


def plan_sources(h: Husbandry) -> Mapping[str, tuple[Entry, ...]]:
    """What each part of a plan rests on: "floor", "needs", "heat", "litter", "feed", "water",
    "target", "cash", "sold"."""
    daily = h.growth[DAILY_STRAIN]
    return {
        "floor": (h.birds_per_m2, h.stove_footprint),
        "needs": (h.feeders["tray"], h.drinkers["fount"], h.feeders["tube"], h.drinkers["bell"]),
        "heat": (h.guessed_night, h.fuels["charcoal"], h.bird_heat, h.wall_loss["curtain"]),
        "litter": (h.litter_depth, h.litter_bag),
        "feed": (daily, h.feed_phases, h.feed_spread),
        "water": (h.water_ratio, h.water_rise, daily),
        "target": (h.spot_start, h.late_spot),
        "cash": (h.feed_cost_share, h.other_cost_share, h.costs_before),
        "sold": (h.growth[HOT_STRAIN],),
    }


def _needs(count: int, h: Husbandry) -> Needs:
    return Needs(
        trays=feeders_needed(count, 0, h),
        founts=drinkers_needed(count, 0, h),
        stoves=stoves_needed(count, h),
        tubes=feeders_needed(count, GROWN_AGE, h),
        bells=drinkers_needed(count, GROWN_AGE, h),
    )


def _heat(count: int, kind: str, dawn_c: float, h: Husbandry) -> Heat:
    """Fuel from a warm round to a cold one: low to age 14, high to the age to which cool nights
    need heat."""
    warm = dawn_c >= (h.nights_low["warm"].low or h.nights_low["warm"].value)
    to_age = BROODED_AGE if warm else COLD_BROODED_AGE
    if kind == "none":
        return Heat(kind, None, (0, 0), dawn_c, to_age)
    if kind == "bulb":
        return Heat(kind, None, bulbs_tonight(count, 0, dawn_c, h), dawn_c, to_age)
    short = fuel_until(count, 0, BROODED_AGE, dawn_c, kind, h)
    whole = fuel_until(count, 0, min(to_age, LAST_HEATED_AGE + 1), dawn_c, kind, h)
    fuel = FuelRange(whole.value_kg, short.low_kg, whole.high_kg)
    return Heat(kind, fuel, (0, 0), dawn_c, to_age)


def _budget(count: int, sale_age: int, prices: Prices, h: Husbandry) -> Budget | None:
    if prices.feed_bag is None:
        return None
    return batch_budget(count, sale_age, h, feed_bag=prices.feed_bag, chick=prices.chick)


def _weeks(
    count: int, sale_age: int, budget: Budget | None, prices: Prices, h: Husbandry
) -> tuple[Week, ...]:
    """Week 0, before they come, then every week to the sale."""
    last = ceil(sale_age / WEEK)
    bags = [_bags(count, number, sale_age, h) for number in range(last + 1)]
    found = [
        Week(
            0,
            -28,
            -1,
            floor_needed(count, 0, h).total_m2,
            None,
            (0.0, 0.0),
            bags[0],
            _cash(0, last, bags, budget, prices, h),
        )
    ]
    for number in range(1, last + 1):
        first = (number - 1) * WEEK
        end = min(sale_age, first + WEEK) - 1
        found.append(
            Week(
                number,
                first,
                end,
                floor_needed(count, first, h).total_m2,
                _targets(first, end, h),
                _water(count, end, h),
                bags[number],
                _cash(number, last, bags, budget, prices, h),
            )
        )
    return tuple(found)


def _bags(count: int, number: int, sale_age: int, h: Husbandry) -> dict[str, int]:
    """Bags bought in a week: those of the next one, so that feed is there before it is eaten."""
    until, before = (min(sale_age, age) for age in ((number + 1) * WEEK, number * WEEK))
    return {
        one.phase: more
        for one in feed_by_phase(count, 0, until, h)
        if (more := one.bags - _bags_until(count, before, one.phase, h)) > 0
    }


def _bags_until(count: int, age: int, phase: str, h: Husbandry) -> int:
    if age == 0:
        return 0
    return sum(
        feed_bags(one.kg, h) for one in feed_by_phase(count, 0, age, h) if one.phase == phase
    )


def _cash(
    number: int,
    last: int,
    bags: list[dict[str, int]],
    budget: Budget | None,
    prices: Prices,
    h: Husbandry,
) -> tuple[float, float] | None:
    """Money of a week: chicks before they come, feed a week ahead, and of heat, litter, vaccines,
    transport and hands a share before they come, the rest in equal parts."""
    if budget is None or prices.feed_bag is None or prices.chick is None:
        return None
    feed = sum(bags[number].values()) * prices.feed_bag
    before = h.costs_before.value
    share = before if number == 0 else (1 - before) / last
    certain = feed + (budget.chicks if number == 0 else 0.0)
    rest = [one - budget.chicks - budget.feed for one in (budget.low, budget.high)]
    return certain + share * rest[0], certain + share * rest[1]


def _targets(first: int, end: int, h: Husbandry) -> tuple[float, float] | None:
    if first > LAST_HEATED_AGE:
        return None
    warmest, coolest = (spot_temperature_c(age, h).value_c for age in (first, end))
    return warmest, coolest


def _water(count: int, age: int, h: Husbandry) -> tuple[float, float]:
    cool, hot = (count * water_ml(age, h, c).value_ml / 1000 for c in (COOL_C, HOT_C))
    return cool, hot
