"""A feed that was changed and is sound is mixed in slowly, not thrown away. Rule: practice
(a change of form by 1/4, 1/2, 3/4 over three days)."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

CHANGED = {
    "en": "i changed the feed yesterday and they dont eat",
    "fr": "j'ai change l'aliment hier et ils ne mangent pas",
    "sw": "nimebadilisha chakula jana na hawali",
}


@pytest.mark.parametrize("language", CHANGED)
def test_sound_new_feed_is_mixed_in(rehearsal: Rehearsal, language: str) -> None:
    stand(rehearsal, language, age_days=12)
    assert keys(rehearsal, CHANGED[language])[-1] == "sign:feed_mouldy"
    assert "feed_change" in keys(rehearsal, "2")


@pytest.mark.parametrize("language", CHANGED)
def test_mouldy_new_feed_is_taken_out(rehearsal: Rehearsal, language: str) -> None:
    stand(rehearsal, language, age_days=12)
    keys(rehearsal, CHANGED[language])
    said = keys(rehearsal, "1")
    assert "feed_change" not in said
    assert "feed_problem" in said
