"""What was said to a batch, as it lies in its row: one line a text, "2026-03-05 morning paper_off
ring_open ask:deaths": local day, slot, rows of the calendar. A placement that moves begins anew.

`Told` is read only where someone looks into it, so that a chunk of thousands of batches can be
read, and compared, without taking each apart. Called by records.case and turn.tick.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from functools import lru_cache
from typing import overload

from bot.facts.farm import Said, SaidDays

KEPT = 1024  # farms of one age, heat and season were told the same; some 10 kB each


class Told(Sequence[Said]):
    """The rows said to a batch, oldest first. lines: as they lie in the database."""

    __slots__ = ("_rows", "lines")

    def __init__(self, lines: str) -> None:
        self.lines = lines
        self._rows: tuple[Said, ...] | None = None

    @property
    def rows(self) -> tuple[Said, ...]:
        if self._rows is None:
            self._rows = tuple(_rows(self.lines))
        return self._rows

    @property
    def days(self) -> SaidDays:
        """When it was said."""
        return _days(self.lines)

    def __bool__(self) -> bool:
        return bool(self.lines)

    def __len__(self) -> int:
        return len(self.rows)

    def __iter__(self) -> Iterator[Said]:
        return iter(self.rows)

    @overload
    def __getitem__(self, at: int) -> Said: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[Said, ...]: ...
    def __getitem__(self, at: int | slice) -> Said | tuple[Said, ...]:
        return self.rows[at]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Told) and self.lines == other.lines

    def __hash__(self) -> int:
        return hash(self.lines)


def and_now(said: Sequence[Said], on_date: date, slot: str, rows: Sequence[str]) -> Sequence[Said]:
    """What was said, and now these rows as well."""
    if isinstance(said, Told):
        return Told(said.lines + line_of(on_date, slot, rows)) if rows else said
    return (*said, *(Said(row, on_date, slot) for row in rows))


def line_of(on_date: date, slot: str, rows: Iterable[str]) -> str:
    """The line of one text, with its end."""
    return " ".join((on_date.isoformat(), slot, *rows)) + "\n"


def lines_of(said: Iterable[Said]) -> str:
    """The lines of what was said, oldest first."""
    texts: dict[tuple[date, str], list[str]] = {}
    for one in said:
        texts.setdefault((one.on_date, one.slot), []).append(one.row)
    return "".join(line_of(day, slot, rows) for (day, slot), rows in texts.items())


@lru_cache(maxsize=KEPT)
def _days(lines: str) -> SaidDays:
    rows: dict[str, list[date]] = {}
    slots: dict[date, set[str]] = {}
    for line in lines.splitlines():
        day, slot, *said = line.split(" ")
        on_date = date.fromisoformat(day)
        slots.setdefault(on_date, set()).add(slot)
        for row in said:
            rows.setdefault(row, []).append(on_date)
    return SaidDays(rows, {row: max(days) for row, days in rows.items()}, slots)


def _rows(lines: str) -> Iterator[Said]:
    for line in lines.splitlines():
        day, slot, *rows = line.split(" ")
        on_date = date.fromisoformat(day)
        for row in rows:
            yield Said(row, on_date, slot)
