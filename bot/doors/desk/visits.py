"""Visits: which farms need somebody today, why, and what was seen there. In: a form with a note.
Out: the list, the same on paper, the page of one visit."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from flask import abort, request
from sqlalchemy import Connection

from bot.cooperative import visits as v
from bot.cooperative.may import Signed
from bot.doors.desk.farm import farm_or_404
from bot.doors.desk.frame import Answer, Desk
from bot.handbook.shape_texts import BASE
from bot.records.desk_audit import note
from bot.records.desk_visits import (
    NewVisit,
    held,
    keep_visit,
    last_visits,
    settle_line,
    visits_of,
    waiting,
)

A_PAGE, ON_PAPER = 20, 40
HOWS = ("there", "called")
LONGEST_NOTE = 500
MOST_ID = 2**31 - 1  # of a row in PostgreSQL
AGO = (0, 1, 2, 3)  # days that a visit may be written down late


def hang(desk: Desk) -> None:
    @desk.page("/visits", needs="looks", nav="visits")
    def visits(who: Signed) -> Answer:
        return _list(desk, who, "visits.html", A_PAGE)

    @desk.page("/visits/paper", needs="looks")
    def visits_paper(who: Signed) -> Answer:
        return _list(desk, who, "visits_paper.html", ON_PAPER)

    @desk.page("/visits/<int:person>", needs="looks")
    def visit(who: Signed, person: int) -> Answer:
        return _one(desk, who, person)

    @desk.page("/visits/<int:person>", needs="advises", methods=("POST",), form_on="visit")
    def visited(who: Signed, person: int) -> Answer:
        with desk.bot.db.write() as connection:
            farm = farm_or_404(connection, who, person)
            flock = farm.batch(None)
            new = _new_visit(who, person, flock.id if flock else None, _today(desk, who))
            if new is not None:
                _keep(connection, who, new, desk.bot.clock.now())
        return desk.go("visits", done=1) if new else _one(desk, who, person, "visits.empty")

    @desk.page("/visits/line/<int:line>", needs="advises", methods=("POST",))
    def visits_line(who: Signed, line: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            if not settle_line(connection, who.cooperative.id, line, now):
                abort(404)
            note(connection, who.cooperative.id, who.staff_id, "settled", f"line {line}", now)
        return desk.go("visits", done=1)


def _list(desk: Desk, who: Signed, template: str, most: int) -> Answer:
    now, after = desk.bot.clock.now(), max(0, request.args.get("after", 0, type=int))
    with desk.bot.db.read() as connection:
        found = _in_order(connection, who, now)
        shown = found[after : after + most]
        ids = [one.farm.person_id for one in shown if one.farm.person_id is not None]
        last = last_visits(connection, who.cooperative.id, ids)
    counts = {need: sum(one.need == need for one in found) for need in v.NEEDS}
    return desk.show(
        template, who, groups=v.groups(shown), counts=counts, total=len(found), last=last,
        first=after, more=after + most if len(found) > after + most else None, now=now,
        done="done" in request.args, **_words(desk, who),
    )  # fmt: skip


def _one(desk: Desk, who: Signed, person: int, fault: str | None = None) -> Answer:
    now = desk.bot.clock.now()
    with desk.bot.db.read() as connection:
        farm = farm_or_404(connection, who, person)
        found = _in_order(connection, who, now, person)
        past = visits_of(connection, who.cooperative.id, person)
    need = next(iter(found), None)
    typed = request.form.get("note", "")
    return desk.show(
        "visit.html", who, farm=farm, need=need, past=past, ago=AGO, hows=HOWS, fault=fault,
        typed=typed, longest=LONGEST_NOTE, status=400 if fault else 200, **_words(desk, who),
    )  # fmt: skip


def _in_order(
    connection: Connection, who: Signed, now: datetime, person: int | None = None
) -> list[v.Visit]:
    lines = waiting(connection, who.cooperative.id, now - v.LONGEST, person)
    return v.in_order(lines, held(connection, who.cooperative.id, person), now)


def _today(desk: Desk, who: Signed) -> date:
    return desk.bot.clock.now().astimezone(who.cooperative.zone).date()


def _words(desk: Desk, who: Signed) -> dict[str, Any]:
    """The words of signs and causes, and how a template words a line."""
    terms = desk.terms[who.language if who.language in desk.terms else BASE]
    zone, today = who.cooperative.zone, _today(desk, who)

    def reason(line: v.Line) -> v.Reason:
        return v.reason_of(line, today, line.at.astimezone(zone).date())

    return {"terms": terms, "reason_of": reason, "today": today}


def _new_visit(who: Signed, person: int, batch: int | None, today: date) -> NewVisit | None:
    """What the form says; None where nothing was noted. 400 for what no form of ours sends."""
    form = request.form
    said, how = " ".join(form.get("note", "").split()), form.get("how", "")
    ago, up_to = form.get("ago", type=int), form.get("up_to", 0, type=int)
    if not said:
        return None
    if how not in HOWS or ago not in AGO or len(said) > LONGEST_NOTE:
        abort(400)
    day = today - timedelta(days=ago)
    return NewVisit(person, batch, who.staff_id, how, said, day, min(up_to, MOST_ID))


def _keep(connection: Connection, who: Signed, new: NewVisit, now: datetime) -> None:
    keep_visit(connection, who.cooperative.id, new, now)
    about = f"farm {new.person_id}"
    note(connection, who.cooperative.id, who.staff_id, f"visit_{new.how}", about, now)
