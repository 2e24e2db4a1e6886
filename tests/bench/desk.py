"""Measures the pages of the desk beside their bare queries: on PostgreSQL, with a union's farms and
all that was said to them.

In: --full for 10,000 farms and 1,000,000 messages (else a tenth). Out: one JSON line a page, read
from the application, so that none is forgotten: milliseconds of the page as sent, of its statements
alone, how many they are, and its bytes, packed and plain. Run by scripts/bench desk.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from datetime import timedelta
from statistics import median
from time import perf_counter
from typing import Any

from sqlalchemy import event, insert, select, text
from werkzeug.routing import Rule

from bot.clock import FixedClock
from bot.doors.desk.frame import COOKIE
from bot.doors.web import create_app
from bot.gateway.client import TwilioCompatible
from bot.records import tables as t
from bot.records.desk_staff import open_session
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import Bot, build_thinking
from tests.bench.databases import Place, place
from tests.bench.farms import MORNING, fill
from tests.bench.plan import handbook

FARMS, MESSAGES = 1_000, 100_000
ROUNDS = 41
DAYS = 60  # over which the messages are spread
NOW = MORNING + timedelta(hours=3)
SETTINGS = Settings(unsigned="1", desk="1")
TOKEN = "bench"
BAR = 5.0  # times its bare queries
Query = tuple[str, Any]

SAID = """
INSERT INTO outbox (business_key, phone_id, batch_id, to_number, klass, text, parts, encoding,
 state, attempt, not_before, created_at, sent_at)
SELECT 'bench:' || n, 1 + n % :farms, 1 + n % :farms, '+15005550000',
 (ARRAY['routine','night','reply','check_back','routine','danger'])[1 + n % 6],
 repeat('word ', 28), 1, 'gsm7', 'delivered', 1, at, at, at
FROM (SELECT n, :now - make_interval(secs => (:many - n) * :days * 86400.0 / :many) AS at
 FROM generate_series(1, :many) n) made
"""
HEARD = """
INSERT INTO turn (account, message_id, sender, recipient, channel, body, at, phone_id, intent,
 understood)
SELECT 'AC', 'bench' || n, phone.number, '+15005550100', 'sms', '2 dead today', at, phone.id,
 'deaths', n % 20 > 0
FROM (SELECT n, :now - make_interval(secs => (:many - n) * :days * 86400.0 / :many) AS at
 FROM generate_series(1, :many) n) made JOIN phone ON phone.id = 1 + n % :farms
"""


def filled(here: Place, farms: int, messages: int) -> Database:
    """Farms on the eve of a morning, with a message of theirs to four of ours; one in ten ended."""
    db = Database(here.make("desk"))
    upgrade(db)
    fill(db, handbook(), farms)
    with db.write() as connection:
        for statement, many in ((SAID, messages * 4 // 5), (HEARD, messages // 5)):
            bound = {"farms": farms, "many": many, "now": NOW, "days": DAYS}
            connection.execute(text(statement), bound)
        connection.execute(text("UPDATE person SET name = 'Farmer ' || id"))
        connection.execute(text("UPDATE batch SET state = 'closed' WHERE id % 10 = 0"))
        connection.execute(
            insert(t.staff).values(
                id=1, cooperative_id=1, name="Amina", sign_in="amina", password="-", fresh=False,
                role="owns", language="en", created_at=NOW,
            )
        )  # fmt: skip
        open_session(connection, 1, TOKEN, NOW, proved=True)
    here.tidy("desk")
    return db


def pages(db: Database, farms: int) -> Iterator[dict[str, object]]:
    """A line a page."""
    gateway = TwilioCompatible("http://127.0.0.1:9", "AC", "", "+15005550100", "")
    app = create_app(Bot(SETTINGS, build_thinking(), db, gateway, FixedClock(NOW)))
    client = app.test_client()
    client.set_cookie(COOKIE, TOKEN, path="/desk")
    with db.read() as connection:
        entry = connection.execute(select(t.event.c.id).order_by(t.event.c.id)).scalar()
    ids = {"person": farms // 2 + 1, "batch": farms // 2 + 1, "phone": farms // 2 + 1,
           "entry": entry or 1}  # fmt: skip
    for rule in app.url_map.iter_rules():
        if rule.rule.startswith("/desk/") and "GET" in (rule.methods or ()) and _shown(rule):
            values: dict[str, Any] = {name: ids.get(name, 1) for name in rule.arguments}
            with app.test_request_context():
                path = app.url_for(rule.endpoint, **values)
            line = _measured(db, client, path)
            if line is not None:
                yield {"page": rule.rule, **line}


def _shown(rule: Rule) -> bool:
    return not any(one in rule.rule for one in ("style-", "<path:", "/in"))


def _measured(db: Database, client: Any, path: str) -> dict[str, object] | None:
    """Page and bare queries by turns, so that what else runs here hits both; the middle of each."""
    queries = _queries(db, client, path)
    first = client.get(path)
    if first.status_code != 200:
        return None
    taken: list[float] = []
    bare: list[float] = []
    for _ in range(ROUNDS):
        begun = perf_counter()
        client.get(path, headers={"Accept-Encoding": "gzip"})
        taken.append(perf_counter() - begun)
        bare.append(_run(db, queries))
    page, alone = median(taken) * 1000, median(bare) * 1000
    packed = client.get(path, headers={"Accept-Encoding": "gzip"}).data
    return {
        "page_ms": round(page, 1),
        "bare_ms": round(alone, 1),
        "ratio": round(page / alone, 2),
        "met": page <= BAR * alone,
        "queries": len(queries),
        "bytes": len(first.data),
        "packed": len(packed),
    }


def _queries(db: Database, client: Any, path: str) -> list[Query]:
    found: list[Query] = []

    def note(_c: object, _cursor: object, statement: str, given: Any, *_: object) -> None:
        found.append((statement, given))

    event.listen(db.engine, "before_cursor_execute", note)
    try:
        client.get(path)
    finally:
        event.remove(db.engine, "before_cursor_execute", note)
    return found


def _run(db: Database, queries: list[Query]) -> float:
    """Seconds of the statements alone, all rows fetched, through the driver and nothing above."""
    raw = db.engine.raw_connection()
    cursor = raw.cursor()
    begun = perf_counter()
    for statement, given in queries:
        cursor.execute(statement, given)
        cursor.fetchall()
    taken = perf_counter() - begun
    raw.rollback()
    raw.close()
    return taken


def main() -> None:
    parser = argparse.ArgumentParser(prog="scripts/bench desk")
    parser.add_argument("--full", action="store_true", help="10,000 farms, 1,000,000 messages")
    parser.add_argument("--json", action="store_true", help="as always")
    times = 10 if parser.parse_args().full else 1
    with place("postgresql") as here:
        db = filled(here, FARMS * times, MESSAGES * times)
        for line in pages(db, FARMS * times):
            sys.stdout.write(json.dumps(line) + "\n")
            sys.stdout.flush()
        db.close()


if __name__ == "__main__":
    main()
