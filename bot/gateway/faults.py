"""How the pretend gateway misbehaves (pure but for its own counters): a seed, rates and planned
faults come in, the next fault goes out. Called by gateway/pretend; tests and the terminal phone set
it through /pretend/faults."""

from __future__ import annotations

import random
import threading
from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, TypeVar


class Fault(StrEnum):
    """What goes wrong with one post. BEFORE: the text was not taken. AFTER: it was."""

    NONE = "none"
    SLOW = "slow"
    BUSY = "busy"
    ERROR_BEFORE = "error_before"
    ERROR_AFTER = "error_after"
    RESET_BEFORE = "reset_before"
    RESET_AFTER = "reset_after"
    HTML_BEFORE = "html_before"
    HTML_AFTER = "html_after"

    @property
    def takes(self) -> bool:
        """Whether the text is taken all the same."""
        return self not in _NOT_TAKEN


class Receipts(StrEnum):
    """What goes wrong with the receipts of one text."""

    PLAIN = "plain"
    DOUBLED = "doubled"
    REORDERED = "reordered"
    EARLY = "early"
    LOST = "lost"


Kind = TypeVar("Kind", bound=StrEnum)

_NOT_TAKEN = {Fault.BUSY, Fault.ERROR_BEFORE, Fault.RESET_BEFORE, Fault.HTML_BEFORE}


@dataclass
class Faults:
    """The plan. planned: faults for the next posts, first come first. rates: what share of posts
    after those gets which fault. receipts: the same for receipts. refused: numbers refused at once,
    with their code. undelivered: numbers whose receipts end in that code. slow_seconds: how long a
    slow answer takes."""

    seed: int = 1
    planned: deque[Fault] = field(default_factory=deque)
    rates: dict[Fault, float] = field(default_factory=dict)
    receipts: dict[Receipts, float] = field(default_factory=dict)
    refused: dict[str, int] = field(default_factory=dict)
    undelivered: dict[str, int] = field(default_factory=dict)
    slow_seconds: float = 1.0

    def __post_init__(self) -> None:
        self._random = random.Random(self.seed)
        self._lock = threading.Lock()

    def next_fault(self) -> Fault:
        """The fault of this post."""
        with self._lock:
            if self.planned:
                return self.planned.popleft()
            return _drawn(self.rates, self._random.random()) or Fault.NONE

    def next_receipts(self) -> Receipts:
        """The fault of this text's receipts."""
        with self._lock:
            return _drawn(self.receipts, self._random.random()) or Receipts.PLAIN


def _drawn(rates: Mapping[Kind, float], drawn: float) -> Kind | None:
    for kind, rate in rates.items():
        drawn -= rate
        if drawn < 0:
            return kind
    return None


def faults_from(said: Mapping[str, Any]) -> Faults:
    """Faults from JSON, for instance {"seed": 3, "planned": ["busy"], "rates": {"slow": 0.1},
    "receipts": {"doubled": 1}, "refused": {"+15005550001": 21211}}. ValueError says what is
    wrong."""
    known = {"seed", "planned", "rates", "receipts", "refused", "undelivered", "slow_seconds"}
    if unknown := set(said) - known:
        raise ValueError(f"unknown: {', '.join(sorted(unknown))}")
    return Faults(
        seed=int(said.get("seed", 1)),
        planned=deque(Fault(one) for one in said.get("planned", [])),
        rates={Fault(name): float(rate) for name, rate in said.get("rates", {}).items()},
        receipts={Receipts(name): float(rate) for name, rate in said.get("receipts", {}).items()},
        refused={str(one): int(code) for one, code in said.get("refused", {}).items()},
        undelivered={str(one): int(code) for one, code in said.get("undelivered", {}).items()},
        slow_seconds=float(said.get("slow_seconds", 1.0)),
    )
