"""Measures the diagnosis against a brooder that shares no table with it, and danger against texts.

In: --full for 5,000 complaints and 100,000 with danger in them, not 600 and 2,000. Out: one JSON
line a bar: what was measured, the bar, whether it is met; the confusion table among them. Seeded,
so that a second run prints the same. Run by scripts/bench.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from bot.wiring import Thinking, build_thinking
from tests.diagnosis import alarms
from tests.diagnosis.farmer import Complaint, confusion, flattened, season

Line = dict[str, object]
SEED = 20_000  # the small versions in the tests use others
RIGHT, OF_EXACT, QUESTIONS, LOST, UNASKED_MIN = 0.85, 0.95, 2.0, 0.05, 30
FALSE = 0.01


def share(played: Sequence[Complaint], kind: str) -> float:
    """How often the cause named (or reached by exact inference) is one that holds."""
    return sum(getattr(one, kind) in one.holding for one in played) / len(played)


def brooder_lines(count: int, thinking: Thinking) -> Iterator[Line]:
    """The first cause named, questions, flattened tables, what the action does."""
    played = season(count, SEED, thinking)
    right = share(played, "named")
    yield bar("right cause first", right, right >= RIGHT, f"at least {RIGHT}", complaints=count)
    exact, informed = share(played, "exact"), share(played, "informed")
    yield bar(
        "of exact inference with every question answered", right / exact,
        right / exact >= OF_EXACT, f"at least {OF_EXACT}",
        exact=exact, of_exact_with_every_answer_true=right / informed,
    )  # fmt: skip
    asked = sum(one.questions for one in played) / count
    yield bar("questions a complaint", asked, asked <= QUESTIONS, f"at most {QUESTIONS:g}",
              most=max(one.questions for one in played))  # fmt: skip
    book = replace(thinking.handbook, causes=flattened(thinking.handbook.causes, 0.2))
    flat = share(season(count, SEED, replace(thinking, handbook=book)), "named")
    yield bar("lost with tables flattened by a fifth", right - flat, right - flat <= LOST,
              f"at most {LOST}")  # fmt: skip
    unasked = max(one.worst_min for one in played)
    yield bar("minutes further from right, unasked", unasked, unasked <= UNASKED_MIN,
              f"at most {UNASKED_MIN} between 05:00 and 22:00")  # fmt: skip
    yield {"name": "confusion", "table": rows(confusion(played))}


def rows(table: Counter[tuple[str, str]]) -> dict[str, dict[str, int]]:
    """What was planted: what was named, most often first."""
    found: dict[str, dict[str, int]] = {}
    for (truth, named), count in table.most_common():
        found.setdefault(truth, {})[named] = count
    return dict(sorted(found.items()))


def alarm_lines(count: int, thinking: Thinking) -> Iterator[Line]:
    """Danger texted or admitted is referred in its own turn, in every state; nothing else is."""
    told = alarms.season(count, SEED, thinking, alarms.TALKING)
    missed = [one for one in told if not one.referred]
    yield bar("danger without its referral", len(missed), not missed, "none", complaints=count,
              admitted=sum(one.admitted for one in told),
              missed=[one.text for one in missed[:10]])  # fmt: skip
    calm = alarms.calm_season(count, SEED, thinking)
    false = sum(one.referred for one in calm) / count
    texts = sorted({one.text for one in calm if one.referred})
    yield bar("referrals of what is no danger", false, false <= FALSE, f"at most {FALSE}",
              complaints=count, texts=texts[:10])  # fmt: skip


def bar(name: str, figure: float, met: bool, needed: str, **more: object) -> Line:
    rounded = {key: round(v, 4) if isinstance(v, float) else v for key, v in more.items()}
    return {"name": name, "figure": round(figure, 4), **rounded, "bar": needed, "met": met}


def main() -> None:
    parser = argparse.ArgumentParser(prog="scripts/bench diagnosis")
    parser.add_argument("--full", action="store_true", help="5,000 and 100,000 complaints")
    parser.add_argument("--json", action="store_true", help="as always")
    many = parser.parse_args().full
    thinking = build_thinking()
    for lines in (
        brooder_lines(5_000 if many else 600, thinking),
        alarm_lines(100_000 if many else 2_000, thinking),
    ):
        for line in lines:
            sys.stdout.write(json.dumps(line) + "\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
