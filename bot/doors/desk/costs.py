"""Costs: texts and parts by day and kind, the month against its budget, what a batch costs, and how
the batches came out by season. In: nothing. Out: the page, and a file."""

from __future__ import annotations

import csv
from datetime import datetime, timedelta
from io import StringIO

from flask import Response

from bot.cooperative import costs as c
from bot.cooperative.many import PART
from bot.cooperative.may import Signed
from bot.doors.desk.frame import Answer, Desk, Words
from bot.pages.chart import Bars, Chart, drawn
from bot.records.case import ended_batches
from bot.records.desk_audit import note
from bot.records.desk_costs import parts_of_ended, sent_since, used
from bot.say.cells import safe_cell
from bot.turn.close import MOST

DAYS = 30
LATELY = 50  # ended batches that tell what one costs
SEASONS = 4
SVG = (360, 200)


def hang(desk: Desk) -> None:
    @desk.page("/costs", needs="runs", nav="costs")
    def costs(who: Signed) -> Answer:
        return _shown(desk, who)

    @desk.page("/costs.csv", needs="runs", methods=("POST",))
    def costs_export(who: Signed) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            sent = sent_since(connection, who.cooperative.id, _since(now))
            about = f"{DAYS} days"
            note(connection, who.cooperative.id, who.staff_id, "costs_exported", about, now)
        answer = Response(_as_csv(sent, desk.tongue(who)), content_type="text/csv; charset=utf-8")
        answer.headers["Content-Disposition"] = 'attachment; filename="costs.csv"'
        return answer


def _since(now: datetime) -> datetime:
    """The beginning of the first of the days shown (UTC)."""
    midnight = now.replace(hour=0, minute=0, second=0, microsecond=0)
    return midnight - timedelta(days=DAYS - 1)


def _shown(desk: Desk, who: Signed) -> Answer:
    now, own = desk.bot.clock.now(), who.cooperative.id
    with desk.bot.db.read() as connection:
        sent = sent_since(connection, own, _since(now))
        spending = c.Spending(used(connection, own, now), who.cooperative.budget)
        batch = c.a_batch(parts_of_ended(connection, own, LATELY))
        ended = ended_batches(connection, own, MOST)
    days = c.by_day(sent)
    return desk.show(
        "costs.html", who, spending=spending,
        kinds=c.by_kind(sent), days=days, curve=_curve(days, now, desk.tongue(who)), batch=batch,
        price=who.cooperative.prices.get(PART), span=DAYS,
        seasons=c.seasons(ended, desk.bot.thinking.handbook.husbandry)[:SEASONS],
    )  # fmt: skip


def _curve(days: list[c.Count], now: datetime, w: Words) -> str | None:
    """Parts by day as bars; day 0 is today."""
    if not days:
        return None
    today = now.date()
    points = [
        (-float((today - datetime.fromisoformat(one.name).date()).days), float(one.parts))
        for one in days
    ]
    total = sum(one.parts for one in days)
    chart = Chart(
        words=w("costs.curve", n=total),
        x_name=w("costs.days_ago"),
        y_name=w("costs.parts"),
        x=(-float(DAYS) + 0.5, 0.5),
        bars=(Bars(w("costs.parts"), sorted(points)),),
    )
    return drawn(chart, *SVG)


def _as_csv(sent: list[c.Sent], w: Words) -> str:
    file = StringIO()
    rows = csv.writer(file)
    rows.writerow([w(f"costs.{name}") for name in ("day", "kind", "texts", "parts")])
    for one in sorted(sent, key=lambda one: (one.day, one.kind)):
        kind = safe_cell(w.named("kind", one.kind))
        rows.writerow([one.day.isoformat(), kind, one.texts, one.parts])
    return file.getvalue()
