"""The pretend gateway's other side: posts signed receipts and signed texts to the service, as the
phones of the story would cause. Called by gateway/pretend."""

from __future__ import annotations

import queue
import threading
import uuid
from collections.abc import Mapping
from dataclasses import dataclass
from time import perf_counter
from typing import Any
from xml.etree import ElementTree

import requests

from bot.gateway.faults import Faults, Receipts
from bot.gateway.kept import Book, Kept
from bot.gateway.signature import HEADER, sign
from bot.say.segments import measure


@dataclass(frozen=True, slots=True)
class Service:
    """The service the phones text to. url: where it really listens, without a path. signed_as: the
    public address it believes to have; the same unless a proxy stands before it."""

    url: str
    signed_as: str
    account: str
    token: str
    number: str


class Phones:
    """Posts to the service. Receipts go out one after another on a thread of their own."""

    def __init__(self, service: Service, book: Book) -> None:
        self._service = service
        self._book = book
        self._waiting: queue.SimpleQueue[tuple[str, dict[str, str]] | None] = queue.SimpleQueue()
        self._idle = threading.Condition()
        self._open = 0
        self._session = requests.Session()
        self._session.trust_env = False
        self._thread = threading.Thread(target=self._deliver, daemon=True)
        self._thread.start()

    def text(self, said: Mapping[str, Any]) -> dict[str, Any]:
        """Send a text to the service: "from" and "body", and where wanted "id", "to", "fields" (any
        more form fields) and "unsigned". Returns status, replies ([]: nothing said) and seconds."""
        form = self._form(said)
        url = f"{self._service.signed_as}/sms"
        begun = perf_counter()
        try:
            answer = self._post(url, form, signed=not said.get("unsigned"))
        except requests.RequestException as lost:
            return {"id": form["MessageSid"], "status": 0, "error": type(lost).__name__}
        return {
            "id": form["MessageSid"],
            "status": answer.status_code,
            "replies": _messages(answer),
            "seconds": round(perf_counter() - begun, 4),
        }

    def report(self, kept: Kept, faults: Faults) -> None:
        """Queue the receipts of a text just taken; an early one is posted before this returns."""
        how = faults.next_receipts()
        code = faults.undelivered.get(kept.to)
        steps = [("sent", None), ("undelivered" if code else "delivered", code)]
        if how is Receipts.EARLY:
            self._settle_one(kept, *steps.pop(0))
        if how is Receipts.REORDERED:
            steps.reverse()
        if how is Receipts.DOUBLED:
            steps = [step for step in steps for _ in range(2)]
        for status, error in steps:
            self._book.mark(kept.sid, status, error)
            if kept.receipt_url and how is not Receipts.LOST:
                with self._idle:
                    self._open += 1
                self._waiting.put((kept.receipt_url, self._receipt(kept, status, error)))

    def wait_until_told(self, seconds: float) -> bool:
        """Wait until every queued receipt was posted; False when that takes longer."""
        with self._idle:
            return self._idle.wait_for(lambda: self._open == 0, seconds)

    def close(self) -> None:
        self._waiting.put(None)
        self._thread.join(5)

    def _form(self, said: Mapping[str, Any]) -> dict[str, str]:
        sid = str(said.get("id") or f"SM{uuid.uuid4().hex}")
        body = str(said.get("body", ""))
        return {
            "ToCountry": "",
            "MessageSid": sid,
            "SmsSid": sid,
            "SmsMessageSid": sid,
            "AccountSid": self._service.account,
            "From": str(said["from"]),
            "To": str(said.get("to") or self._service.number),
            "Body": body,
            "NumMedia": "0",
            "NumSegments": str(measure(body).parts),
            "ApiVersion": "2010-04-01",
            **{str(name): str(value) for name, value in said.get("fields", {}).items()},
        }

    def _receipt(self, kept: Kept, status: str, code: int | None) -> dict[str, str]:
        form = {
            "MessageSid": kept.sid,
            "SmsSid": kept.sid,
            "MessageStatus": status,
            "SmsStatus": status,
            "AccountSid": self._service.account,
            "From": kept.sender,
            "To": kept.to,
            "ApiVersion": "2010-04-01",
        }
        return form if code is None else {**form, "ErrorCode": str(code)}

    def _settle_one(self, kept: Kept, status: str, code: int | None) -> None:
        self._book.mark(kept.sid, status, code)
        if kept.receipt_url:
            self._post_quietly(kept.receipt_url, self._receipt(kept, status, code))

    def _deliver(self) -> None:
        while (one := self._waiting.get()) is not None:
            self._post_quietly(*one)
            with self._idle:
                self._open -= 1
                self._idle.notify_all()

    def _post_quietly(self, url: str, form: dict[str, str]) -> None:
        """A service that is away misses its receipt, as it would with a real gateway."""
        try:
            self._post(url, form, signed=True)
        except requests.RequestException:
            return

    def _post(self, url: str, form: dict[str, str], *, signed: bool) -> requests.Response:
        headers = {}
        if signed:
            fields = {name: [value] for name, value in form.items()}
            headers[HEADER] = sign(url, fields, self._service.token)
        there = url.replace(self._service.signed_as, self._service.url, 1)
        return self._session.post(there, data=form, headers=headers, timeout=(3.05, 15))


def _messages(answer: requests.Response) -> list[str]:
    """The texts of a TwiML answer, in order."""
    try:
        found = ElementTree.fromstring(answer.content).findall("Message")
    except ElementTree.ParseError:
        return []
    return [one.text or "" for one in found]
