"""The plan of a batch in a few texts of one part each: room, heat, feed and water, cash.

In: how many, the heat, what things cost, how cold the nights get. Out: lines, one a text. Pure;
called by the answers. The figures are those of `bot.husbandry.plan`.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from math import ceil

from bot.facts.farm import Batch, Case
from bot.facts.talk import Line, Value
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.budget import rough
from bot.husbandry.plan import Plan, Prices, plan_batch

LAST_PRICES = ("chick", "feed_bag")
BURNT = ("charcoal", "gas", "kerosene", "wood")


def plan_lines(
    case: Case,
    count: int,
    heat: tuple[str, ...],
    batch: Batch | None,
    h: Husbandry,
    on: date | None = None,
    last: Mapping[str, str] | None = None,
) -> tuple[Line, ...]:
    """The plan, one line a text; what was told of prices and nights is taken into it. on: the day
    they come, where the batch does not say it. last: the prices of the batch before, as
    `last_prices` names them: an example to send again, since they may have changed."""
    plan = plan_batch(
        count,
        kind_of(heat),
        h,
        prices=_prices(case, batch),
        dawn_c=_dawn(case, batch, on, h),
    )
    return (_room(plan), _heat(plan, h), _feed(plan), cash_line(plan, last))


def kind_of(heat: tuple[str, ...]) -> str:
    """The kind of heat that a plan counts with: the first told, else charcoal."""
    known = (*BURNT, "bulb", "none")
    return next((one for one in heat if one in known), "charcoal")


def last_prices(batch: Batch | None) -> dict[str, str]:
    """What a chick and a bag of feed cost in a batch before, by the names of LAST_PRICES; {} where
    not both were told."""
    told = _told_prices(batch)
    known = all(name in told for name in LAST_PRICES)
    return {name: str(told[name]) for name in LAST_PRICES} if known else {}


def cash_line(plan: Plan, last: Mapping[str, str] | None = None) -> Line:
    """Cash by two weeks and the price that comes out even; without prices, how to tell them. last:
    prices to be named as those of the batch before."""
    budget = plan.budget
    spans = [plan.cash(first, end) for first, end in ((0, 0), (1, 2), (3, 4), (5, 6))]
    if budget is None or None in spans:
        if last:
            was = {"chick": float(last["chick"]), "feed": float(last["feed_bag"])}
            return Line("plan_prices_last", {"n": plan.count, **was})
        return Line("plan_prices", {"n": plan.count})
    told: dict[str, Value] = {}
    for name, span in zip("abcd", spans, strict=True):
        assert span is not None
        told[name] = rough(sum(span) / 2)
    told |= {"low": rough(budget.low), "high": rough(budget.high)}
    told |= {"bird": rough(budget.bird_high), "kilo": rough(budget.kg_high)}
    return Line("plan_cash", told)


def _room(plan: Plan) -> Line:
    needs = plan.needs
    told: dict[str, Value] = {"n": plan.count, "young": _area(plan.weeks[1].floor_m2)}
    told |= {"area": _area(plan.weeks[-1].floor_m2), "trays": needs.trays}
    told |= {"founts": needs.founts, "tubes": needs.tubes, "bells": needs.bells}
    return Line("plan_room", told)


def _heat(plan: Plan, h: Husbandry) -> Line:
    """Fuel in the farmer's measure, with the litter."""
    heat = plan.heat
    told: dict[str, Value] = {"litter": plan.litter, "c": round(heat.dawn_c)}
    told["stoves"] = plan.needs.stoves
    if heat.kind == "bulb":
        low, high = heat.bulbs
        return Line("plan_bulbs", {"litter": plan.litter, "c": told["c"], "low": low, "high": high})
    if heat.fuel is None:
        return Line("plan_no_heat", {"litter": plan.litter})
    told["day"] = heat.to_age
    measure = _measure(heat.kind, h)
    low = max(1, ceil(heat.fuel.low_kg / measure))
    told |= {"low": low, "high": max(2 * low, ceil(heat.fuel.high_kg / measure))}
    if heat.kind in ("charcoal", "kerosene"):
        return Line(f"plan_{heat.kind}", told)
    return Line("plan_fuel", {**told, "fuel": heat.kind})


def _measure(kind: str, h: Husbandry) -> float:
    """Kilograms in the farmer's measure: a sack of charcoal, a litre of kerosene, else one."""
    if kind == "charcoal":
        return h.charcoal_sack.value
    return h.fuel_measure[kind].value if kind in h.fuel_measure else 1.0


def _feed(plan: Plan) -> Line:
    bags = {one.phase: one.bags for one in plan.phases}
    told: dict[str, Value] = {"n": plan.count, "day": plan.sale_age}
    told |= {name: bags.get(name, 0) for name in ("starter", "grower", "finisher")}
    told |= {"young": round(plan.weeks[1].water[0]), "litres": round(plan.weeks[-1].water[0])}
    return Line("plan_feed", {**told, "hot": round(plan.weeks[-1].water[1])})


def _area(area_m2: float) -> float:
    """Floor rounded up to the half square metre, from 10 to the whole one."""
    return float(ceil(area_m2)) if area_m2 > 10 else ceil(area_m2 * 2) / 2


def _prices(case: Case, batch: Batch | None) -> Prices:
    """What the farmer told last, else what the cooperative set."""
    known = {**case.cooperative.prices, **_told_prices(batch)}
    return Prices(known.get("feed_bag"), known.get("chick"))


def _told_prices(batch: Batch | None) -> dict[str, float]:
    return {
        str(one.values.get("of")): float(str(one.values["amount"]))
        for one in (batch.live_events("price") if batch else ())
    }


def _dawn(case: Case, batch: Batch | None, on: date | None, h: Husbandry) -> float | None:
    """How cold the nights get when they come: the cooperative's normals of that month, else what
    the farmer said of the nights; None where nobody knows."""
    coop = case.cooperative
    if coop.normals:
        when = on or (batch.placed_on if batch else None) or case.today
        return coop.normals[when.month - 1][1]
    word = h.nights_low.get((batch.nights if batch else None) or "")
    return word.value if word else None
