"""Where a phone dials in (USSD): POST /ussd/<secret>. In: the gateway's form. Out: the screen, in
the same style. Built by doors/web.

Callbacks are unsigned, so a secret stands in the path. A style turns what a gateway posts into a
`Dialled` and a `Screen` into what it reads; the form style with CON and END is the common one.
"""

from __future__ import annotations

import hmac
from collections.abc import Callable, Mapping
from typing import Protocol

from flask import Blueprint, Response, abort, request

from bot.doors.guard import comes_from
from bot.doors.sms import LONGEST_NUMBER, short_id
from bot.facts.dial import Dialled, Screen
from bot.settings import Settings
from bot.understand.senders import e164

LONGEST_TYPED = 2_000  # of a whole session's input


class Style(Protocol):
    """How one kind of gateway speaks."""

    def heard(self, form: Mapping[str, str], region: str) -> Dialled | None:
        """The callback that a post holds; None where it names no session."""

    def shown(self, screen: Screen) -> str:
        """The answer that the gateway reads."""


class ConEnd:
    """The common form style: sessionId, phoneNumber, serviceCode, and in text everything typed
    since the beginning, joined by stars, empty at first; CON goes on, END is the last screen."""

    def heard(self, form: Mapping[str, str], region: str) -> Dialled | None:
        session = form.get("sessionId", "").replace("\x00", "").strip()
        if not session:
            return None
        typed = form.get("text", "").replace("\x00", "")[:LONGEST_TYPED]
        return Dialled(
            kind="input" if typed else "start",
            session=short_id(session),
            sender=number_of(form.get("phoneNumber", ""), region),
            code=form.get("serviceCode", "").replace("\x00", "")[:LONGEST_NUMBER],
            key=typed,
            typed=typed,
            joined=True,
        )

    def shown(self, screen: Screen) -> str:
        return f"{'CON' if screen.more else 'END'} {screen.text}"


def ussd_door(
    dial: Callable[[Dialled], Screen], settings: Settings, style: Style | None = None
) -> Blueprint:
    """POST /ussd/<secret>. dial: what takes one callback. A wrong secret finds no such door."""
    door = Blueprint("ussd", __name__)
    speaks = style or ConEnd()

    @door.post("/ussd/<secret>")
    def ussd(secret: str) -> Response:
        known = settings.ussd_secret.encode()
        if not known or not hmac.compare_digest(secret.encode(), known):
            abort(404)
        if not comes_from(request, settings.ussd_networks):
            abort(404)
        dialled = speaks.heard(request.form, settings.region)
        if dialled is None:
            abort(400, "sessionId is needed")
        answer = speaks.shown(dial(dialled))
        return Response(answer, content_type="text/plain; charset=utf-8")

    return door


def number_of(said: str, region: str) -> str:
    """The caller in E.164; empty where no number that a person could have was given."""
    text = said.replace("\x00", "").strip()
    is_short = text.isdigit() and len(text) < 7
    return "" if is_short else (e164(text, region) or "")[:LONGEST_NUMBER]
