"""What the tests of sending share: an outbox that is easy to fill, a gateway made to measure."""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import insert, select

from bot.errors import SendError
from bot.gateway.client import Outgoing, Sent
from bot.outbox.dispatch import Tally, send_waiting
from bot.records import tables as t
from bot.records.outbox_rows import Text, put
from bot.records.session import Database

NOW = datetime(2026, 3, 1, 6, 30, tzinfo=UTC)
SECOND, MINUTE = timedelta(seconds=1), timedelta(minutes=1)


class Outbox:
    """A database with a cooperative, phones that are made when first named, and their texts."""

    def __init__(self, db: Database) -> None:
        self.db = db
        self.now = NOW
        self._phones: dict[str, int] = {}
        self._made = 0
        with db.write() as connection:
            connection.execute(
                insert(t.cooperative).values(
                    id=1,
                    name="Mkulima",
                    timezone="Africa/Nairobi",
                    region="KE",
                    language="sw",
                    routine_at=datetime(2026, 1, 1, 6, 30, tzinfo=UTC).time(),
                    night_at=datetime(2026, 1, 1, 17, 30, tzinfo=UTC).time(),
                    allowed_from=datetime(2026, 1, 1, 6, 0, tzinfo=UTC).time(),
                    allowed_to=datetime(2026, 1, 1, 20, 0, tzinfo=UTC).time(),
                    water_mix=True,
                )
            )

    def add(
        self,
        text: str,
        phone: str = "+15005550101",
        klass: str = "routine",
        *,
        at: datetime | None = None,
        expires_at: datetime | None = None,
    ) -> str:
        """Put a text into the outbox; returns its business key."""
        self._made += 1
        key = f"test:{self._made}"
        made_at = at or self.now
        one = Text(key, self._phone(phone), phone, klass, text, made_at, expires_at=expires_at)
        with self.db.write() as connection:
            put(connection, one)
        return key

    def send(self, gateway: Any, limit: int = 500, **more: Any) -> Tally:
        """Send what waits now, one after another unless told otherwise."""
        more.setdefault("threads", 1)
        return send_waiting(self.db, gateway, self.now, limit, draw=lambda: 1.0, **more)

    def row(self, key: str) -> Any:
        with self.db.read() as connection:
            return connection.execute(
                select(t.outbox).where(t.outbox.c.business_key == key)
            ).one_or_none()

    def state(self, key: str) -> str:
        return str(self.row(key).state)

    def states(self) -> list[str]:
        with self.db.read() as connection:
            found = connection.execute(select(t.outbox.c.state).order_by(t.outbox.c.id))
            return [str(state) for state in found.scalars()]

    def phone(self, number: str) -> Any:
        with self.db.read() as connection:
            return connection.execute(select(t.phone).where(t.phone.c.number == number)).one()

    def change_phone(self, number: str, **values: object) -> None:
        self._phone(number)
        with self.db.write() as connection:
            connection.execute(t.phone.update().where(t.phone.c.number == number).values(**values))

    def _phone(self, number: str) -> int:
        if number not in self._phones:
            with self.db.write() as connection:
                made = connection.execute(
                    insert(t.phone).values(
                        cooperative_id=1, number=number, consent="active", created_at=NOW
                    )
                ).inserted_primary_key
            assert made is not None
            self._phones[number] = int(made[0])
        return self._phones[number]


class FakeGateway:
    """Takes texts unless an outcome is planned. `lost` plans: True the text was taken, False not;
    either way the answer is lost. `meanwhile` runs while a post is under way."""

    def __init__(self) -> None:
        self.taken: list[tuple[str, str]] = []
        self.posts = 0
        self.planned: deque[SendError | bool] = deque()
        self.listed: list[tuple[Sent, str, str]] = []
        self.can_be_asked = True
        self.asked = 0
        self.meanwhile: Callable[[Outgoing], None] = lambda _: None
        self._lock = threading.Lock()

    def send(self, outgoing: Outgoing) -> Sent:
        with self._lock:
            self.posts += 1
            sid = f"SM{self.posts}"
            plan = self.planned.popleft() if self.planned else None
        self.meanwhile(outgoing)
        if isinstance(plan, SendError):
            raise plan
        if plan is not False:
            with self._lock:
                self.taken.append((outgoing.to, outgoing.text))
                self.listed.append((Sent(sid, "queued"), outgoing.to, outgoing.text))
        if plan is not None:
            raise SendError("lost", permanent=False, unknown=True)
        return Sent(sid, "queued", 1)

    def find(self, to: str, text: str, since: datetime) -> tuple[Sent, ...]:
        del since
        self.asked += 1
        if not self.can_be_asked:
            raise SendError("away", permanent=False)
        return tuple(sent for sent, its_to, its in self.listed if (its_to, its) == (to, text))

    @property
    def texts(self) -> list[str]:
        return [text for _, text in self.taken]


def not_sent() -> SendError:
    return SendError("busy", permanent=False)


def refused(code: int) -> SendError:
    return SendError("refused", permanent=True, code=code)


@pytest.fixture
def outbox(db: Database) -> Outbox:
    return Outbox(db)


@pytest.fixture
def gateway() -> FakeGateway:
    return FakeGateway()
