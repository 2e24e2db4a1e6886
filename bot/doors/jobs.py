"""Coarse jobs for many machines, run by Procrastinate on the PostgreSQL database of the service:
the clock's tick, a sender's minute, settling lost answers, sweeping. In: a Bot. Out: an
application of Procrastinate. Run by `broodpost worker`; the outbox stays the ledger of texts, no
text is a job.

A job whose worker died is begun again by `rescue`: each is safe to run twice, because what it does
is claimed row by row.
"""

from __future__ import annotations

import asyncio
from dataclasses import dataclass
from time import monotonic
from typing import Any

from procrastinate import App, PsycopgConnector
from procrastinate.exceptions import AlreadyEnqueued, UniqueViolation
from procrastinate.jobs import Status
from procrastinate.tasks import Task

from bot.errors import BroodpostError
from bot.wiring import Bot

EVERY_MINUTE = "* * * * *"
DEAD_S = 30.0  # a worker that was not seen for so long is dead


@dataclass(frozen=True, slots=True)
class Crew:
    """planners, senders: how many jobs of each kind a minute has. sending_s: how long a sender
    goes on; pause_s: between two looks that found nothing."""

    planners: int = 2
    senders: int = 2
    sending_s: float = 50.0
    pause_s: float = 1.0


def make_jobs(bot: Bot, crew: Crew | None = None) -> App:
    """The application with all its jobs; BroodpostError where the database is no PostgreSQL."""
    if bot.db.is_sqlite:
        raise BroodpostError("workers need PostgreSQL: set BROODPOST_DATABASE_URL")
    app = App(connector=PsycopgConnector(conninfo=bot.db.url.replace("+psycopg", "", 1)))
    size = crew or Crew()

    @app.task(name="plan")
    async def plan() -> None:
        await asyncio.to_thread(bot.tick)

    @app.task(name="send")
    async def send() -> None:
        until = monotonic() + size.sending_s
        while True:
            sent = await asyncio.to_thread(bot.send, tidy=False)
            if monotonic() >= until:
                return
            if not sent:
                await asyncio.sleep(size.pause_s)

    @app.periodic(cron=EVERY_MINUTE)
    @app.task(name="tick", queueing_lock="tick")
    async def tick(timestamp: int) -> None:
        del timestamp
        await asyncio.to_thread(bot.look_ahead)
        await _begin(plan, size.planners)
        await _begin(send, size.senders)

    @app.periodic(cron=EVERY_MINUTE)
    @app.task(name="reconcile", queueing_lock="reconcile")
    async def reconcile(timestamp: int) -> None:
        del timestamp
        await asyncio.to_thread(bot.reconcile)

    @app.periodic(cron=EVERY_MINUTE)
    @app.task(name="sweep", queueing_lock="sweep")
    async def sweep(timestamp: int) -> None:
        del timestamp
        await asyncio.to_thread(bot.sweep)

    @app.periodic(cron=EVERY_MINUTE)
    @app.task(name="rescue", queueing_lock="rescue")
    async def rescue(timestamp: int) -> None:
        del timestamp
        await begin_again(app)

    return app


async def begin_again(app: App, dead_s: float = DEAD_S) -> int:
    """Begin again what dead workers held; returns how many jobs. One that waits already under the
    same name takes the place of the lost one."""
    stalled = list(await app.job_manager.get_stalled_jobs(seconds_since_heartbeat=dead_s))
    for job in stalled:
        try:
            await app.job_manager.retry_job(job)
        except (AlreadyEnqueued, UniqueViolation):
            await app.job_manager.finish_job(job, status=Status.FAILED, delete_job=False)
    return len(stalled)


async def ready(app: App) -> None:
    """Make the engine's tables where they are missing. The application must be open."""
    found = await app.connector.execute_query_one_async(
        "SELECT to_regclass('procrastinate_jobs') AS jobs"
    )
    if found["jobs"] is None:
        await app.schema_manager.apply_schema_async()


async def _begin(task: Task[Any, Any, Any], count: int) -> None:
    """So many jobs of a kind, each under its own name: one that still waits is not doubled, one
    that still runs is not run beside itself."""
    for place in range(count):
        name = f"{task.name}-{place}"
        try:
            await task.configure(queueing_lock=name, lock=name).defer_async()
        except AlreadyEnqueued:
            continue
