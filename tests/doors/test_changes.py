"""`broodpost changes`: a trainer adds a word to a copy of the content and sees what it changes."""

from __future__ import annotations

import json
import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bot.doors.cli.group import broodpost
from bot.errors import BroodpostError
from bot.facts.talk import Incoming
from bot.handbook.load import content_folder
from bot.settings import Settings
from bot.wiring import build

STRANGE = "they are frimbling again"  # no word of ours
EXAMPLES = """\
- {text: "piled under bulb", intent: observe, signals: [piled_near_heat]}
- {text: "blood in droppings", intent: observe, signals: [bloody_droppings], red_flag: true}
- {text: "temp 31", intent: temperature, slots: {value_c: 31}}
"""


@pytest.fixture
def live(tmp_path: Path) -> Path:
    """The content with a few examples, so that a test is quick."""
    content = shutil.copytree(content_folder(), tmp_path / "live" / "content")
    for file in content.glob("languages/*/examples.yaml"):
        file.write_text("[]\n" if file.parent.name != "en" else EXAMPLES, "utf-8")
        file.with_name("collected.jsonl").unlink()
    return content


@pytest.fixture
def changed(live: Path, tmp_path: Path) -> Path:
    """A copy for the trainer to change."""
    return shutil.copytree(live, tmp_path / "new" / "content")


def add_word(content: Path, place: str, word: str) -> None:
    """Put a word into a list of the English words.yaml."""
    file = content / "languages" / "en" / "words.yaml"
    text = file.read_text("utf-8")
    assert text.count(f"{place}: [") == 1
    file.write_text(text.replace(f"{place}: [", f"{place}: [{word}, "), "utf-8")


def add_example(content: Path, line: str) -> None:
    with (content / "languages" / "en" / "examples.yaml").open("a", encoding="utf-8") as file:
        file.write(f"{line}\n")


def changes(changed: Path, live: Path, *more: str) -> Result:
    return CliRunner().invoke(broodpost, ["changes", str(changed), "--against", str(live), *more])


def test_where_nothing_changes_only_the_counts_are_told(changed: Path, live: Path) -> None:
    ended = changes(changed, live)
    assert ended.exit_code == 0
    (last,) = ended.stdout.splitlines()
    assert last.startswith("3 texts read")
    assert "0 change" in last


def test_a_text_the_service_failed_on_is_understood_with_a_new_word(
    changed: Path, live: Path, tmp_path: Path
) -> None:
    bot = build(Settings(unsigned="1", content=str(live)), tmp_path / "data")
    for number, text in enumerate(["300 chicks today", STRANGE, STRANGE.upper()]):
        at = datetime(2026, 3, 4, 7, number, tzinfo=UTC)
        bot.take(Incoming(f"SM{number}", "AC", "+254700000001", "+254700000100", text, at))
    bot.db.close()
    add_word(changed, "pant", "frimbl*")
    add_example(changed, f'- {{text: "{STRANGE}", intent: observe, signals: [panting]}}')
    ended = changes(changed, live, "--data", str(tmp_path / "data"))
    assert ended.exit_code == 0, ended.output
    told = ended.stdout.splitlines()
    assert told[0] == f"en: {STRANGE!r}"
    assert told[1].split() == ["before", "observe,", "cause", "unclear"]
    assert "observe, panting, cause hot" in told[2]
    assert told[3].strip() == "example now met"
    assert told[4] == f"adviser's list: {STRANGE!r}"
    assert "examples: 1 now met, 0 broken" in told[-1]
    assert "others: 1 now understood" in told[-1]


def test_a_word_that_breaks_an_example_is_caught(changed: Path, live: Path) -> None:
    add_word(changed, "harmless", "piled under")
    ended = changes(changed, live)
    assert ended.exit_code == 1
    told = [line.strip() for line in ended.stdout.splitlines()]
    assert "en: 'piled under bulb'" in told
    assert any(line.startswith("EXAMPLE BROKEN") for line in told)
    assert "piled_near_heat is not seen" in ended.stdout
    assert "1 broken" in told[-1]


def test_a_danger_that_is_no_longer_seen_is_caught_in_a_text_nobody_explained(
    changed: Path, live: Path, tmp_path: Path
) -> None:
    file = tmp_path / "more.jsonl"
    file.write_text(json.dumps({"text": "blood in poop"}) + "\n", "utf-8")
    add_word(changed, "harmless", "blood in poop")
    ended = changes(changed, live, "--texts", str(file))
    assert ended.exit_code == 1
    assert f"{file}:1: 'blood in poop'" in ended.stdout
    assert "DANGER LOST: bloody_droppings, red flag" in ended.stdout
    assert ended.stdout.splitlines()[-1].endswith("dangers lost: 1")


def test_a_danger_that_an_example_takes_back_is_not_lost(changed: Path, live: Path) -> None:
    add_word(changed, "harmless", "blood in")
    file = changed / "languages" / "en" / "examples.yaml"
    line = '- {text: "blood in droppings", intent: other}\n'
    kept = [one for one in EXAMPLES.splitlines(keepends=True) if "blood" not in one]
    file.write_text("".join([*kept, line]), "utf-8")
    ended = changes(changed, live)
    assert "DANGER LOST" not in ended.stdout
    assert "en: 'blood in droppings'" in ended.stdout
    assert ended.exit_code == 0


def test_a_new_example_that_is_still_not_understood_is_told(changed: Path, live: Path) -> None:
    add_example(changed, f'- {{text: "{STRANGE}", intent: observe, signals: [panting]}}')
    ended = changes(changed, live)
    assert "new example NOT met: panting is not seen" in ended.stdout
    assert "1 new ones not met" in ended.stdout


def test_an_example_that_was_taken_out_hides_no_lost_danger(changed: Path, live: Path) -> None:
    add_word(changed, "harmless", "blood in")
    kept = [one for one in EXAMPLES.splitlines(keepends=True) if "blood" not in one]
    file = changed / "languages" / "en" / "examples.yaml"
    file.write_text("".join(kept), "utf-8")
    ended = changes(changed, live)
    assert ended.exit_code == 1
    assert "en, taken out: 'blood in droppings'" in ended.stdout


def test_what_cannot_be_read_is_named(changed: Path, live: Path, tmp_path: Path) -> None:
    bad = tmp_path / "bad.jsonl"
    bad.write_text('{"text": "2 dead"}\n{"words": "none"}\n', "utf-8")
    ended = changes(changed, live, "--texts", str(bad))
    assert isinstance(ended.exception, BroodpostError)
    assert f"{bad}:2" in str(ended.exception)
    empty = changes(changed, live, "--data", str(tmp_path))
    assert "holds no broodpost.db" in str(empty.exception)
    (changed / "languages" / "en" / "words.yaml").write_text("classes: [", "utf-8")
    broken = changes(changed, live)
    assert f"{changed} can't be read" in str(broken.exception)


def test_how_far_it_has_come_is_told_where_there_are_many_texts(
    changed: Path, live: Path, tmp_path: Path
) -> None:
    many = tmp_path / "many.jsonl"
    many.write_text('{"text": "ok"}\n' * 1500, "utf-8")
    ended = changes(changed, live, "--texts", str(many))
    assert "1000 of 1503 texts read" in ended.stderr
    assert ended.stdout.startswith("1503 texts read")
