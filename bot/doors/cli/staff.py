"""`broodpost staff`: lets the first people in to the desk, and helps those who are locked out.

In: the data folder and a sign-in name. Out: a list, or a password that is shown once.
"""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import click
from sqlalchemy import Connection, select

from bot.cooperative.may import ROLES, as_role
from bot.cooperative.proofs import given_out, hashed
from bot.cooperative.staff import wrong_with
from bot.errors import BroodpostError
from bot.records import tables as t
from bot.records.desk_audit import note
from bot.records.desk_staff import (
    Member,
    NewMember,
    add_member,
    change_member,
    end_sessions,
    member_named,
    members,
    renew,
)
from bot.records.session import Database
from bot.settings import read_settings
from bot.wiring import database_url

WRONG = {
    "who.name_wrong": "the name is missing or longer than 40 letters",
    "who.sign_in_wrong": "a sign-in name has 3 to 40 small letters, figures, dots or hyphens",
    "who.role_wrong": f"a role is one of {', '.join(ROLES)}",
}


@click.group("staff")
@click.option(
    "--data", type=click.Path(path_type=Path, file_okay=False), required=True, help="data folder"
)
@click.pass_context
def staff_command(context: click.Context, data: Path) -> None:
    """Who may use the desk: list, let in, give a new password, lock out.

    \b
    Example:
      broodpost staff --data data add amina --name "Amina" --role owns
      broodpost staff --data data list
      broodpost staff --data data renew amina
      broodpost staff --data data lock-out amina
    """
    context.obj = Database(database_url(read_settings(os.environ), data))


@staff_command.command("list")
@click.pass_obj
def staff_list(db: Database) -> None:
    """One line for each of the staff of every cooperative."""
    with db.read() as connection:
        for row in connection.execute(select(t.cooperative).order_by(t.cooperative.c.id)).all():
            for one in members(connection, row.id):
                state = "locked out" if one.disabled else one.role
                click.echo(f"{one.sign_in:<20}  {state:<10}  {row.name:<12}  {one.name}")


@staff_command.command("add")
@click.argument("sign_in")
@click.option("--name", required=True, help="what they are called")
@click.option("--role", type=click.Choice(ROLES), required=True, help="what they may")
@click.option("--language", default="", help="a language code; else the cooperative's")
@click.option("--cooperative", help="its name, where there are several")
@click.pass_obj
def staff_add(
    db: Database, sign_in: str, name: str, role: str, language: str, cooperative: str | None
) -> None:
    """Let somebody in; prints a password that they change at the first sign-in."""
    chosen = as_role(role)
    fault = wrong_with(name, sign_in, chosen)
    if fault or chosen is None:
        raise BroodpostError(WRONG[fault or "who.role_wrong"])
    password, now = given_out(), datetime.now(UTC)
    with db.write() as connection:
        where = _cooperative(connection, cooperative)
        new = NewMember(name.strip(), sign_in, hashed(password), chosen, language or where[1])
        made = add_member(connection, where[0], new, now)
        if made is None:
            raise BroodpostError(f"{sign_in} is in use as a sign-in name")
        note(connection, where[0], None, "staff_added", f"staff {made} {role}", now)
    click.echo(f"{sign_in} may sign in with the password {password}")


@staff_command.command("renew")
@click.argument("sign_in")
@click.pass_obj
def staff_renew(db: Database, sign_in: str) -> None:
    """Give a new password; the old one and the second factor end."""
    password = given_out()
    with db.write() as connection:
        one = _member(connection, sign_in)
        renew(connection, one.cooperative_id, one.id, hashed(password))
        _note(connection, one, "staff_renewed", "")
    click.echo(f"{one.sign_in} may sign in with the password {password}")


@staff_command.command("lock-out")
@click.argument("sign_in")
@click.option("--let-in", is_flag=True, help="let them in again")
@click.pass_obj
def staff_lock_out(db: Database, sign_in: str, let_in: bool) -> None:
    """End every session of somebody, who may not sign in again."""
    with db.write() as connection:
        one = _member(connection, sign_in)
        change_member(connection, one.cooperative_id, one.id, disabled=not let_in)
        end_sessions(connection, one.id)
        _note(connection, one, "staff_changed", "" if let_in else " disabled")
    click.echo(f"{one.sign_in} {'may sign in again' if let_in else 'is locked out'}")


def _note(connection: Connection, one: Member, what: str, more: str) -> None:
    about = f"staff {one.id}{more}"
    note(connection, one.cooperative_id, None, what, about, datetime.now(UTC))


def _member(connection: Connection, sign_in: str) -> Member:
    found = member_named(connection, sign_in)
    if found is None:
        raise BroodpostError(f"nobody signs in as {sign_in}")
    return found


def _cooperative(connection: Connection, name: str | None) -> tuple[int, str]:
    """The id and language of the one named, or of the only one."""
    rows = connection.execute(select(t.cooperative)).all()
    found = [row for row in rows if name is None or row.name == name]
    if len(found) != 1:
        names = ", ".join(row.name for row in rows) or "none: start the service once"
        raise BroodpostError(f"say which with --cooperative; there are {names}")
    return found[0].id, found[0].language
