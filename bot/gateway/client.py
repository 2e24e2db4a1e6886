"""Sends a text through a Twilio-compatible REST API. An `Outgoing` comes in, `Sent` goes out or
`SendError` is raised, which says whether trying again helps and whether the text may have been
accepted. Called by outbox/dispatch, never inside a transaction.

The API has no idempotency key. So every text carries our own reference in the address of its
receipt, and `find` asks what became of a text whose answer was lost.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from email.utils import parsedate_to_datetime
from typing import Any, Protocol
from urllib.parse import urlencode

import requests

from bot.errors import SendError
from bot.gateway.wire import TIMEOUTS, Wire, json_of

LISTED = 100  # a phone gets far fewer texts in the minutes of a lease

# Refused before the text was looked at: our key, the path or the pace is wrong, not the text.
_NOT_LOOKED_AT = frozenset({401, 407, 408, 425, 429})
_BAD_REQUEST = frozenset({400, 422})


@dataclass(frozen=True, slots=True)
class Outgoing:
    """One text to send. to: E.164. reference: our own id, given back with each receipt.
    valid_seconds: how long the network may try (the gateway takes 1 to 36,000)."""

    to: str
    text: str
    reference: str
    valid_seconds: int | None = None


@dataclass(frozen=True, slots=True)
class Sent:
    """What the gateway said of a text it took. status: its own word ("queued", "sent", ...).
    segments: parts billed, None where it did not say. at: when it took it, where it said so."""

    sid: str
    status: str
    segments: int | None = None
    code: int | None = None
    at: datetime | None = None


class Gateway(Protocol):
    """Anything that sends texts."""

    def send(self, outgoing: Outgoing) -> Sent:
        """Hand over one text; raises SendError."""

    def find(self, to: str, text: str, since: datetime) -> tuple[Sent, ...]:
        """All it took for `to` with this very text since that moment, oldest first; raises
        SendError where it can't be asked."""


class TwilioCompatible:
    """A gateway spoken to with `requests`; one session a thread, so that connections are kept."""

    def __init__(
        self,
        base_url: str,
        account: str,
        token: str,
        sender: str,
        receipt_url: str,
        timeouts: tuple[float, float] = TIMEOUTS,
    ) -> None:
        self._messages = f"{base_url.rstrip('/')}/2010-04-01/Accounts/{account}/Messages.json"
        self._sender = sender
        self._receipt_url = receipt_url
        self._wire = Wire(timeouts, auth=(account, token))

    def send(self, outgoing: Outgoing) -> Sent:
        answer = self._wire.ask("POST", self._messages, data=self._form(outgoing))
        return _judge(answer)

    def find(self, to: str, text: str, since: datetime) -> tuple[Sent, ...]:
        day = since.astimezone(UTC).date().isoformat()
        params = {"To": to, "DateSent>": day, "PageSize": str(LISTED)}
        answer = self._wire.ask("GET", self._messages, params=params)
        listed = json_of(answer).get("messages")
        if not answer.ok or not isinstance(listed, list):
            raise SendError(f"no list: HTTP {answer.status_code}", permanent=False)
        found = [_sent(one) for one in listed if _same(one, to, text)]
        whole = since.replace(microsecond=0)  # the API tells time by the second
        recent = [one for one in found if one.at is None or one.at >= whole]
        return tuple(sorted(recent, key=lambda one: one.at or since))

    def _form(self, outgoing: Outgoing) -> dict[str, str]:
        ours = urlencode({"ref": outgoing.reference})
        # A sender that is no number is the id of a pool of numbers.
        sender = "MessagingServiceSid" if self._sender.startswith("MG") else "From"
        form = {
            "To": outgoing.to,
            sender: self._sender,
            "Body": outgoing.text,
            "StatusCallback": f"{self._receipt_url}?{ours}",
        }
        if outgoing.valid_seconds is not None:
            form["ValidityPeriod"] = str(min(max(outgoing.valid_seconds, 1), 36_000))
        return form


def _judge(answer: requests.Response) -> Sent:
    """Sent, or the SendError that this answer means."""
    said, status = json_of(answer), answer.status_code
    code = _whole(said.get("code"))
    why = f"HTTP {status}" + (f", code {code}" if code else "")
    if answer.ok and status < 300:
        if code is not None:
            raise SendError(why, permanent=True, code=code)
        if not isinstance(said.get("sid"), str):
            raise SendError(f"{why} without an id", permanent=False, unknown=True)
        return _sent(said)
    if status >= 500:
        raise SendError(why, permanent=False, unknown=True, code=code)
    final = status >= 400 and status not in _NOT_LOOKED_AT and (said or status in _BAD_REQUEST)
    raise SendError(why, permanent=bool(final), code=code)


def _same(one: object, to: str, text: str) -> bool:
    if not isinstance(one, dict) or not isinstance(one.get("sid"), str):
        return False
    return one.get("to") == to and str(one.get("body")).strip() == text.strip()


def _sent(said: Mapping[str, Any]) -> Sent:
    return Sent(
        sid=str(said["sid"]),
        status=str(said.get("status") or "queued"),
        segments=_whole(said.get("num_segments")),
        code=_whole(said.get("error_code")),
        at=_moment(said.get("date_created") or said.get("date_sent")),
    )


def _whole(value: object) -> int | None:
    try:
        return int(str(value))
    except ValueError:
        return None


def _moment(value: object) -> datetime | None:
    try:
        moment = parsedate_to_datetime(str(value))
    except ValueError:
        return None
    return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment.astimezone(UTC)
