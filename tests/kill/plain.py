"""What the kill tests share with the processes they kill: a reader that knows one sentence, farms
whose morning text is due, and a database that dies at a given statement.

In: a database. Out: rows in it, and counts of what stands. Nothing in bot/ knows of this.
"""

from __future__ import annotations

import os
import re
import signal
from datetime import UTC, date, datetime, timedelta

from sqlalchemy import event, func, insert, select

from bot.facts.talk import Hearing, Incoming, Intent, Meaning, Slots
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.shapes import Handbook
from bot.records import tables as t
from bot.records.session import Database
from bot.settings import Settings
from bot.understand.read import Reader
from bot.wiring import cooperative_values

ACCOUNT, TOKEN, SERVICE = "ACtest", "secret", "+15005550006"
PLACED = date(2026, 3, 2)
MORNING = datetime(2026, 3, 5, 3, 30, tzinfo=UTC)  # 06:30 in Nairobi, age 3
REGISTERS = "new batch 300 chicks today"
SETTINGS = Settings(name="Mfano", unsigned="1", gateway_account=ACCOUNT)


class PlainReader(Reader):
    """Reads "N chicks today" and nothing else, so that these tests hold in any language."""

    def __init__(self) -> None:
        pass

    def read(self, text: str, hearing: Hearing) -> Meaning:
        del hearing
        found = re.search(r"(\d+) chicks today", text)
        if found is None:
            return Meaning(Intent.OTHER, language="en")
        slots = Slots(count=int(found.group(1)), date_iso_offset=0)
        return Meaning(Intent.REGISTER, slots, language="en")


def handbook() -> Handbook:
    """The real handbook."""
    return load_handbook(content_folder())


def incoming(message_id: str, text: str = REGISTERS, *, sender: str, at: datetime) -> Incoming:
    return Incoming(message_id, ACCOUNT, sender, SERVICE, text, at)


def add_cooperative(db: Database) -> None:
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(**cooperative_values(SETTINGS)))


def add_farms(db: Database, count: int) -> None:
    """Farms, numbered from 1 in an empty database, with chicks of three days whose morning text
    is due at MORNING."""
    arrived = datetime(2026, 3, 2, 5, 0, tzinfo=UTC)
    ids = range(1, count + 1)
    with db.write() as connection:
        connection.execute(
            insert(t.person),
            [{"cooperative_id": 1, "language": "en", "created_at": arrived} for _ in ids],
        )
        connection.execute(
            insert(t.phone),
            [
                {
                    "cooperative_id": 1,
                    "person_id": i,
                    "number": number(i),
                    "consent": "active",
                    "heard_at": MORNING - timedelta(hours=12),
                    "created_at": arrived,
                }
                for i in ids
            ],
        )
        connection.execute(
            insert(t.batch),
            [
                {
                    "phone_id": i,
                    "state": "running",
                    "count": 300,
                    "placed_on": PLACED,
                    "arrived_at": arrived,
                    "heat": "charcoal",
                    "next_due": MORNING,
                    "created_at": arrived,
                }
                for i in ids
            ],
        )


def number(index: int) -> str:
    return f"+1500555{index:04d}"


def count(db: Database, table: str) -> int:
    with db.read() as connection:
        found = connection.execute(select(func.count()).select_from(t.metadata.tables[table]))
        return int(found.scalar_one())


def told(db: Database) -> int:
    """How many batches were said something."""
    with db.read() as connection:
        found = connection.execute(
            select(func.count()).select_from(t.batch).where(t.batch.c.said != "")
        )
        return int(found.scalar_one())


def keys(db: Database) -> list[str]:
    """The business keys in the outbox."""
    with db.read() as connection:
        return list(connection.execute(select(t.outbox.c.business_key)).scalars())


def die_at(db: Database, part: str, times: int) -> None:
    """This process kills itself at the `times`-th statement that holds `part`."""
    seen = 0

    def look(_c: object, _cur: object, statement: str, *_: object) -> None:
        nonlocal seen
        seen += part in statement
        if seen == times:
            os.kill(os.getpid(), signal.SIGKILL)

    event.listen(db.engine, "after_cursor_execute", look)
