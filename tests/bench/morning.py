"""Plays a morning of many farms on PostgreSQL: all are due at once, planners word their texts,
senders post them to a gateway that takes every text, all at the same time.

In: --farms, --planners, --senders, --threads (posts at once a sender), --gateway-ms. Out: one JSON
line: texts lost and doubled (by the gateway's own count and by the outbox), seconds, a curve of
(seconds, planned, taken), memory of the planners, disk. Filling the database is not counted. The
pace of the sender number is off. Ends with 1 where a text was lost or doubled. By scripts/bench.
"""

from __future__ import annotations

import argparse
import resource
import sys
from dataclasses import dataclass
from multiprocessing import get_context
from threading import Event
from time import monotonic
from typing import Any

from sqlalchemy import distinct, func, select

from bot.outbox.dispatch import send_waiting
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.turn.plan import Planner
from bot.turn.tick import CHUNK, plan_chunk
from tests.bench.databases import Place, place
from tests.bench.farms import MORNING, OWN, fill
from tests.bench.plan import handbook
from tests.bench.send import client
from tests.bench.sides import Line, machine, show
from tests.bench.stand_in import stand_in, taken

POINTS = 40  # of the curve, at most
LOOK_S = 1.0


@dataclass(frozen=True)
class Morning:
    """What is played."""

    farms: int = 300
    planners: int = 1
    senders: int = 1
    threads: int = 32
    gateway_ms: int = 50


def plan_apart(url: str, planned: Any, told: Any) -> None:
    """A planner: chunk by chunk, as the tick does, until nothing is due."""
    db, planner, found = Database(url), Planner(handbook(), MORNING), 1
    while found:
        with db.write() as connection:
            found, texts = plan_chunk(connection, planner, CHUNK)
        with planned.get_lock():
            planned.value += texts
    told.put(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024)
    db.close()


def send_apart(url: str, gateway: str, threads: int, over: Any) -> None:
    """A sender: call after call until nothing waits and the planners are done."""
    db, phone, last = Database(url), client(gateway), False
    while True:
        sent = send_waiting(db, phone, MORNING, 100_000, threads=threads, tidy=False).sent
        if not sent:
            if last:
                break
            last = over.wait(LOOK_S)
    db.close()


def play(here: Place, wanted: Morning) -> Line:
    """One morning; the JSON line."""
    url = here.make("morning")
    db = Database(url)
    upgrade(db)
    begun = monotonic()
    fill(db, handbook(), wanted.farms)
    here.tidy("morning")
    filled = monotonic() - begun
    made = get_context("spawn")
    planned, told, over = made.Value("l", 0), made.Queue(), made.Event()
    with stand_in(wanted.gateway_ms / 1000) as gateway:
        planners = [made.Process(target=plan_apart, args=(url, planned, told))
                    for _ in range(wanted.planners)]  # fmt: skip
        senders = [made.Process(target=send_apart, args=(url, gateway, wanted.threads, over))
                   for _ in range(wanted.senders)]  # fmt: skip
        begun = monotonic()
        for one in (*planners, *senders):
            one.start()
        curve: list[tuple[float, int, int]] = []
        planning = 0.0
        while any(one.is_alive() for one in senders):
            Event().wait(LOOK_S)
            at = round(monotonic() - begun, 1)
            curve.append((at, planned.value, taken(gateway)[0]))
            if not planning and not any(one.is_alive() for one in planners):
                planning = at
                over.set()
        took = monotonic() - begun
        accepted, doubled = taken(gateway)
    said = {
        "name": "morning", "database": here.name, "farms": wanted.farms, "own_entries": OWN,
        "lost": wanted.farms - _told_farms(db), "doubled": doubled, "taken": accepted,
        "seconds": round(took, 1), "texts_a_second": round(accepted / took),
        "planning_s": planning, "planned_a_second": round(wanted.farms / planning),
        "planners": wanted.planners, "senders": wanted.senders, "threads": wanted.threads,
        "gateway_ms": wanted.gateway_ms, "filling_s": round(filled, 1),
        "planner_mb": [told.get() for _ in planners], "database_mb": _size_mb(db),
        "machine": machine(), "curve": curve[:: max(1, len(curve) // POINTS)],
    }  # fmt: skip
    db.close()
    return said


def _told_farms(db: Database) -> int:
    """Farms whose one text stands as sent."""
    row = t.outbox.c
    with db.read() as connection:
        found: int = connection.execute(
            select(func.count(distinct(row.batch_id))).where(row.state == "sent")
        ).scalar_one()
    return found


def _size_mb(db: Database) -> int:
    with db.read() as connection:
        size: int = connection.execute(select(func.pg_database_size("morning"))).scalar_one()
    return size // 1_000_000


def main() -> int:
    parser = argparse.ArgumentParser(prog="scripts/bench morning")
    for name, default in vars(Morning()).items():
        parser.add_argument(f"--{name.replace('_', '-')}", type=int, default=default)
    parser.add_argument("--json", action="store_true", help="as always")
    asked = vars(parser.parse_args())
    asked.pop("json")
    with place("postgresql") as here:
        said = play(here, Morning(**asked))
    show(said)
    return 1 if said["lost"] or said["doubled"] or said["taken"] != asked["farms"] else 0


if __name__ == "__main__":
    sys.exit(main())
