"""The wish to end a batch: no STOP, no sale. Worded for this test."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.talk import Intent
from bot.wiring import Thinking
from tests.decide.scene import at_age, keys
from tests.understand.reading import heard


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "close the batch"),
        ("en", "please end this batch"),
        ("en", "i want to close my flock"),
        ("en", "the batch is over"),
        ("fr", "fermer le lot"),
        ("fr", "cloturer la bande"),
        ("fr", "la bande est terminee"),
        ("sw", "funga kundi"),
        ("sw", "kundi limefungwa"),
        ("sw", "naomba funga batch yangu"),
    ],
)
def test_a_batch_is_to_be_closed(thinking: Thinking, lang: str, text: str) -> None:
    assert heard(thinking, text, lang=lang, age_days=36).intent is Intent.CLOSE


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "close the curtain for the batch"),
        ("en", "when do i close the batch"),
        ("en", "stop the messages"),
        ("en", "sold 280 and closed the batch"),
        ("en", "feed of the batch is finished"),
        ("en", "dont close the batch"),
        ("fr", "fermer les rideaux du lot"),
        ("fr", "l'aliment du lot est fini"),
        ("sw", "funga pazia"),
        ("sw", "chakula cha kundi kimeisha"),
    ],
)
def test_something_else_is(thinking: Thinking, lang: str, text: str) -> None:
    assert heard(thinking, text, lang=lang, age_days=36).intent is not Intent.CLOSE


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "close the batch"), ("fr", "fermer le lot"), ("sw", "funga kundi")],
)
def test_birds_that_live_keep_it_open(rehearsal: Rehearsal, language: str, text: str) -> None:
    at_age(rehearsal, 36, language=language)
    assert keys(rehearsal, text) == ["close_left", ""]
    batch = rehearsal.case().batch
    assert batch is not None
    assert batch.state == "running"
