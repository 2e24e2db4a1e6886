"""Where many died of a heap or without heat, those that live are warmed while the vet comes, and we
look again soon. Rules: practice (Fire and air; the heap is parted by hand)."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

COLD = {
    "en": "12 dead this morning all in a heap, the stove went out",
    "fr": "12 morts ce matin, ils sont en tas, le feu s'est eteint",
    "sw": "12 wamekufa leo wamerundikana, jiko limezimika",
}


@pytest.mark.parametrize("language", COLD)
def test_those_that_live_are_warmed_behind_the_alarm(rehearsal: Rehearsal, language: str) -> None:
    stand(rehearsal, language, age_days=4, count=300, heat="charcoal")
    said = keys(rehearsal, COLD[language])
    assert "heap_apart" in said
    assert "danger_deaths" in said
    assert "relight_fire" in said
    rehearsal.wait(timedelta(minutes=31))
    assert "cold_more" in keys(rehearsal, "2")


def test_where_they_pant_nobody_is_told_to_warm(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", age_days=4, count=300, heat="charcoal")
    said = keys(rehearsal, "12 dead, the others pant with open beaks")
    assert not any(key.startswith(("cold", "relight")) for key in said)
