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
    rehearsal.say("1")
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (200, 298)


def test_danger_is_judged_on_the_smaller_batch_and_then_asked_about(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say("4 dead")
    assert taken.decision.referred
    assert "DANGER" in taken.texts[0]
    assert "Which batch?" in taken.texts[1]
    rehearsal.say("1")
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (200, 296)


@pytest.mark.parametrize(
    ("language", "text", "young", "old"),
    [("en", "batch 2: 1 dead", 199, 300),
     ("en", "batch 1: 2 dead", 200, 298),
     ("en", "2 dead in the old ones", 200, 298),
     ("en", "2 dead in the small ones", 198, 300),
     ("en", "older batch 2 dead", 200, 298),
     ("en", "2 dead in the 300 batch", 200, 298),
     ("fr", "lot 1: 2 morts", 200, 298),
     ("fr", "le deuxieme lot: 1 mort", 199, 300),
     ("fr", "2 morts chez les grands", 200, 298),
     ("sw", "kundi la kwanza wamekufa 2", 200, 298),
     ("sw", "kundi la 2: amekufa 1", 199, 300),
     ("sw", "wakubwa wamekufa 2", 200, 298)],
)  # fmt: skip
def test_a_batch_that_is_named_is_not_asked_about(
    rehearsal: Rehearsal, language: str, text: str, young: int, old: int
) -> None:
    two(rehearsal, language)
    taken, _ = rehearsal.say(text)
    assert taken.decision.question is None
    assert ("31" if old < 300 else "6") in taken.texts[0].split(".")[-2]
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (young, old)


def test_danger_in_a_batch_that_is_named_is_judged_on_that_batch(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say("batch 1: 4 dead")
    assert not taken.decision.referred
    rehearsal.say("1")
    taken, _ = rehearsal.say("batch 2: 4 dead")
    assert taken.decision.referred
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (196, 296)


@pytest.mark.parametrize(
    ("language", "words"),
    [("en", "the first batch"), ("en", "the old ones"), ("fr", "les grands"),
     ("sw", "kundi la kwanza"), ("sw", "wakubwa")],
)  # fmt: skip
def test_which_batch_is_answered_in_words_as_well(
    rehearsal: Rehearsal, language: str, words: str
) -> None:
    two(rehearsal, language)
    rehearsal.say(DEAD[language])
    rehearsal.say(words)
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (200, 298)


def test_which_batch_is_asked_after_how_the_others_look(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say("3 dead")
    assert "others" in taken.texts[0]
    taken, _ = rehearsal.say("1")
    assert "Which batch?" in taken.texts[-1]
    rehearsal.say("1")
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (200, 297)
    assert of(rehearsal, 300).total("deaths") == 3


def test_a_name_answers_for_its_batch_and_not_for_the_one_that_was_asked_about(
    rehearsal: Rehearsal,
) -> None:
    two(rehearsal)
    rehearsal.say("30 dead")  # more than chance, of the smaller: danger, and "Which?"
    rehearsal.say("2")
    rehearsal.say("feed")
    rehearsal.say("batch 1: 20 kg feed eaten")
    assert [one.values["kg"] for one in of(rehearsal, 300).live_events("feed_eaten")] == [20]
    assert not of(rehearsal, 200).live_events("feed_eaten")


def test_two_batches_in_one_text_are_asked_for_one_by_one(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say("batch 1: 2 dead, batch 2: 1 dead")
    assert "one batch" in taken.texts[0]
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (200, 300)


@pytest.mark.parametrize("text", ["second batch 400 chicks friday", "new batch 400 friday"])
def test_an_order_of_a_further_batch_names_none(rehearsal: Rehearsal, text: str) -> None:
    two(rehearsal)
    rehearsal.say(text)
    assert of(rehearsal, 400).state in ("draft", "planned")


def test_what_a_sale_brought_belongs_to_the_batch_that_was_sold(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say("sold 20")
    assert taken.decision.question is not None
    taken, _ = rehearsal.say("14000")
    assert "14000" in taken.texts[0]
    assert [one.values["price"] for one in of(rehearsal, 300).live_events("sold")] == [14000]


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


def test_a_sale_told_while_we_ask_after_the_dead_is_no_further_deaths(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 30)
    rehearsal.say("3 dead")
    rehearsal.say("sold 20 at 700")
    batch = of(rehearsal, 300)
    assert (batch.total("deaths"), batch.total("sold")) == (3, 20)


def test_a_named_batch_with_new_deaths_is_no_answer_to_which(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    rehearsal.say("2 dead")
    rehearsal.say("2 dead in the big ones")
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (198, 298)


def test_a_batch_is_not_held_for_what_was_told_of_another(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    taken, _ = rehearsal.say("4 dead, the necks of many are twisted")
    assert taken.decision.referred
    assert of(rehearsal, 200).held
    rehearsal.say("1")
    assert (of(rehearsal, 200).held, of(rehearsal, 300).held) == (False, True)


def test_an_alarm_that_the_answer_about_the_others_raised_goes_with_the_deaths(
    rehearsal: Rehearsal,
) -> None:
    two(rehearsal)
    rehearsal.say("3 dead")
    taken, _ = rehearsal.say("4")
    assert taken.decision.referred
    rehearsal.say("1")
    assert of(rehearsal, 300).live_events("alarm")
    assert not of(rehearsal, 200).live_events("alarm")
    assert of(rehearsal, 300).total("deaths") == 3


def test_deaths_beside_a_batch_that_died_out_are_those_of_the_living(rehearsal: Rehearsal) -> None:
    two(rehearsal)
    rehearsal.say("batch 2: 200 dead")
    taken, _ = rehearsal.say("1 dead")
    assert taken.decision.question is None
    assert (of(rehearsal, 200).alive, of(rehearsal, 300).alive) == (0, 299)


def test_while_chicks_are_waited_for_fire_is_not_told_again_until_they_come(
    rehearsal: Rehearsal,
) -> None:
    rehearsal.begin(datetime.fromisoformat("2026-03-04T10:00:00+03:00"))
    rehearsal.join("en")
    for text in ("300 chicks saturday", "1", "2", "no"):
        rehearsal.say(text)
    rehearsal.wait(timedelta(days=2, hours=23))
    rehearsal.heard()
    told: list[str] = []
    for _ in range(4):
        rehearsal.say("not yet")
        rehearsal.wait(timedelta(hours=23, minutes=59))
        told += [one.text for one in rehearsal.heard()]
    assert sum("Fire:" in one for one in told) == 0
    assert sum("Have they come?" in one for one in told) == 4
    taken, _ = rehearsal.say("arrived")
    assert "Welcome" in taken.texts[0]
    rehearsal.wait(timedelta(hours=12))
    assert any("Fire:" in one.text for one in rehearsal.heard())


def test_chicks_that_come_beside_grown_birds_are_asked_after_and_their_day_moves(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 30)
    for text in ("new batch 200 chicks friday", "1", "1", "2"):
        rehearsal.say(text)
    taken, _ = rehearsal.say("they come saturday")
    assert "200 chicks now come Saturday 7" in taken.texts[0]
    rehearsal.heard()
    rehearsal.wait(timedelta(days=3))
    assert any("Have they come?" in one.text for one in rehearsal.heard())
