"""Figures for Prometheus. In: the database at each scrape, and each message as it is taken. Out:
the text of GET /metrics. Built by doors/web; what is counted here holds for this process, what is
read from the database for all."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from datetime import datetime
from time import perf_counter

from prometheus_client import CollectorRegistry, Counter, Histogram, generate_latest
from prometheus_client.core import GaugeMetricFamily, Metric
from prometheus_client.registry import Collector
from sqlalchemy import func, select

from bot.clock import Clock
from bot.facts.dial import Screen
from bot.facts.limits import Limits
from bot.facts.writes import KeepUnread
from bot.records import tables as t
from bot.records.case import next_due_of_all
from bot.records.session import Database
from bot.turn.take import Taken

LOOPS = ("tick", "send")
_REPLY_SECONDS = (0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 3, 15)


class Figures:
    """All figures of one process."""

    def __init__(self, db: Database, clock: Clock, limits: Limits) -> None:
        self._registry = CollectorRegistry(auto_describe=False)
        self._registry.register(_FromDatabase(db, clock, limits))
        self._taken = Counter(
            "broodpost_messages",
            "Messages taken, by what became of them",
            ["result"],
            registry=self._registry,
        )
        self._seconds = Histogram(
            "broodpost_reply_seconds",
            "From the message to its answer",
            buckets=_REPLY_SECONDS,
            registry=self._registry,
        )

        self._screens = Counter(
            "broodpost_screens",
            "Screens of the phone's own menu, those that go on and last ones",
            ["kind"],
            registry=self._registry,
        )

    def note_screen(self, screen: Screen) -> None:
        """Count one screen that was shown."""
        self._screens.labels("more" if screen.more else "last").inc()

    def note(self, taken: Taken, begun: float) -> None:
        """Count one message; begun: perf_counter() when it came."""
        self._seconds.observe(perf_counter() - begun)
        self._taken.labels(_result(taken)).inc()

    def text(self) -> bytes:
        return generate_latest(self._registry)


def _result(taken: Taken) -> str:
    if taken.repeated:
        return "repeated"
    unread = any(isinstance(one, KeepUnread) for one in taken.decision.writes)
    return "not_understood" if unread else "understood"


class _FromDatabase(Collector):
    """Reads the outbox and the loops when asked."""

    def __init__(self, db: Database, clock: Clock, limits: Limits) -> None:
        self._db = db
        self._clock = clock
        self._limits = limits

    def collect(self) -> Iterator[Metric]:
        now = self._clock.now()
        yield from self._texts()
        yield self._oldest(now)
        yield self._loops(now)
        yield self._due_lag(now)
        yield from self._caps(now)

    def _texts(self) -> Iterator[Metric]:
        row = t.outbox.c
        texts = GaugeMetricFamily(
            "broodpost_outbox_texts", "Texts in the outbox, by state", labels=["state"]
        )
        parts = GaugeMetricFamily(
            "broodpost_outbox_parts", "Their parts, as a gateway bills them", labels=["state"]
        )
        with self._db.read() as connection:
            found = select(row.state, func.count(), func.sum(row.parts)).group_by(row.state)
            for state, number, billed in connection.execute(found):
                texts.add_metric([state], number)
                parts.add_metric([state], billed)
        yield texts
        yield parts

    def _oldest(self, now: datetime) -> Metric:
        row = t.outbox.c
        oldest = GaugeMetricFamily(
            "broodpost_outbox_oldest_seconds",
            "How long the oldest text that may go has waited, by class",
            labels=["klass"],
        )
        with self._db.read() as connection:
            for klass, since in connection.execute(
                select(row.klass, func.min(row.not_before, type_=t.Moment()))
                .where(row.state == "waiting", row.not_before <= now)
                .group_by(row.klass)
            ):
                oldest.add_metric([klass], (now - since).total_seconds())
        return oldest

    def _loops(self, now: datetime) -> Metric:
        ages = GaugeMetricFamily(
            "broodpost_loop_age_seconds", "Since a loop last did its work", labels=["loop"]
        )
        with self._db.read() as connection:
            for name, at in connection.execute(
                select(t.heartbeat.c.name, t.heartbeat.c.at).where(t.heartbeat.c.name.in_(LOOPS))
            ):
                ages.add_metric([name], (now - at).total_seconds())
        return ages

    def _caps(self, now: datetime) -> Iterator[Metric]:
        """Every limit, and what is counted towards those of all phones together."""
        limits = GaugeMetricFamily("broodpost_limit", "What is answered at most", labels=["limit"])
        for one in fields(self._limits):
            limits.add_metric([one.name], getattr(self._limits, one.name))
        yield limits
        used = GaugeMetricFamily(
            "broodpost_counted", "Counted today, or this month, towards a cap", labels=["cap"]
        )
        budgets = GaugeMetricFamily(
            "broodpost_budget_parts", "Parts a month that a cooperative may send", labels=["id"]
        )
        row, cooperative = t.tally.c, t.cooperative.c
        with self._db.read() as connection:
            for name, n in connection.execute(
                select(row.name, row.n).where(row.period.in_((f"{now:%Y-%m-%d}", f"{now:%Y-%m}")))
            ):
                used.add_metric([name], n)
            for number, most in connection.execute(
                select(cooperative.id, cooperative.budget).where(cooperative.budget.is_not(None))
            ):
                budgets.add_metric([str(number)], most)
        yield used
        yield budgets

    def _due_lag(self, now: datetime) -> Metric:
        with self._db.read() as connection:
            due = next_due_of_all(connection)
        late = 0.0 if due is None else max(0.0, (now - due).total_seconds())
        return GaugeMetricFamily(
            "broodpost_due_lag_seconds", "By how much the oldest due batch is late", value=late
        )
