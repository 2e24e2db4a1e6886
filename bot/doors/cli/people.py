"""`broodpost people`: who is reached on which phone, and what an adviser may change of it.

In: the data folder and a number. Out: a list, what is held as JSON Lines, or a change.
What a phone must agree to itself is only asked here.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click
from sqlalchemy import Connection, select

from bot.errors import BroodpostError
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.shapes import Handbook
from bot.outbox.numbers import restore
from bot.records import tables as t
from bot.records.forgetting import forget
from bot.records.held import held, rows_as_json
from bot.records.people import end_care, hand_over
from bot.records.session import Database
from bot.settings import Settings, read_settings
from bot.turn.invite import Guest, give_new_phone, invite
from bot.understand.senders import e164
from bot.wiring import database_url


@click.command("people")
@click.option(
    "--data", type=click.Path(path_type=Path, file_okay=False), required=True, help="data folder"
)
@click.option("--invite", "guest", metavar="NUMBER", help="ask a member's phone to join")
@click.option("--name", help="with --invite: what they are called")
@click.option("--language", default="", help="with --invite: a language code")
@click.option("--new-phone", nargs=2, metavar="OLD NEW", help="a known farmer has a new phone")
@click.option("--take-back", metavar="NUMBER", help="end a farmer's caretaker")
@click.option("--restore", "good", metavar="NUMBER", help="a suspended number is good again")
@click.option("--forget", "gone", metavar="NUMBER", help="erase a person; it can't be undone")
@click.option("--held", metavar="NUMBER", help="print all that is held of a number")
@click.option("--consents", is_flag=True, help="print every consent record")
def people_command(data: Path, **wanted: Any) -> None:
    """List people and phones; invite, move, restore, forget, print what is held.

    \b
    Example:
      broodpost people --data data
      broodpost people --data data --invite 0700000001 --name Amina --language sw
      broodpost people --data data --new-phone 0700000001 0700000002
      broodpost people --data data --held 0700000001
    """
    settings = read_settings(os.environ)
    db = Database(database_url(settings, data))
    with db.write() as connection:
        lines = list(_done(connection, settings, wanted, datetime.now(UTC)))
    for line in lines:
        click.echo(line)


def _done(
    connection: Connection, settings: Settings, wanted: dict[str, Any], now: datetime
) -> Iterator[str]:
    """Carry out what is wanted; the lines to print."""

    def number(text: str) -> str:
        found = text if "~" in text else e164(text, settings.region)
        if found is None:
            raise BroodpostError(f"{text!r} is no phone number")
        return found

    if wanted["guest"]:
        yield _invited(connection, settings, number(wanted["guest"]), wanted, now)
    elif wanted["new_phone"]:
        old, new = (number(one) for one in wanted["new_phone"])
        if not give_new_phone(connection, _handbook(settings), old, new, now):
            raise BroodpostError("the old number is not known, or the new one has stopped")
        yield f"{new} is asked; the birds' texts go there after its yes"
    elif wanted["take_back"]:
        phone = _phone(connection, number(wanted["take_back"]))
        end_care(connection, phone.person_id, phone.id, now)
        hand_over(connection, phone.person_id, phone.id, now)
        yield "their texts come to this phone again"
    elif wanted["good"]:
        restore(connection, _phone(connection, number(wanted["good"])).id, now)
        yield "texts go there from now on"
    elif wanted["gone"]:
        phone = _phone(connection, number(wanted["gone"]))
        forget(connection, phone.id, settings.house.key, now)
        yield "forgotten"
    elif wanted["held"]:
        yield from held(connection, _phone(connection, number(wanted["held"])))
    elif wanted["consents"]:
        records = select(t.consent_record).order_by(t.consent_record.c.id)
        yield from rows_as_json(connection, "consent", records)
    else:
        yield from listed(connection)


def _invited(
    connection: Connection, settings: Settings, number: str, wanted: dict[str, Any], now: datetime
) -> str:
    cooperative = connection.execute(select(t.cooperative).order_by(t.cooperative.c.id)).first()
    if cooperative is None:
        raise BroodpostError("there is no cooperative yet: start the service once")
    language = wanted["language"] or cooperative.language
    guest = Guest(cooperative.id, number, language, wanted["name"])
    if not invite(connection, _handbook(settings), guest, settings.house.key, now):
        raise BroodpostError("this number is known already, or wished to be left alone")
    return f"{number} is asked; one reminder goes tomorrow, and nothing without a yes"


def _handbook(settings: Settings) -> Handbook:
    return load_handbook(content_folder(settings.content))


def _phone(connection: Connection, number: str) -> Any:
    found = connection.execute(select(t.phone).where(t.phone.c.number == number)).first()
    if found is None:
        raise BroodpostError(f"{number} is not known")
    return found


def listed(connection: Connection) -> Iterator[str]:
    """One line a phone: who holds it, whether it may be texted, and whose birds it serves."""
    names = {row.id: row.name or f"person {row.id}"
             for row in connection.execute(select(t.person.c.id, t.person.c.name))}  # fmt: skip
    served: dict[int, list[str]] = {}
    for one in connection.execute(select(t.contact).where(t.contact.c.state != "ended")):
        whose = f"{one.role} of {names[one.person_id]}'s birds ({one.state})"
        served.setdefault(one.phone_id, []).append(whose)
    for phone in connection.execute(select(t.phone).order_by(t.phone.c.id)):
        state = "suspended" if phone.suspended else phone.consent
        holder = names.get(phone.person_id, "-")
        more = "; ".join(served.get(phone.id, []))
        yield f"{phone.number:<16}  {state:<9}  {holder}" + (f"  {more}" if more else "")
