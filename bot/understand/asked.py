"""A question and facts in one text: "got 200 chicks today, how warm must it be". Pure.

Called by `read`: which clauses tell something, and what is made of both.
"""

from __future__ import annotations

from dataclasses import replace

from bot.facts.talk import Hearing, Intent, Meaning, Slots
from bot.understand.annotate import Clause, Text
from bot.understand.supposed import asks_here, begins_with_auxiliary

_OWN_TOPICS = {
    Intent.DEATHS: ("mortality", "disease", "other"),
    Intent.TEMPERATURE: ("temperature", "heating", "other"),
    Intent.HUMIDITY: ("humidity", "other"),
    Intent.FEED: ("feed_amount", "other"),
    Intent.WATER: ("water", "other"),
    Intent.WEIGHT: ("weight", "other"),
}
_TOLD = (*_OWN_TOPICS, Intent.TREATED, Intent.SOLD, Intent.CULLED, Intent.REGISTER, Intent.ARRIVED)


def told_clauses(text: Text) -> list[Clause]:
    """Clauses that neither ask nor suppose, where another clause does."""
    telling = [one for one in text.clauses if not asks(text, one)]
    return telling if len(telling) < len(text.clauses) else []


def asks(text: Text, clause: Clause) -> bool:
    """Whether a clause asks or supposes: what stands in it is not told."""
    if clause.has("@if", "what_to_do") or begins_with_auxiliary(text, clause):
        return True
    if any(asks_here(text, clause, span) for span in clause.spans.get("@question", ())):
        return True
    sentence = [one for one in text.clauses if one.sentence == clause.sentence]
    return clause.asked and not any(one.has("@question") for one in sentence)


def beside(asked: Meaning, told: Meaning | None, hearing: Hearing, *, first: bool) -> Meaning:
    """Both as MULTI; the fact alone where the question is only what to think of it; the question
    alone where nothing but the birds it is about was told."""
    if told is None or told.intent not in (*_TOLD, Intent.MULTI):
        return asked
    if told.intent is Intent.REGISTER:
        known = told.slots.date_iso_offset is not None and told.slots.count is not None
        if hearing.has_batch or not known:
            return asked
    if asked.slots.topic in _OWN_TOPICS.get(told.intent, ()):
        return told
    facts = told.parts or (told,)
    parts = (*facts, asked) if first else (asked, *facts)
    return replace(told, intent=Intent.MULTI, slots=Slots(), parts=parts)
