"""A farmer's phone on this machine: it texts the service over HTTP and gets what the service sends.

It starts two processes, the stand-in gateway and the service, and moves their common clock by a
file. Called by the terminal phone and the story.
"""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import requests
from sqlalchemy import func, select

from bot.errors import BroodpostError
from bot.records import tables as t
from bot.records.case import cases_of_phones, next_due_of_all
from bot.records.heartbeat import last_beat
from bot.records.session import Database
from bot.say.segments import measure

NUMBER = "+254700000142"  # invented
SERVICE_NUMBER = "+254700000100"  # invented
VET = "+254700000199"  # invented
ZONE = "Africa/Nairobi"
PASSING = timedelta(hours=2)
PATIENCE_S = 20.0


@dataclass(frozen=True, slots=True)
class Seen:
    """One text on the screen. at: simulated, local. why: the reasons, None where there are none."""

    at: datetime
    text: str
    parts: int
    ours: bool
    why: Mapping[str, Any] | None = None


@dataclass(frozen=True, slots=True)
class Figures:
    """The five figures at the end."""

    texts: int
    parts: int
    questions: int
    alive: int


class Handset:
    """`with Handset(folder, start) as phone: phone.say("500 chicks friday")`."""

    def __init__(self, folder: Path, start: datetime) -> None:
        self._folder = folder
        self._clock = folder / "clock"
        self._now = start.astimezone(UTC)
        self._seen = 0
        self._processes: list[subprocess.Popen[bytes]] = []
        self._http = requests.Session()
        self._http.trust_env = False

    def __enter__(self) -> Handset:
        self._folder.mkdir(parents=True, exist_ok=True)
        port, gateway_port = free_port(), free_port()
        self._set_clock()
        self._gateway = f"http://127.0.0.1:{gateway_port}"
        environment = {
            **{key: value for key, value in os.environ.items() if not key.startswith("BROODPOST_")},
            "BROODPOST_GATEWAY_URL": self._gateway,
            "BROODPOST_GATEWAY_ACCOUNT": "ACpretend",
            "BROODPOST_GATEWAY_TOKEN": "pretend",
            "BROODPOST_SENDER": SERVICE_NUMBER,
            "BROODPOST_PUBLIC_URL": f"http://127.0.0.1:{port}",
            "BROODPOST_CLOCK_FILE": str(self._clock),
            "BROODPOST_NAME": "Mkulima",
            "BROODPOST_VET": VET,
            "BROODPOST_TZ": ZONE,
            "BROODPOST_RATE": "1000",
        }
        gateway = ["bot.gateway.pretend", "--port", str(gateway_port), "--account", "ACpretend"]
        gateway += ["--service", f"http://127.0.0.1:{port}", "--number", SERVICE_NUMBER]
        gateway += ["--clock-file", str(self._clock)]
        self._start(gateway, environment)
        self._start(["bot", "serve", "--port", str(port), "--data", str(self._folder)], environment)
        self._wait_until_up(f"http://127.0.0.1:{port}/health")
        self._db = Database(f"sqlite:///{self._folder / 'broodpost.db'}")
        return self

    def __exit__(self, *_: object) -> None:
        for process in reversed(self._processes):
            process.terminate()
        for process in self._processes:
            process.wait(10)

    def _start(self, arguments: list[str], environment: Mapping[str, str]) -> None:
        with (self._folder / "log").open("ab") as log:
            self._processes.append(
                subprocess.Popen(
                    [sys.executable, "-m", *arguments], env=environment, stdout=log, stderr=log
                )
            )

    def _wait_until_up(self, url: str) -> None:
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            if any(process.poll() is not None for process in self._processes):
                break
            try:
                if self._http.get(url, timeout=2).status_code == 200:
                    return
            except requests.RequestException:
                pass
            time.sleep(0.05)
        raise BroodpostError(f"the service did not start; its log is {self._folder / 'log'}")

    def _set_clock(self) -> None:
        """Write the shift so that the simulated moment is now `self._now`, whole or not at all."""
        shift = (self._now - datetime.now(UTC)).total_seconds()
        draft = self._clock.with_suffix(".new")
        draft.write_text(f"{shift:.3f}")
        draft.replace(self._clock)

    @property
    def now(self) -> datetime:
        """The simulated moment, local."""
        return self._now.astimezone(ZoneInfo(ZONE))

    def say(self, text: str) -> list[Seen]:
        """Text the service; returns its answer, or nothing where it says nothing."""
        self._now += timedelta(minutes=1)
        self._set_clock()
        answer = self._http.post(
            f"{self._gateway}/pretend/text", json={"from": NUMBER, "body": text}, timeout=30
        ).json()
        why = self._why(str(answer["id"]))
        return [
            Seen(self.now, reply, measure(reply).parts, True, why if place == 0 else None)
            for place, reply in enumerate(answer.get("replies", []))
        ]

    def _why(self, message_id: str) -> Mapping[str, Any] | None:
        with self._db.read() as connection:
            row = connection.execute(
                select(t.turn.c.why).where(t.turn.c.message_id == message_id)
            ).first()
        found: Mapping[str, Any] | None = row.why if row else None
        return found

    def wait(self, step: timedelta) -> list[Seen]:
        """Let time pass, from due moment to due moment; returns the texts that came."""
        until = self._now + step
        seen: list[Seen] = []
        while True:
            with self._db.read() as connection:
                due = next_due_of_all(connection)
            if due is None or due >= until:
                break
            self._now = max(due, self._now + timedelta(seconds=1))
            seen += self._arrived()
        self._now = until
        return seen + self._arrived()

    def sleep_through(self, step: timedelta) -> list[Seen]:
        """An outage: the service is not there for that long; then it catches up."""
        self._now += step
        return self._arrived()

    def _arrived(self) -> list[Seen]:
        """Move the clock, wait for the service to have ticked and sent; fetch what came."""
        self._set_clock()
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            with self._db.read() as connection:
                ticked, sent = (last_beat(connection, name) for name in ("tick", "send"))
            if ticked and sent and self._now <= ticked <= sent:
                return self._fetch()
            time.sleep(0.01)
        raise BroodpostError(f"the service stands still; its log is {self._folder / 'log'}")

    def _fetch(self) -> list[Seen]:
        found = self._http.get(
            f"{self._gateway}/pretend/messages", params={"since": self._seen}, timeout=30
        ).json()
        self._seen = int(found["last"])
        return [
            Seen(self.now, one["body"], int(one["parts"]), True)
            for one in found["messages"]
            if one["to"] == NUMBER
        ]

    def figures(self) -> Figures:
        """Texts and parts sent to this phone (answers included), questions asked, birds alive."""
        with self._db.read() as connection:
            texts, parts = connection.execute(
                select(func.count(), func.coalesce(func.sum(t.outbox.c.parts), 0)).where(
                    t.outbox.c.to_number == NUMBER, t.outbox.c.state != "cancelled"
                )
            ).one()
            questions = connection.execute(select(func.count()).select_from(t.question)).scalar()
            phones = connection.execute(select(t.phone.c.id)).scalars().all()
            cases = cases_of_phones(connection, list(phones), self._now)
        alive = sum(batch.alive for case in cases.values() for batch in case.batches)
        return Figures(int(texts), int(parts), int(questions or 0), alive)


def free_port() -> int:
    """A port of this machine that nothing listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
