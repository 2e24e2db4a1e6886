"""Temperatures as farmers write them: with and without a letter, a comma, either scale."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("temp 35", 35.0),
        ("35C", 35.0),
        ("95F", 35.0),
        ("temp 95", 35.0),
        ("35,5 C", 35.5),
        ("temp 35,5", 35.5),
        ("it is 68F", 20.0),
        ("temp 113", 45.0),
        ("joto 95", 35.0),
        ("il fait 95F", 35.0),
    ],
)
def test_a_temperature_is_understood_as_farmers_write_it(
    thinking: Thinking, text: str, celsius: float
) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["slots"]["value_c"]) == ("temperature", celsius)


@pytest.mark.parametrize("text", ["temp 55", "temp 114", "temp 340"])
def test_a_number_of_neither_scale_names_no_cause_and_asks(thinking: Thinking, text: str) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["cause"], got["ask"]) == ("temperature", "unclear", True)
