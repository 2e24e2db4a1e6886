"""Shared by the tests beside it: reads a text as the service would, in a given context."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bot.doors.cli.read import read_one
from bot.doors.context import case_of, read_context
from bot.facts.talk import Meaning
from bot.handbook.words import EXAMPLE_CONTEXT
from bot.turn.take import hearing
from bot.wiring import Thinking


def read(
    thinking: Thinking, text: str, lang: object = None, **context: object
) -> Mapping[str, Any]:
    """What `broodpost read` prints for this text."""
    given = {"id": text, "lang": lang, "text": text, "context": {**EXAMPLE_CONTEXT, **context}}
    return read_one(thinking, given)


def heard(thinking: Thinking, text: str, **context: object) -> Meaning:
    """What the reader understood, with what stays inside."""
    told = {**EXAMPLE_CONTEXT, **context}
    read_as = read_context(None, told, thinking.handbook.texts.tongues)
    return thinking.reader.read(text, hearing(case_of(read_as), read_as.today))
