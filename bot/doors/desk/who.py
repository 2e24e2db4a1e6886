"""Who may: the staff of a cooperative, what each may, and what was done. In: forms. Out: the page.
Only those who own see or change it."""

from __future__ import annotations

import csv
from io import StringIO

from flask import Response, abort, request
from sqlalchemy import Connection

from bot.cooperative.may import PROVED, ROLES, Signed, as_role
from bot.cooperative.proofs import given_out, hashed
from bot.cooperative.staff import why_not, wrong_with
from bot.doors.desk.frame import Answer, Desk, Words
from bot.records.desk_audit import Deed, deeds, note
from bot.records.desk_staff import (
    Member,
    NewMember,
    add_member,
    change_member,
    end_sessions,
    member,
    members,
    renew,
    tidy_sign_in,
)
from bot.say.cells import safe_cell

DEEDS_A_PAGE = 50
MOST_EXPORTED = 100_000


def hang(desk: Desk) -> None:
    _hang_list(desk)
    _hang_changes(desk)
    _hang_deeds(desk)


def _hang_list(desk: Desk) -> None:
    @desk.page("/who", needs="owns", nav="who")
    def who_may(who: Signed) -> Answer:
        return _listed(desk, who)

    @desk.page("/who/add", needs="owns", methods=("POST",), form_on="who_may")
    def who_add(who: Signed) -> Answer:
        name, sign_in = request.form.get("name", ""), request.form.get("sign_in", "")
        role = as_role(request.form.get("role", ""))
        language = request.form.get("language", "")
        fault = wrong_with(name, sign_in, role)
        if fault or role is None or language not in desk.words:
            return _listed(desk, who, fault or "who.role_wrong")
        password = given_out()
        new = NewMember(name.strip(), sign_in, hashed(password), role, language)
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            made = add_member(connection, who.cooperative.id, new, now)
            if made is not None:
                about = f"staff {made} {role}"
                note(connection, who.cooperative.id, who.staff_id, "staff_added", about, now)
        if made is None:
            return _listed(desk, who, "who.taken")
        given = (new.name, tidy_sign_in(sign_in), password)
        return desk.show("who_password.html", who, given=given, proves=role in PROVED)


def _hang_changes(desk: Desk) -> None:
    @desk.page("/who/<int:staff>", needs="owns")
    def who_one(who: Signed, staff: int) -> Answer:
        with desk.bot.db.read() as connection:
            one = _theirs(connection, who, staff)
        return desk.show("who_one.html", who, one=one, roles=ROLES, fault=why_not(who, staff))

    @desk.page("/who/<int:staff>/change", needs="owns", methods=("POST",))
    def who_change(who: Signed, staff: int) -> Answer:
        role, disabled = as_role(request.form.get("role", "")), "disabled" in request.form
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            _theirs(connection, who, staff)
            if why_not(who, staff) or role is None:
                abort(400)
            change_member(connection, who.cooperative.id, staff, role=role, disabled=disabled)
            end_sessions(connection, staff)
            about = f"staff {staff} {role}" + (" disabled" if disabled else "")
            note(connection, who.cooperative.id, who.staff_id, "staff_changed", about, now)
        return desk.go("who_may")

    @desk.page("/who/<int:staff>/renew", needs="owns", methods=("POST",))
    def who_renew(who: Signed, staff: int) -> Answer:
        password, now = given_out(), desk.bot.clock.now()
        kept = hashed(password)
        with desk.bot.db.write() as connection:
            one = _theirs(connection, who, staff)
            if why_not(who, staff):
                abort(400)
            renew(connection, who.cooperative.id, staff, kept)
            note(
                connection, who.cooperative.id, who.staff_id, "staff_renewed", f"staff {staff}", now
            )
        given = (one.name, one.sign_in, password)
        return desk.show("who_password.html", who, given=given, proves=one.role in PROVED)


def _hang_deeds(desk: Desk) -> None:
    @desk.page("/who/done", needs="owns")
    def who_done(who: Signed) -> Answer:
        before = request.args.get("before", type=int)
        with desk.bot.db.read() as connection:
            found = deeds(connection, who.cooperative.id, DEEDS_A_PAGE + 1, before)
        older = found[DEEDS_A_PAGE - 1].id if len(found) > DEEDS_A_PAGE else None
        return desk.show("who_done.html", who, deeds=found[:DEEDS_A_PAGE], older=older)

    @desk.page("/who/done.csv", needs="owns", methods=("POST",))
    def who_export(who: Signed) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            found = deeds(connection, who.cooperative.id, MOST_EXPORTED)
            about = f"{len(found)} rows"
            note(connection, who.cooperative.id, who.staff_id, "audit_exported", about, now)
        answer = Response(_as_csv(found, desk.tongue(who)), content_type="text/csv; charset=utf-8")
        answer.headers["Content-Disposition"] = 'attachment; filename="done.csv"'
        return answer


def _as_csv(found: list[Deed], w: Words) -> str:
    file = StringIO()
    rows = csv.writer(file)
    rows.writerow([w(f"who.{name}") for name in ("at", "by", "what", "about")])
    for one in found:
        said = (f"{one.at:%Y-%m-%d %H:%M}", one.who or w("who.command_line"),
                w.named("deed", one.what), one.about)  # fmt: skip
        rows.writerow([safe_cell(cell) for cell in said])
    return file.getvalue()


def _theirs(connection: Connection, who: Signed, staff: int) -> Member:
    """One of the same cooperative; 404 for anybody else's."""
    found = member(connection, who.cooperative.id, staff)
    if found is None:
        abort(404)
    return found


def _listed(desk: Desk, who: Signed, fault: str | None = None) -> Answer:
    with desk.bot.db.read() as connection:
        found = members(connection, who.cooperative.id)
    return desk.show(
        "who.html", who, members=found, roles=ROLES, fault=fault, status=400 if fault else 200
    )
