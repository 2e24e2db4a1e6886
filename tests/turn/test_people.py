"""People and phones: owners and caretakers, two farmers on one phone, a number in other hands."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import insert, select, update

from bot.facts.talk import Incoming
from bot.records import tables as t
from bot.records.people import owner_phones
from bot.records.session import Database
from bot.settings import Settings
from bot.turn.take import Taken, take_turn
from bot.turn.tick import tick
from bot.wiring import Thinking, cooperative_values

NOW = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)  # a Wednesday, 09:00 in Nairobi
OWNER, CARETAKER, OTHER = "+254700000001", "+254700000002", "+254700000003"
VET = "+254700000099"
Text = Callable[..., Taken]


@pytest.fixture
def text(db: Database, thinking: Thinking) -> Text:
    """`text("stop", OWNER, hours=2)`: a text from a phone, so long after NOW."""
    with db.write() as connection:
        values = cooperative_values(Settings(name="Mkulima", vet=VET))
        connection.execute(insert(t.cooperative).values(**values))
    sent: list[str] = []

    def one(body: str, sender: str = OWNER, hours: float | None = None) -> Taken:
        sent.append(body)
        after = timedelta(minutes=len(sent)) if hours is None else timedelta(hours=hours)
        incoming = Incoming(f"SM{len(sent)}", "AC", sender, "+254700000100", body, NOW + after)
        return take_turn(db, thinking.handbook, thinking.reader, incoming)

    return one


def said(taken: Taken) -> str:
    return " ".join(taken.texts)


def waiting(db: Database, number: str) -> list[str]:
    """What is to be sent to a number."""
    row = t.outbox.c
    with db.read() as connection:
        found = select(row.text).where(row.to_number == number, row.state == "waiting")
        return list(connection.execute(found.order_by(row.id)).scalars())


def texted(db: Database) -> list[str]:
    """The numbers that the batches are texted on, oldest batch first."""
    with db.read() as connection:
        found = select(t.phone.c.number).join(t.batch, t.batch.c.phone_id == t.phone.c.id)
        return list(connection.execute(found.order_by(t.batch.c.id)).scalars())


def registered(text: Text, sender: str = OWNER) -> None:
    """A farm with chicks of three days whose questions are answered."""
    text("300 chicks placed sunday", sender)
    for answer in ("1", "2", "no"):
        text(answer, sender)


def cared_for(text: Text) -> None:
    registered(text)
    text("caretaker juma 0700 000 002")
    text("1", CARETAKER)


def test_a_caretakers_phone_is_asked_before_anything_goes_there(db: Database, text: Text) -> None:
    registered(text)
    answer = text("caretaker juma 0700 000 002")
    assert CARETAKER in said(answer)
    asked = waiting(db, CARETAKER)
    assert len(asked) == 1
    assert asked[0].startswith("Mkulima: ")
    assert OWNER in asked[0]
    assert "1 yes 2 no" in asked[0]
    assert texted(db) == [OWNER]


def test_after_the_caretakers_own_yes_the_daily_texts_go_there_and_the_owner_is_told(
    db: Database, text: Text, thinking: Thinking
) -> None:
    cared_for(text)
    assert texted(db) == [CARETAKER]
    assert any("said yes" in one for one in waiting(db, OWNER))
    tick(db, thinking.handbook, NOW + timedelta(hours=22))
    assert any("Day " in one for one in waiting(db, CARETAKER))
    assert not any("Day " in one for one in waiting(db, OWNER))


def test_after_a_no_nothing_goes_to_that_phone_and_asking_again_is_in_vain(
    db: Database, text: Text
) -> None:
    registered(text)
    text("caretaker 0700000002")
    text("2", CARETAKER)
    assert texted(db) == [OWNER]
    assert any("said no" in one for one in waiting(db, OWNER))
    text("caretaker 0700000002", hours=30)
    assert len(waiting(db, CARETAKER)) == 1


def test_a_phone_that_never_answers_is_asked_once_and_reminded_once(
    db: Database, text: Text
) -> None:
    registered(text)
    for hours in (1, 2, 30, 31, 24 * 8, 24 * 20, 24 * 40):
        text("caretaker 0700000002", hours=hours)
    assert len(waiting(db, CARETAKER)) == 2


def test_both_phones_report_on_the_same_birds(text: Text) -> None:
    cared_for(text)
    assert "2 dead" in said(text("2 dead", CARETAKER))
    assert "298 alive" in said(text("status", OWNER))


def test_the_owner_hears_at_once_of_danger_that_the_caretaker_tells(
    db: Database, text: Text
) -> None:
    cared_for(text)
    assert text("blood in the droppings of many", CARETAKER).decision.referred
    danger = [one for one in waiting(db, OWNER) if "Danger" in one]
    assert len(danger) == 1
    assert VET in danger[0]


def test_when_the_caretaker_stops_the_texts_come_to_the_owner_again(
    db: Database, text: Text
) -> None:
    cared_for(text)
    text("stop", CARETAKER)
    assert texted(db) == [OWNER]
    assert "START" in said(text("status", CARETAKER, hours=30))


def test_the_owner_takes_the_texts_back_with_two_words(db: Database, text: Text) -> None:
    cared_for(text)
    text("caretaker off")
    assert texted(db) == [OWNER]
    assert "298" not in said(text("2 dead", CARETAKER))


def test_a_stopped_phone_is_not_asked(db: Database, text: Text) -> None:
    registered(text, CARETAKER)
    text("stop", CARETAKER)
    registered(text)
    text("caretaker 0700000002")
    assert waiting(db, CARETAKER) == []


def test_two_farmers_on_one_phone_are_named_in_texts_and_asked_whose(
    db: Database, text: Text, thinking: Thinking
) -> None:
    registered(text)
    text("my name is amina")
    text("new batch 200 placed monday")
    text("1")
    for shown, answer in zip((1.1, 1.2, 1.3), ("1", "2", "no"), strict=True):
        text(answer, hours=shown)
    assert "Juma" in said(text("belongs to juma", hours=1.5))
    assert "1 Amina 2 Juma" in said(text("2 dead", hours=2))  # the older first
    assert "Noted for Amina" in said(text("1", hours=2.1))
    assert "Whose" not in said(text("juma: 1 culled", hours=2.2))
    tick(db, thinking.handbook, NOW + timedelta(hours=22))
    names = [name for one in waiting(db, OWNER) for name in ("Amina:", "Juma:") if name in one]
    assert sorted(set(names)) == ["Amina:", "Juma:"]


def test_one_farmer_with_one_batch_is_never_named(
    db: Database, text: Text, thinking: Thinking
) -> None:
    registered(text)
    text("my name is amina")
    tick(db, thinking.handbook, NOW + timedelta(hours=22))
    assert waiting(db, OWNER)
    assert not any("Amina" in one for one in waiting(db, OWNER))


def test_a_number_in_other_hands_gets_nothing_and_its_new_holder_sees_nothing(
    db: Database, text: Text, thinking: Thinking
) -> None:
    registered(text)
    tick(db, thinking.handbook, NOW + timedelta(hours=1))
    assert "Sorry" in said(text("wrong number"))
    assert waiting(db, OWNER) == []
    assert "alive" not in said(text("status"))
    text("300 chicks placed sunday")
    assert texted(db)[1] == OWNER
    assert texted(db)[0] != OWNER
    tick(db, thinking.handbook, NOW + timedelta(hours=22))
    assert len([one for one in waiting(db, OWNER) if "Day " in one]) == 1


def test_wrong_person_on_a_shared_phone_stops_nobody(db: Database, text: Text) -> None:
    registered(text)
    text("belongs to juma")
    assert "STOP" in said(text("not me"))
    assert texted(db) == [OWNER]
    with db.read() as connection:
        assert connection.execute(select(t.phone.c.consent)).scalars().all() == ["active"]


def test_the_owners_phones_are_those_held_or_shared_and_say_which_gets_the_daily_texts(
    db: Database, text: Text
) -> None:
    cared_for(text)
    with db.read() as connection:
        found = owner_phones(connection, [1])
    assert [(one.number, one.daily) for one in found[1]] == [(OWNER, False)]
    with db.write() as connection:
        connection.execute(update(t.phone).values(suspended=True))
    with db.read() as connection:
        assert owner_phones(connection, [1]) == {}


@pytest.mark.parametrize(
    "body",
    [
        "caretaker sick",
        "my name is amina and 12 died",
        "owner 3 dead",
        "caretaker 12 dead 0700000002",
    ],
)
def test_a_report_is_never_taken_for_a_wish_about_phones(
    db: Database, text: Text, body: str
) -> None:
    registered(text)
    text(body)
    assert waiting(db, CARETAKER) == []
    with db.read() as connection:
        assert connection.execute(select(t.person.c.name)).scalars().all() == [None]


@pytest.mark.parametrize(
    ("body", "word"),
    [("mtunzaji wangu ni +254700000002", "ndiyo"), ("mon gardien est 0700000002", "oui")],
)
def test_a_caretaker_is_named_in_every_language(
    db: Database, text: Text, body: str, word: str
) -> None:
    registered(text)
    text("kiswahili" if word == "ndiyo" else "francais")
    text(body)
    assert word in waiting(db, CARETAKER)[0]


def test_the_owner_hears_once_a_week_in_the_evening_how_the_caretakers_birds_do(
    db: Database, text: Text, thinking: Thinking
) -> None:
    cared_for(text)
    text("2 dead", CARETAKER)
    for hours in (11, 35, 59, 81.5, 82, 83, 107):  # evenings; the seventh day ends at 82
        tick(db, thinking.handbook, NOW + timedelta(hours=hours - 0.4))
    weekly = [one for one in waiting(db, OWNER) if "week 1" in one]
    assert len(weekly) == 1
    assert "298 alive, 2 died this week" in weekly[0]
    assert not any("week 1" in one for one in waiting(db, CARETAKER))


def test_no_text_of_the_clock_goes_in_the_hours_that_a_cooperative_keeps_quiet(
    db: Database, text: Text, thinking: Thinking
) -> None:
    cared_for(text)
    with db.write() as connection:
        quiet = ["06:00-08:15", "saturday 17:00-19:30"]
        connection.execute(update(t.cooperative).values(quiet=quiet))
    for hours in (22, 81.6):  # 07:00 on the next day; Saturday, 18:36, the owner's weekly line
        tick(db, thinking.handbook, NOW + timedelta(hours=hours))
    row = t.outbox.c
    with db.read() as connection:
        sent = connection.execute(
            select(row.to_number, row.not_before)
            .where(row.state == "waiting", row.klass == "routine", row.turn_id.is_(None))
            .order_by(row.id)
        ).all()
    caretakers = [at for number, at in sent if number == CARETAKER]
    assert caretakers[0] == NOW + timedelta(hours=23, minutes=15)
    assert [at for number, at in sent if number == OWNER] == [NOW + timedelta(hours=82.5)]
