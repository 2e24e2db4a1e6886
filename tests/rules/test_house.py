"""What the papers say of the house is true: commands, settings, folders, the tests themselves."""

from __future__ import annotations

import ast
import os
import re
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path

from bot.doors.cli.group import broodpost
from bot.settings import PREFIX, Settings

ROOT = Path(__file__).parents[2]
PAPERS = ("README.md", "DEVELOPERS.md")
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "pyproject.toml",
    "bot",
    "content",
    "tests",
    "scripts",
}


def papers() -> str:
    return "\n".join((ROOT / name).read_text("utf-8") for name in PAPERS if (ROOT / name).is_file())


def test_every_script_that_the_papers_name_can_be_run() -> None:
    named = set(re.findall(r"\./(scripts/[\w-]+|\.ci/\w+)", papers()))
    assert "scripts/try" in named
    assert "scripts/test" in named
    assert [one for one in sorted(named) if not os.access(ROOT / one, os.X_OK)] == []


def test_every_command_that_the_papers_name_exists() -> None:
    named = set(re.findall(r"^ *(?:\.venv/bin/)?broodpost ([a-z]+)|`broodpost ([a-z]+)",
                           papers(), re.MULTILINE))  # fmt: skip
    wanted = {one for pair in named for one in pair if one}
    assert wanted
    assert wanted <= set(broodpost.commands)


def test_every_command_says_what_it_does() -> None:
    assert [name for name, command in broodpost.commands.items() if not command.help] == []


def test_every_setting_is_explained() -> None:
    explained = Settings.__doc__ or ""
    unexplained = [one.name for one in fields(Settings) if not re.search(rf"\b{one.name}\b",
                   explained)]  # fmt: skip
    assert unexplained == []


def test_every_setting_that_the_papers_name_exists() -> None:
    named = set(re.findall(rf"\b{PREFIX}([A-Z_]+[A-Z])\b", papers()))
    assert named <= {one.name.upper() for one in fields(Settings)}


def test_nothing_unknown_lies_at_the_top() -> None:
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert found - TOP <= {"__pycache__"}


def test_no_module_goes_without_saying_what_it_is_for() -> None:
    silent = [
        str(path.relative_to(ROOT))
        for path in (ROOT / "bot").rglob("*.py")
        if ast.get_docstring(ast.parse(path.read_text("utf-8"))) is None
    ]
    assert silent == []


def test_the_lock_names_no_index() -> None:
    lock = (ROOT / "scripts" / "lock.txt").read_text("utf-8")
    assert "--hash=sha256:" in lock
    assert "://" not in lock
    assert "index-url" not in lock


def functions() -> Iterator[tuple[str, ast.FunctionDef]]:
    """Every function of the tests, with its file."""
    for path in sorted((ROOT / "tests").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.FunctionDef):
                yield str(path.relative_to(ROOT)), node


def called(node: ast.AST) -> set[str]:
    """The last names of what is called inside a function."""
    calls = [one.func for one in ast.walk(node) if isinstance(one, ast.Call)]
    names = {one.attr for one in calls if isinstance(one, ast.Attribute)}
    return names | {one.id for one in calls if isinstance(one, ast.Name)}


def asserts(node: ast.AST) -> bool:
    has_assert = any(isinstance(one, ast.Assert) for one in ast.walk(node))
    return has_assert or bool(called(node) & {"raises", "fail"})


def test_every_test_asserts_something() -> None:
    checks = {node.name for _, node in functions() if asserts(node)}
    idle = [
        f"{file}: {node.name}"
        for file, node in functions()
        if node.name.startswith("test_") and not asserts(node) and not called(node) & checks
    ]
    assert idle == []


# Plays a service that runs for itself, on real time: it looks again until a deadline.
WATCHES_PROCESSES = "tests/serve/playing.py"


def test_no_test_sleeps() -> None:
    asleep = {file for file, node in functions() if "sleep" in called(node)}
    assert asleep <= {WATCHES_PROCESSES}


def test_no_test_reaches_into_a_module_by_its_dotted_path() -> None:
    patching = {"setattr", "patch", "patch_object"}
    found = [
        f"{file}: {node.name}"
        for file, node in functions()
        if any(arg.arg in ("monkeypatch", "mocker") for arg in node.args.args)
        and called(node) & patching
    ]
    assert found == []
