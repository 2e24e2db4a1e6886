"""Texts that the machine could not read, and the words that were taught because of them. In: a
connection inside a transaction, a cooperative. Called by the page "Unread words".

A text of a number that never joined belongs to the first cooperative, which strangers join.
"""

from __future__ import annotations

from dataclasses import astuple, dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, Select, and_, func, or_, select, update

from bot.facts.farm import Cooperative, TaughtWord
from bot.records import tables as t
from bot.records.case import cooperative_of


@dataclass(frozen=True, slots=True)
class Unread:
    """One text. guess: what it was taken for, None where for nothing. reply: what was answered.
    person_id, phone_id: None where the number never joined."""

    id: int
    at: datetime
    text: str
    guess: str | None
    number: str
    reply: tuple[str, ...]
    phone_id: int | None
    person_id: int | None
    name: str | None
    language: str | None


def waiting(
    connection: Connection, cooperative_id: int, most: int, before: int | None = None
) -> list[Unread]:
    """The texts that nobody has dealt with, newest first. before: older than the one of that id."""
    query = _ours(cooperative_id).where(t.unread.c.done_at.is_(None)).limit(most)
    if before is not None:
        query = query.where(t.unread.c.id < before)
    return [_unread(row) for row in connection.execute(query.order_by(t.unread.c.id.desc()))]


def unread_text(connection: Connection, cooperative_id: int, number: int) -> Unread | None:
    """One text of this cooperative, dealt with or not; None where there is none."""
    row = connection.execute(_ours(cooperative_id).where(t.unread.c.id == number)).first()
    return None if row is None else _unread(row)


def _ours(cooperative_id: int) -> Select[Any]:
    first = select(func.min(t.cooperative.c.id)).scalar_subquery()
    stranger = and_(t.turn.c.phone_id.is_(None), first == cooperative_id)
    ours: ColumnElement[bool] = or_(t.phone.c.cooperative_id == cooperative_id, stranger)
    return (
        select(
            t.unread.c.id,
            t.unread.c.at,
            t.unread.c.text,
            t.unread.c.guess,
            t.turn.c.sender,
            t.turn.c.reply,
            t.turn.c.phone_id,
            t.phone.c.person_id,
            t.person.c.name,
            t.person.c.language,
        )
        .select_from(
            t.unread.join(t.turn, t.turn.c.id == t.unread.c.turn_id)
            .outerjoin(t.phone, t.phone.c.id == t.turn.c.phone_id)
            .outerjoin(t.person, t.person.c.id == t.phone.c.person_id)
        )
        .where(ours, t.unread.c.text != "")
    )


def _unread(row: Row[Any]) -> Unread:
    return Unread(
        row.id, row.at, row.text, row.guess, row.sender, tuple(row.reply or ()), row.phone_id,
        row.person_id, row.name, row.language,
    )  # fmt: skip


def deal_with(connection: Connection, number: int, now: datetime) -> None:
    """The text needs nobody any more."""
    connection.execute(update(t.unread).where(t.unread.c.id == number).values(done_at=now))


def teach(connection: Connection, cooperative_id: int, word: TaughtWord) -> None:
    """Keep a word; one of the same language and letters is replaced."""
    _keep(connection, cooperative_id, word.language, word.word, (word,))


def take_back(connection: Connection, cooperative_id: int, language: str, word: str) -> None:
    """A taught word is gone."""
    _keep(connection, cooperative_id, language, word, ())


def _keep(
    connection: Connection,
    cooperative_id: int,
    language: str,
    word: str,
    instead: tuple[TaughtWord, ...],
) -> None:
    row = t.cooperative.c.id == cooperative_id
    connection.execute(select(t.cooperative.c.id).where(row).with_for_update()).one()
    now: Cooperative = cooperative_of(connection, cooperative_id)
    others = (
        one for one in now.taught
        if (one.language, one.word.casefold()) != (language, word.casefold())
    )  # fmt: skip
    kept = [list(astuple(one)) for one in (*others, *instead)]
    connection.execute(update(t.cooperative).where(row).values(taught=kept))
