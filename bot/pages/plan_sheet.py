"""The plan of a batch on paper: one self-contained page, or rows for a spreadsheet. Pure.

In: a `Plan`, the steps before arrival, words, sources. Out: HTML, or CSV. Called by the command
line. Every part names what its figures rest on.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from io import StringIO
from math import ceil

from bot.handbook.shape_husbandry import Entry, Husbandry
from bot.husbandry.budget import rough
from bot.husbandry.plan import Plan, Prices, Week, plan_sources
from bot.pages.html import Html, Piece, facts, listed, page, table, tag

Words = Mapping[str, str]
Terms = Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class Step:
    """A step before arrival: its first and last good day, and what is to be done."""

    first: date
    last: date
    text: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a sheet is made of. placed_on: the day they come. language: its code."""

    plan: Plan
    placed_on: date
    prices: Prices
    steps: Sequence[Step]
    language: str
    words: Words
    terms: Terms
    h: Husbandry


def plan_page(sheet: Sheet) -> Html:
    """The sheet as a page that prints on two sides of A4."""
    w, plan = sheet.words, sheet.plan
    title = w["plan_title"].format(n=plan.count, date=sheet.placed_on)
    return page(
        title,
        sheet.language,
        tag("h1", title),
        tag("p", w["plan_about"], cls="quiet"),
        tag("h2", w["plan_weeks"]),
        _weeks(sheet),
        tag("p", w["plan_weeks_note"], cls="quiet"),
        tag("h2", w["plan_needs"]),
        facts(_needs(sheet)),
        tag("h2", w["plan_heat"]),
        facts(_heat(sheet)),
        tag("p", w["fire_care"], cls="care"),
        tag("h2", w["plan_money"]),
        *_money(sheet),
        tag("h2", w["plan_steps"]),
        _steps(sheet),
        tag("h2", w["sources"]),
        listed(f"{w[f'of_{part}']}: {said}" for part, said in _sources(sheet)),
        tag("p", w["plan_care"], cls="quiet"),
    )


def plan_csv(sheet: Sheet) -> str:
    """The sheet as comma-separated rows: part, item, week, low, high, unit, source."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([sheet.words[f"csv_{name}"] for name in _COLUMNS])
    writer.writerows(_rows(sheet))
    return out.getvalue()


_COLUMNS = ("part", "item", "week", "low", "high", "unit", "source")
Row = tuple[str, str, str, float, float, str, str]


def _rows(sheet: Sheet) -> Iterator[Row]:
    w, plan = sheet.words, sheet.plan
    said = dict(_sources(sheet))
    for week in plan.weeks:
        name = str(week.number)
        floor = round(week.floor_m2, 1)
        yield w["of_floor"], w["floor"], name, floor, floor, "m2", said["floor"]
        if week.number:
            low, high = week.water
            yield w["of_water"], w["water"], name, round(low), round(high), "l", said["water"]
        for phase, bags in week.bags.items():
            item = sheet.terms["phase"][phase]
            yield w["of_feed"], item, name, bags, bags, w["bags"], said["feed"]
        if week.cash is not None:
            low, high = (rough(one) for one in week.cash)
            yield w["of_cash"], w["cash"], name, low, high, w["money"], said["cash"]
    for item, pieces in _pieces(sheet):
        yield w["of_needs"], item, "", pieces, pieces, w["pieces"], said["needs"]
    yield w["of_litter"], w["litter"], "", plan.litter, plan.litter, w["sacks"], said["litter"]
    yield from _heat_rows(sheet, said["heat"])
    if plan.budget is not None:
        found = plan.budget
        even = (w["of_cash"], w["even_bird"], "", round(found.bird_low), round(found.bird_high))
        yield *even, w["money"], said["cash"]
        kilo = (w["of_cash"], w["even_kg"], "", round(found.kg_low), round(found.kg_high))
        yield *kilo, w["money"], said["cash"]


def _heat_rows(sheet: Sheet, said: str) -> Iterator[Row]:
    w, heat = sheet.words, sheet.plan.heat
    if heat.fuel is not None:
        low, high = ceil(heat.fuel.low_kg), ceil(heat.fuel.high_kg)
        yield w["of_heat"], sheet.terms["fuel"][heat.kind], "", low, high, "kg", said
    if any(heat.bulbs):
        yield w["of_heat"], w["bulbs"], "", *heat.bulbs, w["pieces"], said


def _weeks(sheet: Sheet) -> Html:
    w = sheet.words
    names = ("week", "from", "floor", "target", "water", "to_buy", "cash")
    return table([w[name] for name in names], [_week(sheet, one) for one in sheet.plan.weeks])


def _week(sheet: Sheet, week: Week) -> list[Piece]:
    w = sheet.words
    starts = sheet.placed_on + timedelta(days=week.first_age)
    bags = ", ".join(f"{sheet.terms['phase'][name]} {n}" for name, n in week.bags.items())
    target = None
    if week.target_c is not None:
        target = span(week.target_c[1], week.target_c[0], "C")
    water = span(round(week.water[0]), round(week.water[1]), "l") if week.number else ""
    money = "" if week.cash is None else span(rough(week.cash[0]), rough(week.cash[1]))
    name = w["before"] if week.number == 0 else str(week.number)
    begins = w["by_arrival"] if week.number == 0 else str(starts)
    return [name, begins, f"{week.floor_m2:.0f} m2", target, water, bags, money]


def span(low: float, high: float, unit: str = "") -> str:
    """A range as it is printed; one figure where both ends are the same."""
    ends = f"{low:,g}" if low == high else f"{low:,g} - {high:,g}"
    return f"{ends} {unit}".strip().replace(",", " ")


def money(amount: float) -> str:
    """Money with its thousands apart."""
    return span(round(amount), round(amount))


def _pieces(sheet: Sheet) -> Iterator[tuple[str, int]]:
    w, needs = sheet.words, sheet.plan.needs
    yield w["trays"], needs.trays
    yield w["founts"], needs.founts
    if sheet.plan.heat.kind not in ("none", "bulb"):
        yield w["stoves"], needs.stoves
    yield w["tubes"], needs.tubes
    yield w["bells"], needs.bells


def _needs(sheet: Sheet) -> Iterator[tuple[str, str]]:
    w, plan = sheet.words, sheet.plan
    yield from ((name, str(pieces)) for name, pieces in _pieces(sheet))
    depth = sheet.h.litter_depth
    ends = span(depth.low or depth.value, depth.high or depth.value, "cm")
    yield w["litter"], f"{plan.litter} {w['sacks']} ({ends})"
    spread = round(sheet.h.feed_spread.value * 100)
    each = ", ".join(f"{sheet.terms['phase'][one.phase]} {one.bags}" for one in plan.phases)
    yield w["feed_to"].format(day=plan.sale_age), f"{each} {w['bags']} (+/- {spread} %)"


def _heat(sheet: Sheet) -> Iterator[tuple[str, str]]:
    w, heat, h = sheet.words, sheet.plan.heat, sheet.h
    yield w["nights"], f"{heat.dawn_c:g} C"
    yield w["heat_until"], str(heat.to_age)
    if heat.fuel is not None:
        name = sheet.terms["fuel"][heat.kind]
        low, high = ceil(heat.fuel.low_kg), ceil(heat.fuel.high_kg)
        yield name, span(low, high, "kg")
        if heat.kind == "charcoal":
            sack = h.charcoal_sack.value
            yield w["sacks_of"].format(kg=f"{sack:g}"), span(ceil(low / sack), ceil(high / sack))
    if any(heat.bulbs):
        yield w["bulbs"], span(*heat.bulbs)
    if heat.kind == "none":
        yield w["no_heat"], w["no_heat_care"]


def _money(sheet: Sheet) -> Iterator[Html]:
    w, plan = sheet.words, sheet.plan
    budget = plan.budget
    if budget is None:
        yield tag("p", w["no_prices"])
        return
    feed = money(budget.feed)
    rows = [(w["feed_bought"], f"{budget.bags} x {money(sheet.prices.feed_bag or 0)} = {feed}")]
    if sheet.prices.chick is not None:
        chicks = f"{plan.count} x {money(sheet.prices.chick)} = {money(budget.chicks)}"
        rows.insert(0, (w["chicks_bought"], chicks))
    rows += [
        (w["all_costs"], span(rough(budget.low), rough(budget.high))),
        (w["likely_sold"], f"{round(plan.sold)}, {round(plan.kg)} kg"),
        (w["even_bird"], span(rough(budget.bird_low), rough(budget.bird_high))),
        (w["even_kg"], span(rough(budget.kg_low), rough(budget.kg_high))),
    ]
    yield facts(rows)


def _steps(sheet: Sheet) -> Html:
    w = sheet.words
    box = tag("span", "", cls="box")
    rows = [(box, str(one.first), str(one.last), one.text) for one in sheet.steps]
    return table(["", w["step_from"], w["step_by"], w["step"]], rows, figures_from=9)


def _sources(sheet: Sheet) -> Iterator[tuple[str, str]]:
    parts: Iterable[tuple[str, tuple[Entry, ...]]] = plan_sources(sheet.h).items()
    return ((part, sheet.h.sources.said(*cited)) for part, cited in parts)
