"""The world of the desk's tests: a database in memory, opened anew for each test."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from bot.doors.web import create_app
from bot.records.session import MEMORY, Database
from bot.wiring import Thinking
from tests.doors.desk.world import World, build


@pytest.fixture
def world(thinking: Thinking) -> Iterator[World]:
    """Two cooperatives beside each other (world.py)."""
    db = Database(MEMORY)
    db.create_all()
    yield build(db, thinking, create_app)
    db.close()
