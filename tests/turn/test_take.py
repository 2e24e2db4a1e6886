"""One message in, one answer out: once, whole, and in the right order of safety."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, insert, select

from bot.facts.talk import Incoming
from bot.handbook.load import content_folder
from bot.handbook.words import load_examples
from bot.records import tables as t
from bot.records.session import Database
from bot.settings import Settings
from bot.turn.take import Taken, take_turn
from bot.wiring import Thinking, cooperative_values

NOW = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)  # a Wednesday, 09:00 in Nairobi
FARMER = "+254700000001"
VET = "+254700000099"
Text = Callable[..., Taken]


@pytest.fixture
def text(db: Database, thinking: Thinking) -> Text:
    """`text("300 chicks today")`: a farmer texts the service, a minute after the text before."""
    with db.write() as connection:
        values = cooperative_values(Settings(name="Mkulima", vet=VET))
        connection.execute(insert(t.cooperative).values(**values))
    sent: list[str] = []

    def one(body: str, *, sender: str = FARMER, id: str = "", minutes: int | None = None) -> Taken:
        sent.append(body)
        after = len(sent) if minutes is None else minutes
        incoming = Incoming(
            id or f"SM{len(sent)}", "AC", sender, "+254700000100", body,
            NOW + timedelta(minutes=after),
        )  # fmt: skip
        return take_turn(db, thinking.handbook, thinking.reader, incoming)

    return one


def said(taken: Taken) -> str:
    return " ".join(taken.texts)


def count(db: Database, table: str) -> int:
    with db.read() as connection:
        found = connection.execute(select(func.count()).select_from(t.metadata.tables[table]))
        return int(found.scalar_one())


def test_the_same_message_twice_is_taken_once_and_answered_the_same(
    db: Database, text: Text
) -> None:
    first = text("300 chicks friday", id="SMsame")
    again = text("300 chicks friday", id="SMsame")
    assert first.texts == again.texts != ()
    assert again.repeated
    assert count(db, "batch") == 1


def test_a_stranger_registers_with_one_text_and_is_asked_one_thing(
    db: Database, text: Text
) -> None:
    answer = text("300 chicks friday")
    assert "300" in said(answer)
    assert "Friday 6" in said(answer)
    assert answer.decision.question is not None
    assert answer.decision.question.name == "heat"
    assert count(db, "batch") == count(db, "phone") == 1


def test_what_is_missing_is_asked_one_question_at_a_time_and_nothing_is_lost(text: Text) -> None:
    assert "How many" in said(text("chicks coming friday"))
    done = said(text("250"))
    assert "250" in done
    assert "Friday 6" in done


def test_a_short_code_is_stored_and_never_answered(db: Database, text: Text) -> None:
    assert text("300 chicks friday", sender="40404").texts == ()
    assert count(db, "turn") == 1
    assert count(db, "batch") == 0


def test_stop_ends_everything_at_once_and_is_confirmed_once(db: Database, text: Text) -> None:
    text("300 chicks friday")
    assert "no more texts" in said(text("stop"))
    assert text("stop").texts == ()
    with db.read() as connection:
        states = connection.execute(select(t.consent_record.c.state)).scalars().all()
    assert states == ["active", "stopped"]


def test_danger_in_a_stop_carries_the_vet_and_stays_stopped(text: Text) -> None:
    text("300 chicks placed monday")
    answer = text("stop, blood in the droppings of many")
    assert answer.decision.referred
    assert VET in said(answer)
    later = text("many more dying")
    assert VET in said(later)
    assert later.decision.question is None


def test_danger_is_answered_even_when_the_farm_is_unknown(text: Text) -> None:
    answer = text("many chicks gasping and twisted necks")
    assert answer.decision.referred
    assert VET in said(answer)


def test_a_number_far_too_big_is_asked_again_and_not_stored(db: Database, text: Text) -> None:
    answer = said(text("5000000 chicks friday"))
    assert "How many" in answer
    with db.read() as connection:
        assert connection.execute(select(t.batch.c.count)).scalar_one() is None


@pytest.mark.parametrize(
    "talk",
    [
        ("new batch friday", "they have arrived today", "1"),
        ("nouveau lot vendredi", "ils sont arrives aujourd'hui", "1"),
    ],
)
def test_where_the_advice_fills_a_part_the_question_has_one_of_its_own(
    text: Text, talk: tuple[str, ...]
) -> None:
    for said_by_farmer in talk:
        taken = text(said_by_farmer)
        assert all(len(one) <= 160 for one in taken.texts), taken.texts
    assert len(taken.texts) == 2


def test_a_risky_number_is_read_back_before_it_counts(text: Text) -> None:
    assert "12000" in said(text("12000 chicks friday"))
    assert "12000" in said(text("1"))


def test_zero_chicks_are_asked_again(text: Text) -> None:
    assert "How many" in said(text("0 chicks friday"))


def test_a_second_batch_is_asked_about(db: Database, text: Text) -> None:
    text("300 chicks placed monday")
    answer = text("new batch 200 friday")
    assert answer.decision.question is not None
    assert answer.decision.question.name == "second"
    text("1")
    assert count(db, "batch") == 2


def test_what_was_not_understood_says_so_and_reaches_the_adviser(db: Database, text: Text) -> None:
    text("300 chicks placed monday")
    text("1"), text("2"), text("2")
    answer = said(text("zxqw plorf ndegu"))
    assert "did not understand" in answer
    assert "like: piled" in answer
    assert count(db, "unread") == 1


def test_after_two_misses_comes_a_menu_of_digits_and_after_three_only_the_adviser(
    db: Database, text: Text
) -> None:
    text("300 chicks placed monday")
    text("1"), text("2"), text("2")
    first, second, third, fourth = (
        text(body) for body in ("zxqw plorf", "banz dlofi", "grumpf ndegu", "plimo vrask")
    )
    assert first.decision.question is None
    assert "1 spread out" in said(second)
    assert "adviser" in said(third)
    assert third.decision.question is None
    assert fourth.texts == ()
    assert count(db, "unread") == 4


@pytest.mark.parametrize("body", ["👍", "ok", "thanks", "asante", "merci"])
def test_a_lone_thanks_gets_no_answer(text: Text, body: str) -> None:
    text("300 chicks friday")
    text("1"), text("2"), text("no")
    assert text(body).texts == ()


@pytest.mark.parametrize("body", ["", " ", "\x00\x01", "'; DROP TABLE batch; --", "x" * 10_000])
def test_empty_binary_and_hostile_texts_get_a_kind_answer_and_break_nothing(
    db: Database, text: Text, body: str
) -> None:
    text("300 chicks friday")
    answer = text(body)
    assert answer.texts
    assert count(db, "batch") == 1


def test_three_identical_texts_mute_a_robot_and_tell_the_desk(db: Database, text: Text) -> None:
    text("300 chicks placed monday")
    for _ in range(3):
        text("your call is important to us")
    assert text("your call is important to us").texts == ()
    assert count(db, "adviser") == 1


def test_deaths_of_one_day_add_up_only_as_the_farmer_says(text: Text) -> None:
    text("300 chicks placed monday")
    text("1"), text("2"), text("no")
    assert "2 dead" in said(text("2 dead"))
    assert "in all" in said(text("1 dead"))
    assert "1 dead" in said(text("2"))


def test_a_figure_for_a_number_question_is_never_read_as_a_menu_digit(
    db: Database, text: Text
) -> None:
    text("300 chicks placed monday")
    text("1"), text("2"), text("no")
    assert "label" in said(text("gave vaccine today"))
    text("9")
    with db.read() as connection:
        data = connection.execute(select(t.event.c.data)).scalars().all()
    assert 9 in [one.get("days") for one in data]


def test_undo_takes_back_the_last_entry_and_keeps_it_in_the_record(
    db: Database, text: Text
) -> None:
    text("300 chicks placed monday")
    text("1"), text("2"), text("no")
    text("2 dead")
    assert "Taken back" in said(text("undo"))
    assert "300 alive" in said(text("status"))
    assert count(db, "event") == 1


def test_the_language_can_be_changed_and_the_answer_is_in_the_new_one(text: Text) -> None:
    text("300 chicks friday")
    assert "Kiswahili" in said(text("kiswahili"))


def test_a_turn_needs_few_statements(db: Database, text: Text) -> None:
    from sqlalchemy import event as watch

    text("300 chicks placed monday")
    statements: list[str] = []

    def note(_c: object, _cur: object, statement: str, *_: object) -> None:
        statements.append(statement)

    watch.listen(db.engine, "before_cursor_execute", note)
    text("all piled at the stove and crying")
    watch.remove(db.engine, "before_cursor_execute", note)
    assert len(statements) <= 20


@pytest.mark.parametrize(
    ("first", "then", "told"),
    [
        ("the chicks stand along the walls", "1", "open beaks"),
        ("temp 340", "29", "29 C"),
        ("change language", "3", "Kiswahili"),
    ],
)
def test_a_stranger_who_is_asked_something_is_heard_when_they_answer(
    text: Text, first: str, then: str, told: str
) -> None:
    asked = text(first)
    assert asked.decision.question is not None
    assert told in said(text(then))


@pytest.mark.parametrize("language", ["en", "sw", "fr"])
def test_whatever_a_stranger_texts_first_the_turn_ends_well(
    db: Database, text: Text, language: str
) -> None:
    bodies = [one.text for one in load_examples(content_folder() / "languages" / language)]
    for turn, body in enumerate(bodies[::15]):
        text(body, sender=f"+2547000{turn:05d}")
    assert count(db, "turn") == len(bodies[::15])
