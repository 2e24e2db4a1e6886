"""`broodpost read`: what was understood and decided, one line a message (contract 1)."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from typing import Any

import click

from bot.diagnosis.explain import UNCLEAR
from bot.doors.cli.context import case_of, read_context
from bot.doors.cli.lines import content_option, each_line
from bot.facts.talk import Decision, Intent, Meaning
from bot.handbook.shape_causes import Causes
from bot.turn.choose import choose
from bot.turn.take import hearing
from bot.wiring import Thinking, build_thinking

LEADS = 0.5  # share from which a cause is named, though a question comes before the deed


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


def named(signs: Iterable[str], causes: Causes) -> list[str]:
    """The signs that contract 1 names."""
    return [one for one in signs if one not in causes.signs or not causes.signs[one].ours]


def told(heard: Meaning, decision: Decision, causes: Causes) -> Mapping[str, Any]:
    """What was understood and decided, by the names of contract 1."""
    slots: dict[str, Any] = _slots(heard)
    if heard.intent is Intent.MULTI:
        slots = {"parts": [_part(one, causes) for one in heard.parts]}
    return {
        "intent": _intent(heard),
        "slots": slots,
        "signals": named(heard.signals, causes),
        "not_signals": named(heard.not_signals, causes),
        "cause": _cause(decision),
        "red_flag": decision.referred,
        # The answer to a danger is the alarm, also where a question stands in a text behind it.
        "ask": decision.question is not None and not decision.referred,
        "confidence": round(heard.confidence, 3),
        "causes": [[cause, round(share, 3)] for cause, share in decision.why.ranked[:4]]
        if decision.why
        else [],
    }


def _cause(decision: Decision) -> str | None:
    """The first of the ranking where it leads, also where a question comes before the deed."""
    why = decision.why
    if why is None:
        return None
    leads = why.cause == UNCLEAR and why.ranked and why.ranked[0][1] >= LEADS
    return why.ranked[0][0] if leads else why.cause


# Told apart inside; contract 1 knows no such intents.
_OTHER_OUTSIDE = frozenset(
    {Intent.THANKS, Intent.NOT_ME, Intent.TAKEN, Intent.COUNTED, Intent.FUEL, Intent.WHY}
)
# The intents it names, and their slots; what else was found stays inside.
_LISTED = frozenset(
    "plan register arrived observe temperature humidity deaths feed weight water treated sold "
    "status next ask undo stop start help language other multi".split()
)
_SLOTS = frozenset(
    "count date_iso_offset age_days value_c rh_pct deaths kg feed_move weights_g avg_g litres "
    "price price_per product days time lang house_m2 topic answer".split()
)


def _intent(meaning: Meaning) -> str:
    return "other" if meaning.intent in _OTHER_OUTSIDE else meaning.intent.value


def _slots(meaning: Meaning) -> dict[str, Any]:
    if meaning.intent in _OTHER_OUTSIDE:
        return {}
    listed = meaning.intent.value in _LISTED
    said = meaning.slots.said().items()
    return {name: value for name, value in said if name in _SLOTS or not listed}


def _part(meaning: Meaning, causes: Causes) -> dict[str, Any]:
    return {
        "intent": _intent(meaning),
        "slots": _slots(meaning),
        "signals": named(meaning.signals, causes),
    }
