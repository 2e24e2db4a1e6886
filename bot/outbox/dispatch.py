"""Sends what waits in the outbox. In: a database, a gateway, the moment. Out: a `Tally`. Called by
the minute loop (embedded), by many workers (at scale), by rehearsals and tests.

A row first, the network after, no transaction open in between: texts are claimed under a lease and
committed, posted from a few threads, and written down. A process that dies in between leaves a
lease that runs out, and its text is asked after, never blindly sent again.
"""

from __future__ import annotations

import logging
import os
import random
import uuid
from collections.abc import Callable, Collection, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from dataclasses import dataclass
from datetime import datetime
from time import monotonic

from bot.errors import SendError
from bot.gateway.client import Gateway, Outgoing, Sent
from bot.outbox.claim import Claimed, claim, still_ours, sweep
from bot.outbox.ledger import Outcome, record
from bot.outbox.pace import Pace
from bot.outbox.unknowns import reconcile
from bot.records.heartbeat import beat
from bot.records.session import Database

LONGEST_CALL = 10.0  # seconds of claiming; with the slowest post still inside a lease
MOMENT = 0.05  # seconds that a post which has ended waits for others to be written down with
REFUSALS_IN_A_ROW = 3  # after which the gateway is left alone until the next call

_log = logging.getLogger(__name__)


@dataclass
class Tally:
    """What one call did. refused: not sent now, tried again later. reconciled: lost answers that
    were settled."""

    sent: int = 0
    failed: int = 0
    unknown: int = 0
    refused: int = 0
    reconciled: int = 0
    in_a_row: int = 0

    def count(self, outcome: Outcome) -> None:
        self.in_a_row = self.in_a_row + 1 if _is_refusal(outcome) else 0
        if isinstance(outcome, Sent):
            self.sent += 1
        elif outcome.unknown:
            self.unknown += 1
        elif outcome.permanent:
            self.failed += 1
        else:
            self.refused += 1


def send_waiting(
    db: Database,
    gateway: Gateway,
    now: datetime,
    limit: int = 500,
    *,
    threads: int = 8,
    bucket: Pace | None = None,
    tidy: bool = True,
    draw: Callable[[], float] = random.random,
) -> Tally:
    """Send up to `limit` texts that may go at `now`, for at most some ten seconds.

    threads: posts under way at once; 1 posts one after another. bucket: the sender number's pace.
    tidy: sweep and reconcile first; False where that is a job of its own. draw: chance, for the
    waits between attempts.
    """
    tally = Tally()
    if tidy:
        sweep(db, now)
        tally.reconciled = reconcile(db, gateway, now)
    until = monotonic() + LONGEST_CALL
    claims = _Claims(db, now, limit, bucket)

    def wanted() -> bool:
        return tally.in_a_row < REFUSALS_IN_A_ROW and monotonic() < until

    for done in _posted(gateway, claims, threads, now, wanted):
        record(db, done, now, draw)
        for _, outcome in done:
            tally.count(outcome)
    with db.write() as connection:
        beat(connection, "send", now)
    if tally != Tally():
        _log.info("outbox: %s", tally)
    return tally


class _Claims:
    """Claims up to a limit, at the sender number's pace."""

    def __init__(self, db: Database, now: datetime, limit: int, bucket: Pace | None) -> None:
        self._db = db
        self._now = now
        self._left = limit
        self._bucket = bucket

    def take(self, room: int) -> list[Claimed]:
        """Up to `room` texts to be posted at once. What the pace gets back takes its time, so a
        STOP is looked for once more behind it: no post begins after one has committed."""
        room = min(room, self._left)
        if self._bucket is not None:
            room = self._bucket.take(room, self._now)
        if room <= 0:
            return []
        lease = f"{os.getpid()}-{uuid.uuid4().hex[:20]}"
        rows = claim(self._db, self._now, room, lease)
        self._left -= len(rows)
        if self._bucket is None or len(rows) == room:
            return rows
        self._bucket.give_back(room - len(rows))
        return still_ours(self._db, rows) if rows else []


def _posted(
    gateway: Gateway,
    claims: _Claims,
    threads: int,
    now: datetime,
    wanted: Callable[[], bool],
) -> Iterator[Sequence[tuple[Claimed, Outcome]]]:
    """Claim and post, giving back outcomes in groups as they come. Never more is claimed than can
    be posted at once, so that a lease and a STOP are judged at the last moment."""
    if threads == 1:
        while wanted() and (rows := claims.take(1)):
            yield [(row, _post(gateway, row, now)) for row in rows]
        return
    with ThreadPoolExecutor(threads, thread_name_prefix="send") as pool:
        under_way: dict[Future[Outcome], Claimed] = {}
        while True:
            room = threads - len(under_way)
            if wanted() and room * 2 >= threads:
                for row in claims.take(room):
                    under_way[pool.submit(_post, gateway, row, now)] = row
            if not under_way:
                return
            finished = _finished(under_way, threads // 2)
            yield [(under_way.pop(one), one.result()) for one in finished]


def _finished(under_way: Collection[Future[Outcome]], many: int) -> set[Future[Outcome]]:
    """What has ended: at least one post, and as many as end within a moment of it. They are written
    down together, and no more is claimed before half the threads are free anyway."""
    finished, open_ = wait(under_way, return_when=FIRST_COMPLETED)
    until = monotonic() + MOMENT
    while open_ and len(finished) < many and (left := until - monotonic()) > 0:
        more, open_ = wait(open_, left, return_when=FIRST_COMPLETED)
        finished |= more
    return finished


def _post(gateway: Gateway, row: Claimed, now: datetime) -> Outcome:
    left = None if row.expires_at is None else int((row.expires_at - now).total_seconds())
    try:
        return gateway.send(Outgoing(row.to, row.body(), str(row.id), left))
    except SendError as error:
        return error
    except Exception as bug:  # whatever went wrong, the text may have left: ask, don't resend
        _log.exception("outbox: a post failed in an unforeseen way")
        return SendError(type(bug).__name__, permanent=False, unknown=True)


def _is_refusal(outcome: Outcome) -> bool:
    return isinstance(outcome, SendError) and not outcome.permanent and not outcome.unknown
