"""Measures planning: due batches claimed, worded and written in chunks, beside the same
transactions with a constant body. On SQLite and on PostgreSQL.

In: --full for the curve from 1,000 to 1,000,000 batches. Out: one JSON line a database. ours: the
real tick on farms of tests/bench/farms.py. reference: `constant_body`. Each round begins with a
fresh copy of the filled database; loading content is not counted. Run by scripts/bench.
"""

from __future__ import annotations

import resource
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from functools import cache
from multiprocessing import get_context
from multiprocessing.synchronize import Barrier
from statistics import median
from time import monotonic, perf_counter
from typing import Any

from sqlalchemy import func, select, update
from sqlalchemy.dialects import postgresql, sqlite

from bot.handbook.shapes import Handbook
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.turn.plan import Planner
from bot.turn.tick import CHUNK, CHUNK_EMBEDDED, plan_chunk, tick
from bot.wiring import build_thinking
from tests.bench.databases import Place
from tests.bench.farms import MORNING, OWN, fill
from tests.bench.sides import Line, by_turns, line, over_databases, spread

BODY = "Umoja: Day 4. 31 C under the edge of the heat. Take the paper out, widen the ring to 9 m2."
TOMORROW = MORNING + timedelta(days=1)
ROUNDS, BATCHES = 5, 20_000
CURVE = (1_000, 10_000, 100_000, 1_000_000)
PLANNED = CURVE[1] // 3  # a round, of many as of few: what was worked out once serves more of more
BARS = "ratio at least 0.25; on PostgreSQL 10,000 texts/s, two planners 1.4 of one"
Work = Callable[[Database, Handbook, datetime], int]


@cache
def handbook() -> Handbook:
    """As the service has it."""
    return build_thinking().handbook


def ours(db: Database, book: Handbook, now: datetime) -> int:
    """The real clock."""
    return tick(db, book, now)


def constant_body(db: Database, _book: Handbook, now: datetime) -> int:
    """The reference: chunk by chunk in one transaction, claim 2,000 due batches, insert as many
    outbox rows of one constant text, advance the batches."""
    dialect: Any = sqlite if db.is_sqlite else postgresql
    put = dialect.insert(t.outbox).on_conflict_do_nothing(index_elements=["business_key"])
    claim = (
        select(t.batch.c.id, t.batch.c.phone_id, t.phone.c.number)
        .join(t.phone, t.phone.c.id == t.batch.c.phone_id)
        .where(t.batch.c.next_due <= now)
        .order_by(t.batch.c.next_due)
        .limit(CHUNK)
        .with_for_update(skip_locked=True, of=t.batch)
    )
    said = 0
    while True:
        with db.write() as connection:
            found = connection.execute(claim).all()
            if not found:
                return said
            connection.execute(put, [_row(*one, now) for one in found])
            connection.execute(
                update(t.batch)
                .where(t.batch.c.id.in_([one.id for one in found]))
                .values(next_due=TOMORROW)
            )
        said += len(found)


def _row(batch_id: int, phone_id: int, number: str, now: datetime) -> dict[str, object]:
    return {
        "business_key": f"{batch_id}:1:{now.date()}:morning",
        "phone_id": phone_id,
        "batch_id": batch_id,
        "turn_id": None,
        "to_number": number,
        "klass": "routine",
        "text": BODY,
        "parts": 1,
        "encoding": "gsm7",
        "state": "waiting",
        "not_before": now,
        "expires_at": TOMORROW,
        "created_at": now,
        "sent_at": None,
    }


def texts_a_second(url: str, work: Work, batches: int) -> float:
    """One planner on a filled database; every batch must have got its text."""
    db, book = Database(url), handbook()
    begun = perf_counter()
    said = work(db, book, MORNING)
    took = perf_counter() - begun
    check(db, said, batches)
    db.close()
    return float(said / took)


def check(db: Database, said: int, batches: int) -> None:
    """Every batch got one text, and is due another time."""
    with db.read() as connection:
        put = connection.execute(select(func.count()).select_from(t.outbox)).scalar_one()
        left: int = connection.execute(
            select(func.count()).where(t.batch.c.next_due <= MORNING).select_from(t.batch)
        ).scalar_one()
    if not said == put == batches or left:
        raise AssertionError(f"{batches} batches: {said} told, {put} in the outbox, {left} left")


def side_by_side(url: str, planners: int, batches: int) -> float:
    """So many planners at once, each a process of its own."""
    made = get_context("spawn")
    barrier = made.Barrier(planners + 1)
    told: Any = made.Queue()
    workers = [made.Process(target=_plan_apart, args=(url, barrier, told)) for _ in range(planners)]
    for one in workers:
        one.start()
    barrier.wait()
    begun = perf_counter()
    said = sum(told.get() for _ in workers)
    took = perf_counter() - begun
    for one in workers:
        one.join()
    db = Database(url)
    check(db, said, batches)
    db.close()
    return float(said / took)


def _plan_apart(url: str, barrier: Barrier, told: Any) -> None:
    db, book = Database(url), handbook()
    barrier.wait()
    told.put(tick(db, book, MORNING))
    db.close()


class Filled:
    """A database filled once and copied for each round."""

    def __init__(self, here: Place, batches: int, own: float = OWN) -> None:
        self._here = here
        db = Database(here.make("filled"))
        upgrade(db)
        fill(db, handbook(), batches, own)
        db.close()
        here.tidy("filled")

    def fresh(self) -> str:
        return self._here.copy("filled", "round")


def measure(here: Place, batches: int = BATCHES, rounds: int = ROUNDS) -> Line:
    """The JSON line of one database."""
    begun = monotonic()
    filled = Filled(here, batches)
    own, others = by_turns(
        lambda: texts_a_second(filled.fresh(), ours, batches),
        lambda: texts_a_second(filled.fresh(), constant_body, batches),
        rounds,
    )
    more: dict[str, object] = {"batches": batches, "own_entries": OWN, "bar": BARS}
    if here.name == "postgresql":
        pairs = [side_by_side(filled.fresh(), many, batches) for many in (1, 2, 1, 2, 1)]
        one, two = sorted(pairs[::2])[1], sum(pairs[1::2]) / 2
        more |= {"one_planner": round(one), "two_planners": round(two),
                 "two_to_one": round(two / one, 2)}  # fmt: skip
    for name, share in (("nobody_told_anything", 0.0), ("everybody_told_something", 1.0)):
        others_filled = Filled(here, batches // 4, share)
        more[name] = round(texts_a_second(others_filled.fresh(), ours, batches // 4))
    return line("plan", here.name, "texts/s", own, others, begun, **more)


def curve(here: Place) -> Line:
    """Microseconds a batch and the planner's memory, from few to many batches: of so many that are
    due the same number is planned, round after round."""
    begun = monotonic()
    points = []
    for batches in CURVE:
        db = Database(here.make("filled"))
        upgrade(db)
        fill(db, handbook(), batches)
        here.tidy("filled")
        db.close()
        made = get_context("spawn")
        told: Any = made.Queue()
        planner = made.Process(target=_plan_some, args=(here.url("filled"), batches, told))
        planner.start()
        micros, memory = told.get()
        planner.join()
        points.append({"batches": batches, "us_a_batch": round(median(micros), 1),
                       "spread": spread(micros), "most_mb": memory})  # fmt: skip
    return {"name": "plan curve", "database": here.name, "points": points,
            "seconds": round(monotonic() - begun, 1)}  # fmt: skip


def _plan_some(url: str, batches: int, told: Any) -> None:
    """Plans a part of what is due, three times over."""
    db, planner = Database(url), Planner(handbook(), MORNING)
    room = CHUNK_EMBEDDED if db.is_sqlite else CHUNK
    wanted, micros = min(batches // 3, PLANNED), []
    for _ in range(3):
        begun, done = perf_counter(), 0
        while done < wanted:
            with db.write() as connection:
                done += plan_chunk(connection, planner, min(room, wanted - done))[0]
        micros.append(1e6 * (perf_counter() - begun) / wanted)
    told.put((micros, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024))
    db.close()


def measured(here: Place, full: bool) -> Iterator[Line]:
    yield measure(here)
    if full:
        yield curve(here)


def main() -> None:
    over_databases("plan", "and the curve to 1,000,000 batches", measured)


if __name__ == "__main__":
    main()
