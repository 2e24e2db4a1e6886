"""Measures the forecasts of bot/husbandry against their bars, and prints them beside each other.

In: --full for ten times as many simulated brooders and sales. Out: one JSON line a bar: what was
measured, the bar, whether it is met. Seeded, so that a second run prints the same. Run by
scripts/bench numbers.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from dataclasses import asdict

from tests.husbandry import brooders, chicks, sales

Line = dict[str, object]
SEED = 20_000  # the small versions in the tests use others


def weight_lines() -> Iterator[Line]:
    """ChickWeight: day 21 from days 6, 8 and 10."""
    for from_day in (6, 8, 10):
        found = chicks.score(from_day)
        covered = 0.7 <= found.covered <= 0.9
        yield {
            "name": f"weight of day 21 from day {from_day}",
            **asdict(found),
            "ratio": found.ratio,
            "bar": "ratio at most 0.9 from day 10; covered 0.7 to 0.9",
            "met": covered and (from_day < 10 or found.ratio <= 0.9),
        }


def brooder_lines(count: int) -> Iterator[Line]:
    """Loss per unit of fuel after five days, and cold nights from the sixth on."""
    for habit in ("tins", "need"):
        found = brooders.score(range(SEED, SEED + count), habit)
        learnt = found.median_error <= 0.15 and found.within_30_pct >= 0.9
        foretold = found.foretold >= 0.8 and found.false_alarms <= 0.2
        yield {
            "name": f"brooders whose farmer fills by {habit}",
            **asdict(found),
            "bar": "median_error at most 0.15, within_30_pct 0.9; foretold 0.8, false_alarms 0.2",
            "met": learnt and foretold,
        }


def sale_lines(count: int) -> Iterator[Line]:
    """The sale day, with a next batch waiting and without."""
    for again in (True, False):
        for price_sd in (0.05, 0.15):
            found = sales.score(range(SEED, SEED + count), price_sd, again)
            yield {
                "name": f"sale day, price off by {price_sd:.0%}, next batch: {again}",
                **asdict(found),
                "bar": "regret at most 0.01",
                "met": found.regret <= 0.01,
            }


def main() -> None:
    parser = argparse.ArgumentParser(prog="scripts/bench numbers")
    parser.add_argument("--full", action="store_true", help="2,000 brooders and sales, not 200")
    parser.add_argument("--json", action="store_true", help="as always")
    count = 2000 if parser.parse_args().full else 200
    for lines in (weight_lines(), brooder_lines(count), sale_lines(count)):
        for line in lines:
            sys.stdout.write(json.dumps(_rounded(line)) + "\n")
            sys.stdout.flush()


def _rounded(line: Line) -> Line:
    return {key: round(v, 4) if isinstance(v, float) else v for key, v in line.items()}


if __name__ == "__main__":
    main()
