"""Unread texts and taught words, on both databases."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from sqlalchemy import insert

from bot.facts.farm import TaughtWord
from bot.records import tables as t
from bot.records.case import cooperative_of
from bot.records.desk_unread import deal_with, take_back, teach, unread_text, waiting
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values

AT = datetime(2026, 3, 2, 7, tzinfo=UTC)


@pytest.fixture
def both(db: Database) -> Database:
    """Two cooperatives; the second one's farmer and a stranger were not understood, and a text was
    erased."""
    with db.write() as connection:
        for number in (1, 2):
            values = cooperative_values(Settings())
            connection.execute(insert(t.cooperative).values(id=number, **values))
        connection.execute(
            insert(t.phone).values(
                id=1, cooperative_id=2, number="+254700000001", consent="active", created_at=AT
            )
        )
        for number, phone, text in ((1, 1, "of two"), (2, None, "of nobody"), (3, 1, "")):
            turn = {"account": "AC", "message_id": f"SM{number}", "sender": "+254700000001"}
            turn |= {"recipient": "+254700000100", "channel": "sms", "body": text}
            connection.execute(insert(t.turn).values(id=number, phone_id=phone, at=AT, **turn))
            row = {"id": number, "turn_id": number, "text": text}
            connection.execute(insert(t.unread).values(at=AT, **row))
    return db


def test_each_cooperative_sees_its_own_and_the_first_one_strangers(both: Database) -> None:
    with both.read() as connection:
        assert [one.text for one in waiting(connection, 1, 9)] == ["of nobody"]
        assert [one.text for one in waiting(connection, 2, 9)] == ["of two"]
        assert unread_text(connection, 1, 1) is None
        assert unread_text(connection, 2, 3) is None


def test_what_was_dealt_with_waits_no_more_and_can_still_be_looked_at(both: Database) -> None:
    with both.write() as connection:
        deal_with(connection, 1, AT)
        assert waiting(connection, 2, 9) == []
        assert unread_text(connection, 2, 1) is not None


def test_a_word_is_taught_replaced_and_taken_back_for_one_cooperative(both: Database) -> None:
    first, again = (TaughtWord("sw", word, "wanahema") for word in ("frimba", "Frimba"))
    other = TaughtWord("en", "frimba", "panting")
    with both.write() as connection:
        for one in (first, other, again):
            teach(connection, 2, one)
        assert set(cooperative_of(connection, 2).taught) == {other, again}
        take_back(connection, 2, "sw", "FRIMBA")
        assert cooperative_of(connection, 2).taught == (other,)
        assert cooperative_of(connection, 1).taught == ()
