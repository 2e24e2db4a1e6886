"""The table of rules (RULES.md): each is held by a test that exists, or says why by none."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
TABLE = (Path(__file__).parent / "RULES.md").read_text("utf-8")
NONE = "no test: "
SHORTEST_REASON = 8
HELD = re.compile(r"(?P<file>[a-z_/]+\.py)::(?P<name>[a-z0-9_]+)(?:\[(?P<case>[^\]]+)\])?")


def rows(table: str) -> list[tuple[str, str]]:
    """Rule and holder of each row; a cell that is missing is an empty one."""
    found = []
    for line in table.splitlines():
        if not line.startswith("|") or set(line) <= set("|- ") or line == "| rule | held by |":
            continue
        rule, _, held = line.strip("|").partition("|")
        found.append((rule.strip(), held.strip()))
    return found


@cache
def names(file: str) -> frozenset[str]:
    """The tests of a file; none where there is no such file."""
    path = TESTS / file
    if not path.is_file():
        return frozenset()
    tree = ast.parse(path.read_text("utf-8"))
    return frozenset(one.name for one in tree.body if isinstance(one, ast.FunctionDef))


def complaints(table: str) -> list[str]:
    """What is wrong with a table of rules."""
    found = []
    for rule, held in rows(table):
        if not rule or not held:
            found.append(f"a row is empty: {rule or held!r}")
        elif held.startswith(NONE):
            if len(held) < len(NONE) + SHORTEST_REASON:
                found.append(f"{rule}: no reason")
        else:
            found += [f"{rule}: {wrong}" for one in held.split(", ") for wrong in missing(one)]
    return found


def missing(held: str) -> list[str]:
    """What is not there of one holder."""
    found = HELD.fullmatch(held)
    if found is None:
        return [f"{held!r} names no test"]
    if f"test_{found['name']}" not in names(found["file"]):
        return [f"there is no {held}"]
    case = found["case"]
    if case and f'"{case}": (' not in (TESTS / found["file"]).read_text("utf-8"):
        return [f"there is no case {case!r}"]
    return []


def test_every_rule_is_held_by_a_test_that_exists_or_says_why_not() -> None:
    assert complaints(TABLE) == []


@pytest.mark.parametrize(
    ("planted", "named"),
    [
        ("| a rule | |", "a row is empty"),
        ("| | no test: nobody knows why |", "a row is empty"),
        ("| a rule |", "a row is empty"),
        ("| a rule | no test: |", "names no test"),
        ("| a rule | no test: so |", "no reason"),
        ("| a rule | rules/test_rules.py::a_test_that_is_not_there |", "there is no"),
        ("| a rule | rules/test_nowhere.py::a_test |", "there is no"),
        ("| a rule | held by good will |", "names no test"),
        ("| a rule | content/test_proof.py::a_planted_fault_is_named[x] |", "there is no case"),
    ],
)
def test_a_row_that_holds_nothing_is_named(planted: str, named: str) -> None:
    (found,) = complaints(f"| rule | held by |\n|---|---|\n{planted}\n")
    assert named in found
