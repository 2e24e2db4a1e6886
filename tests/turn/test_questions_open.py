"""How long a question is open, and a digit that could answer two of them."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import insert, select, update

from bot.facts.talk import Incoming
from bot.records import tables as t
from bot.records.session import Database
from bot.settings import Settings
from bot.turn.take import Taken, take_turn
from bot.wiring import Thinking, cooperative_values

NOW = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)
FARMER = "+254700000001"


class Phone:
    """A farmer's phone, three days after the chicks came; the heat is asked for."""

    def __init__(self, db: Database, thinking: Thinking) -> None:
        self._db, self._thinking = db, thinking
        with db.write() as connection:
            values = cooperative_values(Settings(name="Mkulima"))
            connection.execute(insert(t.cooperative).values(**values))
        assert self.says("new batch 300 arrived 3 days ago").texts[0].endswith("5 wood")

    def says(self, text: str, after: timedelta = timedelta()) -> Taken:
        incoming = Incoming(f"SM{text}{after}", "AC", FARMER, "+254700000100", text, NOW + after)
        return take_turn(self._db, self._thinking.handbook, self._thinking.reader, incoming)

    def is_pushed_a_question(self, after: timedelta, *, closing: bool = True) -> None:
        """The clock asks where the chicks are, and closes what was open."""
        with self._db.write() as connection:
            before = connection.execute(select(t.question.c.id)).scalars().one()
            if closing:
                connection.execute(update(t.question).values(closed_at=NOW + after))
            connection.execute(
                insert(t.question).values(
                    phone_id=1, batch_id=1, name="behaviour", kind="menu", prompt="behaviour",
                    options=["spread", "piled", "away", "one_side", "walls"], about={},
                    asked_at=NOW + after, pushed=True, before_id=before,
                )
            )  # fmt: skip


@pytest.fixture
def phone(db: Database, thinking: Thinking) -> Phone:
    return Phone(db, thinking)


def test_a_question_is_open_for_a_day_and_then_its_digit_is_none(phone: Phone) -> None:
    (late,) = phone.says("1", timedelta(hours=25)).texts
    assert late.startswith("Where are the chicks? 1 spread out")


def test_within_the_day_its_digit_answers_it(phone: Phone) -> None:
    (soon,) = phone.says("1", timedelta(hours=23)).texts
    assert "charcoal" in soon


def test_a_digit_right_behind_a_pushed_question_that_closed_another_is_asked_again(
    phone: Phone,
) -> None:
    phone.is_pushed_a_question(timedelta(minutes=60))
    (again,) = phone.says("2", timedelta(minutes=62)).texts
    assert "charcoal" not in again
    assert "word" in again


def test_of_two_open_questions_a_digit_answers_the_newer(phone: Phone) -> None:
    phone.is_pushed_a_question(timedelta(minutes=60), closing=False)
    answer = " ".join(phone.says("2", timedelta(minutes=64)).texts)
    assert "piled" in answer.lower() or "cold" in answer.lower()


def test_three_minutes_later_it_answers_what_was_pushed(phone: Phone) -> None:
    phone.is_pushed_a_question(timedelta(minutes=60))
    answer = " ".join(phone.says("2", timedelta(minutes=64)).texts)
    assert "piled" in answer.lower() or "cold" in answer.lower()
