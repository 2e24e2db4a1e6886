"""Where a gateway of its own dialect posts a farmer's text: POST /in/<secret>. In: a form or a JSON
object with the fields that the settings name. Out: an empty 200; the answer goes out as a text of
our own. Built by doors/web.

Such posts are unsigned, so a secret stands in the path. A text without an id is known by what it
says and the minute it came in, so that a repeat within the minute is taken once.
"""

from __future__ import annotations

import hashlib
import hmac
import json
from collections.abc import Callable, Mapping

from flask import Blueprint, Request, Response, abort, request

from bot.clock import Clock
from bot.doors.sms import incoming_of
from bot.facts.talk import Incoming
from bot.settings import Settings


def plain_door(take: Callable[[Incoming], object], settings: Settings, clock: Clock) -> Blueprint:
    """POST /in/<secret>. take: what takes one message and sends its answer."""
    door = Blueprint("plain_sms", __name__)

    @door.post("/in/<secret>")
    def plain_sms(secret: str) -> Response:
        known = settings.inbound_secret.encode()
        if not known or not hmac.compare_digest(secret.encode(), known):
            abort(404)
        now = clock.now()
        form = _named(_posted(request), settings.inbound_names)
        if not form["MessageSid"]:
            said = f"{form['From']}|{form['Body']}|{now:%Y-%m-%d %H:%M}"
            form["MessageSid"] = hashlib.sha256(said.encode()).hexdigest()[:40]
        take(incoming_of(form, settings, now))
        return Response(status=200, content_type="text/plain; charset=utf-8")

    return door


def _posted(found: Request) -> Mapping[str, object]:
    """The fields of a post, whether it is a form or a JSON object."""
    if not found.is_json:
        return found.form.to_dict()
    try:
        held = json.loads(found.get_data())
    except (ValueError, RecursionError):  # no JSON, or nested to no end
        held = None
    if not isinstance(held, dict):
        abort(400, "a JSON object is needed")
    return held


def _named(posted: Mapping[str, object], names: Mapping[str, str]) -> dict[str, str]:
    """The same message as the other door has it."""

    def said(name: str) -> str:
        value = posted.get(names[name])
        text = str(value) if isinstance(value, str | int) else ""
        return text.encode("utf-8", "replace").decode()  # JSON may hold half a letter

    return {
        "MessageSid": said("id").replace("\x00", "").strip(),
        "From": said("from"),
        "To": said("to"),
        "Body": said("text"),
    }
