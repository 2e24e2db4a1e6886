"""The service with a plain reader, as a process: port, database, gateway address, clock file, and
where it dies: "never", "in_turn" (everything is written but nothing committed) or "answering" (all
is committed, the answer has not left)."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

from waitress.server import create_server

from bot.clock import FileClock
from bot.doors.cli.serve import serve
from bot.doors.web import create_app
from bot.gateway.client import TwilioCompatible
from bot.records.session import Database
from bot.wiring import Bot, Thinking
from tests.kill.plain import ACCOUNT, SERVICE, SETTINGS, TOKEN, PlainReader, die_at, handbook


def main(port: str, database: str, gateway: str, clock: str, dies: str) -> None:
    url = f"http://127.0.0.1:{port}"
    bot = Bot(
        settings=replace(SETTINGS, public_url=url, clock_file=clock),
        thinking=Thinking(handbook(), PlainReader()),
        db=Database(database),
        gateway=TwilioCompatible(gateway, ACCOUNT, TOKEN, SERVICE, f"{url}/sms/receipt"),
        clock=FileClock(Path(clock)),
    )
    if dies == "never":
        serve(bot, "127.0.0.1", int(port))
        return
    if dies == "in_turn":
        die_at(bot.db, "INSERT INTO outbox", 1)
    create_server(_dying(create_app(bot)), host="127.0.0.1", port=int(port)).run()


def _dying(app: Any) -> Any:
    """An application that answers no text."""

    def answer(environ: dict[str, Any], start_response: Any) -> Iterable[bytes]:
        said = list(app(environ, start_response))
        if environ["PATH_INFO"] == "/sms":
            os.kill(os.getpid(), signal.SIGKILL)
        return said

    return answer


if __name__ == "__main__":
    main(*sys.argv[1:])
