"""The real husbandry figures, loaded once."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.handbook.husbandry import load_husbandry
from bot.handbook.shape_husbandry import Husbandry

CONTENT = Path(__file__).resolve().parents[2] / "content"


@pytest.fixture(scope="session")
def h() -> Husbandry:
    return load_husbandry(CONTENT)
