"""Every example of every language folder, read as the service would. Prints figures by language."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import pytest

from bot.handbook.load import content_folder
from bot.handbook.strict import read_yaml
from bot.wiring import Thinking
from tests.understand.reading import heard, read

# What is held; raise it when the reader gets better. Figures of 25 November 2026.
LEAST_INTENTS, LEAST_SIGNS, LEAST_DANGER = 0.90, 0.90, 0.90
LEAST_FIGURES = 120  # questions for a number, six and more of each kind
OURS = ("crop_check", "call_me", "not_me", "culled", "expense", "why", "thanks")
FOLDERS = sorted((content_folder() / "languages").glob("*/examples.yaml"))


def _examples(path: Path) -> list[dict[str, Any]]:
    found = read_yaml(path)
    assert isinstance(found, list)
    return found


@pytest.mark.parametrize("path", FOLDERS, ids=lambda path: path.parent.name)
def test_the_examples_of_a_language_are_understood(
    path: Path, thinking: Thinking, capsys: pytest.CaptureFixture[str]
) -> None:
    right = hits = false = missed = dangers = found = 0
    examples = _examples(path)
    for one in examples:
        got = read(thinking, str(one["text"]), **one.get("context", {}))
        said, wanted = got["intent"], one["intent"]
        right += said == wanted or said in one.get("also", []) or (
            wanted == "other" and said in OURS
        )  # fmt: skip
        signs, labelled = set(got["signals"]), set(one.get("signals", []))
        hits += len(signs & labelled)
        false += len(signs - labelled)
        missed += len(labelled - signs)
        if one.get("red_flag"):
            dangers += 1
            found += got["red_flag"]
    score = 2 * hits / (2 * hits + false + missed)
    with capsys.disabled():
        sys.stdout.write(
            f"\n{path.parent.name}: {len(examples)} examples, intents {right / len(examples):.3f}, "
            f"signs F1 {score:.3f}, danger {found}/{dangers}\n"
        )
    assert right / len(examples) >= LEAST_INTENTS
    assert score >= LEAST_SIGNS
    assert found / dangers >= LEAST_DANGER


@pytest.mark.parametrize("path", FOLDERS, ids=lambda path: path.parent.name)
def test_a_question_for_a_number_is_known_by_its_figure(path: Path, thinking: Thinking) -> None:
    asked = [one for one in _examples(path) if "figure" in one.get("slots", {})]
    wrong = [
        one["text"]
        for one in asked
        if heard(thinking, str(one["text"]), **one.get("context", {})).slots.figure
        != one["slots"]["figure"]
    ]
    assert len(asked) >= LEAST_FIGURES
    assert wrong == []
