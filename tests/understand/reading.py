"""Shared by the tests beside it: reads a text as the service would, in a given context."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bot.doors.cli.read import read_one
from bot.handbook.words import EXAMPLE_CONTEXT
from bot.wiring import Thinking


def read(
    thinking: Thinking, text: str, lang: object = None, **context: object
) -> Mapping[str, Any]:
    """What `broodpost read` prints for this text."""
    given = {"id": text, "lang": lang, "text": text, "context": {**EXAMPLE_CONTEXT, **context}}
    return read_one(thinking, given)
