"""The one of several batches that a text names: "batch 2", "the second batch", "in the old ones".

In: a text, the case, the words of all languages (terms.yaml, `batches`). Out: the batch, and the
text without its name, so that the 2 of "batch 2" is taken for no figure. The first batch is the
oldest with birds in it, as the question "Which batch?" lists them. Pure. Called by `decide.whose`
and `turn.take`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from bot.facts.farm import Batch, Case
from bot.handbook.shape_texts import Texts
from bot.say.plain import plain

NAMES, BEFORE, BY_NUMBER = "batches", "before", "number"
ORDER = {"first": 0, "second": 1, "third": 2, "older": 0, "younger": -1}
ENDS = r"(?![\w'.,]\d|\w)[:;,]?"  # no figure or word goes on: "batch 2.5", "lot 20"
MOST = 3  # batches that a menu lists
LONGEST = 400  # letters; a longer text tells of more than one thing


@dataclass(frozen=True, slots=True)
class Named:
    """batch: the one that is named. rest: the text without the words that name it."""

    batch: Batch
    rest: str


def running_batches(case: Case) -> list[Batch]:
    """The batches with birds in them, the oldest first; of many the youngest. One that died out is
    none, though it is still open."""
    found = [
        one for one in case.batches
        if one.state == "running" and one.placed_on is not None and (one.alive or not one.count)
    ]  # fmt: skip
    today = case.today
    return sorted(found, key=lambda one: one.age(today) or 0, reverse=True)[-MOST:]


def named(text: str, case: Case, texts: Texts) -> Named | None:
    """The batch that a text names and the rest of it; None where there is only one batch, where
    none is named or where two are."""
    tidy, found = _found(text, case, texts)
    if len({one.id for _, one in found}) != 1:
        return None
    for place, _ in sorted(found, key=lambda pair: -pair[0].start()):
        tidy = f"{tidy[: place.start()]} {tidy[place.end() :]}"
    return Named(found[0][1], " ".join(tidy.split()))


def names_several(text: str, case: Case, texts: Texts) -> bool:
    """Whether a text names more than one of the batches."""
    _, found = _found(text, case, texts)
    return len({one.id for _, one in found}) > 1


def _found(text: str, case: Case, texts: Texts) -> tuple[str, list[tuple[re.Match[str], Batch]]]:
    """The text in plain letters, and where batches are named in it."""
    batches = running_batches(case)
    if len(batches) < 2:
        return text, []
    tidy = plain(text).lower()
    return tidy, [] if len(tidy) > LONGEST else _longest(list(_matches(tidy, batches, texts)))


def _longest(found: list[tuple[re.Match[str], Batch]]) -> list[tuple[re.Match[str], Batch]]:
    """Of matches over the same letters the longest: in "old batch 2 dead" no batch 2 is named."""
    kept: list[tuple[re.Match[str], Batch]] = []
    for one in sorted(found, key=lambda pair: pair[0].start() - pair[0].end()):
        place = one[0]
        if all(place.end() <= it.start() or it.end() <= place.start() for it, _ in kept):
            kept.append(one)
    return kept


def _matches(
    tidy: str, batches: list[Batch], texts: Texts
) -> Iterator[tuple[re.Match[str], Batch]]:
    """Where a phrase of any language stands, and which batch it names."""
    for tongue in texts.tongues.values():
        words = tongue.terms.get(NAMES, {})
        before = "|".join(re.escape(one) for one in words.get(BEFORE, "").split("/"))
        for code, listed in words.items():
            for phrase in listed.split("/") if code != BEFORE else ():
                said = re.escape(phrase).replace("<n>", r"(\d{1,5})")
                whole = rf"(?<!\ba )(?:\b(?:{before})\s+)?\b{said}{ENDS}"
                for place in re.finditer(whole, tidy):
                    batch = _batch(code, place, batches)
                    if batch is not None:
                        yield place, batch


def _batch(code: str, place: re.Match[str], batches: list[Batch]) -> Batch | None:
    """By its place in the order of age, or by the number of its chicks."""
    if code != BY_NUMBER:
        at = ORDER[code]
        return batches[at] if at < len(batches) else None
    number = int(place.group(1))
    if 1 <= number <= len(batches):
        return batches[number - 1]
    sized = [one for one in batches if one.count == number]
    return sized[0] if len(sized) == 1 else None
