"""The bench of faults in small: dying senders and a misbehaving gateway lose and double nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.databases import Place
from tests.bench.faults import Plan, run

SMALL = Plan(messages=400, kills=3, every=20, seed=5)


@pytest.mark.parametrize("name", ["sqlite", "postgresql"])
def test_through_dying_senders_and_a_bad_gateway_every_text_is_taken_once(
    name: str, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    url = f"sqlite:///{tmp_path / 'small.db'}"
    if name == "postgresql":
        url = Place("postgresql", request.getfixturevalue("postgres_url")).make("faults")
    told = run(name, url, SMALL, tmp_path)
    assert (told["lost"], told["doubled"]) == (0, 0)
    assert int(str(told["faults"])) >= 10
