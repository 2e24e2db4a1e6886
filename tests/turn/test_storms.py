"""Robots, floods and forgers: STOP first, danger next, then the limits."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, insert, select, update

from bot.facts.dial import Dialled
from bot.facts.limits import House, Limits
from bot.facts.talk import Incoming
from bot.records import tables as t
from bot.records.case import case_of_number
from bot.records.session import MEMORY, Database
from bot.records.tally import count_up
from bot.settings import Settings
from bot.turn.dial import take_dial
from bot.turn.take import EVERYONE, Taken, as_sms, take_turn
from bot.wiring import Thinking, cooperative_values

NOW = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)
FARMER, SERVICE, VET = "+254700000001", "+254700000100", "+254700000099"
DANGER = "blood in the droppings of many"
MANY = 40  # exchanges after which a storm must long be over


class Phones:
    """Phones that text the service at chosen moments. House: the limits it keeps to."""

    def __init__(self, db: Database, thinking: Thinking) -> None:
        self.db = db
        self.house = EVERYONE
        self._thinking = thinking
        self._sent = 0

    def text(self, body: str, sender: str = FARMER, seconds: float = 0) -> Taken:
        self._sent += 1
        at = NOW + timedelta(seconds=seconds)
        incoming = Incoming(f"SM{self._sent}", "AC", sender, SERVICE, body, at)
        thinking = self._thinking
        return take_turn(self.db, thinking.handbook, thinking.reader, incoming, house=self.house)

    def stop(self, channel: str, sender: str = FARMER, seconds: float = 0) -> None:
        """STOP, as each channel brings it."""
        self._sent += 1
        at, key = NOW + timedelta(seconds=seconds), f"STOP {self._sent}"
        book, reader = self._thinking.handbook, self._thinking.reader
        if channel == "menu":
            begin = Dialled("start", key, sender, "*384*5#", "")
            for dialled in (begin, replace(begin, kind="input", key="STOP", typed="STOP")):
                take_dial(self.db, book, reader, dialled, "AC", at, self.house)
            return
        said = {"text": "STOP please", "own dialect": "stop", "gateway's field": "any word"}
        opt_out = "STOP" if channel == "gateway's field" else None
        incoming = Incoming(key, "AC", sender, SERVICE, said[channel], at, opt_out=opt_out)
        wording = as_sms if channel == "own dialect" else None
        take_turn(self.db, book, reader, incoming, wording, self.house)

    def register(self, sender: str = FARMER, seconds: float = -7200) -> None:
        for place, body in enumerate(("300 chicks placed sunday", "1", "2", "no")):
            self.text(body, sender, seconds + 90 * place)

    def count(self, table: str) -> int:
        with self.db.read() as connection:
            found = connection.execute(select(func.count()).select_from(t.metadata.tables[table]))
            return int(found.scalar_one())


@pytest.fixture
def phones(thinking: Thinking) -> Iterator[Phones]:
    db = Database(MEMORY)
    db.create_all()
    with db.write() as connection:
        values = cooperative_values(Settings(name="Mkulima", vet=VET))
        connection.execute(insert(t.cooperative).values(**values))
    yield Phones(db, thinking)
    db.close()


def fixed(_turn: int, _answer: str) -> str:
    return "Thank you for your message. We will come back to you."


def numbered(turn: int, _answer: str) -> str:
    return f"Your request no {turn * 7919} was received, our team will reply."


def echoing(turn: int, answer: str) -> str:
    return f"Auto-reply {turn}: you wrote: {answer}"


def of_two_minds(turn: int, _answer: str) -> str:
    return ("I am driving, call you later", "Out of office until Monday")[turn % 2]


@pytest.mark.parametrize("robot", [fixed, numbered, echoing, of_two_minds])
@pytest.mark.parametrize("known", [True, False], ids=["of a farmer", "unknown"])
@pytest.mark.parametrize("seconds", [2, 70], ids=["at once", "slowly"])
def test_a_robot_that_answers_ours_is_left_alone_within_ten_messages(
    phones: Phones, robot: Callable[[int, str], str], known: bool, seconds: int
) -> None:
    if known:
        phones.register()
    answer, sent = "", 0
    for turn in range(MANY):
        taken = phones.text(robot(turn, answer), seconds=turn * seconds)
        sent += len(taken.texts)
        answer = " ".join(taken.texts) or answer
    assert sent <= 10


def test_two_services_joined_back_to_back_stop_within_ten_messages(
    phones: Phones, thinking: Thinking
) -> None:
    other_db = Database(MEMORY)
    other_db.create_all()
    with other_db.write() as connection:
        values = cooperative_values(Settings(name="Jirani", vet=VET))
        connection.execute(insert(t.cooperative).values(**values))
    other = Phones(other_db, thinking)
    phones.register()
    other.register()
    said, sent = "your chicks are fine", 0
    for turn in range(MANY):
        for service in (phones, other):
            taken = service.text(said, seconds=turn * 3)
            if not taken.texts:
                assert sent <= 10
                return
            said, sent = taken.texts[0], sent + 1
    pytest.fail("they never stopped")


def test_a_muted_robot_still_gets_through_with_stop_and_danger(phones: Phones) -> None:
    phones.register()
    for turn in range(6):
        phones.text(fixed(turn, ""), seconds=turn)
    assert phones.text("status", seconds=10).texts == ()
    assert VET in " ".join(phones.text(DANGER, seconds=20).texts)
    assert "no more texts" in " ".join(phones.text("stop", seconds=30).texts)


def test_five_texts_a_minute_that_are_not_understood_mute_a_phone(phones: Phones) -> None:
    phones.register()
    for turn, body in enumerate(("zxqw plorf", "banz dlofi", "grumpf", "plimo vrask", "ovyx")):
        phones.text(body, seconds=turn * 10)
    assert phones.text("status", seconds=3600).texts == ()
    with phones.db.read() as connection:
        assert connection.execute(select(t.phone.c.muted_until)).scalar_one() > NOW


def test_a_mute_is_over_after_six_hours(phones: Phones) -> None:
    phones.register()
    for turn in range(6):
        phones.text(fixed(turn, ""), seconds=turn)
    assert phones.text("status", seconds=5 * 3600).texts == ()
    assert phones.text("status", seconds=6 * 3600 + 60).texts


def test_a_flood_from_a_thousand_unknown_numbers_costs_at_most_the_cap(phones: Phones) -> None:
    phones.house = replace(EVERYONE, limits=Limits(strangers_day=40))
    answers = sum(
        len(phones.text("hello there", f"+2547000{turn:05d}", turn).texts) for turn in range(1000)
    )
    assert answers == 40
    assert phones.count("turn") == 1000
    with phones.db.read() as connection:
        kinds = connection.execute(select(t.adviser.c.kind)).scalars().all()
    assert kinds == ["storm"]


def test_a_flood_of_registrations_stops_at_its_own_cap_and_farmers_are_still_answered(
    phones: Phones,
) -> None:
    phones.house = replace(EVERYONE, limits=Limits(joins_day=5))
    phones.register()
    for turn in range(30):
        phones.text("300 chicks friday", f"+2547000{turn:05d}", turn)
    assert phones.count("person") == 5
    assert phones.text("status", seconds=60).texts


def test_not_understood_is_said_to_so_many_phones_a_minute_and_no_more(phones: Phones) -> None:
    phones.house = replace(EVERYONE, limits=Limits(misses_minute=3))
    numbers = [f"+2547000{turn:05d}" for turn in range(8)]
    for number in numbers:
        phones.register(number)
    answered = [phones.text("zxqw plorf ndegu", number).texts for number in numbers]
    assert sum(1 for one in answered if one) == 3
    assert phones.text("status", numbers[-1], 1).texts
    assert phones.text("zxqw plorf ndegu", numbers[-1], 61).texts


def test_an_unknown_number_of_a_far_country_is_answered_only_in_danger(phones: Phones) -> None:
    phones.house = House()
    far, served = "+882160000001", "+256700000001"
    assert phones.text("hello", far).texts == ()
    assert VET in " ".join(phones.text(DANGER, far, 60).texts)
    assert phones.text("300 chicks friday", served).texts == ()
    phones.house = House(countries=("256",))
    assert phones.text("300 chicks friday", served, 60).texts
    assert phones.text("300 chicks friday", "+254700000009").texts


def waiting(phones: Phones) -> list[str]:
    """The numbers that a text of ours waits for."""
    with phones.db.read() as connection:
        found = select(t.outbox.c.to_number).where(t.outbox.c.state == "waiting")
        return list(connection.execute(found.order_by(t.outbox.c.id)).scalars())


def test_no_text_of_ours_goes_to_a_far_country_on_another_phones_word(phones: Phones) -> None:
    phones.house = House()
    phones.register()
    said = phones.text("caretaker +882 16 000 00001").texts
    assert "with the caretaker's phone number" in " ".join(said)
    assert waiting(phones) == []
    phones.text("caretaker 0700 000 002", seconds=60)
    assert waiting(phones) == ["+254700000002"]


def test_phones_that_others_name_count_as_strangers_and_have_a_cap(phones: Phones) -> None:
    phones.house = replace(EVERYONE, limits=Limits(strangers_day=5))
    for turn in range(9):
        phones.register(f"+2547000{turn:05d}")
        phones.text(f"caretaker 0700 1{turn:05d}", f"+2547000{turn:05d}", 60 + turn)
    assert len(waiting(phones)) == 5


def test_the_same_not_understood_is_said_once_an_hour(phones: Phones) -> None:
    phones.register()
    first = phones.text("zxqw plorf ndegu")
    phones.text("status", seconds=120)
    assert first.texts
    assert phones.text("grumpf dlofi banz", seconds=240).texts == ()
    assert phones.text("grumpf dlofi banz", seconds=3700).texts


def asked(turn: int) -> str:
    """Something else each time, none of it a sign or a figure."""
    return ("status", "how warm on day 6", "next", "how much space", "how many drinkers")[turn % 5]


def test_ten_answers_an_hour_and_thirty_a_day(phones: Phones) -> None:
    phones.register(seconds=-100_000)
    hour = sum(bool(phones.text(asked(turn), seconds=turn * 200).texts) for turn in range(16))
    assert hour == 10
    day = sum(bool(phones.text(asked(turn), seconds=3600 + turn * 800).texts) for turn in range(90))
    assert hour + day == 30


def test_who_texts_without_end_is_read_back_no_further_and_still_answered_thirty_times_a_day(
    phones: Phones,
) -> None:
    phones.register(seconds=-100_000)
    day = sum(bool(phones.text(asked(turn), seconds=turn * 400).texts) for turn in range(60))
    assert day == 30
    with phones.db.write() as connection:  # a machine's texts, none of them answered
        row = {"account": "AC", "sender": FARMER, "recipient": SERVICE, "channel": "sms"}
        rows = [
            row | {"message_id": f"M{one}", "body": "x" * 100, "at": NOW + timedelta(hours=7)}
            for one in range(3000)
        ]
        connection.execute(insert(t.turn), rows)
        _, turns, _ = case_of_number(connection, FARMER, NOW + timedelta(hours=8))
    assert len(turns) < 200
    assert phones.text("status", seconds=8 * 3600).texts == ()


def test_a_talk_that_advances_may_have_twenty_answers_an_hour(phones: Phones) -> None:
    phones.register(seconds=-100_000)
    answered = 0
    for turn in range(30):
        at = NOW + timedelta(seconds=turn * 100)
        with phones.db.write() as connection:  # the next question of the talk is open
            connection.execute(
                insert(t.question).values(
                    phone_id=1, name="well", kind="menu", prompt="yes_no", options=["yes", "no"],
                    about={}, asked_at=at, pushed=False,
                )
            )  # fmt: skip
        answered += bool(phones.text("1", seconds=turn * 100 + 1).texts)
    assert answered == 20


def test_a_stranger_who_is_not_understood_is_answered_once_a_day(phones: Phones) -> None:
    said = ("hello there", "zxqw plorf", "banz dlofi", "grumpf")
    answered = [phones.text(one, seconds=turn * 7200).texts for turn, one in enumerate(said)]
    assert [bool(one) for one in answered] == [True, False, False, False]
    assert phones.text("hello there", seconds=48 * 3600).texts


def test_a_stranger_who_asks_about_joining_has_fifteen_answers_a_day(phones: Phones) -> None:
    day = [bool(phones.text(asked(turn), seconds=turn * 1700).texts) for turn in range(50)]
    assert sum(day) == 15
    assert phones.text("300 chicks placed sunday", seconds=25 * 3600).texts


def test_a_spent_budget_answers_stop_help_and_danger_only_and_tells_the_adviser(
    phones: Phones,
) -> None:
    phones.register()
    with phones.db.write() as connection:
        connection.execute(update(t.cooperative).values(budget=10))
        count_up(connection, "parts:1", "2026-03", 4)
    for turn in range(8):
        phones.text(asked(turn), seconds=turn * 100)
    assert phones.text("status", seconds=900).texts == ()
    assert phones.text("help", seconds=1000).texts
    assert VET in " ".join(phones.text(DANGER, seconds=1100).texts)
    assert phones.text("stop", seconds=1200).texts
    with phones.db.read() as connection:
        reasons = connection.execute(
            select(t.adviser.c.reason).where(t.adviser.c.kind == "budget").order_by(t.adviser.c.id)
        ).scalars()
        marks = [one.split(" %")[0] for one in reasons]
    assert marks == ["50", "80", "100"]


STATES = ("unknown", "invited", "active", "stopped", "muted", "suspended", "spent", "at the limit")


def bring(phones: Phones, state: str) -> None:
    """The farmer's phone in one of its states."""
    if state == "unknown":
        return
    phones.register()
    values: dict[str, object]
    if state in ("invited", "stopped"):
        values = {"consent": state}
    elif state == "muted":
        values = {"muted_until": NOW + timedelta(hours=5)}
    else:
        values = {"suspended": state == "suspended"}
    with phones.db.write() as connection:
        connection.execute(update(t.phone).values(**values))
        if state == "spent":
            connection.execute(update(t.cooperative).values(budget=1))
            count_up(connection, "parts:1", "2026-03", 5)
    if state == "at the limit":
        for turn in range(40):
            phones.text(asked(turn), seconds=-3000 + turn * 60)


@pytest.mark.parametrize("state", STATES)
@pytest.mark.parametrize("channel", ["text", "own dialect", "gateway's field", "menu"])
def test_stop_is_honoured_within_the_turn_in_every_state(
    phones: Phones, state: str, channel: str
) -> None:
    bring(phones, state)
    with phones.db.write() as connection:
        for phone_id in connection.execute(select(t.phone.c.id)).scalars().all():
            connection.execute(
                insert(t.outbox).values(
                    business_key="waits", phone_id=phone_id, to_number=FARMER, klass="routine",
                    text="Day 5.", parts=1, encoding="gsm7", state="waiting", not_before=NOW,
                    created_at=NOW,
                )
            )  # fmt: skip
    phones.stop(channel, seconds=60)
    with phones.db.read() as connection:
        assert connection.execute(select(t.phone.c.consent)).scalars().all() == ["stopped"]
        waiting = select(t.outbox.c.id).where(t.outbox.c.state == "waiting")
        assert connection.execute(waiting).all() == []


CAPPED = replace(EVERYONE, limits=Limits(
    answers_hour=1, answers_talking=1, answers_day=1, stranger_day=1, same_texts=2,
    aimless_minute=2, strangers_day=1, joins_day=1, misses_minute=1,
))  # fmt: skip


@pytest.mark.parametrize("known", [True, False], ids=["of a farmer", "unknown"])
def test_danger_gets_through_every_limit_and_stop_as_well(phones: Phones, known: bool) -> None:
    if known:
        phones.register()
    phones.house = CAPPED
    for turn in range(20):  # every cap is reached, and this phone is a robot's by all signs
        phones.text(numbered(turn, ""), f"+2547000{turn + 100:05d}", turn)
        phones.text(fixed(turn, ""), seconds=turn)
    assert phones.text("status", seconds=30).texts == ()
    for turn in range(6):
        taken = phones.text(DANGER, seconds=40 + 61 * turn)
        assert taken.decision.referred
        assert VET in " ".join(taken.texts)
    assert "no more texts" in " ".join(phones.text("stop", seconds=500).texts)
    assert VET in " ".join(phones.text(DANGER, seconds=600).texts)


@pytest.mark.parametrize("state", STATES)
def test_danger_is_answered_in_its_own_turn_in_every_state(phones: Phones, state: str) -> None:
    bring(phones, state)
    taken = phones.text(DANGER, seconds=60)
    assert taken.decision.referred
    assert VET in " ".join(taken.texts)
