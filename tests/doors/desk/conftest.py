"""The world of the desk's tests: one service with a database in memory, emptied for each test."""

from __future__ import annotations

import pytest

from bot.doors.web import create_app
from bot.wiring import Thinking
from tests.doors.desk.world import World, people, service


@pytest.fixture(scope="session")
def _service(thinking: Thinking) -> World:
    return service(thinking, create_app)


@pytest.fixture
def world(_service: World) -> World:
    """Two cooperatives beside each other (world.py)."""
    return people(_service)
