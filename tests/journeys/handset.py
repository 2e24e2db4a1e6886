"""A farmer's phone for tests: real HTTP in and out, a fixed clock, a given database.

The service (Flask behind a real server) and the stand-in gateway run in threads of the test; time
moves only when the story says so. Used by the journeys.
"""

from __future__ import annotations

import threading
from datetime import UTC, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import requests
from sqlalchemy import func, insert, select
from waitress.server import create_server

from bot.clock import FixedClock
from bot.doors.cli.handset import NUMBER, SERVICE_NUMBER, VET, ZONE, Seen, free_port
from bot.doors.web import create_app
from bot.gateway.client import TwilioCompatible
from bot.gateway.phones import Service
from bot.gateway.pretend import PretendGateway
from bot.records import tables as t
from bot.records.case import next_due_of_all
from bot.records.session import Database
from bot.say.segments import measure
from bot.settings import Settings
from bot.wiring import Bot, Thinking, cooperative_values

TOKEN = "a token for tests"
ACCOUNT = "ACtest"


class Station:
    """`with Station(db, thinking, begins) as phone:` it is a story's Phone."""

    def __init__(self, db: Database, thinking: Thinking, begins: datetime) -> None:
        self._clock = FixedClock(begins.astimezone(UTC))
        self._db = db
        self._thinking = thinking
        self._seen = 0

    def __enter__(self) -> Station:
        port = free_port()
        public = "http://broodpost.example"
        service = Service(f"http://127.0.0.1:{port}", public, ACCOUNT, TOKEN, SERVICE_NUMBER)
        self._pretend = PretendGateway(service, clock=self._clock)
        self._pretend.__enter__()
        settings = Settings(
            name="Mkulima",
            vet=VET,
            tz=ZONE,
            gateway_url=self._pretend.url,
            gateway_account=ACCOUNT,
            gateway_token=TOKEN,
            sender=SERVICE_NUMBER,
            public_url=public,
        )
        gateway = TwilioCompatible(
            self._pretend.url, ACCOUNT, TOKEN, SERVICE_NUMBER, f"{public}/sms/receipt"
        )
        self._bot = Bot(settings, self._thinking, self._db, gateway, self._clock)
        with self._db.write() as connection:
            connection.execute(insert(t.cooperative).values(**cooperative_values(settings)))
        self._server = create_server(create_app(self._bot), host="127.0.0.1", port=port)
        threading.Thread(target=self._run, daemon=True).start()
        return self

    def _run(self) -> None:
        try:
            self._server.run()
        except OSError:
            return  # closed under it, which is how a test ends

    def __exit__(self, *_: Any) -> None:
        self._server.close()
        self._pretend.__exit__(None, None, None)

    @property
    def now(self) -> datetime:
        return self._clock.now().astimezone(ZoneInfo(ZONE))

    def say(self, text: str) -> list[Seen]:
        self._clock.move(timedelta(minutes=1))
        answer = requests.post(
            f"{self._pretend.url}/pretend/text", json={"from": NUMBER, "body": text}, timeout=30
        ).json()
        assert answer["status"] == 200
        return [
            Seen(self.now, reply, measure(reply).parts, True, self._why(answer["id"]))
            for reply in answer["replies"]
        ]

    def _why(self, message_id: str) -> Any:
        with self._db.read() as connection:
            return connection.execute(
                select(t.turn.c.why).where(t.turn.c.message_id == message_id)
            ).scalar()

    def wait(self, step: timedelta) -> list[Seen]:
        until = self._clock.now() + step
        seen: list[Seen] = []
        while True:
            with self._db.read() as connection:
                due = next_due_of_all(connection)
            if due is None or due >= until:
                break
            self._clock.moment = max(due, self._clock.moment)
            seen += self._round()
        self._clock.moment = until
        return seen + self._round()

    def sleep_through(self, step: timedelta) -> list[Seen]:
        self._clock.move(step)
        return self._round()

    def _round(self) -> list[Seen]:
        self._bot.tick()
        self._bot.send()
        found = requests.get(
            f"{self._pretend.url}/pretend/messages", params={"since": self._seen}, timeout=30
        ).json()
        self._seen = int(found["last"])
        return [Seen(self.now, one["body"], one["parts"], True) for one in found["messages"]]

    def longest_text(self) -> int:
        """The most parts that any text of this conversation took."""
        with self._db.read() as connection:
            return int(connection.execute(select(func.max(t.outbox.c.parts))).scalar_one())
