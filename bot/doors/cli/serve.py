"""`broodpost serve`: web, clock and sender in one process on one database (contract 4)."""

from __future__ import annotations

import ctypes
import logging
import os
import signal
import threading
from contextlib import suppress
from pathlib import Path
from types import FrameType

import click
from waitress.server import create_server

from bot.doors.cli.loop import run_loop
from bot.doors.log import set_up_logging
from bot.doors.web import create_app
from bot.settings import read_settings
from bot.wiring import Bot, build

THREADS = 8
M_ARENA_MAX = -8  # malloc.h
ENDS_WITHIN_S = 3.0
# What a connection may cost before the application sees it: bytes of its head and body, seconds in
# which nothing moves, connections at once. Between the application's own limit and this one a body
# is read and refused; beyond it the connection ends.
PATIENCE = {
    "max_request_header_size": 64 * 1024,
    "max_request_body_size": 4 * 1024 * 1024,
    "channel_timeout": 30,
    "connection_limit": 500,
}


@click.command("serve")
@click.option("--port", type=int, required=True, help="port to listen on, on loopback")
@click.option(
    "--data", type=click.Path(path_type=Path, file_okay=False), required=True, help="data folder"
)
@click.option("--host", default="127.0.0.1", show_default=True, help="address to listen on")
@click.option("--web-only", is_flag=True, help="no clock and no sender: workers do that")
def serve_command(port: int, data: Path, host: str, web_only: bool) -> None:
    """Start the service; settings come from the environment (see README).

    \b
    Example:
      BROODPOST_UNSIGNED=1 broodpost serve --port 8080 --data data
    """
    _share_one_heap()
    settings = read_settings(os.environ)
    set_up_logging(settings)
    serve(build(settings, data), host, port, web_only=web_only)


def _share_one_heap() -> None:
    """glibc gives every thread a heap of its own, and each grows by what it can't use again: a
    fifth more memory after 100,000 requests. The threads of Python never wait for a shared one.
    Other C libraries have no such heaps."""
    with suppress(OSError, AttributeError):
        ctypes.CDLL(None).mallopt(M_ARENA_MAX, 1)


def serve(bot: Bot, host: str, port: int, *, web_only: bool = False) -> None:
    """Serve until SIGTERM or SIGINT; what is under way is finished, nothing is lost."""
    ending = threading.Event()
    server = create_server(
        create_app(bot), host=host, port=port, threads=THREADS, ident=None, **PATIENCE
    )
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)

    def end(_signal: int, _frame: FrameType | None) -> None:
        ending.set()
        server.close()

    signal.signal(signal.SIGTERM, end)
    signal.signal(signal.SIGINT, end)
    loop = threading.Thread(target=run_loop, args=(bot, ending), name="loop")
    if not web_only:
        loop.start()
    try:
        server.run()
    except OSError:
        if not ending.is_set():  # the closed socket ends the loop of the server
            raise
    finally:
        ending.set()
        if not web_only:
            loop.join(ENDS_WITHIN_S)
        bot.db.close()
        if loop.is_alive():
            # Texts hang at the gateway. They lie under a lease: the next start asks after them.
            logging.shutdown()
            os._exit(0)
