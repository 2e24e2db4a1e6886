"""`broodpost rehearse`: whole conversations with time, one line each (contract 2)."""

from __future__ import annotations

import re
import sys
from collections.abc import Mapping
from datetime import timedelta
from typing import Any
from zoneinfo import ZoneInfo

import click

from bot.doors.cli.lines import content_option, each_line
from bot.doors.context import ZONE, read_context
from bot.doors.rehearsal import Heard, Rehearsal
from bot.doors.scene import set_the_scene
from bot.doors.told import named, seen_outside
from bot.facts.talk import Intent
from bot.say.segments import measure
from bot.turn.take import Taken
from bot.wiring import Thinking, build_thinking

_SPAN = re.compile(r"(\d{1,4})([mhd])")
_UNITS = {"m": "minutes", "h": "hours", "d": "days"}


@click.command("rehearse")
@content_option
def rehearse_command(content: str) -> None:
    """Play conversations given as JSON Lines and print what was sent, and when.

    \b
    Example:
      echo '{"id": 1, "lang": "en", "context": {"has_batch": true, "age_days": 3, "count": 300,
      "last_prompt": null, "today": "2026-03-04"}, "turns": [{"in": "along the walls"},
      {"wait": "1d"}]}' | broodpost rehearse
    """
    rehearsal = Rehearsal(build_thinking(content))
    each_line(sys.stdin, sys.stdout, lambda given: rehearse_one(rehearsal, given))


def rehearse_one(rehearsal: Rehearsal, given: Mapping[str, Any]) -> Mapping[str, Any]:
    """One conversation from its context to its last turn."""
    languages = rehearsal.thinking.handbook.texts.tongues
    context = read_context(given.get("lang"), given.get("context") or {}, languages)
    set_the_scene(rehearsal, context)
    turns = [_turn(rehearsal, turn) for turn in given["turns"]]
    return {"id": given.get("id"), "turns": turns}


def _turn(rehearsal: Rehearsal, turn: Mapping[str, Any]) -> dict[str, Any]:
    if "in" in turn:
        taken, heard = rehearsal.say(str(turn["in"]))
        return {
            "in": turn["in"],
            "out": [_out(one) for one in heard],
            **_understood(taken, rehearsal.thinking),
        }
    rehearsal.wait(_span(str(turn["wait"])))
    nothing = {"intent": None, "signals": None, "cause": None, "asked": None, "referred": None}
    return {"wait": turn["wait"], "out": [_out(one) for one in rehearsal.heard()], **nothing}


def _understood(taken: Taken, thinking: Thinking) -> dict[str, Any]:
    meaning, decision = taken.meaning, taken.decision
    seen = seen_outside(meaning, thinking.handbook.causes)
    intent = "other" if seen.intent is Intent.THANKS else seen.intent.value
    return {
        "intent": intent,
        "signals": named(meaning.signals, thinking.handbook.causes),
        "cause": decision.why.cause if decision.why else None,
        "asked": decision.question is not None,
        "referred": decision.referred,
    }


def _out(heard: Heard) -> dict[str, Any]:
    cost = measure(heard.text)
    return {
        "at": heard.at.astimezone(ZoneInfo(ZONE)).isoformat(),
        "text": heard.text,
        "parts": cost.parts,
        "encoding": cost.encoding,
    }


def _span(text: str) -> timedelta:
    found = _SPAN.fullmatch(text.strip())
    if found is None:
        raise ValueError(f"wait {text!r}: write it like 30m, 2h or 3d")
    return timedelta(**{_UNITS[found[2]]: int(found[1])})
