"""What a gateway's code says of a number: opted out, or no good. In: a phone and a code. Out: the
phone is stopped or suspended. Called by outbox.ledger and outbox.receipts, inside a transaction
that has locked the phone."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, insert, select, update

from bot.outbox.retry import FAILURES_ALLOWED, NO_GOOD, OPTED_OUT
from bot.records import tables as t
from bot.records.people import end_contacts, hand_back


def says_something(code: int | None) -> bool:
    """Whether the code is about the number and not about the text or the hour."""
    return code == OPTED_OUT or code in NO_GOOD


def lock(connection: Connection, phone_id: int) -> None:
    """Take the phone's turn, as the door does when a text comes from it."""
    connection.execute(select(t.phone.c.id).where(t.phone.c.id == phone_id).with_for_update())


def note(connection: Connection, phone_id: int, code: int | None, now: datetime) -> None:
    """Act on a code: 21610 is a STOP; a number that is no good is suspended at the second time.
    What it served goes to another phone of the owners, where there is one."""
    if code == OPTED_OUT:
        _stop(connection, phone_id, now)
    elif code in NO_GOOD:
        failures = t.phone.c.failures + 1
        connection.execute(
            update(t.phone)
            .where(t.phone.c.id == phone_id)
            .values(failures=failures, suspended=failures >= FAILURES_ALLOWED)
        )
        if _is_suspended(connection, phone_id):
            hand_back(connection, phone_id, now)


def restore(connection: Connection, phone_id: int, now: datetime) -> None:
    """The number is good again: texts go there from now on."""
    connection.execute(
        update(t.phone).where(t.phone.c.id == phone_id).values(failures=0, suspended=False)
    )
    connection.execute(
        update(t.batch)
        .where(t.batch.c.phone_id == phone_id, t.batch.c.state != "closed")
        .values(next_due=now)
    )


def _is_suspended(connection: Connection, phone_id: int) -> bool:
    found = select(t.phone.c.suspended).where(t.phone.c.id == phone_id)
    return bool(connection.execute(found).scalar_one())


def reached(connection: Connection, phone_id: int) -> None:
    """A text arrived: earlier failures no longer count."""
    connection.execute(
        update(t.phone).where(t.phone.c.id == phone_id, t.phone.c.failures > 0).values(failures=0)
    )


def _stop(connection: Connection, phone_id: int, now: datetime) -> None:
    stopped = connection.execute(
        update(t.phone)
        .where(t.phone.c.id == phone_id, t.phone.c.consent != "stopped")
        .values(consent="stopped")
    )
    if stopped.rowcount == 1:
        connection.execute(
            insert(t.consent_record).values(
                phone_id=phone_id,
                state="stopped",
                how=f"gateway code {OPTED_OUT}",
                language=_language(connection, phone_id),
                at=now,
            )
        )
    end_contacts(connection, phone_id, now)
    hand_back(connection, phone_id, now)
    connection.execute(
        update(t.outbox)
        .where(t.outbox.c.phone_id == phone_id, t.outbox.c.state == "waiting")
        .values(state="cancelled")
    )


def _language(connection: Connection, phone_id: int) -> str:
    found = connection.execute(
        select(t.person.c.language, t.cooperative.c.language)
        .select_from(
            t.phone.join(t.cooperative, t.cooperative.c.id == t.phone.c.cooperative_id).outerjoin(
                t.person, t.person.c.id == t.phone.c.person_id
            )
        )
        .where(t.phone.c.id == phone_id)
    ).one()
    return str(found[0] or found[1])
