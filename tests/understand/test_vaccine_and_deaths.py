"""A vaccine given on a day, beside what is told of deaths. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("text", "day", "dead"),
    [
        ("vaccin gumboro passe ce matin, aucune perte", 0, 0),
        ("vaccin newcastle hier, 1 mort ce matin", -1, 1),
    ],
)
def test_both_are_taken_down(thinking: Thinking, text: str, day: int, dead: int) -> None:
    found = read(thinking, text, lang="fr", age_days=8)
    parts = {part["intent"]: part["slots"] for part in found["slots"]["parts"]}
    assert parts["treated"]["date_iso_offset"] == day
    assert parts["deaths"]["deaths"] == dead


def test_what_died_of_a_disease_was_not_given_it(thinking: Thinking) -> None:
    found = read(thinking, "3 morts de newcastle hier", lang="fr", age_days=8)
    assert "treated" not in str(found)


def test_a_hatchery_that_delivers_is_to_come(thinking: Thinking) -> None:
    found = read(thinking, "400 commandes, le couvoir livre samedi", lang="fr", has_batch=False)
    assert found["slots"]["date_iso_offset"] == 3
    assert found["intent"] == "register"
