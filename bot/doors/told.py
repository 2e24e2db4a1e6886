"""What was understood and decided, by the names of contract 1. In: a meaning, a decision. Out:
plain values. Called by `broodpost read` and by what compares readings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from bot.diagnosis.explain import UNCLEAR
from bot.facts.talk import Decision, Intent, Meaning
from bot.handbook.shape_causes import Causes

REACH = "reach"
LEADS = 0.5  # share from which a cause is named, though a question comes before the deed


def named(signs: Iterable[str], causes: Causes) -> list[str]:
    """The signs that contract 1 names."""
    return [one for one in signs if one not in causes.signs or not causes.signs[one].ours]


def told(heard: Meaning, decision: Decision, causes: Causes) -> Mapping[str, Any]:
    """What was understood and decided, by the names of contract 1."""
    seen = seen_outside(heard, causes)
    slots: dict[str, Any] = _slots(seen)
    if seen.intent is Intent.MULTI:
        slots = {"parts": [_part(one, causes) for one in seen.parts]}
    return {
        "intent": _intent(seen),
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
    | {Intent.SETUP, Intent.CLOSE}
)
# The intents it names, and their slots; what else was found stays inside.
_LISTED = frozenset(
    "plan register arrived observe temperature humidity deaths feed weight water treated sold "
    "status next ask undo stop start help language other multi".split()
)
_WORKED = frozenset({"better", "same", "worse"})
_SLOTS = frozenset(
    "count date_iso_offset age_days value_c rh_pct deaths kg feed_move weights_g avg_g litres "
    "price price_per product days time lang house_m2 topic answer".split()
)


def _intent(meaning: Meaning) -> str:
    if meaning.intent is Intent.OTHER and meaning.slots.answer in _WORKED:
        return Intent.OBSERVE.value  # what changed is seen, told by a digit or in words
    return "other" if meaning.intent in _OTHER_OUTSIDE else meaning.intent.value


def _slots(meaning: Meaning) -> dict[str, Any]:
    if meaning.intent in _OTHER_OUTSIDE:
        return {}
    listed = meaning.intent.value in _LISTED
    said = meaning.slots.said().items()
    kept = {name: value for name, value in said if name in _SLOTS or not listed}
    if _intent(meaning) == Intent.OBSERVE.value:
        kept.pop("answer", None)  # what an answer tells of the birds are its signs
    if meaning.slots.figure == REACH:
        kept.pop("avg_g", None)  # "when do they reach 2 kg": what is asked about, and no weighing
    return kept


def seen_outside(heard: Meaning, causes: Causes) -> Meaning:
    """What was heard, without the parts that tell of signs of our own and nothing else."""
    parts = tuple(one for one in heard.parts if not _only_ours(one, causes))
    if len(parts) == 1:
        return parts[0]
    return replace(heard, parts=parts) if parts else heard


def _only_ours(part: Meaning, causes: Causes) -> bool:
    """Whether a part tells nothing but signs of our own: outside it is none ("3 dead lying flat" is
    a count of deaths)."""
    signs = (*part.signals, *part.not_signals)
    return part.intent is Intent.OBSERVE and bool(signs) and not named(signs, causes)


def _part(meaning: Meaning, causes: Causes) -> dict[str, Any]:
    return {
        "intent": _intent(meaning),
        "slots": _slots(meaning),
        "signals": named(meaning.signals, causes),
    }
