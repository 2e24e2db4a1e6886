"""Say to many: a text to all farms of a place, an age, a language. In: a form. Out: people, parts
and cost before anything goes; then what became of it.

What names a medicine, a disinfectant or a dose is refused: no vet has seen all those birds. To one
farmer (farm.py) an adviser may pass on what a vet said for these birds, and says so."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import abort, request

from bot.cooperative.farm import Letter, letter
from bot.cooperative.many import Wish, cost_of, may_agree, needs_second
from bot.cooperative.may import Signed
from bot.day.quiet import opens
from bot.doors.desk.frame import Answer, Desk
from bot.proof.medicine import named_in
from bot.records.case import cooperative_held
from bot.records.desk_audit import note
from bot.records.desk_many import (
    Circular,
    circulars,
    delivery,
    just_kept,
    keep_circular,
    phones_meant,
    places,
    send_circular,
    stop_circular,
)
from bot.records.spending import is_spent

OLDEST = 120


def hang(desk: Desk) -> None:
    @desk.page("/many", needs="runs", nav="many")
    def many(who: Signed) -> Answer:
        again = desk.again(who)
        return _form(desk, who, body=again.get("body", ""), wish=_wish(desk, again) or Wish())

    @desk.page("/many/try", needs="runs", methods=("POST",), form_on="many")
    def many_try(who: Signed) -> Answer:
        return _tried(desk, who)

    @desk.page("/many/<int:circular>", needs="runs")
    def many_one(who: Signed, circular: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.read() as connection:
            one = _one_or_404(circulars(connection, who.cooperative.id, circular))
            states = delivery(connection, circular)
            spent = is_spent(connection, who.cooperative, now)
        return desk.show(
            "many_one.html", who, one=one, states=states, mine=one.staff_id == who.staff_id,
            cost=cost_of(one.people, one.parts, who.cooperative),
            goes_at=opens(who.cooperative, now, "system"), now=now,
            open=any(state == "waiting" for state, _ in states), twice="twice" in request.args,
            spent=spent,
        )  # fmt: skip

    @desk.page("/many/<int:circular>/agree", needs="runs", methods=("POST",))
    def many_agree(who: Signed, circular: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            one = _one_or_404(circulars(connection, who.cooperative.id, circular))
            if not may_agree(one.staff_id, who.staff_id):
                abort(403)
            goes_at = opens(who.cooperative, now, "system")
            sent = send_circular(
                connection, who.cooperative.id, circular, who.staff_id, goes_at, now
            )
            if sent:
                about = f"text {circular}, {one.people} people"
                note(connection, who.cooperative.id, who.staff_id, "many_agreed", about, now)
        return desk.go("many_one", circular=circular)

    @desk.page("/many/<int:circular>/stop", needs="runs", methods=("POST",))
    def many_stop(who: Signed, circular: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            kept = stop_circular(connection, who.cooperative.id, circular)
            if kept is None:
                abort(404)
            about = f"text {circular}, {kept} not sent"
            note(connection, who.cooperative.id, who.staff_id, "many_stopped", about, now)
        return desk.go("many_one", circular=circular)


def _one_or_404(found: list[Circular]) -> Circular:
    return found[0] if found else abort(404)


def _form(desk: Desk, who: Signed, status: int = 200, **values: Any) -> Answer:
    with desk.bot.db.read() as connection:
        known, past = (
            places(connection, who.cooperative.id),
            circulars(connection, who.cooperative.id),
        )
    given: dict[str, Any] = {
        "wish": Wish(),
        "body": "",
        "fault": None,
        "made": None,
        "changed": False,
        "named": None,
    } | values
    return desk.show("many.html", who, status=status, places=known, past=past, **given)


def _tried(desk: Desk, who: Signed) -> Answer:
    """The text as it would go, to whom and for how much; confirmed, it goes or waits."""
    now = desk.bot.clock.now()
    body, wish = request.form.get("body", ""), _wish(desk, request.form)
    made = letter(who.cooperative, who.name, body, None, now)
    fault = "farm.empty" if made is None else "farm.too_long" if made.too_long else None
    named = named_in(made.text, desk.forbidden) if made else None
    fault = fault or ("many.names" if named else None)
    if wish is None:
        return _form(desk, who, 400, body=body, fault="many.wrong_age")
    today = now.astimezone(who.cooperative.zone).date()
    confirmed = request.form.get("people", type=int)
    with desk.bot.db.write() as connection:
        spent = is_spent(connection, who.cooperative, now)
        phones = phones_meant(connection, who.cooperative.id, wish, today, now)
        fault = fault or ("many.nobody" if not phones else None)
        if fault is None and made is not None and confirmed == len(phones):
            cooperative_held(connection, who.cooperative.id)
            before = just_kept(
                connection, who.cooperative.id, who.staff_id, made.text, len(phones), now
            )
            if before is not None:
                return desk.go("many_one", circular=before, twice=1)
            return desk.go("many_one", circular=_keep(connection, who, made, phones, now))
    cost = cost_of(len(phones), made.parts.parts if made else 0, who.cooperative)
    return _form(
        desk, who, 400 if fault else 200, wish=wish, body=body, fault=fault, named=named,
        made=None if fault else made, cost=cost, second=needs_second(len(phones), who.cooperative),
        changed=confirmed is not None and confirmed != len(phones),
        goes_at=opens(who.cooperative, now, "system"), now=now, spent=spent,
    )  # fmt: skip


def _keep(connection: Any, who: Signed, made: Letter, phones: list[int], now: Any) -> int:
    parts = made.parts.parts
    cooperative = who.cooperative
    circular = keep_circular(
        connection, cooperative.id, who.staff_id, made.text, parts, phones, now
    )
    if not needs_second(len(phones), cooperative):
        goes_at = opens(who.cooperative, now, "system")
        send_circular(connection, cooperative.id, circular, None, goes_at, now)
    about = f"text {circular}, {len(phones)} people, {len(phones) * parts} parts"
    note(connection, cooperative.id, who.staff_id, "many_said", about, now)
    return circular


def _wish(desk: Desk, form: Mapping[str, str]) -> Wish | None:
    """To whom, as the form says; None for an age that can't be."""
    language = form.get("language", "")
    days: list[int | None] = []
    for name in ("from_day", "to_day"):
        typed = form.get(name, "").strip()
        if typed and not (typed.isdecimal() and 1 <= int(typed) <= OLDEST):
            return None
        days.append(int(typed) if typed else None)
    first, last = days
    if first is not None and last is not None and first > last:
        return None
    known = language if language in desk.bot.thinking.handbook.texts.tongues else ""
    return Wish(form.get("place", "")[:40], known, first, last)
