"""Several batches on a phone, a batch that dies out, a date that moves."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.farm import Batch
from bot.say.segments import measure
from tests.decide.scene import at_age

SECOND = {
    "en": "new batch 200 placed 5 days ago",
    "fr": "nouveau lot 200 arrives il y a 5 jours",
    "sw": "kundi jipya 200 walifika siku 5 zilizopita",
}
DEAD = {"en": "2 dead", "fr": "2 morts", "sw": "wamekufa 2"}


def two(rehearsal: Rehearsal, language: str = "en") -> None:
    """300 birds of day 31 and 200 chicks of day 6 on one phone."""
    at_age(rehearsal, 30, language=language)
    for text in (SECOND[language], "1", "3", "1", "2"):
        rehearsal.say(text)


def of(rehearsal: Rehearsal, count: int) -> Batch:
    return next(one for one in rehearsal.case().batches if one.count == count)


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_deaths_without_a_batch_are_asked_about_and_go_where_they_belong(
    rehearsal: Rehearsal, language: str
) -> None:
    two(rehearsal, language)
    taken, _ = rehearsal.say(DEAD[language])
    assert taken.decision.question is not None
    assert "31" in taken.texts[-1]
    assert measure(taken.texts[-1]).parts == 1
    rehearsal.say("2")
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (200, 298)


def test_danger_is_judged_on_the_smaller_batch_and_then_asked_about(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say("4 dead")
    assert taken.decision.referred
    assert "DANGER" in taken.texts[0]
    assert "Which batch?" in taken.texts[1]
    rehearsal.say("2")
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (200, 296)


@pytest.mark.parametrize("text", ["sold 20 at 700", "we ate 2"])
def test_birds_that_leave_are_the_grown_ones(rehearsal: Rehearsal, text: str) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say(text)
    assert "Which" not in taken.texts[0]
    assert of(rehearsal, 300).alive < 300
    assert of(rehearsal, 200).alive == 200


def test_a_weight_belongs_to_the_batch_of_that_age(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    rehearsal.say("10 birds 15.5 kg")
    assert of(rehearsal, 300).live_events("weight")
    assert not of(rehearsal, 200).live_events("weight")


def test_status_tells_of_each_batch_in_a_part_of_its_own(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say("status")
    assert [text.split(".")[0] for text in taken.texts] == ["Day 6", "Day 31"]
    assert all(measure(text).parts == 1 for text in taken.texts)


def test_a_batch_that_dies_out_gets_no_daily_text_and_is_closed_once_the_vet_was_asked_after(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 5, count=40)
    taken, _ = rehearsal.say("40 dead")
    assert "14 empty days" in taken.texts[1]
    rehearsal.heard()
    rehearsal.wait(timedelta(days=6))
    told = [one.text for one in rehearsal.heard()]
    assert "vet" in told[0]
    assert any("Next time" in one for one in told)
    assert not any("Day " in one for one in told)
    assert rehearsal.case().batch is None


@pytest.mark.parametrize(
    ("language", "order", "moved", "says"),
    [("en", "300 chicks friday", "they come monday instead", "Monday 9"),
     ("fr", "300 poussins vendredi", "ils viennent lundi", "lundi 9"),
     ("sw", "vifaranga 300 ijumaa", "watakuja jumatatu", "Jumatatu 9")],
)  # fmt: skip
def test_a_date_that_moves_needs_only_the_day(
    rehearsal: Rehearsal, language: str, order: str, moved: str, says: str
) -> None:
    rehearsal.begin(datetime.fromisoformat("2026-03-04T10:00:00+03:00"))
    rehearsal.join(language)
    for text in (order, "3", "1", "2"):
        rehearsal.say(text)
    taken, _ = rehearsal.say(moved)
    assert says in taken.texts[0]
    batch = rehearsal.case().batch
    assert batch is not None
    assert (batch.state, batch.count) == ("planned", 300)
