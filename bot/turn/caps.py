"""Caps over all phones together, behind a decision: how many strangers are answered and may join a
day, how often "not understood" is said a minute. In: the decision and the case. Out: the same
decision, or silence that keeps what was said. Called by turn.take; STOP and danger pass.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy import Connection

from bot.facts.farm import Case
from bot.facts.talk import Decision, Intent, Meaning
from bot.facts.writes import AskCaretaker, Join, KeepUnread, TellAdviser
from bot.records.tally import count_up, forget_before

STRANGERS, JOINS, MISSES = "strangers", "joins", "misses"


def within_caps(
    connection: Connection, case: Case, meaning: Meaning, decision: Decision, text: str
) -> Decision:
    """The decision where no cap is reached; the adviser is told when one is."""
    says = bool(decision.lines or decision.question)
    stops = any(one.intent is Intent.STOP for one in meaning.facts())
    if not says or stops or decision.referred:
        return decision
    if case.person is None:
        joins = any(isinstance(one, Join) for one in decision.writes)
        name, most = (
            (JOINS, case.limits.joins_day) if joins else (STRANGERS, case.limits.strangers_day)
        )
        count = count_up(connection, name, f"{case.now:%Y-%m-%d}")
    elif any(isinstance(one, AskCaretaker) for one in decision.writes):
        name, most = f"caretakers:{case.phone.id}", case.limits.caretakers_day
        count = count_up(connection, name, f"{case.now:%Y-%m-%d}")
    elif any(isinstance(one, KeepUnread) for one in decision.writes):
        name, most = MISSES, case.limits.misses_minute
        count = count_up(connection, name, _minute(case.now))
        if count == 1:
            forget_before(connection, name, _minute(case.now - timedelta(hours=1)))
    else:
        return decision
    if count <= most:
        return decision
    told = (TellAdviser("storm", f"{name}: the cap of {most} is reached"),)
    return Decision(writes=(KeepUnread(text, None), *(told if count == most + 1 else ())))


def _minute(at: datetime) -> str:
    return f"{at:%y%m%d%H%M}"
