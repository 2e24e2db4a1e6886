"""Where a missed call comes in: POST /voice. In: a signed form of the gateway. Out: the call is
rejected, so that it costs the farmer nothing. Built by doors/web.

What the ring means is seen in turn.ring; a call is taken once, by account and call id.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from flask import Blueprint, Response, request

from bot.clock import Clock
from bot.doors import twiml
from bot.doors.guard import let_in
from bot.doors.sms import incoming_of
from bot.facts.talk import Incoming
from bot.settings import Settings
from bot.turn.ring import RING


def voice_door(take: Callable[[Incoming], object], settings: Settings, clock: Clock) -> Blueprint:
    """POST /voice. take: what takes one message. What names no call is rejected all the same."""
    door = Blueprint("voice", __name__)

    @door.post("/voice")
    def voice() -> Response:
        let_in(request, settings)
        form = {name: value.replace("\x00", "").strip() for name, value in request.form.items()}
        form["MessageSid"] = form.get("CallSid", "")
        inbound = not form.get("Direction", "").startswith("outbound")
        if form["MessageSid"] and form.get("From") and inbound:
            rang = incoming_of(form, settings, clock.now())
            take(replace(rang, text=RING, channel="voice", opt_out=None))
        return Response(twiml.REJECTED, content_type=twiml.CONTENT_TYPE)

    return door
