"""Measures single calls of `Reader.read` over the examples of every language, beside a reference.

In: --full for more rounds and texts. Out: one JSON line: texts a second, how long the slowest of a
hundred took, and the memory of the process after few and after many texts. The reference splits the
same texts and looks each token up in a dict; both go through the same loop, by turns. Seconds are
those of the one core that works, so that others on the machine don't count. Texts with seeded
slips, all different, show that nothing kept from one text to the next grows. Memory is read as
Linux tells it. Run by scripts/bench.
"""

from __future__ import annotations

import argparse
import gc
import json
import os
import platform
import random
import string
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median, quantiles

from bot.doors.context import case_of, read_context
from bot.facts.talk import Hearing
from bot.handbook.learned import load_learned
from bot.handbook.load import content_folder
from bot.handbook.words import load_examples, load_words
from bot.turn.take import hearing
from bot.understand.index import build_index
from bot.understand.read import Reader

SEED = 1
CALLS_BAR, P99_BAR_MS = 1000, 15.0
GROWTH_BAR_KB = 2048  # what a process may gain by chance, in 19,000 texts
USUAL = {"has_batch": True, "age_days": 5, "count": 300}  # where an example says nothing else


@dataclass(frozen=True)
class Call:
    """A text and what the reader knows while it reads it."""

    text: str
    hearing: Hearing


Work = Callable[[Call], object]


@dataclass(frozen=True)
class Plan:
    """rounds: of the reader; the reference has one less. few, many: different texts with slips,
    after which memory is read."""

    rounds: int
    few: int
    many: int


SHORT = Plan(rounds=3, few=1_000, many=20_000)
FULL = Plan(rounds=11, few=1_000, many=100_000)


def own_examples() -> list[Call]:
    """Every example of every language folder, each with its own hearing."""
    folders = sorted(path for path in (content_folder() / "languages").iterdir() if path.is_dir())
    return [
        Call(one.text, _hearing(one.language, one.context))
        for folder in folders
        for one in load_examples(folder)
    ]


def _hearing(language: str, said: Mapping[str, object]) -> Hearing:
    context = read_context(language, {**USUAL, **said})
    return hearing(case_of(context), context.today)


def split_and_look_up(text: str, table: Mapping[str, object]) -> int:
    """The reference: how many tokens of the text stand in the table."""
    return sum(table.get(token) is not None for token in text.split())


def rate(calls: Sequence[Call], work: Work) -> float:
    """Calls a second."""
    begun = time.thread_time()
    for call in calls:
        work(call)
    return len(calls) / (time.thread_time() - begun)


def by_turns(
    calls: Sequence[Call], ours: Work, reference: Work, rounds: int
) -> tuple[list[float], list[float]]:
    """Calls a second of each round: ours, reference, ours, ..., ours."""
    own, others = [rate(calls, ours)], []
    for _ in range(rounds - 1):
        others.append(rate(calls, reference))
        own.append(rate(calls, ours))
    return own, others


def seconds_of(calls: Sequence[Call], work: Work) -> list[float]:
    """How long each call took."""
    took = []
    for call in calls:
        begun = time.thread_time()
        work(call)
        took.append(time.thread_time() - begun)
    return took


def with_slips(calls: Sequence[Call], count: int, seed: int) -> list[Call]:
    """So many different texts: an example drawn at random, with two letters of it gone wrong."""
    drawn = random.Random(seed)
    made: dict[str, Call] = {}
    while len(made) < count:
        call = drawn.choice(calls)
        text = _slip(_slip(call.text, drawn), drawn)
        made.setdefault(text, Call(text, call.hearing))
    return list(made.values())


def _slip(text: str, drawn: random.Random) -> str:
    """One letter too many, one left out, one wrong, or two swapped."""
    at = drawn.randrange(len(text) + 1)
    before, after = text[:at], text[at:]
    letter = drawn.choice(string.ascii_lowercase)
    return drawn.choice(
        (
            before + letter + after,
            before + after[1:],
            before + letter + after[1:],
            before + after[1:2] + after[:1] + after[2:],
        )
    )


def resident_kb() -> int:
    """Memory of this process that is in use now, kB."""
    gc.collect()
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") // 1024


def p99_ms(seconds: Sequence[float]) -> float:
    """Of a hundred calls, one took longer than this."""
    return quantiles(seconds, n=100)[98] * 1000


def measure(plan: Plan, calls: Sequence[Call]) -> dict[str, object]:
    """The JSON line."""
    begun = time.monotonic()
    content = content_folder()
    index = build_index(load_words(content))
    reader, table = Reader(index, load_learned(content)), dict(index.lexicon.exact)
    slips = with_slips(calls, plan.many, SEED)
    gc.collect()

    def ours(call: Call) -> object:
        return reader.read(call.text, call.hearing)

    def reference(call: Call) -> object:
        return split_and_look_up(call.text, table)

    own, others = by_turns(calls, ours, reference, plan.rounds)
    figure, beside = median(own), median(others)
    slowest = p99_ms(seconds_of(calls, ours))
    first = seconds_of(slips[: plan.few], ours)
    early = resident_kb()
    rest = seconds_of(slips[plan.few :], ours)
    grown = resident_kb() - early
    slips_slowest = p99_ms([*first, *rest])
    return {
        "name": "read",
        "database": None,
        "figure": round(figure),
        "unit": "texts/s",
        "reference": round(beside),
        "ratio": round(figure / beside, 5),
        "spread": round((max(own) - min(own)) / figure, 3),
        "rounds": plan.rounds,
        "seconds": round(time.monotonic() - begun, 1),
        "machine": f"{platform.machine()}, {os.cpu_count()} cores, "
        f"Python {platform.python_version()}",
        "texts": len(calls),
        "p99_ms": round(slowest, 2),
        "with_slips": {
            "texts": plan.many,
            "figure": round(plan.many / sum((*first, *rest))),
            "p99_ms": round(slips_slowest, 2),
        },
        "memory_kb": {"early": early, "grown": grown},
        "bar": f"{CALLS_BAR} texts/s, p99 {P99_BAR_MS:g} ms with slips too, "
        f"grown at most {GROWTH_BAR_KB} kB",
        "met": figure >= CALLS_BAR
        and max(slowest, slips_slowest) <= P99_BAR_MS
        and grown <= GROWTH_BAR_KB,
    }


def main() -> None:
    parser = argparse.ArgumentParser(prog="scripts/bench read")
    parser.add_argument("--full", action="store_true", help="11 rounds, 100,000 texts with slips")
    parser.add_argument("--json", action="store_true", help="as always")
    plan = FULL if parser.parse_args().full else SHORT
    sys.stdout.write(json.dumps(measure(plan, own_examples())) + "\n")


if __name__ == "__main__":
    main()
