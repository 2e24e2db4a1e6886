"""The minute loop of the embedded service: look ahead, tick, send. Runs in a thread of `serve`.

Real time: every minute is looked at within seconds. While a clock file is set, every second and
at once when the file changes, so that an outside script can play days quickly. A fault in one
round is logged and the next round tries again: the loop itself never ends by an error.
"""

from __future__ import annotations

import logging
import threading
from pathlib import Path

from bot.wiring import Bot

log = logging.getLogger(__name__)
ROUND_S, PLAYED_ROUND_S, GLANCE_S = 5.0, 1.0, 0.02


def run_loop(bot: Bot, ending: threading.Event) -> None:
    """Look ahead, tick and send until `ending` is set."""
    while not ending.is_set():
        _round(bot)
        if bot.settings.clock_path is None:
            ending.wait(ROUND_S)
        else:
            _wait_for_change(bot.settings.clock_path, ending)


def _round(bot: Bot) -> None:
    try:
        bot.look_ahead()
        bot.tick()
        bot.send()
    except Exception:
        log.exception("a round of the minute loop failed; the next one tries again")


def _wait_for_change(path: Path, ending: threading.Event) -> None:
    """Until the second is over or the clock file says something else."""
    before = _content(path)
    for _ in range(int(PLAYED_ROUND_S / GLANCE_S)):
        if ending.wait(GLANCE_S) or _content(path) != before:
            return


def _content(path: Path) -> str:
    try:
        return path.read_text()
    except OSError:
        return ""
