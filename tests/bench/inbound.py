"""Measures a whole inbound turn over HTTP (signature, repeats, understand, decide, write, answer)
beside a bare route on the same server and database. On SQLite and on PostgreSQL.

In: nothing. Out: one JSON line a database, with p99 at half of the measured maximum. ours: the real
web application. reference: `bare_app`. Both are served by waitress, one process of eight threads,
asked over 16 kept connections from a process of its own. Every answer must be 200. Run by
scripts/bench.
"""

from __future__ import annotations

import http.client
import logging
import os
import signal
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from itertools import count
from multiprocessing import get_context
from random import Random
from statistics import median, quantiles
from threading import Event
from time import monotonic, perf_counter
from typing import Any
from urllib.parse import urlencode

from flask import Flask, Response, request
from sqlalchemy import insert, select
from waitress.server import create_server

from bot.doors.guard import let_in
from bot.doors.web import create_app
from bot.gateway.signature import HEADER, sign
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.outbox_rows import Text, put
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import Bot, build_thinking
from tests.bench.databases import Place
from tests.bench.farms import MORNING, fill, number
from tests.bench.plan import handbook
from tests.bench.send import ACCOUNT, SENDER, TOKEN, client
from tests.bench.sides import Line, by_turns, line, over_databases

CONNECTIONS, SERVER_THREADS, FARMS, ROUNDS = 16, 8, 4000, 5
SECONDS, PACED_SECONDS = 3.0, 6.0
TEXTS = ("3 dead", "temp 31", "they are spread evenly and quiet", "how much feed do they need?",
         "feed 9 kg", "1", "wote wazima", "ils ont froid")  # fmt: skip
SETTINGS = Settings(name="Umoja", gateway_account=ACCOUNT, gateway_token=TOKEN, sender=SENDER)
BARS = "PostgreSQL: ratio at least 0.35, p99 under 100 ms at half the most; SQLite: under 60 ms"
_serial = count(1)


class FarmClock:
    """The real clock, moved to the morning of the farms, so that they are of their age."""

    def __init__(self) -> None:
        self._ahead = MORNING - datetime.now(UTC)

    def now(self) -> datetime:
        return datetime.now(UTC) + self._ahead


def bare_app(db: Database, settings: Settings) -> Flask:
    """The reference: checks the signature, reads one row by index, commits one insert by Core."""
    app = Flask("bare")
    clock = FarmClock()

    @app.post("/sms")
    def sms() -> Response:
        let_in(request, settings)
        form = request.form
        with db.write() as connection:
            connection.execute(select(t.phone.c.id).where(t.phone.c.number == form["From"])).first()
            connection.execute(
                insert(t.turn).values(
                    account=form["AccountSid"],
                    message_id=form["MessageSid"],
                    sender=form["From"],
                    recipient=form["To"],
                    channel="sms",
                    body=form["Body"],
                    at=clock.now(),
                )
            )
        return Response("<Response/>", content_type="text/xml; charset=utf-8")

    return app


def serve(kind: str, database: str, told: Any) -> None:
    """What the server process does."""
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    db = Database(database)
    settings = SETTINGS
    server = create_server(lambda *_: [], host="127.0.0.1", port=0, threads=SERVER_THREADS)
    settings = replace(settings, public_url=f"http://127.0.0.1:{server.effective_port}")
    if kind == "bare":
        app = bare_app(db, settings)
    else:
        bot = Bot(settings, build_thinking(), db, client("http://127.0.0.1:9"), FarmClock())
        app = create_app(bot)
    server.application = app
    told.put(server.effective_port)
    server.run()


@contextmanager
def served(kind: str, database: str) -> Iterator[int]:
    """The port of a server process."""
    made = get_context("spawn")
    told: Any = made.Queue()
    process = made.Process(target=serve, args=(kind, database, told))
    process.start()
    try:
        yield told.get(timeout=60)
    finally:
        if process.pid:
            os.kill(process.pid, signal.SIGKILL)
        process.join()


@dataclass
class Asked:
    """What one connection found. seconds: of each answer, from the moment it should have been
    asked for."""

    seconds: list[float]
    wrong: int = 0


def message(serial: int) -> dict[str, str]:
    """One text of one of the farms."""
    return {
        "AccountSid": ACCOUNT,
        "MessageSid": f"SM{serial}",
        "From": number(1 + serial * 37 % FARMS),
        "To": SENDER,
        "Body": TEXTS[serial % len(TEXTS)],
    }


def ask(port: int, seconds: float, every: float, place: int) -> Asked:
    """One connection that asks as fast as it is answered, or at moments of chance every so many
    seconds on average (Poisson arrivals: farmers do not wait for each other)."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    url, found = f"http://127.0.0.1:{port}/sms", Asked([])
    drawn = Random(place)
    begun = due = perf_counter()
    due += drawn.expovariate(1 / every) if every else 0
    pause = Event()
    while due - begun < seconds:
        form = message(next(_serial))
        headers = {
            HEADER: sign(url, {name: [value] for name, value in form.items()}, TOKEN),
            "Content-Type": "application/x-www-form-urlencoded",
        }
        if every and due > perf_counter():
            pause.wait(due - perf_counter())
        connection.request("POST", "/sms", urlencode(form), headers)
        answer = connection.getresponse()
        answer.read()
        now = perf_counter()
        found.wrong += answer.status != 200
        found.seconds.append(now - due)
        due = due + drawn.expovariate(1 / every) if every else now
    connection.close()
    return found


def load(port: int, seconds: float, a_second: float = 0) -> list[float]:
    """Sixteen connections at once; at a pace where one is given. The seconds of every answer."""
    every = CONNECTIONS / a_second if a_second else 0.0
    with ThreadPoolExecutor(CONNECTIONS) as pool:
        asking = [pool.submit(ask, port, seconds, every, one) for one in range(CONNECTIONS)]
        found = [one.result() for one in asking]
    if any(one.wrong for one in found):
        raise AssertionError(f"{sum(one.wrong for one in found)} answers were not 200")
    return [taken for one in found for taken in one.seconds]


def rate(kind: str, database: str, seconds: float) -> float:
    """Answers a second, once the server is warm."""
    with served(kind, database) as port:
        load(port, seconds / 4)
        begun = perf_counter()
        answers = len(load(port, seconds))
        return answers / (perf_counter() - begun)


def p99_ms(database: str, a_second: float, seconds: float) -> float:
    """Of a hundred answers at this pace, one took longer than this."""
    with served("ours", database) as port:
        load(port, 1.0)
        return quantiles(load(port, seconds, a_second), n=100)[98] * 1000


def use(db: Database) -> None:
    """Every farm texted two days ago, was answered and was asked something: no service that is
    measured is on its first day, and tables that were counted while empty are read to their end."""
    at = MORNING - timedelta(days=2)
    farms = range(1, FARMS + 1)
    with db.write() as connection:
        connection.execute(insert(t.turn), [_turn(one, at) for one in farms])
        connection.execute(insert(t.question), [_question(one, at) for one in farms])
        texts = [Text(f"used:{one}", one, number(one), "reply", "Noted: 3 dead.", at, "answered")
                 for one in farms]  # fmt: skip
        put(connection, *texts)


def _turn(farm: int, at: datetime) -> dict[str, object]:
    return {"account": ACCOUNT, "message_id": f"used:{farm}", "sender": number(farm),
            "recipient": SENDER, "channel": "sms", "body": "3 dead", "at": at, "phone_id": farm,
            "intent": "deaths", "understood": True, "reply": ["Noted: 3 dead."]}  # fmt: skip


def _question(farm: int, at: datetime) -> dict[str, object]:
    return {"phone_id": farm, "name": "behaviour", "kind": "menu", "prompt": "behaviour",
            "options": ["spread", "piled"], "about": {}, "asked_at": at, "pushed": True,
            "closed_at": at}  # fmt: skip


def measure(here: Place, seconds: float = SECONDS, rounds: int = ROUNDS) -> Line:
    """The JSON line of one database."""
    begun = monotonic()
    db = Database(here.make("filled"))
    upgrade(db)
    fill(db, handbook(), FARMS)
    use(db)
    db.close()
    here.tidy("filled")

    def fresh() -> str:
        return here.copy("filled", "round")

    own, others = by_turns(
        lambda: rate("ours", fresh(), seconds), lambda: rate("bare", fresh(), seconds), rounds
    )
    paced = median(own) / 2
    slowest = p99_ms(fresh(), paced, 2 * seconds)
    more = {"connections": CONNECTIONS, "server": f"waitress, {SERVER_THREADS} threads",
            "p99_ms_at_half": round(slowest, 1), "half": round(paced), "bar": BARS}  # fmt: skip
    return line("inbound", here.name, "turns/s", own, others, begun, **more)


def main() -> None:
    over_databases(
        "inbound",
        "rounds four times as long",
        lambda here, full: [measure(here, SECONDS * 4 if full else SECONDS)],
    )


if __name__ == "__main__":
    main()
