"""What the pretend gateway keeps of each text it took, and how the API shows it. Called by
gateway/pretend."""

from __future__ import annotations

import threading
import uuid
from dataclasses import dataclass, replace
from datetime import date, datetime
from email.utils import format_datetime
from typing import Any

from bot.say.segments import measure


@dataclass(frozen=True, slots=True)
class Kept:
    """One text as taken. number: its place in the list, from 1. receipt_url: where the sender
    wants to hear of it, or empty."""

    number: int
    sid: str
    to: str
    sender: str
    body: str
    at: datetime
    status: str = "queued"
    receipt_url: str = ""
    code: int | None = None

    def as_api(self, account: str) -> dict[str, Any]:
        """The API's JSON of this text."""
        written = format_datetime(self.at)
        return {
            "sid": self.sid,
            "account_sid": account,
            "to": self.to,
            "from": self.sender,
            "messaging_service_sid": None,
            "body": self.body,
            "status": self.status,
            "direction": "outbound-api",
            "num_segments": str(measure(self.body).parts),
            "num_media": "0",
            "date_created": written,
            "date_updated": written,
            "date_sent": None if self.status == "queued" else written,
            "error_code": self.code,
            "error_message": None,
            "price": None,
            "price_unit": "USD",
            "api_version": "2010-04-01",
            "uri": f"/2010-04-01/Accounts/{account}/Messages/{self.sid}.json",
        }

    def as_seen(self) -> dict[str, Any]:
        """Our own JSON of this text, for the terminal phone and tests."""
        cost = measure(self.body)
        return {
            "number": self.number,
            "sid": self.sid,
            "to": self.to,
            "from": self.sender,
            "body": self.body,
            "status": self.status,
            "at": self.at.isoformat(),
            "parts": cost.parts,
            "encoding": cost.encoding,
        }


class Book:
    """All texts taken, in order; safe to use from many threads."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._kept: list[Kept] = []
        self._place: dict[str, int] = {}

    def take(self, to: str, sender: str, body: str, at: datetime, receipt_url: str) -> Kept:
        """Keep one text and give it an id."""
        sid = f"SM{uuid.uuid4().hex}"
        with self._lock:
            kept = Kept(len(self._kept) + 1, sid, to, sender, body, at, receipt_url=receipt_url)
            self._place[sid] = len(self._kept)
            self._kept.append(kept)
        return kept

    def mark(self, sid: str, status: str, code: int | None = None) -> None:
        """Note how far a text has come."""
        with self._lock:
            place = self._place[sid]
            self._kept[place] = replace(self._kept[place], status=status, code=code)

    def since(self, number: int) -> list[Kept]:
        """Texts taken after the one with that number."""
        with self._lock:
            return self._kept[max(number, 0) :]

    def count(self) -> int:
        with self._lock:
            return len(self._kept)

    def get(self, sid: str) -> Kept | None:
        with self._lock:
            place = self._place.get(sid)
            return None if place is None else self._kept[place]

    def listed(self, to: str | None, first: date | None, last: date | None) -> list[Kept]:
        """Newest first, those to a number and taken on these days (UTC)."""
        return [
            one
            for one in reversed(self.since(0))
            if (to is None or one.to == to)
            and (first is None or one.at.date() >= first)
            and (last is None or one.at.date() <= last)
        ]

    def clear(self) -> None:
        with self._lock:
            self._kept.clear()
            self._place.clear()
