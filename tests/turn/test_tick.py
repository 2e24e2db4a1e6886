"""The clock through the real tick and database: outages, jumps, daylight saving. Nothing stale,
nothing twice."""

from __future__ import annotations

from datetime import UTC, datetime, time, timedelta

import pytest
from sqlalchemy import select, update

from bot.clock import FixedClock
from bot.gateway.client import Outgoing, Sent
from bot.handbook.shapes import Handbook
from bot.outbox.dispatch import send_waiting
from bot.records import tables as t
from bot.records.session import Database
from bot.wiring import Bot, Thinking
from tests.kill.plain import MORNING, SETTINGS, PlainReader, add_cooperative, add_farms, handbook

HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture(scope="module")
def book() -> Handbook:
    return handbook()


class Ear:
    """A gateway that takes everything."""

    def __init__(self, clock: FixedClock) -> None:
        self._clock = clock
        self.heard: list[tuple[datetime, str]] = []

    def send(self, outgoing: Outgoing) -> Sent:
        self.heard.append((self._clock.moment, outgoing.text))
        return Sent(f"SM{len(self.heard)}", "sent")

    def find(self, to: str, text: str, since: datetime) -> tuple[Sent, ...]:
        del to, text, since
        return ()


class Farm:
    """One farm with chicks of three days, and the service's clock in our hand."""

    def __init__(self, db: Database, book: Handbook) -> None:
        add_cooperative(db)
        add_farms(db, 1)
        self.db = db
        self.clock = FixedClock(MORNING - timedelta(minutes=5))
        self.ear = Ear(self.clock)
        self.bot = Bot(SETTINGS, Thinking(book, PlainReader()), db, self.ear, self.clock)
        self.round()

    def at(self, moment: datetime) -> None:
        """The clock shows `moment` and the loop goes round once."""
        self.clock.moment = moment
        self.round()

    def round(self) -> None:
        self.bot.tick()
        send_waiting(self.db, self.ear, self.clock.now(), threads=1)

    def until(self, moment: datetime, step: timedelta = timedelta(minutes=30)) -> None:
        """The loop goes round and round."""
        while self.clock.moment < moment:
            self.at(min(self.clock.moment + step, moment))

    @property
    def keys(self) -> list[str]:
        """What was said: local date and slot, in order."""
        with self.db.read() as connection:
            found = connection.execute(
                select(t.outbox.c.business_key, t.outbox.c.state).order_by(t.outbox.c.id)
            ).all()
        assert {row.state for row in found} <= {"sent", "delivered", "expired"}
        return [row.business_key.split(":", 2)[2] for row in found]

    def move_to(self, zone: str, **hours: time) -> None:
        with self.db.write() as connection:
            connection.execute(update(t.cooperative).values(timezone=zone, **hours))

    def place(self, placed: datetime) -> None:
        """The batch came at another moment; nothing was said to it yet."""
        with self.db.write() as connection:
            connection.execute(
                update(t.batch).values(
                    placed_on=placed.date(), arrived_at=placed, next_due=placed + DAY / 2, said=""
                )
            )
            connection.execute(update(t.phone).values(heard_at=placed))
            for table in (t.outbox, t.heartbeat):
                connection.execute(table.delete())
        self.ear.heard.clear()
        self.clock.moment = placed + HOUR


@pytest.fixture
def farm(db: Database, book: Handbook) -> Farm:
    return Farm(db, book)


def test_a_morning_is_said_at_its_hour_and_once(farm: Farm) -> None:
    assert farm.keys == []
    farm.at(MORNING)
    farm.at(MORNING)
    farm.at(MORNING + timedelta(minutes=1))
    assert farm.keys == ["2026-03-05:morning"]
    assert farm.ear.heard[0][0] == MORNING


def test_after_an_outage_of_two_days_one_catch_up_comes_and_nothing_stale(farm: Farm) -> None:
    farm.at(MORNING)
    farm.at(MORNING + 2 * DAY + 4 * HOUR)
    farm.at(MORNING + 2 * DAY + 4 * HOUR + timedelta(seconds=5))
    assert farm.keys == ["2026-03-05:morning", "2026-03-07:morning"]
    assert "Day 6" in farm.ear.heard[-1][1]


def test_what_waited_in_the_outbox_through_an_outage_is_dropped(farm: Farm) -> None:
    farm.clock.moment = MORNING
    farm.bot.tick()  # decided, but the sender is down
    farm.at(MORNING + 2 * DAY + HOUR)
    assert ["Day 6" in text for _, text in farm.ear.heard] == [True]


@pytest.mark.parametrize("jump", [HOUR, DAY])
def test_a_clock_set_back_says_nothing_twice_and_goes_on_afterwards(
    farm: Farm, jump: timedelta
) -> None:
    farm.until(MORNING + HOUR)
    farm.at(MORNING + HOUR - jump)
    farm.until(MORNING + 2 * DAY + HOUR)
    said = farm.keys
    assert len(set(said)) == len(said)
    days = [f"2026-03-0{day}:morning" for day in (5, 6, 7)]
    assert [key for key in said if key in days] == days
    assert len(farm.ear.heard) == len(said)


@pytest.mark.parametrize("jump", [HOUR, DAY])
def test_a_clock_put_forward_says_only_what_counts_then(farm: Farm, jump: timedelta) -> None:
    farm.at(MORNING)
    farm.at(MORNING + jump)
    farm.at(MORNING + jump)
    days = ["2026-03-05:morning"] + (["2026-03-06:morning"] if jump == DAY else [])
    assert [key for key in farm.keys if key.endswith("morning")] == days


def test_a_clock_put_forward_and_back_again_says_each_day_once(farm: Farm) -> None:
    farm.at(MORNING)
    farm.at(MORNING + DAY)
    farm.at(MORNING + timedelta(minutes=1))
    farm.until(MORNING + 2 * DAY)
    said = [key for key in farm.keys if key.endswith("morning")]
    assert said == [f"2026-03-0{day}:morning" for day in (5, 6, 7)]


# Daylight saving: Europe/Paris, 29 March and 25 October 2026 at 01:00 UTC (Directive 2000/84/EC)


def test_a_local_time_that_does_not_exist_goes_at_the_next_that_does(farm: Farm) -> None:
    farm.move_to("Europe/Paris", routine_at=time(2, 30), allowed_from=time(0))
    farm.place(datetime(2026, 3, 26, 7, tzinfo=UTC))
    farm.until(datetime(2026, 3, 31, 12, tzinfo=UTC))
    mornings = [key for key in farm.keys if key.endswith("morning")]
    assert mornings == [f"2026-03-{day}:morning" for day in (27, 28, 29, 30, 31)]
    of_the_change = [at for at, _ in farm.ear.heard if f"{at:%m-%d %H:%M}" == "03-29 01:00"]
    assert len(of_the_change) == 1  # 03:00 on the wall, where 02:30 was left out


def test_a_local_time_that_occurs_twice_goes_once(farm: Farm) -> None:
    farm.move_to("Europe/Paris", routine_at=time(2, 30), allowed_from=time(0))
    farm.place(datetime(2026, 10, 22, 7, tzinfo=UTC))
    farm.until(datetime(2026, 10, 27, 12, tzinfo=UTC))
    mornings = [key for key in farm.keys if key.endswith("morning")]
    assert mornings == [f"2026-10-{day}:morning" for day in (23, 24, 25, 26, 27)]
    of_the_change = [at for at, _ in farm.ear.heard if f"{at:%m-%d}" == "10-25" and at.hour < 3]
    assert of_the_change == [datetime(2026, 10, 25, 0, 30, tzinfo=UTC)]
