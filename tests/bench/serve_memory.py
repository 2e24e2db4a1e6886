"""Measures the memory of a service that answers text after text: after 10,000 turns beside after
1,000. On SQLite, through the whole web application in one process.

In: --full for 100,000 turns. Out: one JSON line. Memory is what the process holds as Linux tells
it. The service runs in a fresh process, so that nothing else is counted. Run by scripts/bench.
"""

from __future__ import annotations

import argparse
from multiprocessing import get_context
from time import monotonic
from typing import Any

from bot.doors.web import create_app
from bot.gateway.signature import HEADER, sign
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.wiring import Bot, build_thinking
from tests.bench.databases import place
from tests.bench.farms import fill
from tests.bench.inbound import FARMS, SETTINGS, FarmClock, message
from tests.bench.plan import handbook
from tests.bench.read import resident_kb
from tests.bench.send import TOKEN, client
from tests.bench.sides import Line, line, show

EARLY, TURNS = 1_000, 10_000
BAR = "after 10,000 turns at most 1.1 of after 1,000"


def turns(database: str, early: int, many: int, told: Any) -> None:
    """What the process does: so many signed texts; puts the kB after some and after all."""
    db = Database(database)
    bot = Bot(SETTINGS, build_thinking(), db, client("http://127.0.0.1:9"), FarmClock())
    phone = create_app(bot).test_client()
    url = f"{SETTINGS.public_url}/sms"
    for serial in range(1, many + 1):
        form = message(serial)
        signed = sign(url, {name: [value] for name, value in form.items()}, TOKEN)
        answer = phone.post("/sms", data=form, headers={HEADER: signed})
        if answer.status_code != 200:
            raise AssertionError(f"turn {serial}: {answer.status_code}")
        if serial in (early, many):
            told.put(resident_kb())


def measure(early: int = EARLY, many: int = TURNS) -> Line:
    """The JSON line."""
    begun = monotonic()
    with place("sqlite") as here:
        url = here.make("memory")
        db = Database(url)
        upgrade(db)
        fill(db, handbook(), FARMS)
        db.close()
        made = get_context("spawn")
        told: Any = made.Queue()
        process = made.Process(target=turns, args=(url, early, many, told))
        process.start()
        first, last = told.get(), told.get()
        process.join()
    return line("serve-memory", "sqlite", "kB", [last], [first], begun, turns=many, bar=BAR)


def main() -> None:
    parser = argparse.ArgumentParser(prog="scripts/bench serve-memory")
    parser.add_argument("--full", action="store_true", help="100,000 turns")
    parser.add_argument("--json", action="store_true", help="as always")
    show(measure(many=100_000 if parser.parse_args().full else TURNS))


if __name__ == "__main__":
    main()
