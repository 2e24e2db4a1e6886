"""The clock: `now()` in UTC. Everything that needs the moment takes it as an argument; only doors,
the minute loop and wiring hold a clock."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Protocol


class Clock(Protocol):
    """Anything that tells the moment, aware and in UTC."""

    def now(self) -> datetime: ...


class SystemClock:
    """The machine's own clock."""

    def now(self) -> datetime:
        return datetime.now(UTC)


@dataclass
class FixedClock:
    """A clock that moves only when told to: for rehearsals and tests."""

    moment: datetime

    def now(self) -> datetime:
        return self.moment

    def move(self, step: timedelta) -> None:
        self.moment += step


@dataclass(frozen=True)
class FileClock:
    """Real time plus the seconds written in a file, read at every call, so that an outside script
    can play days through real HTTP. An absent or half-written file counts as no shift."""

    path: Path

    def now(self) -> datetime:
        return datetime.now(UTC) + timedelta(seconds=self._shift())

    def _shift(self) -> float:
        try:
            return float(self.path.read_text().strip() or 0)
        except (OSError, ValueError):
            return 0.0
