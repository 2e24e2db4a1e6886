"""Unread words: a word is taught with its example, never at the cost of what is read rightly."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from sqlalchemy import insert, select, update

from bot.facts.talk import Incoming
from bot.records import tables as t
from tests.doors.desk.world import NOW, OURS, THEIRS, World


def unread_id(world: World) -> int:
    return world.ids[OURS]["unread"]


def tried(world: World, **fields: str) -> str:
    path = f"/desk/unread/{unread_id(world)}/try"
    return world.visitor("advises").post(path, **fields).text.replace("&#39;", "'")


def approve(world: World, **fields: str) -> int:
    path = f"/desk/unread/{unread_id(world)}/approve"
    return world.visitor("advises").post(path, **fields).status_code


def text_from(world: World, number: str, text: str, message: str) -> str:
    """What the service answers to a farmer's text."""
    incoming = Incoming(message, "ACtest", number, "+254700000100", text, NOW)
    return " ".join(world.bot.take(incoming).texts)


def test_a_text_that_was_not_read_is_listed_with_its_farm(world: World) -> None:
    page = world.visitor("advises").get("/desk/unread").text
    assert "they are frimbling again" in page
    assert "Mkulima Amina" in page


@pytest.mark.parametrize(
    ("language", "said"),
    [("en", "with French words"), ("fr", "en français"), ("sw", "kwa Kifaransa")],
)
def test_the_language_to_teach_is_named_in_the_readers_own(
    world: World, language: str, said: str
) -> None:
    with world.db.write() as connection:
        connection.execute(update(t.person).values(language="fr"))
    visitor = world.visitor("advises")
    visitor.post("/desk/you/language", language=language)
    assert said in visitor.get(f"/desk/unread/{unread_id(world)}").text


def test_a_word_is_tried_approved_and_read_from_then_on(world: World) -> None:
    page = tried(world, word="frimbling", means="panting")
    assert "frimbling = panting" in page
    assert "Approve the word" in page
    before = text_from(world, "+254700000001", "they are frimbling", "SM100")
    assert approve(world, word="frimbling", means="panting") == 303
    world.clock.moment = NOW + timedelta(minutes=30)
    after = text_from(world, "+254700000001", "they are frimbling", "SM101")
    assert before != after
    theirs = text_from(world, "+254700000002", "they are frimbling", "SM102")
    assert theirs == before
    page = world.visitor("advises").get("/desk/unread").text
    assert "frimbling = panting" in page
    assert f'href="/desk/unread/{unread_id(world)}"' not in page


def test_a_word_that_does_not_help_is_not_approved(world: World) -> None:
    page = tried(world, word="frimbling", means="grobbling")
    assert "still not be read" in page
    assert "Approve the word" not in page
    assert approve(world, word="frimbling", means="grobbling") == 400


def test_a_word_that_spoils_what_is_read_rightly_is_not_approved(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(t.unread.update().values(text="frimbling huddled"))
    page = tried(world, word="huddled", means="temp 31")
    assert "would be read wrongly" in page
    assert approve(world, word="huddled", means="temp 31") == 400
    with world.db.read() as connection:
        kept = connection.execute(select(t.cooperative.c.taught)).scalars().all()
    assert kept == [[], []]


def test_a_word_that_stands_everywhere_is_too_common(world: World) -> None:
    assert "too common to be taught" in tried(world, word="they", means="panting")


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"word": "", "means": "panting"}, "Choose a word"),
        ({"other": "3 dead", "means": "panting"}, "Choose a word"),
        ({"word": "frimbling", "means": ""}, "Say what the word means"),
        ({"word": "frimbling", "means": "frimbling"}, "holds the word itself"),
    ],
)
def test_what_can_not_be_taught_is_said(world: World, fields: dict[str, str], said: str) -> None:
    assert said in tried(world, **fields)


def test_a_taught_word_is_taken_back(world: World) -> None:
    approve(world, word="frimbling", means="panting")
    visitor = world.visitor("advises")
    visitor.post("/desk/unread/words", language="en", word="frimbling")
    assert "frimbling = panting" not in visitor.get("/desk/unread").text
    assert visitor.post("/desk/unread/words", language="en", word="frimbling").status_code == 400


def test_a_text_that_was_dealt_with_waits_no_more(world: World) -> None:
    visitor = world.visitor("advises")
    visitor.post(f"/desk/unread/{unread_id(world)}/done")
    page = visitor.get("/desk/unread").text
    assert "Nothing waits" in page
    assert len(re.findall("<h1>", page)) == 1


def test_a_stranger_belongs_to_the_first_cooperative(world: World) -> None:
    with world.db.write() as connection:
        made = connection.execute(
            insert(t.turn).values(
                account="ACtest", message_id="SMx", sender="+254700000077",
                recipient="+254700000100", channel="sms", body="qwerty", at=NOW,
            )
        ).inserted_primary_key  # fmt: skip
        assert made is not None
        connection.execute(insert(t.unread).values(turn_id=made[0], text="qwerty", at=NOW))
    assert "qwerty" in world.visitor("advises").get("/desk/unread").text
    assert "qwerty" not in world.visitor("advises", THEIRS).get("/desk/unread").text
    page = world.visitor("advises").get("/desk/unread/3").text
    assert "never joined" in page
