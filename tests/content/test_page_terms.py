"""Words on pages are those of texts, with their accents: the proof finds another one."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from bot.handbook.load import content_folder
from bot.proof.pages import check_pages
from bot.wiring import Thinking


@pytest.mark.parametrize(
    ("before", "after", "faults"),
    [
        ("litière humide", "litière humide", []),
        ("la litière humide", "la litière trempée", ["cause.damp_litter"]),
        ("damp_litter:", "damp_liter:", ["cause.damp_liter"]),
    ],
)
def test_a_word_on_a_page_that_is_none_of_a_text_is_found(
    thinking: Thinking, tmp_path: Path, before: str, after: str, faults: list[str]
) -> None:
    shutil.copytree(content_folder() / "languages", tmp_path / "languages")
    file = tmp_path / "languages/fr/page_terms.yaml"
    text = file.read_text("utf-8")
    assert before in text
    file.write_text(text.replace(before, after), "utf-8")
    found = check_pages(tmp_path, thinking.handbook.texts)
    assert [one.key for one in found] == faults
