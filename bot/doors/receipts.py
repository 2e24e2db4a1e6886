"""Where the gateway says what became of a text: POST /sms/receipt?ref=ROW. In: a signed form. Out:
an empty 200, for unknown texts as well (the gateway would only try again); 403 for one of another
account. Built by doors/web."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from flask import Blueprint, Response, abort, request

from bot.doors.guard import let_in
from bot.outbox.receipts import Receipt
from bot.settings import Settings

LARGEST_ROW = 2**31 - 1


def receipts_door(take_receipt: Callable[[Receipt], object], settings: Settings) -> Blueprint:
    """POST /sms/receipt. take_receipt: what notes one receipt."""
    door = Blueprint("receipts", __name__)

    @door.post("/sms/receipt")
    def receipt() -> Response:
        let_in(request, settings)
        if request.form.get("AccountSid", settings.gateway_account) != settings.gateway_account:
            abort(403)
        told = receipt_of(request.form, request.args.get("ref"))
        if told is not None:
            take_receipt(told)
        return Response(status=200, content_type="text/plain; charset=utf-8")

    return door


def receipt_of(form: Mapping[str, str], reference: str | None) -> Receipt | None:
    """The receipt that a form holds; None where it names no text or no status."""
    sid = form.get("MessageSid") or form.get("SmsSid") or ""
    status = form.get("MessageStatus") or form.get("SmsStatus") or ""
    if not sid.strip() or not status.strip() or len(sid) > 64 or "\x00" in sid:
        return None
    return Receipt(sid, status, _whole(form.get("ErrorCode")), _whole(reference))


def _whole(value: str | None) -> int | None:
    """A whole number that the tables have room for, else None."""
    if value is None or not (value.isascii() and value.isdigit()) or len(value) > 10:
        return None
    return int(value) if int(value) <= LARGEST_ROW else None
