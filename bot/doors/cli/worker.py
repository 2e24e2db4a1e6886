"""`broodpost worker`: clock and sender on PostgreSQL, on as many machines as wanted."""

from __future__ import annotations

import asyncio
import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.doors.log import set_up_logging
from bot.errors import BroodpostError
from bot.settings import read_settings
from bot.wiring import build

if TYPE_CHECKING:
    from procrastinate import App

ENDS_WITHIN_S = 20.0


@click.command("worker")
@click.option("--planners", type=int, default=2, show_default=True, help="planning jobs a minute")
@click.option("--senders", type=int, default=2, show_default=True, help="sending jobs a minute")
@click.option("--at-once", type=int, default=4, show_default=True, help="jobs this worker runs")
def worker_command(planners: int, senders: int, at_once: int) -> None:
    """Plan and send with Procrastinate; needs the extra [scale] and PostgreSQL.

    Settings come from the environment, as for serve; start the web beside it with
    `broodpost serve --web-only`. Every worker of an installation is given the same numbers.

    \b
    Example:
      BROODPOST_DATABASE_URL=postgresql+psycopg://broodpost@db/broodpost broodpost worker
    """
    try:
        from bot.doors.jobs import Crew, make_jobs
    except ImportError as missing:
        raise BroodpostError("workers need the extra: pip install 'broodpost[scale]'") from missing
    settings = read_settings(os.environ)
    if not settings.database_url:
        raise BroodpostError("workers need PostgreSQL: set BROODPOST_DATABASE_URL")
    set_up_logging(settings)
    app = make_jobs(build(settings, Path()), Crew(planners, senders))
    asyncio.run(_work(app, at_once))


async def _work(app: App, at_once: int) -> None:
    from bot.doors.jobs import ready

    async with app.open_async():
        await ready(app)
        await app.run_worker_async(
            concurrency=at_once, delete_jobs="successful", shutdown_graceful_timeout=ENDS_WITHIN_S
        )
