"""An entry put right, or taken back. In: the number of an entry, a form. Out: the page; nothing is
overwritten, a correction stands for what it corrects."""

from __future__ import annotations

from flask import abort, request
from sqlalchemy import Connection

from bot.cooperative.farm import UNITS, corrected, put_right
from bot.cooperative.may import Signed
from bot.doors.desk.frame import Answer, Desk
from bot.facts.farm import Batch, Event
from bot.ledger.entries import figure_of
from bot.records.case import whole_batch
from bot.records.desk_audit import note
from bot.records.desk_farms import batch_of_entry, put_entry, take_back


def hang(desk: Desk) -> None:
    @desk.page("/entry/<int:entry>", needs="advises")
    def entry(who: Signed, entry: int) -> Answer:
        with desk.bot.db.read() as connection:
            _, found = _found(connection, who, entry)
        return _shown(desk, who, found, None)

    @desk.page("/entry/<int:entry>/change", needs="advises", methods=("POST",), form_on="entry")
    def entry_change(who: Signed, entry: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            batch, found = _found(connection, who, entry)
            about = f"entry {entry} of batch {batch.id}"
            if "back" in request.form:
                take_back(connection, batch.id, entry, now)
                note(connection, who.cooperative.id, who.staff_id, "entry_back", about, now)
                return _back_to(desk, batch)
            figure, fault = corrected(batch, found, request.form.get("figure", ""))
            if figure is not None:
                values = put_right(found, figure, who.staff_id)
                put_entry(connection, batch.id, found, values, now)
                note(connection, who.cooperative.id, who.staff_id, "entry_right", about, now)
                return _back_to(desk, batch)
        return _shown(desk, who, found, fault)


def _found(connection: Connection, who: Signed, entry: int) -> tuple[Batch, Event]:
    """An entry with a figure that still counts, and its batch."""
    place = batch_of_entry(connection, who.cooperative.id, entry)
    batch = whole_batch(connection, who.cooperative.id, place[0]) if place else None
    events = batch.events if batch else ()
    found = next((one for one in events if one.id == entry and not one.undone), None)
    if batch is None or found is None or figure_of(found) is None:
        abort(404)
    return batch, found


def _back_to(desk: Desk, batch: Batch) -> Answer:
    if batch.owner_id is None:
        return desk.go("farms")
    return desk.go("farm", person=batch.owner_id, batch=batch.id)


def _shown(desk: Desk, who: Signed, found: Event, fault: str | None) -> Answer:
    return desk.show(
        "entry.html", who, entry=found, figure=figure_of(found), fault=fault,
        unit=UNITS.get(found.kind, ""),
        status=400 if fault else 200,
    )  # fmt: skip
