"""Keeps a sender number to the pace its network allows: a moment and a wish come in, how many texts
may go now goes out. One bucket a sender number and process; called by outbox.dispatch."""

from __future__ import annotations

import threading
from datetime import datetime


class Bucket:
    """Fills with `per_second` tokens up to `burst`; each text takes one. A clock that jumps fills
    it at most once, and one that goes back does not empty it."""

    def __init__(self, per_second: float, burst: int) -> None:
        if per_second <= 0 or burst < 1:
            raise ValueError("a bucket needs a pace above 0 and room for one text")
        self._per_second = per_second
        self._burst = burst
        self._tokens = float(burst)
        self._at: datetime | None = None
        self._lock = threading.Lock()

    def take(self, wanted: int, now: datetime) -> int:
        """Take up to `wanted` tokens; returns how many there were."""
        with self._lock:
            if self._at is not None:
                passed = max(0.0, (now - self._at).total_seconds())
                self._tokens = min(self._burst, self._tokens + passed * self._per_second)
            self._at = now
            granted = min(wanted, int(self._tokens))
            self._tokens -= granted
            return granted

    def give_back(self, tokens: int) -> None:
        """Return tokens that no text was found for."""
        with self._lock:
            self._tokens = min(self._burst, self._tokens + tokens)
