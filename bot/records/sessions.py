"""Sessions of the phone's own menu (USSD) in the database: where each stands, and what every
callback of it was answered. In: a connection, a callback. Out: `Session`. Called by `turn.dial`.

The row is locked while a callback is taken, so that a repeat that comes at the same time waits and
then finds the answer. A session is kept for a day.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Row, case, delete, func, select, update
from sqlalchemy.dialects import postgresql, sqlite

from bot.facts.dial import Dialled, Place, Screen
from bot.facts.farm import OpenQuestion
from bot.handbook.shape_texts import BASE
from bot.records import tables as t

RESUMED = timedelta(minutes=10)  # so long a dropped session is gone on with
KEPT = timedelta(days=1)
_DIALECTS = {"sqlite": sqlite, "postgresql": postgresql}


@dataclass(frozen=True, slots=True)
class Session:
    """One session. typed: all that we have seen of its input. place: None where it begins.
    screens: answers by the callback's key."""

    id: int
    typed: str
    place: Place | None
    screens: Mapping[str, Screen]


@dataclass(frozen=True, slots=True)
class Caller:
    """Who dials: what a menu needs to know. phone_id: 0 for a number never heard of. person: known
    by a person's row."""

    phone_id: int
    consent: str
    person: bool
    language: str
    name: str
    vet_number: str | None


def open_session(connection: Connection, dialled: Dialled, now: datetime) -> Session:
    """The session of a callback, locked; a new one goes on where the phone's last was dropped."""
    row = connection.execute(
        update(t.ussd_session)
        .where(
            t.ussd_session.c.session == dialled.session,
            t.ussd_session.c.number == dialled.sender,
            t.ussd_session.c.at > now - RESUMED,
        )
        .values(at=now)
        .returning(t.ussd_session)
    ).first()
    if row is not None:
        return _session(row)
    return _begun(connection, dialled, now)


def _begun(connection: Connection, dialled: Dialled, now: datetime) -> Session:
    """A new session, or the one that another callback of it began a moment ago: one statement,
    so that of several at once none takes away what another was answered."""
    dropped = _dropped(connection, dialled.sender, now)
    connection.execute(delete(t.ussd_session).where(t.ussd_session.c.at < now - KEPT))
    fresh = {"typed": "", "place": dropped, "screens": {}}
    made = (
        _DIALECTS[connection.dialect.name]
        .insert(t.ussd_session)
        .values(session=dialled.session, number=dialled.sender, at=now, **fresh)
    )
    is_over = t.ussd_session.c.at <= now - RESUMED
    kept_or_new = {
        name: case((is_over, made.excluded[name]), else_=t.ussd_session.c[name]) for name in fresh
    }
    row = connection.execute(
        made.on_conflict_do_update(
            index_elements=["session", "number"], set_={"at": now, **kept_or_new}
        ).returning(t.ussd_session)
    ).one()
    return _session(row)


def sessions_today(connection: Connection, number: str, now: datetime) -> int:
    """How many sessions a phone began within a day; each is billed by the operator."""
    row = t.ussd_session.c
    found = select(func.count()).where(row.number == number, row.at > now - KEPT)
    return int(connection.execute(found).scalar_one())


def keep_session(connection: Connection, session: Session, now: datetime) -> None:
    """Write down where the session stands and what it was answered."""
    place = None if session.place is None else _stored(session.place)
    screens = {key: [one.text, one.more] for key, one in session.screens.items()}
    connection.execute(
        update(t.ussd_session)
        .where(t.ussd_session.c.id == session.id)
        .values(at=now, typed=session.typed, place=place, screens=screens)
    )


def caller_of(connection: Connection, number: str) -> Caller:
    """Who dials; the first cooperative answers a number that it does not know."""
    found = connection.execute(
        select(
            t.phone.c.id.label("phone_id"),
            t.phone.c.consent,
            t.person.c.language.label("own"),
            t.cooperative.c.language,
            t.cooperative.c.name,
            t.cooperative.c.vet_number,
        )
        .select_from(
            t.phone.join(t.cooperative, t.cooperative.c.id == t.phone.c.cooperative_id).outerjoin(
                t.person, t.person.c.id == t.phone.c.person_id
            )
        )
        .where(t.phone.c.number == number)
    ).first()
    if found is not None:
        known = found.own is not None
        language = found.own or found.language
        return Caller(found.phone_id, found.consent, known, language, found.name, found.vet_number)
    first = connection.execute(select(t.cooperative).order_by(t.cooperative.c.id).limit(1)).first()
    if first is None:
        return Caller(0, "unknown", False, BASE, "", None)
    return Caller(0, "unknown", False, first.language, first.name, first.vet_number)


def open_question(connection: Connection, number: str) -> tuple[int, int | None] | None:
    """The question that a phone has open: its id and that of its batch."""
    found = connection.execute(
        select(t.question.c.id, t.question.c.batch_id)
        .join(t.phone, t.phone.c.id == t.question.c.phone_id)
        .where(t.phone.c.number == number, t.question.c.closed_at.is_(None))
        .order_by(t.question.c.id.desc())
        .limit(1)
    ).first()
    return None if found is None else (found.id, found.batch_id)


def _dropped(connection: Connection, number: str, now: datetime) -> dict[str, Any] | None:
    """The place of the phone's last session, where that was lately and did not end."""
    place: dict[str, Any] | None = connection.execute(
        select(t.ussd_session.c.place)
        .where(t.ussd_session.c.number == number, t.ussd_session.c.at > now - RESUMED)
        .order_by(t.ussd_session.c.at.desc(), t.ussd_session.c.id.desc())
        .limit(1)
    ).scalar()
    return None if place is None or place.get("over") else place


def _session(row: Row[Any]) -> Session:
    screens = {key: Screen(text, more) for key, (text, more) in row.screens.items()}
    return Session(row.id, row.typed, _place(row.place), screens)


def _stored(place: Place) -> dict[str, Any]:
    values = asdict(replace(place, asked=None))
    if place.asked is not None:
        asked = asdict(replace(place.asked, before=None))
        values["asked"] = {**asked, "asked_at": place.asked.asked_at.isoformat()}
    return values


def _place(stored: Mapping[str, Any] | None) -> Place | None:
    if stored is None:
        return None
    values = {**stored, "back": tuple(stored["back"])}
    asked = stored["asked"]
    if asked is not None:
        at = datetime.fromisoformat(asked["asked_at"])
        options = tuple(asked["options"])
        values["asked"] = OpenQuestion(**{**asked, "asked_at": at, "options": options})
    return Place(**values)
