"""The import rules of pyproject.toml hold, and each breach planted in a copy is caught."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
RULES = ("downhill", "thinking", "at-door", "apart", "no circles")
VERDICT = re.compile(rf"\b({'|'.join(RULES)})\b(?:(?!KEPT|BROKEN).)*(KEPT|BROKEN)")


@dataclass(frozen=True)
class Breach:
    """A line put at the end of a file (made where it is not there), and the rule that it breaks."""

    file: str
    line: str
    rule: str


BREACHES = {
    "facts call upwards": Breach("bot/facts/talk.py", "import bot.say.plain", "downhill"),
    "two of one layer know each other": Breach(
        "bot/outbox/retry.py", "import bot.turn.choose", "downhill"
    ),
    "a folder without a layer": Breach("bot/extras/more.py", "import bot.errors", "downhill"),
    "an answer asks the database": Breach("bot/decide/deaths.py", "import sqlalchemy", "thinking"),
    "thinking reaches the loader by a detour": Breach(
        "bot/handbook/shape_texts.py", "import bot.handbook.strict", "thinking"
    ),
    "a framework behind the door": Breach("bot/turn/take.py", "import click", "at-door"),
    "one answer calls another": Breach(
        "bot/decide/deaths.py", "import bot.decide.register", "apart"
    ),
    "two formulas in a circle": Breach(
        "bot/husbandry/limits.py", "import bot.husbandry.temperature", "no circles"
    ),
}


def broken_rules(folder: Path) -> tuple[str, ...]:
    """The short names of the rules that import-linter calls broken in this checkout."""
    linter = str(Path(sys.executable).with_name("lint-imports"))
    done = subprocess.run(
        [linter, "--no-logo", "--no-cache"], cwd=folder, capture_output=True, text=True, check=False
    )
    verdicts = VERDICT.findall(" ".join(done.stdout.split()))
    assert [rule for rule, _ in verdicts] == list(RULES), done.stdout + done.stderr
    return tuple(rule for rule, verdict in verdicts if verdict == "BROKEN")


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A copy of the code and of its rules."""
    shutil.copytree(ROOT / "bot", tmp_path / "bot", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_the_code_keeps_every_import_rule(checkout: Path) -> None:
    assert broken_rules(checkout) == ()


@pytest.mark.parametrize("breach", BREACHES.values(), ids=BREACHES.keys())
def test_a_breach_is_named_by_the_rule_it_breaks(breach: Breach, checkout: Path) -> None:
    file = checkout / breach.file
    if not file.parent.is_dir():
        file.parent.mkdir()
        (file.parent / "__init__.py").touch()
    with file.open("a", encoding="utf-8") as end:
        end.write(f"\n{breach.line}\n")
    assert breach.rule in broken_rules(checkout)
