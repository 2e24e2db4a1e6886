"""A whole season in each language, from the plan to the next chicks, and two batches beside each
other (which one is meant, one sold early, one that dies out, one that never came): real HTTP in, a
real database, the real clock's way and outbox, real HTTP out, a fixed clock. Each conversation is
compared with the one that is kept here, which was read cold, as a farmer and as a vet would.

To keep new ones after reading them: KEEP_CONVERSATIONS=1 ./scripts/test tests/journeys
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import select

from bot.doors.cli.story import load_story, play
from bot.records import tables as t
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


def missing(db: Database) -> list[str]:
    """What a whole season holds (issue 8) and this one's records do not show."""
    with db.read() as connection:
        batches = connection.execute(select(t.batch).order_by(t.batch.c.id)).all()
        troubles = connection.execute(select(t.complaint).order_by(t.complaint.c.id)).all()
        entries = connection.execute(select(t.event).where(t.event.c.undone_at.is_(None))).all()
    first, second = batches[0], batches[1]
    corrected = {old for one in entries for old in one.data.get("replaces", ())}
    mine = [one for one in entries if one.batch_id == first.id and one.id not in corrected]
    kinds = [one.kind for one in mine]

    def ages(cause: str | None = None) -> list[int]:
        return [
            (one.opened_at.date() - first.placed_on).days
            for one in troubles
            if one.batch_id == first.id and cause in (None, one.cause)
        ]

    waits = [one for one in mine if one.kind == "treated" and one.data.get("days")]
    shown = {
        "a plan made before they came": first.created_at.date() < first.placed_on,
        "steps of the countdown answered": kinds.count("step") >= 3,
        "the arrival": first.arrived_at is not None,
        "two troubles in the brooder": sum(0 <= age < 14 for age in ages()) >= 2,
        "cold nights at the move": first.nights == "cold" and first.house == "open",
        "piling after the move": any(14 <= age <= 16 for age in ages("cold")),
        "a heat wave while they grow": any(age >= 21 for age in ages("hot")),
        "a treatment with its days": bool(waits),
        "sales in three parts": kinds.count("sold") == 3,
        "the closing": first.state == "closed",
        "the next batch": second.placed_on > first.placed_on + timedelta(days=42),
    }
    return [what for what, is_so in shown.items() if not is_so]


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
@pytest.mark.parametrize("name", ["season", "beside"])
def test_a_season_reads_as_it_was_kept(
    name: str, language: str, sqlite: Database, thinking: Thinking
) -> None:
    story = load_story(KEPT / f"{name}_{language}.yaml")
    with Station(sqlite, thinking, story.begins) as phone:
        told = "\n".join(play(story, phone)) + "\n"
        assert phone.longest_text() <= 1
    if name == "season":
        assert missing(sqlite) == []
    kept = KEPT / f"{name}_{language}.txt"
    if os.environ.get("KEEP_CONVERSATIONS"):
        kept.write_text(told, encoding="utf-8")
    assert told == kept.read_text(encoding="utf-8")
