"""Workers on PostgreSQL: a morning planned and sent by jobs; a dead worker's job begun again."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator

import pytest
from click.testing import CliRunner
from procrastinate import App
from sqlalchemy import select, text

from bot.clock import FixedClock
from bot.doors.cli.group import broodpost
from bot.doors.jobs import Crew, begin_again, make_jobs, ready
from bot.errors import BroodpostError
from bot.records import tables as t
from bot.records.session import Database
from bot.wiring import Bot, Thinking
from tests.bench.databases import Place
from tests.kill.plain import (
    MORNING,
    SETTINGS,
    PlainReader,
    add_cooperative,
    add_farms,
    handbook,
    keys,
)
from tests.outbox.conftest import FakeGateway

FARMS = 30
ONCE = Crew(planners=2, senders=2, sending_s=0)


@pytest.fixture
def bot(postgres_url: str) -> Iterator[Bot]:
    """A service on a database of its own, with farms whose morning has come."""
    db = Database(Place("postgresql", postgres_url).make("jobs"))
    db.create_all()
    add_cooperative(db)
    add_farms(db, FARMS)
    thinking = Thinking(handbook(), PlainReader())
    yield Bot(SETTINGS, thinking, db, FakeGateway(), FixedClock(MORNING))
    db.close()


def states(bot: Bot) -> set[str]:
    with bot.db.read() as connection:
        return set(connection.execute(select(t.outbox.c.state)).scalars())


async def work(app: App) -> None:
    """Run every job that waits, the jobs they begin too; no minute begins meanwhile. A worker that
    does not wait ends when it finds no job, though one that runs may still begin others."""
    app.periodic_registry.periodic_tasks.clear()
    waits = True
    while waits:
        await app.run_worker_async(
            wait=False, concurrency=4, install_signal_handlers=False, listen_notify=False
        )
        waits = bool(list(await app.job_manager.list_jobs_async(status="todo")))


def test_a_minute_of_jobs_says_every_farm_its_morning_once(bot: Bot) -> None:
    app = make_jobs(bot, ONCE)

    async def minute() -> None:
        async with app.open_async():
            await ready(app)
            await ready(app)  # a second worker finds the tables made
            await app.configure_task("tick").defer_async(timestamp=0)
            await work(app)
            await app.configure_task("send").defer_async()
            await work(app)

    asyncio.run(minute())
    assert len(keys(bot.db)) == FARMS
    assert states(bot) == {"sent"}


def test_a_job_whose_worker_died_is_begun_again(bot: Bot) -> None:
    app = make_jobs(bot, ONCE)

    async def die_and_be_rescued() -> int:
        async with app.open_async():
            await ready(app)
            await app.configure_task("plan", lock="plan-0").defer_async()
            dead = await app.job_manager.register_worker()
            job = await app.job_manager.fetch_job(queues=None, worker_id=dead)
            assert job is not None
            with bot.db.write() as connection:  # it is not seen any more
                connection.execute(
                    text("UPDATE procrastinate_workers SET last_heartbeat = now() - interval '1h'")
                )
            await work(app)
            assert keys(bot.db) == []  # nothing else begins it
            begun = await begin_again(app)
            await work(app)
            return begun

    assert asyncio.run(die_and_be_rescued()) == 1
    assert len(keys(bot.db)) == FARMS


def test_workers_say_what_they_need(tmp_path: object) -> None:
    del tmp_path
    here = Database("sqlite://")
    bot = Bot(SETTINGS, Thinking(handbook(), PlainReader()), here, FakeGateway(),
              FixedClock(MORNING))  # fmt: skip
    with pytest.raises(BroodpostError, match="need PostgreSQL"):
        make_jobs(bot)
    told = CliRunner().invoke(broodpost, ["worker"], env={"BROODPOST_UNSIGNED": "1"})
    assert isinstance(told.exception, BroodpostError)
