"""`broodpost demo`: the desk of an invented cooperative on this machine (scripts/try).

In: nothing, or a data folder and a port. Out: the address and who may sign in; then it serves until
it is ended. Farms are played through the real engine up to this moment; nothing is sent.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import click
from pyotp import TOTP

from bot.clock import FixedClock, SystemClock
from bot.cooperative.proofs import given_out, new_secret
from bot.doors.cli.handset import VET, free_port
from bot.doors.cli.serve import serve
from bot.doors.demo import SERVICE, Demo, Ear, Player, SignIn, let_in, load_demo, set_rules
from bot.handbook.load import content_folder
from bot.records.migrate import upgrade
from bot.records.session import MEMORY, Database
from bot.settings import Settings
from bot.wiring import Bot, build_thinking, ensure_cooperative

HOST = "127.0.0.1"
LAST = "  the owner's code"  # how the last line begins that says how to sign in


@click.command("demo")
@click.option("--port", type=int, default=0, help="port to listen on, on loopback; 0: a free one")
@click.option("--password", default="", help="of the demo's staff; else a new one")
@click.option("--key", default="", help="of the owner's second proof; else a new one")
def demo_command(port: int, password: str, key: str) -> None:
    """Open the desk of an invented cooperative of forty farms, and print how to sign in.

    \b
    Example:
      broodpost demo
    """
    with tempfile.TemporaryDirectory(prefix="broodpost-desk-") as folder:
        open_demo(Path(folder), port or free_port(), password or given_out(), key or new_secret())


def open_demo(folder: Path, port: int, password: str, key: str) -> None:
    """Play the farms up to now, say how to sign in, serve until ended."""
    bot = played(folder, f"http://{HOST}:{port}")
    people = (
        SignIn("Trainer", "demo", "advises", password),
        SignIn("Owner", "demo-owner", "owns", password, key),
    )
    now = bot.clock.now()
    let_in(bot, people, now)
    set_rules(bot, script().rulings, now)
    print(f"The desk of an invented cooperative: {bot.settings.public_url}/desk")
    print(f"  sign in as demo        with {password}   (a trainer)")
    print(f"  sign in as demo-owner  with {password}   (sees everything)")
    print(f"{LAST} now: {TOTP(key).now()}; later ones from the key {key}", flush=True)
    serve(bot, HOST, port)


class DeskBeside:
    """The demo's desk in a process of its own, as long as something else runs in the terminal."""

    def __init__(self) -> None:
        self._key = new_secret()
        self._process: subprocess.Popen[str] | None = None

    def code(self) -> str:
        """The owner's second proof at this moment."""
        return TOTP(self._key).now()

    def __enter__(self) -> DeskBeside:
        command = [sys.executable, "-m", "bot", "demo", "--key", self._key]
        self._process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self._process.stdout is not None
        for line in self._process.stdout:
            print(line, end="", flush=True)
            if line.startswith(LAST):
                break
        return self

    def __exit__(self, *_: object) -> None:
        if self._process is not None:
            self._process.terminate()
            self._process.wait(10)


def script() -> Demo:
    """What the demo plays."""
    return load_demo(content_folder() / "stories" / "desk.yaml")


def played(folder: Path, address: str) -> Bot:
    """The service with the demo's cooperative as it stands now, on a database in the folder."""
    demo = script()
    settings = Settings(
        gateway_account="ACdemo", unsigned="1", public_url=address, desk="1", name=demo.name,
        vet=VET, sender=SERVICE,
    )  # fmt: skip
    db = Database(MEMORY)
    upgrade(db, settings.house.key)
    ensure_cooperative(db, settings)
    now = datetime.now(UTC)
    clock = FixedClock(now)
    bot = Bot(settings, build_thinking(), db, Ear(), clock)
    player = Player(bot, clock, demo, now, ZoneInfo(settings.tz))
    print(f"Playing {len(demo.farms)} invented farms up to this moment ...", file=sys.stderr)
    for _ in player.play():
        pass
    keep(db, folder / "demo.db")
    return replace(bot, db=Database(f"sqlite:///{folder / 'demo.db'}"), clock=SystemClock())


def keep(db: Database, path: Path) -> None:
    """Write a database that lies in memory to a file, which several threads may read at once."""
    raw = db.engine.raw_connection()
    assert raw.driver_connection is not None
    raw.driver_connection.execute("VACUUM INTO ?", (str(path),))
    raw.close()
    db.close()
