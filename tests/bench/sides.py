"""How two sides are measured beside each other, and the JSON line that says so (contract 5)."""

from __future__ import annotations

import argparse
import json
import os
import platform
import sys
from collections.abc import Callable, Iterable, Sequence
from statistics import median
from time import monotonic

from tests.bench.databases import NAMES, Place, place

Line = dict[str, object]
Side = Callable[[], float]  # one round; work a second


def by_turns(ours: Side, reference: Side, rounds: int) -> tuple[list[float], list[float]]:
    """Ours, reference, ours, ..., ours: `rounds` of ours, one less of the other."""
    own, others = [ours()], []
    for _ in range(rounds - 1):
        others.append(reference())
        own.append(ours())
    return own, others


def line(
    name: str,
    database: str | None,
    unit: str,
    own: Sequence[float],
    others: Sequence[float],
    begun: float,
    **more: object,
) -> Line:
    """The line of a measurement. begun: monotonic() at its start. spread: of ours, widest to
    narrowest as a share of the median; reference_spread likewise."""
    figure, beside = median(own), median(others)
    return {
        "name": name,
        "database": database,
        "figure": round(figure, 1),
        "unit": unit,
        "reference": round(beside, 1),
        "ratio": round(figure / beside, 3),
        "spread": spread(own),
        "rounds": len(own),
        "seconds": round(monotonic() - begun, 1),
        "machine": machine(),
        "reference_spread": spread(others),
        **more,
    }


def spread(rates: Sequence[float]) -> float:
    return round((max(rates) - min(rates)) / median(rates), 3)


def machine() -> str:
    cores = os.cpu_count()
    return f"{platform.machine()}, {cores} cores, Python {platform.python_version()}"


def show(said: Line) -> None:
    """Print one line now."""
    sys.stdout.write(json.dumps(said) + "\n")
    sys.stdout.flush()


def over_databases(name: str, full: str, measured: Callable[[Place, bool], Iterable[Line]]) -> None:
    """The command `scripts/bench NAME [--full] [--only DATABASE]`: a database each, its lines shown
    as they come. full: what --full does. measured: makes the lines, told whether --full was."""
    parser = argparse.ArgumentParser(prog=f"scripts/bench {name}")
    parser.add_argument("--full", action="store_true", help=full)
    parser.add_argument("--only", choices=NAMES, help="one of the databases")
    parser.add_argument("--json", action="store_true", help="as always")
    asked = parser.parse_args()
    for database in NAMES:
        if asked.only in (None, database):
            with place(database) as here:
                for said in measured(here, asked.full):
                    show(said)
