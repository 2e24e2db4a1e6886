"""What becomes of a text after an outcome (pure): states, waits and verdicts. Called by
outbox.dispatch, outbox.ledger, outbox.unknowns and outbox.receipts.

A row's way: waiting -> leased -> sent -> delivered | undelivered | failed; from leased back to
waiting (not sent) or to unknown (the answer was lost); unknown -> sent | waiting, or it stays for
the desk. Beside it stand answered (said by a door), expired and cancelled.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from bot.errors import SendError

PRIORITY = ("danger", "reply", "check_back", "system", "night", "routine")
URGENT = frozenset({"danger", "reply"})

LEASE = timedelta(seconds=45)  # longer than one call of the sender and its slowest post
FIRST_PAUSE = timedelta(seconds=5)
LONGEST_PAUSE = timedelta(minutes=10)
TOO_OLD = timedelta(hours=24)  # what could not be sent for a day is stale without an expiry too
FIRST_ASK = timedelta(seconds=10)
NEXT_ASK = timedelta(seconds=20)
SETTLED = timedelta(seconds=40)  # a list that does not show a text by then never will
PATIENCE_URGENT = timedelta(minutes=3)
PATIENCE = timedelta(hours=6)
LATER = timedelta(hours=1)

OPTED_OUT = 21610
NO_GOOD = frozenset({21211, 21614, 21635, 30005, 30006})
SWITCHED_OFF = 30003
FAILURES_ALLOWED = 2


@dataclass(frozen=True, slots=True)
class Step:
    """The next state of a row. not_before: when it is looked at again; None leaves it."""

    state: str
    not_before: datetime | None = None
    code: int | None = None


class Verdict(StrEnum):
    """What to do with a text whose answer was lost."""

    ASK_AGAIN = "ask_again"
    NOT_SENT = "not_sent"  # the gateway knows of no such text: sending it is no second time
    RESEND = "resend"  # nobody can say; urgent enough to risk a second one, once
    GIVE_UP = "give_up"  # nobody can say; the desk decides


def after_error(
    error: SendError, attempt: int, created_at: datetime, now: datetime, drawn: float
) -> Step:
    """The step after a failed post. attempt: posts so far, from 1. drawn: 0 to 1, by chance."""
    if error.unknown:
        return Step("unknown", now + FIRST_ASK, error.code)
    if error.permanent or now - created_at >= TOO_OLD:
        return Step("failed", code=error.code)
    return Step("waiting", now + pause(attempt, drawn), error.code)


def pause(attempt: int, drawn: float) -> timedelta:
    """How long to wait before the next attempt: doubling from 5 s to 10 min, of which a half is
    left to chance so that senders do not march in step."""
    full = min(FIRST_PAUSE * 2.0 ** min(attempt - 1, 20), LONGEST_PAUSE)
    return full * (0.5 + drawn / 2)


def judge_unknown(klass: str, claimed_at: datetime, now: datetime, *, denied: bool) -> Verdict:
    """What to do with a text whose answer was lost and that was not found.

    denied: the gateway could be asked and lists no such text; False: it could not be asked.
    """
    age = now - claimed_at
    if denied:
        return Verdict.NOT_SENT if age >= SETTLED else Verdict.ASK_AGAIN
    if age < (PATIENCE_URGENT if klass in URGENT else PATIENCE):
        return Verdict.ASK_AGAIN
    return Verdict.RESEND if klass in URGENT else Verdict.GIVE_UP


_OF_STATUS = {
    "accepted": "sent",
    "scheduled": "sent",
    "queued": "sent",
    "sending": "sent",
    "sent": "sent",
    "delivered": "delivered",
    "read": "delivered",
    "undelivered": "undelivered",
    "failed": "failed",
    "canceled": "failed",
}
_RANK = {"sent": 1, "delivered": 2, "undelivered": 2, "failed": 2, "answered": 2}


def state_of(status: str) -> str | None:
    """Our state for the gateway's word; None for a word we don't know."""
    return _OF_STATUS.get(status.strip().lower())


def after_receipt(state: str, status: str) -> str | None:
    """The state after a receipt, or None where it changes nothing: a state only moves up, and one
    that is final stays. A waiting or given-up text that a receipt speaks of was sent after all."""
    told = state_of(status)
    if told is None or _RANK[told] <= _RANK.get(state, 0):
        return None
    return told
