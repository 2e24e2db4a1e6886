"""Birds that die of a heat that was told and fought already go to the vet, not through questions on
bites and mould. Rules: practice (Danger; Heat and air)."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

HOT = {
    "en": "37 degrees here, they pant with open beaks and drink a lot",
    "fr": "il fait 37 degres, ils haletent et boivent beaucoup",
    "sw": "joto ni 37, wanahema midomo wazi na wanakunywa sana",
}
DEAD = {"en": "5 have died", "fr": "5 morts de chaleur", "sw": "wamekufa 5"}


@pytest.mark.parametrize("language", HOT)
def test_the_vet_is_named_where_birds_die_of_heat_told(rehearsal: Rehearsal, language: str) -> None:
    stand(rehearsal, language, age_days=28, count=347, house="open", heat="none")
    keys(rehearsal, HOT[language])
    rehearsal.wait(timedelta(minutes=31))
    keys(rehearsal, "2")
    assert "all_tried_hot" in keys(rehearsal, DEAD[language])


@pytest.mark.parametrize("language", DEAD)
def test_where_no_heat_was_told_the_others_are_asked_about(
    rehearsal: Rehearsal, language: str
) -> None:
    stand(rehearsal, language, age_days=28, count=347, house="open", heat="none")
    assert "all_tried_hot" not in keys(rehearsal, DEAD[language])
