"""A person's own wishes about what is held of them: to have it, and to be forgotten. In: forms.
Out: a file, or nothing left. Only those who own; both are written down."""

from __future__ import annotations

from flask import Response, abort, request
from sqlalchemy import Connection

from bot.cooperative.may import Signed
from bot.doors.desk.farm import farm_or_404
from bot.doors.desk.frame import Answer, Desk
from bot.records.desk_audit import note
from bot.records.desk_people import forget_person, held_of_person


def hang(desk: Desk) -> None:
    @desk.page("/farm/<int:person>/person", needs="owns")
    def person_held(who: Signed, person: int) -> Answer:
        with desk.bot.db.read() as connection:
            found = farm_or_404(connection, who, person)
        return desk.show("person.html", who, farm=found)

    @desk.page("/farm/<int:person>/held.jsonl", needs="owns", methods=("POST",))
    def person_export(who: Signed, person: int) -> Answer:
        with desk.bot.db.write() as connection:
            farm_or_404(connection, who, person)
            lines = held_of_person(connection, who.cooperative.id, person)
            _note(connection, desk, who, "person_exported", person)
        file = "".join(f"{line}\n" for line in lines)
        answer = Response(file, content_type="application/x-ndjson; charset=utf-8")
        answer.headers["Content-Disposition"] = f'attachment; filename="held-{person}.jsonl"'
        return answer

    @desk.page("/farm/<int:person>/forget", needs="owns", methods=("POST",))
    def person_forget(who: Signed, person: int) -> Answer:
        now, key = desk.bot.clock.now(), desk.bot.settings.house.key
        with desk.bot.db.write() as connection:
            farm_or_404(connection, who, person)
            if "wished" not in request.form:
                abort(400)
            forget_person(connection, who.cooperative.id, person, key, now)
            _note(connection, desk, who, "person_forgotten", person)
        return desk.go("farms")


def _note(connection: Connection, desk: Desk, who: Signed, what: str, person: int) -> None:
    now = desk.bot.clock.now()
    note(connection, who.cooperative.id, who.staff_id, what, f"farm {person}", now)
