"""What a farmer tells of the batch: birds that leave, counts, sales, money, slips put right."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.farm import Batch
from bot.ledger.ledger import Ledger, ledger_of
from bot.say.segments import measure
from tests.decide.scene import at_age, told


def say(rehearsal: Rehearsal, *texts: str) -> str:
    """Send these texts one after another, each answered in single parts; the last answer."""
    answer = ""
    for text in texts:
        taken, _ = rehearsal.say(text)
        answer = " ".join(taken.texts)
        assert all(measure(one).parts == 1 for one in taken.texts), taken.texts
    return answer


def batch_of(rehearsal: Rehearsal) -> Batch:
    batch = rehearsal.case().batch
    assert batch is not None
    return batch


def book(rehearsal: Rehearsal) -> Ledger:
    return ledger_of(batch_of(rehearsal))


@pytest.mark.parametrize(
    ("language", "texts"),
    [
        ("en", ("we ate 3", "gave 2 to my sister", "5 birds stolen")),
        ("fr", ("on a mange 3 poulets", "donne 2 a ma soeur", "on m'a vole 5 poulets")),
        ("sw", ("tumekula 3", "nimempa dada kuku 2", "kuku 5 wameibwa")),
    ],
)
def test_birds_eaten_given_and_stolen_are_counted_each_apart(
    rehearsal: Rehearsal, language: str, texts: tuple[str, ...]
) -> None:
    at_age(rehearsal, 35, language=language)
    assert "290" in say(rehearsal, *texts)
    out = book(rehearsal).birds.out
    assert (out["eaten"], out["given"], out["stolen"], out["deaths"]) == (3, 2, 5, 0)


@pytest.mark.parametrize(
    ("language", "count", "status"),
    [("en", "counted 285", "status"), ("fr", "j'ai compte 285", "bilan"),
     ("sw", "nimehesabu 285", "hali")],
)  # fmt: skip
def test_a_count_of_the_living_shows_what_is_missing_and_hides_nothing(
    rehearsal: Rehearsal, language: str, count: str, status: str
) -> None:
    at_age(rehearsal, 35, language=language)
    answer = say(rehearsal, count)
    assert "285" in answer
    assert "15" in answer
    say(rehearsal, "5")
    assert batch_of(rehearsal).alive == 300
    assert "15" in say(rehearsal, status)


def test_what_became_of_the_missing_closes_the_gap(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "counted 296", "2")
    birds = book(rehearsal).birds
    assert (birds.out["eaten"], birds.alive, birds.gap) == (4, 296, 0)


def test_many_missing_birds_are_told_to_the_adviser(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    few, _ = rehearsal.say("counted 296")
    assert told(few, "count") == []
    at_age(rehearsal, 35)
    many, _ = rehearsal.say("counted 290")
    assert told(many, "count") == ["290 counted, 10 missing of 300, day 36"]


@pytest.mark.parametrize("text", ["sold 400 at 700", "we ate 400", "culled 400"])
def test_more_birds_than_are_alive_are_kept_as_said_not_applied_and_asked_back(
    rehearsal: Rehearsal, text: str
) -> None:
    at_age(rehearsal, 35)
    assert "What is the right number?" in say(rehearsal, text)
    now = book(rehearsal)
    assert (now.birds.alive, [one.values["n"] for one in now.doubted]) == (300, [400])
    say(rehearsal, "40")
    then = book(rehearsal)
    assert (then.birds.alive, then.doubted) == (260, ())


def test_the_right_number_keeps_what_was_told_with_the_wrong_one(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "sold 400 at 700", "40")
    assert book(rehearsal).money.income == 28000


def test_sales_in_parts_add_up_with_what_each_brought(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    answer = say(rehearsal, "sold 40 at 700", "sold 20", "15000", "sold 10 at 350 per kg", "21.5")
    assert answer == "So far 70 sold for 50525. 230 alive."
    assert book(rehearsal).money.income == 28000 + 15000 + 7525


def test_the_last_entry_is_taken_back_and_named(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "sold 40 at 700", "ate 9 kg")
    assert "feed eaten 9" in say(rehearsal, "undo")
    assert "sale 40. 300 alive" in say(rehearsal, "undo")
    assert "nothing to take back" in say(rehearsal, "undo")


def test_a_sale_told_in_two_texts_is_taken_back_whole(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "sold 20", "15000", "undo")
    now = book(rehearsal)
    assert now.birds.alive == 300
    assert not now.money.income


@pytest.mark.parametrize(
    ("language", "first", "right"),
    [("en", "culled 14", "no it was 4 not 14"), ("fr", "elimine 14", "pardon, 4 pas 14"),
     ("sw", "nimeondoa wagonjwa 14", "samahani 4 sio 14")],
)  # fmt: skip
def test_a_slip_is_corrected_and_both_figures_stay_in_the_record(
    rehearsal: Rehearsal, language: str, first: str, right: str
) -> None:
    at_age(rehearsal, 35, language=language)
    say(rehearsal, first, right)
    batch = batch_of(rehearsal)
    assert batch.alive == 296
    assert [one.values["n"] for one in batch.events if one.kind == "culled"] == [14, 4]


def test_a_correction_that_makes_the_dead_a_danger_is_answered_as_danger(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "2 dead")
    taken, _ = rehearsal.say("sorry, 20 not 2")
    assert taken.decision.referred
    assert batch_of(rehearsal).alive == 280


def test_in_all_stands_for_the_deaths_told_before_until_it_is_taken_back(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "2 dead", "1 dead", "2")
    assert batch_of(rehearsal).alive == 299
    say(rehearsal, "undo")
    assert batch_of(rehearsal).alive == 297


def test_feed_bought_with_its_price_is_feed_and_money(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "bought 3 bags of feed 9600", "paid 500 transport")
    now = book(rehearsal)
    assert [now.feed.bought_kg, now.money.spent["feed"], now.money.out] == [150, 9600, 10100]


@pytest.mark.parametrize("text", ["we ate 2", "gave 2 to my sister", "sold 2 at 700"])
def test_treated_birds_are_no_food_before_their_day_and_the_date_is_said(
    rehearsal: Rehearsal, text: str
) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "gave medicine today", "7")
    assert "none before Thursday 12" in say(rehearsal, text)
    assert batch_of(rehearsal).alive == 298


def test_a_treatment_of_unknown_days_blocks(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "gave medicine today")
    assert "eat, give and sell none" in say(rehearsal, "we ate 2")


def test_a_sale_of_a_held_batch_is_put_down_and_stopped(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 35)
    say(rehearsal, "twisted necks in many")
    taken, _ = rehearsal.say("sold 20 at 700")
    assert "Do not sell" in " ".join(taken.texts)
    assert told(taken, "sale") == ["20 sold of a held batch"]
    assert batch_of(rehearsal).alive == 280


def test_a_sale_that_empties_the_house_closes_the_batch_and_undo_opens_it(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 35)
    assert "closed" in say(rehearsal, "sold all for 210000")
    assert rehearsal.case().batch is None
    say(rehearsal, "undo")
    assert batch_of(rehearsal).alive == 300


LONGEST = {
    "en": ("spent 1250000 on feed", "bought 30 bags of feed", "10 birds 19 kg", "status"),
    "fr": ("depense 1250000 pour aliment", "achete 30 sacs d'aliment", "10 poulets 19 kg", "bilan"),
    "sw": ("nimetumia 1250000 kwa chakula", "nimenunua mifuko 30 ya chakula",
           "kuku 10 uzito kilo 19", "hali"),
}  # fmt: skip


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_status_tells_all_of_a_large_batch_in_one_part(rehearsal: Rehearsal, language: str) -> None:
    at_age(rehearsal, 41, count=2000, language=language)
    rehearsal.wait(timedelta(minutes=5))
    status = say(rehearsal, *LONGEST[language])
    for figure in ("42", "2000", "1900", "1500", "1250000"):
        assert figure in status
    assert measure(status).parts == 1
