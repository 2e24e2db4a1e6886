"""Two cooperatives beside each other, each with its staff in every role and one farm: what the
tests of the desk look at. Whatever is the other one's is called Zebra somewhere."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import Connection, Table, event, insert
from werkzeug.test import TestResponse

from bot.clock import FixedClock
from bot.cooperative.columns import Entry
from bot.cooperative.enrol import Outcome
from bot.cooperative.may import ROLES, Role
from bot.cooperative.said import Said
from bot.doors.desk.frame import COOKIE
from bot.doors.desk.tokens import form_token
from bot.gateway.client import TwilioCompatible
from bot.records import tables as t
from bot.records.desk_enrol import Tried, keep_list
from bot.records.desk_staff import open_session
from bot.records.session import MEMORY, Database
from bot.settings import Settings
from bot.wiring import Bot, Thinking, cooperative_values

NOW = datetime(2026, 3, 10, 6, 0, tzinfo=UTC)  # 09:00 in Nairobi
SETTINGS = Settings(
    gateway_account="ACtest", unsigned="1", public_url="http://127.0.0.1:8080", desk="1"
)
OURS, THEIRS = 1, 2
FOREIGN = "Zebra"
MOST_BYTES = 25_000  # of a page as sent, before it is packed


@dataclass
class World:
    """The service, its two cooperatives, and what each holds by name: `ids[OURS]["batch"]`. A path
    argument of a page is looked up here by its name."""

    bot: Bot
    app: Flask
    clock: FixedClock
    ids: dict[int, dict[str, int]] = field(default_factory=dict)
    tokens: dict[tuple[int, Role], str] = field(default_factory=dict)

    @property
    def db(self) -> Database:
        return self.bot.db

    def visitor(self, role: Role | None = "owns", cooperative: int = OURS) -> Visitor:
        """A browser signed in in that role; role None: not signed in."""
        client = self.app.test_client()
        token = ""
        if role is not None:
            token = self.tokens[cooperative, role]
            client.set_cookie(COOKIE, token, path="/desk")
        return Visitor(client, token)


@dataclass
class Visitor:
    """A browser."""

    client: FlaskClient
    token: str

    def get(self, path: str) -> TestResponse:
        return self.client.get(path)

    def post(self, path: str, **fields: Any) -> TestResponse:
        """A form of the desk, with its token. Files are given as (stream, name)."""
        return self.client.post(path, data={"form_token": form_token(self.token), **fields})


def service(thinking: Thinking, app_of: Callable[[Bot], Flask]) -> World:
    """The service on a database in memory, without a cooperative."""
    gateway = TwilioCompatible("http://127.0.0.1:9", "ACtest", "", "+254700000100", "")
    clock = FixedClock(NOW)
    bot = Bot(SETTINGS, thinking, Database(MEMORY), gateway, clock)
    return World(bot, app_of(bot), clock)


def people(world: World) -> World:
    """The same with both cooperatives in an empty database, at NOW."""
    world.clock.moment = NOW
    t.metadata.drop_all(world.db.engine)  # the audit lets no row go
    world.db.create_all()
    with world.db.write() as connection:
        for cooperative, name in ((OURS, "Mkulima"), (THEIRS, FOREIGN)):
            values = {**cooperative_values(SETTINGS), "name": name}
            connection.execute(insert(t.cooperative).values(id=cooperative, **values))
            _add_staff(world, connection, cooperative, name)
            _add_farm(world, connection, cooperative, name)
    return world


def _add_staff(world: World, connection: Connection, cooperative: int, name: str) -> None:
    for role in ROLES:
        staff = _add(
            connection,
            t.staff,
            cooperative_id=cooperative,
            name=f"{name} {role}",
            sign_in=f"{name}-{role}".lower(),
            password="no hash",
            fresh=False,
            role=role,
            language="en",
            created_at=NOW,
        )
        token = f"token-{cooperative}-{role}"
        open_session(connection, staff, token, NOW, proved=True)
        world.tokens[cooperative, role] = token
        world.ids.setdefault(cooperative, {})
        world.ids[cooperative].setdefault("staff", staff)


def _add_farm(world: World, connection: Connection, cooperative: int, name: str) -> None:
    """A farm on day 8 with a text of each side and an open complaint."""
    number = f"+25470000000{cooperative}"
    placed = NOW - timedelta(days=7)
    person = _add(connection, t.person, cooperative_id=cooperative, language="en",
                  name=f"{name} Amina", created_at=placed)  # fmt: skip
    phone = _add(connection, t.phone, cooperative_id=cooperative, person_id=person, number=number,
                 consent="active", heard_at=NOW, created_at=placed)  # fmt: skip
    batch = _add(connection, t.batch, phone_id=phone, person_id=person, state="running", count=300,
                 placed_on=placed.date(), arrived_at=placed, heat="charcoal", heat_count=2,
                 thermometer=True, created_at=placed)  # fmt: skip
    turn = _add(connection, t.turn, account="ACtest", message_id=f"SM{cooperative}",
                sender=number, recipient="+254700000100", channel="sms",
                body=f"{name} chicks are loud", at=NOW - timedelta(hours=2), phone_id=phone,
                intent="observe", understood=True)  # fmt: skip
    entry = _add(connection, t.event, batch_id=batch, turn_id=turn, kind="deaths",
                 on_date=NOW.date(), at=NOW - timedelta(hours=2), data={"n": 2})  # fmt: skip
    _add(connection, t.complaint, batch_id=batch, state="open", cause="cold",
         opened_at=NOW - timedelta(hours=2), signals=["piled_near_heat", "noisy_distress"],
         not_signals=[], asked=[], tried=[])  # fmt: skip
    text = _add(connection, t.outbox, business_key=f"day:{cooperative}", phone_id=phone,
                batch_id=batch, to_number=number, klass="routine", text=f"{name}: Day 8. Weigh.",
                parts=1, encoding="gsm7", state="delivered", not_before=NOW, created_at=NOW,
                sent_at=NOW)  # fmt: skip
    strange = _add(connection, t.turn, account="ACtest", message_id=f"SMstrange{cooperative}",
                   sender=number, recipient="+254700000100", channel="sms",
                   body=f"{name} they are frimbling again", at=NOW - timedelta(hours=1),
                   phone_id=phone, intent="other", understood=False, reply=["Sorry?"])  # fmt: skip
    unread = _add(connection, t.unread, turn_id=strange, text=f"{name} they are frimbling again",
                  guess=None, at=NOW - timedelta(hours=1))  # fmt: skip
    row = Outcome(
        Entry(2, "none", f"{name} Juma"), "wrong", (Said.of("phone_letters", cell="none"),)
    )
    listed = keep_list(connection, cooperative, Tried("digest", [row]), NOW)
    line = _add(connection, t.adviser, cooperative_id=cooperative, phone_id=phone, batch_id=batch,
                turn_id=turn, kind="worse", reason="cold is same", at=NOW - timedelta(hours=1),
                told={"what": "same", "cause": "cold", "signs": ["heap"]})  # fmt: skip
    circular = _add(connection, t.circular, cooperative_id=cooperative,
                    staff_id=world.ids[cooperative]["staff"], text=f"{name}: meeting on Friday",
                    parts=1, people=1, state="waits", made_at=NOW)  # fmt: skip
    _add(connection, t.addressee, business_key=f"desk:many:{circular}:{phone}",
         circular_id=circular, phone_id=phone)  # fmt: skip
    values = {"name": name, "language": "sw", "vet_number": None, "authority_number": None}
    drafter = world.ids[cooperative]["staff"]
    version = _add(connection, t.rules, cooperative_id=cooperative, part="names", data=values,
                   state="draft", staff_id=drafter, made_at=NOW)  # fmt: skip
    world.ids[cooperative] |= {"version": version}
    world.ids[cooperative] |= {"person": person, "phone": phone, "batch": batch, "turn": turn,
                               "entry": entry, "text": text, "listed": listed,
                               "unread": unread, "line": line,
                               "circular": circular}  # fmt: skip


def _add(connection: Connection, table: Table, **values: object) -> int:
    made = connection.execute(insert(table).values(**values)).inserted_primary_key
    assert made is not None
    return int(made[0]) if "id" in table.c else 0


@contextmanager
def counted(db: Database) -> Iterator[list[str]]:
    """The statements that run meanwhile, without those that begin and end a transaction."""
    found: list[str] = []

    def note(_c: object, _cursor: object, statement: str, *_: object) -> None:
        if not re.match(r"BEGIN|COMMIT|ROLLBACK|SAVEPOINT|RELEASE", statement):
            found.append(statement)

    event.listen(db.engine, "before_cursor_execute", note)
    try:
        yield found
    finally:
        event.remove(db.engine, "before_cursor_execute", note)
