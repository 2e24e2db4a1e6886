"""What the continuous integration runs: both runs are made, each that fails fails the whole, and it
ends in time even where the first never does."""

from __future__ import annotations

import subprocess
import time
from pathlib import Path

import pytest

from tests.rules.test_house import ROOT

RUN = ROOT / ".ci/run"
SHORT = {"whole=1740": "whole=4", "browser=400": "browser=2", "grace=10": "grace=1"}


def made(folder: Path, test: str, browser: str, changes: dict[str, str]) -> int:
    """Runs a copy whose two scripts write their name down, then do what is given."""
    text = RUN.read_text("utf-8")
    for before, after in changes.items():
        assert before in text
        text = text.replace(before, after)
    (folder / "scripts").mkdir()
    for name, does in (("test", test), ("test-browser", browser)):
        script = folder / "scripts" / name
        script.write_text(f"#!/bin/sh\necho {name} >>ran\n{does}\n")
        script.chmod(0o755)
    run = folder / ".ci/run"
    run.parent.mkdir()
    run.write_text(text)
    run.chmod(0o755)
    return subprocess.run([run], check=False, timeout=60).returncode


@pytest.mark.parametrize(
    ("test", "browser", "ended"),
    [("exit 0", "exit 0", 0), ("exit 1", "exit 0", 1), ("exit 0", "exit 5", 1)],
)
def test_both_are_run_and_each_that_fails_fails_the_run(
    tmp_path: Path, test: str, browser: str, ended: int
) -> None:
    assert made(tmp_path, test, browser, {}) == ended
    assert (tmp_path / "ran").read_text().split() == ["test", "test-browser"]


def test_one_that_never_ends_leaves_the_other_its_time_and_the_run_ends(tmp_path: Path) -> None:
    begun = time.monotonic()
    assert made(tmp_path, "exec sleep 60", "exec sleep 60", SHORT) == 1
    assert time.monotonic() - begun < 8
    assert (tmp_path / "ran").read_text().split() == ["test", "test-browser"]
