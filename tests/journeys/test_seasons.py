"""A whole season in each language, from the plan to the next chicks, and two batches beside each
other (which one is meant, one sold early, one that dies out, one that never came): real HTTP in, a
real database, the real clock's way and outbox, real HTTP out, a fixed clock. Each conversation is
compared with the one that is kept here, which was read cold, as a farmer and as a vet would.

To keep new ones after reading them: KEEP_CONVERSATIONS=1 ./scripts/test tests/journeys
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.doors.cli.story import load_story, play
from bot.records.session import Database
from bot.wiring import Thinking
from tests.journeys.handset import Station

KEPT = Path(__file__).parent


@pytest.fixture
def sqlite(tmp_path: Path) -> Iterator[Database]:
    """One database is enough for a season: the fortnight runs on both."""
    found = Database(f"sqlite:///{tmp_path / 'season.db'}")
    found.create_all()
    yield found
    found.close()


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
@pytest.mark.parametrize("name", ["season", "beside"])
def test_a_season_reads_as_it_was_kept(
    name: str, language: str, sqlite: Database, thinking: Thinking
) -> None:
    story = load_story(KEPT / f"{name}_{language}.yaml")
    with Station(sqlite, thinking, story.begins) as phone:
        told = "\n".join(play(story, phone)) + "\n"
        assert phone.longest_text() <= 1
    kept = KEPT / f"{name}_{language}.txt"
    if os.environ.get("KEEP_CONVERSATIONS"):
        kept.write_text(told, encoding="utf-8")
    assert told == kept.read_text(encoding="utf-8")
