"""Practice phone: the real engine, and nothing leaves it."""

from __future__ import annotations

import re

import pytest
from sqlalchemy import func, select, update

from bot.doors.practice import BEGINNINGS, MOST_STEPS
from bot.records import tables as t
from tests.doors.desk.world import MOST_BYTES, World


def phone(world: World, **fields: str) -> str:
    return world.visitor("looks").post("/desk/practice/phone", **fields).text


def rows(world: World) -> list[int]:
    with world.db.read() as connection:
        tables = (t.phone, t.turn, t.outbox, t.batch, t.event, t.question)
        return [
            connection.execute(select(func.count()).select_from(one)).scalar_one() for one in tables
        ]


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
@pytest.mark.parametrize("begins", BEGINNINGS)
def test_a_phone_is_taken_up_at_any_beginning_in_any_language(
    world: World, language: str, begins: str
) -> None:
    before = rows(world)
    page = phone(world, language=language, begins=begins, go="+1d")
    assert f'<p lang="{language}">' in page or "joined" in begins
    assert rows(world) == before


def test_a_conversation_goes_on_where_it_was(world: World) -> None:
    first = phone(world, language="en", begins="invited", go="1")
    steps = re.search(r"<textarea[^>]*>(.*?)</textarea>", first, re.DOTALL)
    assert steps is not None
    assert steps[1] == "1"
    second = phone(world, language="en", begins="invited", steps=steps[1], text="300 chicks today")
    assert "Mkulima: We can help you raise chicks" in second
    assert "300 chicks today, noted" in second


def test_the_phone_speaks_with_the_cooperatives_own_name_number_and_words(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(
            update(t.cooperative)
            .where(t.cooperative.c.id == 1)
            .values(vet_number="+254700000055", taught=[["en", "grumpled", "dead"]])
        )
    page = phone(world, language="en", begins="day_4", text="40 grumpled")
    assert "DANGER" in page
    assert "0700000055" in page or "+254700000055" in page


def test_a_long_conversation_ends_and_its_page_stays_small(world: World) -> None:
    steps = "\n".join(["+1d", "they are all piled up under the stove and cry", "2"] * 9)
    page = phone(world, language="en", begins="day_1", steps="\n".join(steps.split("\n")[:25]))
    assert "long enough" in page
    assert len(page.encode()) < MOST_BYTES
    assert MOST_STEPS == 25


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"language": "xx", "begins": "day_1"},
        {"language": "en", "begins": "day_999"},
        {"language": "en", "begins": "day_1", "on": "yesterday"},
        {"language": "en", "begins": "day_1", "steps": "+7d\n" * 9},
        {"language": "en", "begins": "day_1", "steps": "x\n" * 99},
    ],
)
def test_what_is_no_conversation_is_begun_anew(world: World, fields: dict[str, str]) -> None:
    answer = world.visitor("looks").post("/desk/practice/phone", **fields)
    assert answer.status_code == 400
    assert "Choose a language" in answer.text


def test_a_day_far_off_is_today(world: World) -> None:
    page = phone(world, language="en", begins="invited", on="1999-01-01")
    assert "10 Mar" in page
