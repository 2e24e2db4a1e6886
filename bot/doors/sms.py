"""Where texts come in: POST /sms. In: a signed form of the gateway. Out: TwiML holding the answer.
Built by doors/web.

A message is taken once, by account and message id (turn/take sees to that), whatever else it holds;
what has no id or no sender can't be, and is told so.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from datetime import datetime
from functools import lru_cache

from flask import Blueprint, Response, abort, request

from bot.clock import Clock
from bot.doors import twiml
from bot.doors.guard import let_in
from bot.facts.talk import Incoming
from bot.settings import Settings
from bot.turn.take import Taken
from bot.understand.senders import e164

LONGEST_ID, LONGEST_NUMBER = 64, 40  # as the tables have room
LONGEST_TEXT = 2_000  # far beyond any text that a phone sends; the rest is neither read nor kept


def sms_door(take: Callable[[Incoming], Taken], settings: Settings, clock: Clock) -> Blueprint:
    """POST /sms. take: what takes one message."""
    door = Blueprint("sms", __name__)

    @door.post("/sms")
    def sms() -> Response:
        let_in(request, settings)
        incoming = incoming_of(request.form, settings, clock.now())
        taken = take(incoming)
        # The gateway has answered an opt-out itself: a word of ours would be one too many.
        texts = () if incoming.opt_out else taken.texts
        return Response(twiml.answer(*texts), content_type=twiml.CONTENT_TYPE)

    return door


def incoming_of(form: Mapping[str, str], settings: Settings, now: datetime) -> Incoming:
    """The message that a form holds; 400 where it has no id or no sender."""
    message_id = _said(form, "MessageSid") or _said(form, "SmsSid") or _said(form, "SmsMessageSid")
    sender = _said(form, "From")
    if not message_id or not sender:
        abort(400, "MessageSid and From are needed")
    return Incoming(
        message_id=short_id(message_id),
        account=short_id(_said(form, "AccountSid") or settings.gateway_account),
        sender=_number(sender, settings.region),
        recipient=_number(_said(form, "To"), settings.region),
        text=form.get("Body", "")[:LONGEST_TEXT].replace("\x00", ""),
        at=now,
        opt_out=_said(form, "OptOutType").upper() or None,
    )


def _said(form: Mapping[str, str], name: str) -> str:
    return form.get(name, "").replace("\x00", "").strip()


def short_id(text: str, longest: int = LONGEST_ID) -> str:
    """An id that fits; a longer one by its hash, so that two never become one."""
    return text if len(text) <= longest else hashlib.sha256(text.encode()).hexdigest()[:longest]


def _number(text: str, region: str) -> str:
    """A number in E.164; a name or a short code as it is."""
    return text[:LONGEST_NUMBER] if len(text) > LONGEST_NUMBER else _plain_number(text, region)


@lru_cache(maxsize=4096)
def _plain_number(text: str, region: str) -> str:
    short = text.isdigit() and len(text) < 7
    found = None if short else e164(text, region)
    return (found or text)[:LONGEST_NUMBER]
