"""The log never holds a number or a text."""

from __future__ import annotations

import logging
import sys

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from bot.doors.log import Hiding
from bot.errors import SendError
from bot.records.session import Database

NUMBER, BODY = "+254700000123", "my chicks are dying"


def _line(message: str, *values: object, error: BaseException | None = None) -> str:
    told = (type(error), error, error.__traceback__) if error else None
    record = logging.LogRecord("bot", logging.INFO, "", 1, message, values, told)
    return Hiding("key").format(record)


@pytest.mark.parametrize("written", [NUMBER, NUMBER[1:], "254 700 000 123", "%2B254700000123"])
def test_a_number_is_written_as_a_hash_and_its_last_two_digits(written: str) -> None:
    line = _line("to %s", written)
    assert "700" not in line.split("bot: ")[1].replace("..23", "")
    assert line.endswith("..23")
    assert line.split("to ")[1] == _line("to %s", NUMBER).split("to ")[1]


def test_another_key_gives_another_hash() -> None:
    assert Hiding("a").hide(NUMBER) != Hiding("b").hide(NUMBER)


def test_small_figures_stay_as_they_are() -> None:
    assert _line("sent %d of %d in 1.25 s at 2026-03-01", 12, 500).endswith(
        "sent 12 of 500 in 1.25 s at 2026-03-01"
    )


def test_other_peoples_words_in_an_exception_are_left_out() -> None:
    try:
        try:
            raise ValueError(f"cannot parse {BODY}")
        except ValueError as first:
            raise RuntimeError(BODY) from first
    except RuntimeError:
        line = _line("failed", error=sys.exception())
    assert BODY not in line
    assert "RuntimeError" in line
    assert "ValueError" in line
    assert "test_log.py" in line


def test_our_own_and_the_systems_words_stay() -> None:
    assert "HTTP 500" in _line("failed", error=SendError("HTTP 500", permanent=False))
    assert "No such file" in _line("failed", error=OSError(2, "No such file"))


def test_a_statement_that_failed_does_not_show_its_values(db: Database) -> None:
    with pytest.raises(DBAPIError) as caught, db.write() as connection:
        connection.execute(text("INSERT INTO nowhere VALUES (:body)"), {"body": BODY})
    assert BODY not in _line("failed", error=caught.value)
