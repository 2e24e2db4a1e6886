"""The picture of the evidence model: what it draws, and the gaps it names when they are planted."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner

from bot.doors.cli.causes import causes_command
from bot.errors import HandbookError
from bot.handbook.load import content_folder


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A copy of the content to plant gaps in."""
    folder = tmp_path / "content"
    shutil.copytree(content_folder(), folder)
    return folder


def drawn(content: Path, *more: str) -> str:
    found = CliRunner().invoke(causes_command, [str(content), *more], catch_exceptions=False)
    assert found.exit_code == 0
    return found.output


def change(path: Path, pattern: str, new: str) -> None:
    text, count = re.subn(pattern, new, path.read_text("utf-8"), flags=re.MULTILINE)
    assert count
    path.write_text(text, "utf-8")


def test_open_beaks_speak_for_heat_and_are_asked_for(content: Path) -> None:
    row = next(line for line in drawn(content).splitlines() if line.startswith("panting"))
    cold, hot = row.split()[1:3]
    assert (cold, hot) == ("-", "#")
    assert row.endswith("ask_panting")


def test_a_sign_that_no_question_reaches_any_more_is_listed(content: Path) -> None:
    assert "\n  panting\n" not in drawn(content)
    change(content / "signs.yaml", r"^(  panting: .*), ask: true", r"\1")
    assert "\n  panting\n" in drawn(content)


def test_two_causes_with_the_same_signs_are_listed(content: Path) -> None:
    assert "tells apart: none" in drawn(content)
    thirst = (content / "causes" / "thirst.yaml").read_text()
    (content / "causes" / "hunger.yaml").write_text(thirst.replace("hunger: 3", "thirst: 3"))
    assert "  thirst and hunger: nothing does\n" in drawn(content)


def test_an_action_that_a_language_has_no_words_for_is_listed(content: Path) -> None:
    change(content / "languages" / "sw" / "actions.yaml", r"^cold_gas: .*\n", "")
    assert "  sw: cold_gas (cold, brooder, gas)\n" in drawn(content)


def test_a_cause_without_a_second_action_is_listed(content: Path) -> None:
    change(content / "causes" / "hot.yaml", r"gas: \[hot_gas, hot_gas_more\]", "gas: [hot_gas]")
    assert "  hot brooder gas\n" in drawn(content)


def test_an_action_missing_for_a_kind_of_heat_is_named_with_its_file(content: Path) -> None:
    change(content / "causes" / "hot.yaml", r"^    gas: .*\n", "")
    with pytest.raises(HandbookError, match=r"hot\.yaml.*gas"):
        drawn(content)


def test_the_picture_is_well_formed_and_names_every_sign_and_cause(
    content: Path, tmp_path: Path
) -> None:
    picture = tmp_path / "causes.svg"
    drawn(content, "--picture", str(picture))
    texts = {one.text for one in ElementTree.parse(picture).iter() if one.text}
    assert {"piled_near_heat", "uneven_heat", "ask_panting", "only told"} <= texts
