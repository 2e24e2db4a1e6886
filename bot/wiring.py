"""The only place that builds: settings -> handbook, reader, database, gateway, clock -> Bot.

Called by the doors. Nothing else in the project makes one of these parts for itself.
"""

from __future__ import annotations

import gc
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import ceil
from pathlib import Path
from typing import Literal

from sqlalchemy import insert, select

from bot.clock import Clock, FileClock, SystemClock
from bot.facts.dial import Dialled, Screen
from bot.facts.farm import Cooperative
from bot.facts.talk import Incoming
from bot.gateway.client import Gateway, TwilioCompatible
from bot.gateway.plain_http import Dialect, PlainHttp
from bot.gateway.weather import DailyWeather, Weather
from bot.handbook.learned import load_learned
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.shapes import Handbook
from bot.handbook.words import load_words
from bot.outbox.bucket import Bucket
from bot.outbox.claim import sweep
from bot.outbox.dispatch import send_waiting
from bot.outbox.pace import Pace, SharedPace
from bot.outbox.unknowns import reconcile
from bot.records import tables as t
from bot.records.air import keep_forecast
from bot.records.case import next_due_of_all
from bot.records.heartbeat import beat, last_beat
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.settings import Settings, pairs
from bot.turn.dial import take_dial
from bot.turn.take import Taken, as_sms, take_turn
from bot.turn.tick import tick
from bot.understand.read import Reader, compile_words

WEATHER, WEATHER_EVERY = "weather", timedelta(hours=1)
PASSING = timedelta(hours=2)  # a longer silence of the clock is an outage
RECONCILED = 200  # lost answers a minute
BURST_S = 5  # seconds' worth of texts at once: the time between two rounds of the loop


@dataclass(frozen=True)
class Thinking:
    """What needs no database: the handbook and the reader. Built once a process."""

    handbook: Handbook
    reader: Reader


def build_thinking(content: str = "") -> Thinking:
    """Load all content; HandbookError names the file and the key of a slip. What is loaded lives as
    long as the process: the collector of garbage need not walk through it over and over, which took
    a fifth of the clock's time."""
    folder = content_folder(content)
    reader = compile_words(load_words(folder), load_learned(folder))
    thinking = Thinking(load_handbook(folder), reader)
    gc.collect()
    gc.freeze()
    return thinking


@dataclass
class Bot:
    """The whole service: what a door may do with it. bucket: the pace of our sender number.
    weather: who foretells the air outside; None where nobody does."""

    settings: Settings
    thinking: Thinking
    db: Database
    gateway: Gateway
    clock: Clock
    bucket: Pace | None = None
    weather: Weather | None = None

    def take(self, incoming: Incoming) -> Taken:
        """One message in, one answer out."""
        thinking, house = self.thinking, self.settings.house
        return take_turn(self.db, thinking.handbook, thinking.reader, incoming, house=house)

    def take_plain(self, incoming: Incoming) -> Taken:
        """The same where the door can't answer: what is said goes out as a text of our own."""
        thinking, house = self.thinking, self.settings.house
        return take_turn(self.db, thinking.handbook, thinking.reader, incoming, as_sms, house)

    def dial(self, dialled: Dialled) -> Screen:
        """One callback of the phone's own menu in, one screen out."""
        thinking, account = self.thinking, self.settings.gateway_account
        now = self.clock.now()
        house = self.settings.house
        return take_dial(self.db, thinking.handbook, thinking.reader, dialled, account, now, house)

    def tick(self) -> int:
        """Say what is due. A short gap since the last tick is time that passed: each due moment in
        it is played in turn. A long one is an outage: only what counts now is said."""
        now = self.clock.now()
        with self.db.read() as connection:
            before = last_beat(connection, "tick")
        said = 0
        if before is not None and timedelta(0) < now - before <= PASSING:
            said += self._play(before, now)
        return said + tick(self.db, self.thinking.handbook, now)

    def _play(self, before: datetime, now: datetime) -> int:
        said = 0
        moment = before
        while True:
            with self.db.read() as connection:
                due = next_due_of_all(connection)
            if due is None or due >= now:
                return said
            moment = max(due, moment + timedelta(seconds=1))
            said += tick(self.db, self.thinking.handbook, moment)

    def look_ahead(self) -> None:
        """Ask what weather is foretold, once an hour; without an answer the normals stand."""
        if self.weather is None:
            return
        now = self.clock.now()
        with self.db.read() as connection:
            before = last_beat(connection, WEATHER)
        if before is not None and timedelta(0) <= now - before < WEATHER_EVERY:
            return
        found = self.weather.foretell()
        with self.db.write() as connection:
            keep_forecast(connection, found, now.date())
            beat(connection, WEATHER, now)

    def send(self, *, tidy: bool = True) -> int:
        """Send what waits in the outbox. tidy: sweep and settle lost answers first."""
        now = self.clock.now()
        return send_waiting(self.db, self.gateway, now, bucket=self.bucket, tidy=tidy).sent

    def sweep(self) -> None:
        """Drop what is stale or unwanted; find what dead senders held."""
        sweep(self.db, self.clock.now())

    def reconcile(self) -> int:
        """Ask what became of texts whose answer was lost; returns how many are settled."""
        return reconcile(self.db, self.gateway, self.clock.now(), RECONCILED)


def build(settings: Settings, data: Path) -> Bot:
    """The real service on a database in `data` (or the one named), brought to its newest shape."""
    clock: Clock = FileClock(settings.clock_path) if settings.clock_path else SystemClock()
    data.mkdir(parents=True, exist_ok=True)
    db = Database(database_url(settings, data))
    upgrade(db, settings.house.key)
    ensure_cooperative(db, settings)
    return Bot(
        settings=settings,
        thinking=build_thinking(settings.content),
        db=db,
        gateway=gateway_of(settings),
        clock=clock,
        bucket=pace(db, settings.texts_a_second),
        weather=DailyWeather(settings.weather_url) if settings.weather_url else None,
    )


def gateway_of(settings: Settings) -> Gateway:
    """The gateway of the settings: a Twilio-compatible one, or one of a dialect of its own."""
    url, account, token = settings.gateway_url, settings.gateway_account, settings.gateway_token
    if settings.gateway_style:
        style: Literal["form", "json"] = "json" if settings.gateway_style == "json" else "form"
        fixed = pairs(settings.gateway_fixed)
        dialect = Dialect(style, settings.gateway_names, fixed, settings.gateway_id)
        return PlainHttp(url, account, token, settings.sender, dialect)
    receipts = f"{settings.public_url.rstrip('/')}/sms/receipt"
    return TwilioCompatible(url, account, token, settings.sender, receipts)


def pace(db: Database, per_second: float) -> Pace:
    """The pace of our sender number: in this process on SQLite, which has one; else shared."""
    burst = max(1, ceil(per_second * BURST_S))
    return Bucket(per_second, burst) if db.is_sqlite else SharedPace(db, per_second, burst)


def database_url(settings: Settings, data: Path) -> str:
    """The database named, else SQLite in the data folder."""
    return settings.database_url or f"sqlite:///{data / 'broodpost.db'}"


def ensure_cooperative(db: Database, settings: Settings) -> None:
    """On an empty database: one cooperative named by the settings, so that strangers can join."""
    with db.write() as connection:
        if connection.execute(select(t.cooperative.c.id).limit(1)).first() is None:
            connection.execute(insert(t.cooperative).values(**cooperative_values(settings)))


def cooperative_values(settings: Settings) -> dict[str, object]:
    """The row of the first cooperative; hours as facts.farm.Cooperative has them by default."""
    made = Cooperative(0, settings.name, settings.tz, settings.region)
    return {
        "name": made.name,
        "timezone": made.timezone,
        "region": made.region,
        "language": made.language,
        "vet_number": settings.vet or None,
        "routine_at": made.routine_at,
        "night_at": made.night_at,
        "allowed_from": made.allowed_from,
        "allowed_to": made.allowed_to,
        "water_mix": made.water_mix,
        "normals": [list(pair) for pair in settings.monthly_normals],
        "prices": settings.local_prices,
        "quiet": list(settings.quiet_hours),
        "budget": int(settings.budget) if settings.budget else None,
    }
