"""Words the outcomes of a list, for a page, the command line and the result file. In: outcomes, the
words of desk.yaml in one language. Out: text.

The result file has the headings of a list, so that it can be mended and brought again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from bot.cooperative.columns import COLUMNS, ListFault
from bot.cooperative.enrol import Change, Outcome

Words = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Told:
    """One row in words. why: what is wrong, or what changes; fix: what to do about it."""

    row: int
    status: str
    cells: tuple[str, ...]
    why: str
    fix: str


def told(one: Outcome, words: Words) -> Told:
    """An outcome in words."""
    cells = tuple(getattr(one.entry, column) for column in COLUMNS)
    status = words[f"enrol.status.{one.status}"]
    if one.changes:
        return Told(
            one.entry.row, status, cells, "; ".join(_change(it, words) for it in one.changes), ""
        )
    why = " ".join(words[f"enrol.why.{it.key}"].format(**dict(it.values)) for it in one.why)
    fix = " ".join(words[f"enrol.fix.{it.key}"].format(**dict(it.values)) for it in one.why)
    return Told(one.entry.row, status, cells, why, fix)


def _change(change: Change, words: Words) -> str:
    key = "enrol.change" if change.before else "enrol.change_new"
    column = words[f"enrol.column.{change.column}"]
    return words[key].format(column=column, before=change.before, after=change.after)


def fault_told(fault: ListFault, words: Words) -> str:
    """Why a list can't be read as a whole."""
    return words[f"enrol.fault.{fault.key}"].format(**fault.values)


def result_rows(outcomes: Iterable[Outcome], words: Words) -> Iterator[Sequence[str]]:
    """The rows of a result file, headings first."""
    yield [words["enrol.row"], *headings(words), words["enrol.becomes"], words["enrol.why_not"],
           words["enrol.to_do"]]  # fmt: skip
    for outcome in outcomes:
        one = told(outcome, words)
        yield [str(one.row), *one.cells, one.status, one.why, one.fix]


def headings(words: Words) -> list[str]:
    """The headings of an empty list."""
    return [words[f"enrol.column.{column}"] for column in COLUMNS]


def language_names(by_language: Mapping[str, Words]) -> dict[str, list[str]]:
    """What each language is called in any of them, by code."""
    return _lists(by_language, "enrol.tongue.")


def heading_words(by_language: Mapping[str, Words]) -> dict[str, list[str]]:
    """What each column is called in any language."""
    return _lists(by_language, "enrol.heading.")


def _lists(by_language: Mapping[str, Words], group: str) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for words in by_language.values():
        for key, word in words.items():
            if key.startswith(group):
                found.setdefault(key.removeprefix(group), []).append(word)
    return found
