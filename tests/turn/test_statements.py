"""What a turn costs the database, and whose turn it is when texts come at once."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from threading import Barrier, Thread

import pytest
from sqlalchemy import select

from bot.facts.talk import Incoming
from bot.records import tables as t
from bot.records.session import Database
from bot.turn.take import Taken, take_turn
from bot.turn.tick import tick
from bot.wiring import Thinking
from tests.kill.plain import ACCOUNT, MORNING, SERVICE, add_cooperative, add_farms, number
from tests.turn.test_plan import statements

MOST = 10  # statements a turn; BEGIN and COMMIT are not counted
STRANGER = "+15005559999"
TALK = (
    (STRANGER, "hello"),
    (STRANGER, "new batch 300 chicks today"),
    (STRANGER, "1"),
    (STRANGER, "charcoal"),
    (number(1), "3 dead"),
    (number(1), "they are piled up near the stove"),
    (number(1), "1"),
    (number(1), "temp 29, feed 9 kg and 2 dead"),
    (number(1), "undo"),
    (number(1), "STOP"),
    (number(1), "START"),
    (number(2), "blood in the droppings and many are dying"),
    (number(2), "qwerty uiop asdf"),
    (number(2), "how much feed do they need?"),
    (number(2), "sold 200 at 500"),
    (number(2), "francais"),
)

Say = Callable[[str, str, int], Taken]


@pytest.fixture
def say(db: Database, thinking: Thinking) -> Say:
    """`say(sender, text, minute)`: one turn on two farms with chicks of three days."""
    add_cooperative(db)
    add_farms(db, 2)

    def say(sender: str, text: str, minute: int) -> Taken:
        at = MORNING + timedelta(minutes=minute)
        incoming = Incoming(f"SM{minute}-{text}", ACCOUNT, sender, SERVICE, text, at)
        return take_turn(db, thinking.handbook, thinking.reader, incoming)

    return say


def test_a_turn_takes_at_most_ten_statements(db: Database, thinking: Thinking, say: Say) -> None:
    tick(db, thinking.handbook, MORNING)
    counted = {}
    for minute, (sender, text) in enumerate(TALK):
        with statements(db) as seen:
            taken = say(sender, text, 3 * minute)
        assert taken.texts, text
        counted[text] = sum(1 for one in seen if not one.startswith("BEGIN"))
    assert {text: n for text, n in counted.items() if n > MOST} == {}


@pytest.mark.parametrize("text", ["3 dead", "they are piled up near the stove", "temp 29"])
def test_an_everyday_text_is_heard_looked_up_and_written_in_three_statements(
    db: Database, say: Say, text: str
) -> None:
    if db.is_sqlite:
        pytest.skip("a statement costs SQLite no journey")
    with statements(db) as seen:
        say(number(1), text, 0)
    assert len(seen) == 3, seen


def test_two_texts_of_a_phone_on_two_workers_are_taken_in_turn(db: Database, say: Say) -> None:
    start, taken = Barrier(2), []

    def work(text: str) -> None:
        start.wait()
        taken.append(say(number(1), text, 0))

    workers = [Thread(target=work, args=(text,)) for text in ("2 dead", "3 dead")]
    for one in workers:
        one.start()
    for one in workers:
        one.join()
    with db.read() as connection:
        events = connection.execute(select(t.event.c.data).order_by(t.event.c.id)).scalars().all()
        answers = connection.execute(select(t.outbox.c.text)).scalars().all()
    assert len(taken) == 2
    # The second to come knows of the first: it asks what the two figures mean together, or adds.
    assert sorted(one["n"] for one in events) in ([2], [3], [1, 2], [2, 3])
    assert any("earlier" in one for one in answers)
