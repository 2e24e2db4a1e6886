"""Sends a text through any gateway that takes one HTTP post a text: a GSM modem's box, a local
aggregator. An `Outgoing` comes in, `Sent` goes out or `SendError` is raised. Called by
outbox/dispatch, never inside a transaction.

What the gateway calls a field, and where its id stands in the answer, is set by the operator.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

import requests

from bot.errors import SendError
from bot.gateway.client import Outgoing, Sent
from bot.gateway.wire import TIMEOUTS, Wire, json_of

OURS = ("to", "text", "sender", "reference", "valid_seconds")
NEEDED = ("to", "text")
LONGEST_ID = 64


@dataclass(frozen=True, slots=True)
class Dialect:
    """How a gateway is spoken to. style: a form or a JSON object is posted. fields: what it calls
    ours (OURS), by our name; one that is not named is not sent. fixed: further fields, always the
    same. id_at: where the id stands in its JSON answer, steps joined by dots ("messages.0.id");
    empty: it gives none, and our own reference is taken."""

    style: Literal["form", "json"] = "form"
    fields: Mapping[str, str] = field(default_factory=lambda: {one: one for one in OURS})
    fixed: Mapping[str, str] = field(default_factory=dict)
    id_at: str = "id"


class PlainHttp:
    """A gateway of its own dialect. account and token: basic authentication; a token alone goes as
    a bearer token. url: the whole address that a text is posted to."""

    def __init__(
        self,
        url: str,
        account: str,
        token: str,
        sender: str,
        dialect: Dialect,
        timeouts: tuple[float, float] = TIMEOUTS,
    ) -> None:
        self._url = url
        self._sender = sender
        self._dialect = dialect
        bearer = {"Authorization": f"Bearer {token}"} if token and not account else {}
        self._wire = Wire(timeouts, (account, token) if account else None, bearer)

    def send(self, outgoing: Outgoing) -> Sent:
        fields = self._fields(outgoing)
        if self._dialect.style == "json":
            answer = self._wire.ask("POST", self._url, json=fields)
        else:
            answer = self._wire.ask("POST", self._url, data=fields)
        return self._judged(answer, outgoing)

    def find(self, to: str, text: str, since: datetime) -> tuple[Sent, ...]:
        """Such a gateway keeps no list that could be asked."""
        del to, text, since
        raise SendError("this gateway can't be asked", permanent=False)

    def _fields(self, outgoing: Outgoing) -> dict[str, str]:
        valid = outgoing.valid_seconds
        ours = {
            "to": outgoing.to,
            "text": outgoing.text,
            "sender": self._sender,
            "reference": outgoing.reference,
            "valid_seconds": "" if valid is None else str(valid),
        }
        named = {theirs: ours[name] for name, theirs in self._dialect.fields.items() if ours[name]}
        return {**self._dialect.fixed, **named}

    def _judged(self, answer: requests.Response, outgoing: Outgoing) -> Sent:
        status = answer.status_code
        why = f"HTTP {status}"
        if status >= 500:
            raise SendError(why, permanent=False, unknown=True)
        if status >= 300:
            raise SendError(why, permanent=status in (400, 422))
        sid = self._id(answer, outgoing)
        if sid is None:
            raise SendError(f"{why} without an id", permanent=False, unknown=True)
        return Sent(sid[:LONGEST_ID], "sent")

    def _id(self, answer: requests.Response, outgoing: Outgoing) -> str | None:
        if not self._dialect.id_at:
            return outgoing.reference
        found: object = json_of(answer)
        for step in self._dialect.id_at.split("."):
            found = _step(found, step)
        return str(found) if isinstance(found, str | int) and str(found) else None


def _step(inside: object, step: str) -> object:
    if isinstance(inside, Mapping):
        return inside.get(step)
    if isinstance(inside, list) and step.isdecimal() and int(step) < len(inside):
        return inside[int(step)]
    return None
