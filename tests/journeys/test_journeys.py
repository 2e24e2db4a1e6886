"""A farmer's first fortnight in each language: from the first text to Day 17, real HTTP in, a real
database, real HTTP out, a fixed clock. The conversation is compared with the one that is kept here.

To keep a new one after reading it: KEEP_CONVERSATIONS=1 ./scripts/test tests/journeys
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from bot.doors.cli.story import load_story, play
from bot.handbook.load import content_folder
from bot.records.session import Database
from bot.wiring import Thinking
from tests.journeys.handset import Station

KEPT = Path(__file__).parent


@pytest.mark.parametrize("language", ["en", "sw", "fr"])
def test_the_first_fortnight_reads_as_it_was_kept(
    language: str, db: Database, thinking: Thinking
) -> None:
    story = load_story(content_folder() / "stories" / f"{language}.yaml")
    with Station(db, thinking, story.begins) as phone:
        told = "\n".join(play(story, phone)) + "\n"
        assert phone.longest_text() <= 1
    kept = KEPT / f"{language}.txt"
    if os.environ.get("KEEP_CONVERSATIONS"):
        kept.write_text(told, encoding="utf-8")
    assert told == kept.read_text(encoding="utf-8")


def test_the_readme_shows_the_conversation_as_it_is() -> None:
    readme = (KEPT.parents[1] / "README.md").read_text("utf-8")
    shown = readme.split("## A conversation")[1].split("```")[1].strip().split("\n\n")
    kept = (KEPT / "en.txt").read_text("utf-8")
    assert len(shown) > 5
    assert [one for one in shown if one.strip() not in kept] == []
