"""`broodpost rehearse`: whole conversations with time, one line each (contract 2)."""

from __future__ import annotations

import re
import sys
from collections.abc import Mapping
from datetime import timedelta
from typing import Any
from zoneinfo import ZoneInfo

import click

from bot.day.due import next_moment, said_until
from bot.doors.cli.context import ZONE, Context, batch_of, case_of, question_of, read_context
from bot.doors.cli.lines import content_option, each_line
from bot.doors.cli.read import named
from bot.doors.rehearsal import Heard, Rehearsal
from bot.facts.talk import Intent
from bot.facts.told import lines_of
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


def set_the_scene(rehearsal: Rehearsal, context: Context) -> None:
    """The person, the batch with all that was said to it before, and the open question."""
    rehearsal.begin(context.now)
    rehearsal.join(context.lang or "en")
    if context.has_batch:
        _place_batch(rehearsal, context)
    if context.prompt is not None:
        _open_question(rehearsal, context)


def _place_batch(rehearsal: Rehearsal, context: Context) -> None:
    batch = batch_of(context)
    calendar = rehearsal.thinking.handbook.calendar
    case = case_of(context)
    said = said_until(case, batch, calendar, context.now)
    rehearsal.write(
        "batch",
        [
            {
                "id": batch.id,
                "phone_id": 1,
                "state": batch.state,
                "count": batch.count,
                "placed_on": batch.placed_on,
                "arrived_at": batch.arrived_at,
                "placement_version": 1,
                "heat": "+".join(batch.heat),
                "heat_count": batch.heat_count,
                "thermometer": batch.thermometer,
                "house": batch.house,
                "moved_on": batch.moved_on,
                "held": False,
                "said": lines_of(said),
                "created_at": batch.arrived_at or context.now,
                "next_due": next_moment(case, batch, calendar, context.now),
            }
        ],
    )


def _open_question(rehearsal: Rehearsal, context: Context) -> None:
    asked = question_of(context.prompt or "")
    rehearsal.write(
        "question",
        [
            {
                "phone_id": 1,
                "batch_id": 1 if context.has_batch else None,
                "name": asked.name,
                "kind": asked.kind,
                "prompt": asked.prompt,
                "options": list(asked.options),
                "low": asked.low,
                "high": asked.high,
                "about": {},
                "asked_at": context.now - timedelta(minutes=5),
                "pushed": True,
            }
        ],
    )


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
    intent = "other" if meaning.intent is Intent.THANKS else meaning.intent.value
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
