"""Deaths and culls as they are counted."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.say.segments import measure
from tests.decide.scene import at_age

ARRIVAL = datetime.fromisoformat("2026-03-04T10:00:00+03:00")


def _arrived(rehearsal: Rehearsal) -> None:
    rehearsal.begin(ARRIVAL)
    for text in ("300 chicks today", "1"):
        rehearsal.say(text)


def test_the_answer_to_how_many_came_dead_is_no_death_of_the_day(rehearsal: Rehearsal) -> None:
    _arrived(rehearsal)
    rehearsal.wait(timedelta(hours=5))
    taken, _ = rehearsal.say("7")
    assert not taken.decision.referred
    batch = rehearsal.case().batches[0]
    assert (batch.total("dead_on_arrival"), batch.total("deaths")) == (7, 0)
    assert "hatchery" in " ".join(taken.texts)


def test_more_dead_than_alive_is_danger_and_is_not_taken_from_the_birds(
    rehearsal: Rehearsal,
) -> None:
    rehearsal.begin(ARRIVAL)
    for text in ("300 chicks placed monday", "1", "2", "no"):
        rehearsal.say(text)
    taken, _ = rehearsal.say("400 dead")
    assert taken.decision.referred
    assert rehearsal.case().batches[0].alive == 300


def test_culls_are_counted_apart_from_deaths(rehearsal: Rehearsal) -> None:
    rehearsal.begin(ARRIVAL)
    for text in ("300 chicks placed monday", "1", "2", "no"):
        rehearsal.say(text)
    rehearsal.say("culled 2")
    batch = rehearsal.case().batches[0]
    assert (batch.total("culled"), batch.total("deaths"), batch.alive) == (2, 0, 298)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "2 dead and they are piled at the heat"),
        ("fr", "2 morts et ils sont entasses pres du feu"),
        ("sw", "vifaranga wamekufa 2 na wamerundikana"),
    ],
)
def test_deaths_and_signs_in_one_text_are_answered_in_texts_of_one_part(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 5, language=language)
    taken, _ = rehearsal.say(text)
    assert taken.decision.why is not None
    assert taken.decision.why.cause == "cold"
    assert [measure(one).parts for one in taken.texts] == [1] * len(taken.texts)


@pytest.mark.parametrize(("answer", "dead"), [("1", 7), ("2", 5)])
def test_a_second_figure_of_the_same_text_is_asked_about(
    rehearsal: Rehearsal, answer: str, dead: int
) -> None:
    rehearsal.begin(ARRIVAL)
    for text in ("1000 chicks placed monday", "1", "2", "no"):
        rehearsal.say(text)
    taken, _ = rehearsal.say("2 died in the morning, now 5")
    assert taken.decision.question is not None
    assert rehearsal.case().batches[0].total("deaths") == 7  # the worse holds until it is answered
    rehearsal.say(answer)
    assert rehearsal.case().batches[0].total("deaths") == dead


def test_two_figures_of_the_same_text_are_as_dangerous_as_their_sum(rehearsal: Rehearsal) -> None:
    rehearsal.begin(ARRIVAL)
    for text in ("300 chicks placed monday", "1", "2", "no"):
        rehearsal.say(text)
    taken, _ = rehearsal.say("3 dead at dawn, now 4")
    assert taken.decision.referred
    assert rehearsal.case().batches[0].total("deaths") == 7


@pytest.mark.parametrize(
    "text", ["some died", "there are deaths", "ya des morts", "baadhi wamekufa"]
)
def test_dead_without_a_figure_are_asked_about_and_the_figure_is_counted(
    rehearsal: Rehearsal, text: str
) -> None:
    rehearsal.begin(ARRIVAL)
    for told in ("300 chicks placed monday", "1", "2", "no"):
        rehearsal.say(told)
    rehearsal.say(text)
    rehearsal.say("2")
    assert rehearsal.case().batches[0].total("deaths") == 2
