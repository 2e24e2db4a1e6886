"""What the terminal phone shows: a text of either side, the grey line of reasons, the figures.

Pure: text out. Called by the terminal phone and the story.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from bot.doors.cli.handset import Figures, Seen

WIDTH = 76
PRICE = 0.80  # shillings a part; invented for the demo


def moment(at: datetime) -> str:
    """ "Fri 6 Mar 06:30" """
    return f"{at:%a} {at.day} {at:%b %H:%M}"


def farmer(at: datetime, text: str) -> str:
    """What the farmer typed."""
    return f"\n{moment(at)}  you > {text}"


def service(seen: Seen) -> str:
    """What the service sent, with its cost in parts."""
    head = f"{moment(seen.at)}  {seen.parts} part{'s' if seen.parts > 1 else ''} < "
    return textwrap.fill(
        seen.text, WIDTH, initial_indent=head, subsequent_indent=" " * 17, break_long_words=False
    )


def reasons(why: Mapping[str, Any] | None) -> str:
    """One line: the cause, what it rests on, what would have changed it. Empty without reasons."""
    if not why or not why.get("cause"):
        return ""
    share = next((part for cause, part in why.get("ranked", []) if cause == why["cause"]), None)
    text = f"why: {_plain(why['cause'])}"
    if share is not None:
        text += f" ({share:.0%})"
    if why.get("because"):
        text += "; rests on " + ", ".join(_plain(code) for code in why["because"])
    if why.get("would_change"):
        text += "; would change with " + ", ".join(_plain(code) for code in why["would_change"])
    return " " * 17 + text


def grey(text: str, colour: bool) -> str:
    """The text in grey on a terminal, plain elsewhere."""
    return f"\x1b[90m{text}\x1b[0m" if colour and text else text


def totals(figures: Figures) -> str:
    """The five figures."""
    return (
        f"\ntexts {figures.texts} | parts {figures.parts} | cost {figures.parts * PRICE:.2f} "
        f"(at {PRICE:.2f} a part, invented) | questions asked {figures.questions} | "
        f"birds alive {figures.alive}"
    )


def _plain(code: str) -> str:
    return code.replace("_", " ")
