"""`broodpost checkup`: what is wrong with a running service, in plain words.

In: the settings of the service and its data folder. Out: a line for each thing looked at, exit 1
where something is wrong. It also texts the public address once, signed and unsigned, to see that
the proxy hands on what the gateway signed.
"""

from __future__ import annotations

import os
import sys
import uuid
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

import click
import requests
from sqlalchemy import func, select

from bot.clock import FileClock, SystemClock
from bot.doors.health import complaints
from bot.errors import BroodpostError
from bot.gateway.signature import HEADER, sign
from bot.records import tables as t
from bot.records.migrate import check
from bot.records.session import Database
from bot.settings import Settings, read_settings
from bot.wiring import database_url

WAITS_LONG = timedelta(minutes=10)
TIMEOUT_S = 10


@click.command("checkup")
@click.option(
    "--data", type=click.Path(path_type=Path, file_okay=False), required=True, help="data folder"
)
def checkup_command(data: Path) -> None:
    """Say in plain words what is wrong with the service.

    \b
    Example:
      broodpost checkup --data /var/lib/broodpost
    """
    settings = read_settings(os.environ)
    clock = FileClock(settings.clock_path) if settings.clock_path else SystemClock()
    found = list(look(settings, Database(database_url(settings, data)), clock.now()))
    for name, wrong in found:
        print(f"{'WRONG' if wrong else 'ok   '}  {name}{': ' + wrong if wrong else ''}")
    sys.exit(1 if any(wrong for _, wrong in found) else 0)


def look(settings: Settings, db: Database, now: datetime) -> Iterator[tuple[str, str]]:
    """(what was looked at, what is wrong with it or "")."""
    try:
        check(db)
    except BroodpostError as error:
        yield "database", f"{error}; start the service once, it migrates"
        return
    yield "database", ""
    yield "clock and sender", "; ".join(complaints(db, now))
    yield "texts waiting", _waiting(db, now)
    yield "lost answers", _unknown(db)
    yield "public address", _address(settings)
    yield "signature", _signature(settings)


def _waiting(db: Database, now: datetime) -> str:
    with db.read() as connection:
        count, oldest = connection.execute(
            select(func.count(), func.min(t.outbox.c.not_before)).where(
                t.outbox.c.state.in_(("waiting", "leased"))
            )
        ).one()
    if oldest is None or now - oldest < WAITS_LONG:
        return ""
    minutes = int((now - oldest).total_seconds() // 60)
    return f"{count} wait, the oldest for {minutes} minutes: does the gateway answer?"


def _unknown(db: Database) -> str:
    with db.read() as connection:
        count = connection.execute(
            select(func.count()).where(t.outbox.c.state == "unknown")
        ).scalar_one()
    return f"{count} texts whose answer was lost; they are asked after" if count else ""


def _address(settings: Settings) -> str:
    try:
        answer = requests.get(f"{settings.public_url.rstrip('/')}/health", timeout=TIMEOUT_S)
    except requests.RequestException as error:
        return f"{settings.public_url} can't be reached ({type(error).__name__})"
    if answer.status_code not in (200, 503):
        return f"{settings.public_url}/health answers {answer.status_code}: is it our service?"
    return ""


def _signature(settings: Settings) -> str:
    """A receipt for a text that does not exist: signed it must be taken, unsigned refused."""
    url = f"{settings.public_url.rstrip('/')}/sms/receipt"
    form = {
        "MessageSid": f"SMcheckup{uuid.uuid4().hex[:16]}",
        "MessageStatus": "sent",
        "AccountSid": settings.gateway_account,
    }
    fields = {name: [value] for name, value in form.items()}
    signed = {HEADER: sign(url, fields, settings.gateway_token)}
    try:
        taken = requests.post(url, data=form, headers=signed, timeout=TIMEOUT_S).status_code
        refused = requests.post(url, data=form, timeout=TIMEOUT_S).status_code
    except requests.RequestException as error:
        return f"{url} can't be reached ({type(error).__name__})"
    if taken != 200:
        return f"a signed receipt got {taken}: BROODPOST_PUBLIC_URL is not what the proxy hands on"
    if refused != 403 and not settings.accepts_unsigned:
        return f"an unsigned receipt got {refused}: it must be refused"
    return ""
