"""What of an example a reading does not meet, in words. In: an example, a line of contract 1.
Called by `broodpost changes` and the page "Unread words"."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from bot.handbook.shape_words import Example

OURS = (
    "crop_check",
    "call_me",
    "not_me",
    "culled",
    "expense",
    "taken",
    "counted",
    "correct",
    "why",
    "thanks",
)  # are `other` too


def missing(example: Example | None, line: Mapping[str, Any]) -> tuple[str, ...]:
    """What of an example a reading does not meet, in words; () where it meets all of it."""
    return () if example is None else tuple(_missing(example, line))


def _missing(example: Example, line: Mapping[str, Any]) -> Iterator[str]:
    intents = (example.intent, *example.also, *(OURS if example.intent == "other" else ()))
    if line["intent"] not in intents:
        yield f"is {line['intent']}, should be {example.intent}"
    for name, value in example.slots.items():
        if not _same(value, line["slots"].get(name)):
            yield f"{name} is {line['slots'].get(name)}, should be {value}"
    wanted, seen = set(example.signals), set(line["signals"])
    yield from (f"{sign} is not seen" for sign in sorted(wanted - seen))
    yield from (f"{sign} is seen and should not be" for sign in sorted(seen - wanted))
    denied = set(example.not_signals) - set(line["not_signals"])
    yield from (f"{sign} is not told as absent" for sign in sorted(denied))
    asks = line["ask"] and "unclear" in example.cause
    if example.cause and line["cause"] not in example.cause and not asks:
        yield f"cause is {line['cause']}, should be {' or '.join(example.cause)}"
    if line["red_flag"] != example.red_flag:
        yield "is danger" if example.red_flag else "is no danger"


def _same(wanted: object, got: object) -> bool:
    """Equal, numbers to a tenth; of the parts of a text, those keys that the example names."""
    if isinstance(wanted, Mapping) and isinstance(got, Mapping):
        return all(_same(value, got.get(name)) for name, value in wanted.items())
    if isinstance(wanted, list) and isinstance(got, list):
        return len(wanted) == len(got) and all(map(_same, wanted, got))
    if isinstance(wanted, int | float) and isinstance(got, int | float):
        return abs(wanted - got) < 0.1
    return wanted == got
