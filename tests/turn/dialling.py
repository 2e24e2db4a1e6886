"""A phone that dials the service's own menu, for tests: through the real door, a fixed clock and a
given database. Every screen it gets is held to the rules of a screen."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from sqlalchemy import insert, select

from bot.clock import FixedClock
from bot.doors.rehearsal import Ear
from bot.doors.web import create_app
from bot.facts.talk import Incoming
from bot.records import tables as t
from bot.records.session import Database
from bot.say.segments import measure
from bot.settings import Settings
from bot.wiring import Bot, Thinking, cooperative_values

NOW = datetime(2026, 3, 9, 7, 0, tzinfo=UTC)  # a Monday, 10:00 in Nairobi
FARMER = "+254700000001"
SERVICE = "+254700000100"
SECRET = "an-invented-path-of-more-than-24-letters"
SEPTETS = 150  # with "CON " (channel rules of this project; 3GPP TS 22.090 allows 182)
BEGIN = {
    "en": ("new batch 300 arrived 3 days ago", "1", "2", "2"),
    "fr": ("300 poussins arrives il y a 3 jours", "1", "2", "2"),
    "sw": ("vifaranga 300 walifika siku 3 zilizopita", "1", "2", "2"),
}


def service(db: Database, thinking: Thinking) -> Bot:
    """The service on an empty database, with one cooperative."""
    settings = Settings(
        name="Mkulima",
        vet="+254700000099",
        unsigned="1",
        public_url="http://127.0.0.1",
        ussd_secret=SECRET,
        gateway_account="ACtest",
    )
    clock = FixedClock(NOW)
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(id=1, **cooperative_values(settings)))
    return Bot(settings, thinking, db, Ear(clock), clock)


@dataclass
class Dialler:
    """One phone. screens: what it was shown since it last dialled."""

    bot: Bot
    number: str = FARMER
    screens: list[str] = field(default_factory=list)
    session: str = ""
    typed: str = ""
    count: int = 0

    def __post_init__(self) -> None:
        self._client = create_app(self.bot).test_client()

    def begin(self, language: str) -> None:
        """A farmer whose batch of 300 has its fourth day today."""
        for text in BEGIN[language]:
            self.text(text)

    def text(self, body: str) -> tuple[str, ...]:
        """The phone texts; what it is answered."""
        self.pass_time(minutes=1)
        self.count += 1
        incoming = Incoming(
            f"SM{self.number}{self.count}", "ACtest", self.number, SERVICE, body, self.now
        )
        return self.bot.take(incoming).texts

    @property
    def now(self) -> datetime:
        return self.bot.clock.now()

    def pass_time(self, **span: float) -> None:
        assert isinstance(self.bot.clock, FixedClock)
        self.bot.clock.move(timedelta(**span))

    def dial(self, typed: str = "") -> str:
        """Begin a session; typed: what was dialled behind the code."""
        self.count += 1
        self.session, self.typed, self.screens = f"session {self.count}", typed, []
        return self.post()

    def press(self, *keys: str) -> str:
        """Type at the screens that follow; the last screen."""
        shown = ""
        for key in keys:
            self.typed = f"{self.typed}*{key}" if self.typed else key
            shown = self.post()
        return shown

    def post(self) -> str:
        """One callback as the gateway posts it; posted twice it is the same callback."""
        answer = self._client.post(
            f"/ussd/{SECRET}",
            data={
                "sessionId": self.session,
                "phoneNumber": self.number,
                "serviceCode": "*384*5#",
                "networkCode": "99999",
                "text": self.typed,
            },
        )
        assert answer.status_code == 200
        assert answer.content_type == "text/plain; charset=utf-8"
        shown = answer.get_data(as_text=True)
        assert shown.startswith(("CON ", "END "))
        assert shown.isascii()
        assert measure(shown).encoding == "gsm7"
        assert measure(shown).units <= SEPTETS, shown
        self.screens.append(shown)
        return shown

    def figures(self) -> str:
        """What the service tells Prometheus."""
        return self._client.get("/metrics").get_data(as_text=True)

    def waiting(self) -> list[str]:
        """The texts that wait to be sent to this phone."""
        with self.bot.db.read() as connection:
            return list(
                connection.execute(
                    select(t.outbox.c.text)
                    .where(t.outbox.c.to_number == self.number, t.outbox.c.state == "waiting")
                    .order_by(t.outbox.c.id)
                ).scalars()
            )

    def events(self, kind: str) -> list[dict[str, object]]:
        """What was taken down of a kind."""
        with self.bot.db.read() as connection:
            found = connection.execute(
                select(t.event.c.data).where(t.event.c.kind == kind).order_by(t.event.c.id)
            )
            return [dict(data) for data in found.scalars()]

    def told(self) -> list[str]:
        """The kinds of lines on the adviser's list."""
        with self.bot.db.read() as connection:
            return list(connection.execute(select(t.adviser.c.kind)).scalars())
