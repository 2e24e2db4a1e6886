"""What a season asks of the answers: orders that fall through, slips, cuts, a vet's word."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.talk import Intent, Meaning, Slots
from bot.turn.choose import choose
from tests.decide.scene import at_age

MORNING = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)


def say(rehearsal: Rehearsal, text: str) -> str:
    """The whole answer to a text."""
    return " ".join(rehearsal.say(text)[0].texts)


def ordered(rehearsal: Rehearsal) -> None:
    """300 chicks are ordered for 20 March, charcoal, no thermometer."""
    rehearsal.begin(MORNING)
    for text in ("300 chicks on 20 march", "1", "2", "no"):
        rehearsal.say(text)


def test_a_day_of_another_month_is_said_with_its_month(rehearsal: Rehearsal) -> None:
    rehearsal.begin(MORNING)
    assert "300 chicks on 2 April" in say(rehearsal, "300 chicks on 2 april")


def test_a_cancelled_order_ends_the_batch_and_its_texts(rehearsal: Rehearsal) -> None:
    ordered(rehearsal)
    case = rehearsal.case()
    found = choose(Meaning(Intent.CANCELLED), case, rehearsal.thinking.handbook, "")
    assert [line.key for line in found.lines] == ["cancelled"]
    assert "300 chicks did not come" in say(rehearsal, "order cancelled")
    assert rehearsal.case().batches == ()
    rehearsal.heard()
    rehearsal.wait(timedelta(days=30))
    assert rehearsal.heard() == []


def test_birds_that_are_here_are_not_cancelled(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 20)
    say(rehearsal, "order cancelled")
    assert rehearsal.case().batches[0].state == "running"


def test_an_arrival_told_long_before_its_day_is_asked_back(rehearsal: Rehearsal) -> None:
    ordered(rehearsal)
    assert "for Friday 20" in say(rehearsal, "arrived")
    assert rehearsal.case().batches[0].state == "planned"
    assert "Welcome" in say(rehearsal, "1")
    assert rehearsal.case().batches[0].placed_on == date(2026, 3, 4)


def test_the_number_that_came_is_put_right(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 5, count=500)
    say(rehearsal, "2 dead")
    assert "480 chicks came, not 500. 478 alive." in say(rehearsal, "it was 480 not 500")
    assert rehearsal.case().batches[0].alive == 478


def test_a_danger_taken_back_lifts_the_hold_and_says_what_to_do_if_it_is_true(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 20)
    say(rehearsal, "many have swollen heads and twisted necks")
    assert rehearsal.case().batches[0].held
    answer = say(rehearsal, "undo")
    assert not rehearsal.case().batches[0].held
    assert "ask the vet" in answer


def test_undo_reaches_neither_over_a_week_nor_over_batches(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 20)
    say(rehearsal, "2 dead")
    rehearsal.wait(timedelta(days=9))
    assert "nothing to take back" in say(rehearsal, "undo")
    assert rehearsal.case().batches[0].alive == 298


def test_what_the_vet_found_lifts_the_hold_and_the_adviser_hears_it(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 24)
    say(rehearsal, "many have swollen heads and twisted necks")
    rehearsal.wait(timedelta(hours=5))
    say(rehearsal, "1")  # the vet was reached
    rehearsal.wait(timedelta(days=1))
    assert any("Vet says? 1 no danger" in one.text for one in rehearsal.heard())
    assert "no longer hold" in say(rehearsal, "1")
    assert not rehearsal.case().batches[0].held


def test_better_is_no_answer_to_whether_a_vet_was_reached(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 24)
    say(rehearsal, "many have swollen heads and twisted necks")
    rehearsal.wait(timedelta(hours=5))
    assert "call the vet" not in say(rehearsal, "better").lower()


@pytest.mark.parametrize(
    ("language", "text", "first"),
    [
        ("en", "water cut what do i do", "Birds first"),
        ("fr", "coupure d'eau que faire", "Les sujets d'abord"),
        ("sw", "maji yamekatika nifanye nini", "Kuku kwanza"),
    ],
)
def test_a_water_cut_is_answered_with_what_to_do(
    rehearsal: Rehearsal, language: str, text: str, first: str
) -> None:
    at_age(rehearsal, 16, language=language)
    assert say(rehearsal, text).startswith(first)


def test_a_weight_that_no_bird_has_is_asked_again_and_stands_when_said_again(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 35)
    assert "weigh again" in say(rehearsal, "10 birds 1.8 kg")
    assert rehearsal.case().batches[0].live_events("weight") == ()
    say(rehearsal, "1.8")
    assert len(rehearsal.case().batches[0].live_events("weight")) == 1


def test_more_feed_than_they_eat_in_a_day_is_asked_again(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 20, count=100)
    assert "more than 100 birds eat" in say(rehearsal, "they ate 3400 kg feed")
    assert rehearsal.case().batches[0].live_events("feed_eaten") == ()


def test_a_bare_weight_in_the_days_of_weighing_is_taken(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 28)
    assert "1360 g a bird" in say(rehearsal, "13.6")


def test_spread_and_quiet_after_heat_ends_it(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 30)
    say(rehearsal, "all beaks open wings out so hot")
    assert "comfortable" in say(rehearsal, "they are spread out and quiet")


def test_the_last_birds_sold_close_a_batch_of_which_some_were_missing(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 40, count=120)
    say(rehearsal, "counted 118")
    say(rehearsal, "5")
    answer = say(rehearsal, "sold 118 for 50000")
    assert "2 missing" in answer
    assert "Batch done" in answer
    assert rehearsal.case().batches == ()


def test_a_plan_is_never_of_the_past(rehearsal: Rehearsal) -> None:
    rehearsal.begin(MORNING)
    rehearsal.join("en")
    meaning = Meaning(Intent.PLAN, Slots(count=100, date_iso_offset=-13))
    found = choose(meaning, rehearsal.case(), rehearsal.thinking.handbook, "")
    assert found.question is not None
    assert found.question.line.key == "ask_date_past"


@pytest.mark.parametrize(
    ("language", "order", "again", "asks"),
    [("en", "new batch 200 chicks friday", "yes", "(charcoal stoves: 1)"),
     ("fr", "nouveau lot 200 poussins vendredi", "1", "(fourneaux a charbon: 1)"),
     ("sw", "kundi jipya vifaranga 200 ijumaa", "ndiyo", "(majiko ya mkaa 1)")],
)  # fmt: skip
def test_the_heat_of_the_last_batch_is_offered_and_not_asked_from_the_start(
    rehearsal: Rehearsal, language: str, order: str, again: str, asks: str
) -> None:
    second_of_a_farm(rehearsal, language)
    assert asks in say(rehearsal, order)
    rehearsal.say(again)
    batch = next(one for one in rehearsal.case().batches if one.count == 200)
    assert (batch.heat, batch.heat_count, batch.thermometer) == (("charcoal",), 1, False)
    assert rehearsal.case().question is None


def test_another_heat_than_last_time_is_asked_for(rehearsal: Rehearsal) -> None:
    second_of_a_farm(rehearsal, "en")
    rehearsal.say("new batch 200 chicks friday")
    rehearsal.say("2")
    batch = next(one for one in rehearsal.case().batches if one.count == 200)
    question = rehearsal.case().question
    assert question is not None
    assert (batch.heat, question.name) == ((), "heat")


def second_of_a_farm(rehearsal: Rehearsal, language: str) -> None:
    """A farm with 300 grown birds that were kept warm by one charcoal stove."""
    rehearsal.begin(MORNING)
    rehearsal.join(language)
    order = {"en": "300 chicks placed 30 days ago", "fr": "300 poussins arrives il y a 30 jours",
             "sw": "vifaranga 300 walifika siku 30 zilizopita"}  # fmt: skip
    for text in (order[language], "1", "1", "2"):
        rehearsal.say(text)
