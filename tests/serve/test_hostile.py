"""The bench of hostile requests in small: every kind of them at every door of a running service."""

from __future__ import annotations

from pathlib import Path

from tests.bench.hostile import attack, running
from tests.bench.shots import KINDS


def test_hostile_requests_at_every_door_meet_no_fault_and_change_no_farm(tmp_path: Path) -> None:
    with running(tmp_path) as service:
        found, _ = attack(service, 600, seed=7)
    assert found.wrong == []
    assert {kind for kind, _ in found.answers} == set(KINDS)
