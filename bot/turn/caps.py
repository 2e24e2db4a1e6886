"""Caps over all phones together, behind a decision: how many strangers are answered or written to
and may join a day, how often "not understood" is said a minute. In: the decision and the case. Out:
the same decision, or silence that keeps what was said. Called by turn.take; STOP and danger pass.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime, timedelta

from sqlalchemy import Connection

from bot.decide.common import say
from bot.facts.farm import Case
from bot.facts.talk import Decision, Intent, Meaning
from bot.facts.writes import AskCaretaker, Join, KeepUnread, TellAdviser
from bot.records.tally import count_up, forget_before

STRANGERS, JOINS, MISSES = "strangers", "joins", "misses"
ABROAD = TellAdviser("caretaker", "names a caretaker in a country that is not served")


def within_caps(
    connection: Connection,
    case: Case,
    meaning: Meaning,
    decision: Decision,
    text: str,
    served: Callable[[str], bool],
) -> Decision:
    """The decision where no cap is reached; the adviser is told when one is. served: whether a
    number lies in a country that strangers are answered in."""
    says = bool(decision.lines or decision.question)
    stops = any(one.intent is Intent.STOP for one in meaning.facts())
    if not says or stops or decision.referred:
        return decision
    named = next((one.number for one in decision.writes if isinstance(one, AskCaretaker)), None)
    if named is not None and not served(named):
        return Decision((say("caretaker_number"),), (ABROAD,))
    for name, most in _counted(case, decision):
        period = _minute(case.now) if name == MISSES else f"{case.now:%Y-%m-%d}"
        count = count_up(connection, name, period)
        if name == MISSES and count == 1:
            forget_before(connection, name, _minute(case.now - timedelta(hours=1)))
        if count > most:
            told = (TellAdviser("storm", f"{name}: the cap of {most} is reached"),)
            return Decision(writes=(KeepUnread(text, None), *(told if count == most + 1 else ())))
    return decision


def _counted(case: Case, decision: Decision) -> Iterator[tuple[str, int]]:
    """What this answer counts towards, and how much of that there may be. Whoever is asked to look
    after birds is a stranger too."""
    limits, writes = case.limits, decision.writes
    if case.person is None and any(isinstance(one, Join) for one in writes):
        yield JOINS, limits.joins_day
    elif case.person is None:
        yield STRANGERS, limits.strangers_day
    elif any(isinstance(one, AskCaretaker) for one in writes):
        yield f"caretakers:{case.phone.id}", limits.caretakers_day
        yield STRANGERS, limits.strangers_day
    elif any(isinstance(one, KeepUnread) for one in writes):
        yield MISSES, limits.misses_minute


def _minute(at: datetime) -> str:
    return f"{at:%y%m%d%H%M}"
