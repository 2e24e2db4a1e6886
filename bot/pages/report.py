"""The report of a batch: one self-contained page with its curves, for the farmer, the trainer or a
lender. Pure.

In: a batch with its events, those that ended before, words, figures, whom it is for. Out: HTML.
The farmer's page begins with how they did and what to change, the lender's with the money and
names nobody, nor who came; the trainer's also lists the troubles. Called by the command line.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from textwrap import shorten
from zoneinfo import ZoneInfo

from bot.day.closing import Past
from bot.facts.farm import Batch, Event
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.growth import DAILY_STRAIN, HOT_STRAIN
from bot.ledger.closing import Closing, Middle, closing_of
from bot.ledger.ledger import Ledger, ledger_of
from bot.ledger.lessons import lessons_of
from bot.pages import curves
from bot.pages.chart import Chart, drawn
from bot.pages.html import Html, Piece, facts, listed, page, table, tag, tiles

Words = Mapping[str, str]
Terms = Mapping[str, Mapping[str, str]]
READERS = ("farmer", "trainer", "lender")
NONE = "-"
LONGEST_NOTE = 200  # letters of a visit's note


@dataclass(frozen=True, slots=True)
class Visit:
    """A visit or a call. how: "there" or "called". note: None where this reader does not see it."""

    on_date: date
    how: str
    by: str
    note: str | None


@dataclass(frozen=True, slots=True)
class Report:
    """What a report is made of. today: local. keeper: whose it is, in words; never for a lender.
    visits: oldest first."""

    batch: Batch
    past: Past
    today: date
    zone: ZoneInfo
    reader: str
    keeper: str
    language: str
    words: Words
    terms: Terms
    h: Husbandry
    visits: Sequence[Visit] = ()


def report_page(report: Report) -> Html:
    """The whole page."""
    w, batch = report.words, report.batch
    title = w["report_title"].format(n=batch.count or 0, date=batch.placed_on or NONE)
    body = {
        "farmer": (_summary, _lessons, _curves, _money, _beside, _treatments, _visits),
        "trainer": (_summary, _curves, _troubles, _visits, _lessons, _beside, _treatments, _money),
        "lender": (_summary, _money, _beside, _curves, _treatments),
    }[report.reader]
    parts = [part for section in body for part in section(report)]
    who = "" if report.reader == "lender" else report.keeper
    state = w["ended"] if batch.state == "closed" else w["so_far"].format(date=report.today)
    return page(
        title,
        report.language,
        tag("h1", title),
        tag("p", " ".join(one for one in (who, state, w["as_told"]) if one), cls="quiet"),
        *parts,
        tag("h2", w["sources"]),
        listed(f"{w[f'of_{name}']}: {said}" for name, said in _sources(report)),
        tag("p", w["report_care"], cls="quiet"),
    )


def _summary(report: Report) -> Iterator[Html]:
    w = report.words
    ledger, found = ledger_of(report.batch), closing_of(report.batch, report.h)
    age = report.batch.age(report.today)
    figures: list[tuple[str, Piece]] = [
        (w["placed"], ledger.birds.placed),
        (w["alive"], ledger.birds.alive),
        (w["sold"], ledger.birds.out["sold"]),
        (w["livability"], _number(ledger.birds.livability_pct, 1, "%")),
        (w["weight_now"], _weight(ledger, found)),
        (w["conversion"], _number(found.conversion, 2)),
        (w["index"], _number(found.index, 0)),
        (w["margin"], _number(found.margin, 0)),
    ]
    if report.batch.state != "closed" and age is not None and age >= 0:
        figures.insert(0, (w["day"], age + 1))
    yield tiles((name, value) for name, value in figures if value != NONE)
    if ledger.birds.gap > 0:
        yield tag("p", w["gap"].format(n=ledger.birds.gap), cls="care")
    if report.batch.held:
        yield tag("p", w["held"], cls="care")


def _weight(ledger: Ledger, found: Closing) -> str:
    if found.weight_g is not None:
        return f"{round(found.weight_g)} g"
    return f"{round(ledger.weighings[-1].mean_g)} g" if ledger.weighings else NONE


def _number(value: float | None, places: int, unit: str = "") -> str:
    if value is None:
        return NONE
    return f"{value:,.{places}f}".replace(",", " ") + (f" {unit}" if unit else "")


def _lessons(report: Report) -> Iterator[Html]:
    codes = lessons_of(report.batch, report.h)
    age = report.batch.age(report.today) or 0
    if not codes or (report.batch.state != "closed" and age < 7):
        return
    yield tag("h2", report.words["next_time"])
    yield listed((report.terms["lesson"][code] for code in codes), ordered=True)


def _curves(report: Report) -> Iterator[Html]:
    w, batch, h, today = report.words, report.batch, report.h, report.today
    charts = (
        ("temperature", curves.temperature(batch, report.zone, h, w)),
        ("weight", curves.weight(batch, today, h, w)),
        ("deaths", curves.deaths(batch, today, h, w)),
        ("feed_a_day", curves.feed(batch, h, w)),
        ("water_a_day", curves.water(batch, h, w)),
    )
    yield tag("h2", w["curves"])
    for name, chart in charts:
        if chart is not None:
            yield _figure(w[name], chart)
    missing = [w[name] for name, chart in charts if chart is None]
    if missing:
        yield tag("p", w["not_told"].format(list=", ".join(missing).lower()), cls="quiet")


def _figure(name: str, chart: Chart) -> Html:
    return tag("figure", tag("figcaption", name), drawn(chart), tag("p", chart.words, cls="quiet"))


def _money(report: Report) -> Iterator[Html]:
    w, money = report.words, ledger_of(report.batch).money
    found = closing_of(report.batch, report.h)
    yield tag("h2", w["money_title"])
    if not money.out and not money.sales:
        yield tag("p", w["no_money"])
        return
    spent = [(report.terms["spent"][on], value) for on, value in money.spent.items() if value]
    rows: list[tuple[Piece, Piece]] = [(on, _number(float(value), 0)) for on, value in spent]
    rows += [
        (w["spent_all"], _number(float(money.out), 0)),
        (w["income_all"], _number(float(money.income), 0)),
        (w["margin"], _number(found.margin, 0)),
        (w["cost_bird"], _number(found.cost_bird, 0)),
        (w["cost_kg"], _number(found.cost_kg, 0)),
    ]
    yield facts((name, value) for name, value in rows if value != NONE)
    if money.unpriced:
        yield tag("p", w["unpriced"].format(n=money.unpriced), cls="quiet")
    if money.sales:
        yield tag("h2", w["sales"])
        yield table(
            [w[name] for name in ("sale_day", "birds", "kg", "brought")],
            [
                (
                    str(one.on_date),
                    one.birds,
                    NONE if one.kg is None else _number(float(one.kg), 1),
                    NONE if one.money is None else _number(float(one.money), 0),
                )
                for one in money.sales
            ],
        )


def _beside(report: Report) -> Iterator[Html]:
    """This batch, the farm's earlier ones, the middle of the others."""
    w, found = report.words, closing_of(report.batch, report.h)
    mine, theirs = report.past.mine(report.h), report.past.theirs(report.h)
    if not found.sold or (not mine.many and theirs.livability_pct is None):
        return
    rows = [
        (w[name], *(_number(one, places, unit) for one in _three(name, found, mine, theirs)))
        for name, places, unit in _COMPARED
    ]
    yield tag("h2", w["beside"])
    heads = ("", w["this_one"], w["earlier"].format(n=mine.many), w["others"].format(n=theirs.many))
    yield table(heads, [row for row in rows if set(row[1:]) != {NONE}])
    yield tag("p", w["beside_note"], cls="quiet")


_COMPARED = (
    ("livability", 1, "%"),
    ("age_sold", 0, ""),
    ("weight_sold", 0, "g"),
    ("conversion", 2, ""),
    ("index", 0, ""),
    ("margin_bird", 0, ""),
    ("cost_kg", 0, ""),
)
_FIELD = {"livability": "livability_pct", "age_sold": "age_days", "weight_sold": "weight_g"}


def _three(
    name: str, found: Closing, mine: Middle, theirs: Middle
) -> tuple[float | None, float | None, float | None]:
    field = _FIELD.get(name, name)
    return getattr(found, field), getattr(mine, field), getattr(theirs, field)


def _treatments(report: Report) -> Iterator[Html]:
    """Days of treatments and of waiting; what was given is never named."""
    w, given = report.words, report.batch.live_events("treated")
    if not given:
        return
    yield tag("h2", w["treatments"])
    rows = [(str(one.on_date), _days(one, w)) for one in given]
    yield table([w["treated_on"], w["waiting_days"]], rows)
    ledger = ledger_of(report.batch)
    if ledger.may_sell_from is not None and not ledger.wait_unknown:
        yield tag("p", w["sold_from"].format(date=ledger.may_sell_from))


def _days(one: Event, w: Words) -> str:
    days = one.values.get("days")
    return w["unknown"] if days is None else str(days)


def _visits(report: Report) -> Iterator[Html]:
    """Who came or called, and what they saw."""
    if not report.visits:
        return
    w = report.words
    yield tag("h2", w["visits"])
    rows = [
        (str(one.on_date), f"{w[f'visit_{one.how}']}, {one.by}", _note(one, w))
        for one in report.visits
    ]
    yield table([w["visit_day"], w["visit_by"], w["visit_note"]], rows)


def _note(visit: Visit, w: Words) -> str:
    if visit.note is None:
        return w["visit_kept"]
    return shorten(visit.note, LONGEST_NOTE, placeholder=" ...")


def _troubles(report: Report) -> Iterator[Html]:
    """What was seen and told of, oldest first: for the trainer."""
    w, batch = report.words, report.batch
    seen = [
        (one.on_date, sign)
        for one in batch.live_events("observed")
        for sign in _signs(one)
        if sign in report.terms["sign"]
    ]
    if not seen:
        return
    yield tag("h2", w["troubles"])
    days = dict.fromkeys(day for day, _ in seen)
    rows = [
        (
            (batch.age(day) or 0) + 1,
            ", ".join(dict.fromkeys(report.terms["sign"][sign] for on, sign in seen if on == day)),
        )
        for day in days
    ]
    yield table([w["day"], w["seen"]], rows, figures_from=9)


def _signs(one: Event) -> tuple[str, ...]:
    signals = one.values.get("signals")
    return tuple(map(str, signals)) if isinstance(signals, list | tuple) else ()


def _sources(report: Report) -> Iterator[tuple[str, str]]:
    h = report.h
    said = h.sources.said
    yield "target", said(h.spot_start, h.late_spot)
    yield "curve", said(h.growth[HOT_STRAIN], h.growth_pace_sd, h.bird_cv)
    yield "deaths", said(h.growth[HOT_STRAIN])
    yield "feed", said(h.growth[DAILY_STRAIN])
    yield "water", said(h.water_ratio, h.water_rise)
    yield "index", said(h.production_factor)
