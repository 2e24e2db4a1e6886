"""`broodpost read`: what was understood and decided, one line a message (contract 1)."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from typing import Any

import click

from bot.doors.cli.lines import content_option, each_line
from bot.doors.context import case_of, read_context
from bot.doors.told import told
from bot.turn.choose import choose
from bot.turn.take import hearing
from bot.wiring import Thinking, build_thinking


@click.command("read")
@content_option
def read_command(content: str) -> None:
    """Read messages as JSON Lines and print what each was understood to mean.

    \b
    Example:
      echo '{"id": 1, "lang": "en", "text": "2 dead", "context": {"has_batch": true,
      "age_days": 3, "count": 300, "last_prompt": null, "today": "2026-03-04"}}' | broodpost read
    """
    thinking = build_thinking(content)
    each_line(sys.stdin, sys.stdout, lambda given: read_one(thinking, given))


def read_one(thinking: Thinking, given: Mapping[str, Any]) -> Mapping[str, Any]:
    """One message: the reader's meaning and the choice made on it, as in the real service."""
    languages = thinking.handbook.texts.tongues
    context = read_context(given.get("lang"), given.get("context") or {}, languages)
    case = case_of(context)
    text = str(given["text"])
    heard = thinking.reader.read(text, hearing(case, context.today))
    decision = choose(heard, case, thinking.handbook, text)
    return {"id": given.get("id"), **told(heard, decision, thinking.handbook.causes)}
