"""Consent: invited, active, stopped; the records of it; forgetting; what is held."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import insert, select

import bot
from bot.facts.limits import House
from bot.facts.talk import Incoming
from bot.outbox.claim import claim
from bot.outbox.receipts import Receipt, take_receipt
from bot.records import tables as t
from bot.records.session import MEMORY, Database
from bot.settings import Settings
from bot.turn.invite import Guest, give_new_phone, invite, remind
from bot.turn.take import Taken, take_turn
from bot.turn.tick import tick
from bot.wiring import Thinking, cooperative_values

NOW = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)  # a Wednesday, 09:00 in Nairobi
FARMER, OTHER, SERVICE = "+254700000001", "+254700000002", "+254700000100"
HOUSE = House(key=b"pepper", countries=("all",))
DAY = timedelta(days=1)


class Place:
    """A service in memory; texts come at chosen hours."""

    def __init__(self, db: Database, thinking: Thinking) -> None:
        self.db = db
        self.thinking = thinking
        self._sent = 0

    def text(self, body: str, sender: str = FARMER, hours: float = 0, opt_out: str = "") -> str:
        return " ".join(self.take(body, sender, hours, opt_out).texts)

    def take(self, body: str, sender: str = FARMER, hours: float = 0, opt_out: str = "") -> Taken:
        self._sent += 1
        at = NOW + timedelta(hours=hours, seconds=self._sent)
        incoming = Incoming(
            f"SM{self._sent}", "AC", sender, SERVICE, body, at, opt_out=opt_out or None
        )
        thinking = self.thinking
        return take_turn(self.db, thinking.handbook, thinking.reader, incoming, house=HOUSE)

    def invite(
        self, number: str = FARMER, language: str = "en", after: timedelta = DAY * 0
    ) -> bool:
        guest = Guest(1, number, language, "Amina")
        with self.db.write() as connection:
            return invite(connection, self.thinking.handbook, guest, HOUSE.key, NOW + after)

    def waiting(self, number: str = FARMER) -> list[str]:
        row = t.outbox.c
        with self.db.read() as connection:
            found = select(row.text).where(row.to_number == number, row.state == "waiting")
            return list(connection.execute(found.order_by(row.id)).scalars())

    def consents(self) -> list[tuple[str, str]]:
        row = t.consent_record.c
        with self.db.read() as connection:
            found = connection.execute(select(row.state, row.how).order_by(row.id))
            return [(one.state, one.how) for one in found]

    def consent(self) -> list[str]:
        with self.db.read() as connection:
            return list(connection.execute(select(t.phone.c.consent)).scalars())

    def everything(self) -> str:
        """All that the database holds, as one text."""
        with self.db.read() as connection:
            return "\n".join(
                str(tuple(row))
                for table in t.metadata.sorted_tables
                for row in connection.execute(select(table))
            )


@pytest.fixture
def place(thinking: Thinking) -> Iterator[Place]:
    db = Database(MEMORY)
    db.create_all()
    with db.write() as connection:
        connection.execute(
            insert(t.cooperative).values(**cooperative_values(Settings(name="Umoja")))
        )
    yield Place(db, thinking)
    db.close()


@pytest.mark.parametrize(("language", "yes"), [("en", "yes"), ("fr", "oui"), ("sw", "ndiyo")])
def test_a_member_is_invited_in_their_language_and_joins_with_their_own_yes(
    place: Place, language: str, yes: str
) -> None:
    assert place.invite(language=language)
    assert [yes in one for one in place.waiting()] == [True]
    assert place.consent() == ["invited"]
    assert "300" in place.text(yes, hours=1)
    assert place.consent() == ["active"]
    assert place.consents() == [("invited", "list of the cooperative"), ("active", "own text")]


@pytest.mark.parametrize("body", ["1", "START"])
def test_an_invitation_can_be_taken_up_days_later(place: Place, body: str) -> None:
    place.invite()
    assert "Welcome" in place.text(body, hours=75)
    assert place.consent() == ["active"]


def test_one_reminder_goes_the_next_day_and_no_third_text(place: Place) -> None:
    place.invite()
    book = place.thinking.handbook
    for hours in range(1, 24 * 20, 5):
        with place.db.write() as connection:
            remind(connection, book, NOW + timedelta(hours=hours))
    assert len(place.waiting()) == 2
    assert not place.invite(after=30 * DAY)


def test_the_clock_reminds_by_itself(place: Place) -> None:
    place.invite()
    tick(place.db, place.thinking.handbook, NOW + timedelta(hours=25))
    assert len(place.waiting()) == 2


def test_who_said_no_is_asked_nothing_more(place: Place) -> None:
    place.invite()
    assert "Nothing more" in place.text("2", hours=1)
    with place.db.write() as connection:
        assert remind(connection, place.thinking.handbook, NOW + timedelta(hours=25)) == 0
    assert place.waiting() == []
    assert place.consent() == ["stopped"]


def test_an_invitation_at_night_waits_for_the_morning_and_then_goes_stale(place: Place) -> None:
    place.invite(after=timedelta(hours=14))  # 23:00 in Nairobi
    for hours, sent in ((15, 0), (20, 0), (21.1, 1), (46, 0)):
        now = NOW + timedelta(hours=hours)
        with place.db.read() as connection:
            row = t.outbox.c
            goes = connection.execute(
                select(row.id).where(row.not_before <= now, row.expires_at > now)
            ).all()
        assert len(goes) == sent


def test_an_invited_phone_that_asks_for_something_else_is_answered_and_not_joined(
    place: Place,
) -> None:
    place.invite()
    assert place.text("how warm on day 6", hours=1)
    assert place.consent() == ["invited"]
    place.text("300 chicks friday", hours=2)
    assert place.consent() == ["active"]


@pytest.mark.parametrize(
    "word",
    "STOP|stopall|Unsubscribe|cancel|END|quit|revoke|optout|stop please|acha|arret".split("|"),
)
def test_every_word_of_the_stop_set_ends_the_service(place: Place, word: str) -> None:
    place.text("300 chicks friday", hours=-1)
    place.text(word)
    assert place.consent() == ["stopped"]


def test_the_gateways_own_field_is_a_stop_and_is_recorded_as_such(place: Place) -> None:
    place.text("300 chicks friday", hours=-1)
    place.text("anything at all", opt_out="STOP")
    assert place.consents()[-1] == ("stopped", "gateway's field")
    place.text("something else", opt_out="START")
    assert place.consent() == ["active"]


def test_an_opt_out_that_only_a_receipt_tells_is_a_stop(place: Place) -> None:
    place.text("300 chicks friday", hours=-1)
    place.invite(OTHER)
    with place.db.write() as connection:
        connection.execute(
            t.phone.update().where(t.phone.c.number == OTHER).values(consent="active")
        )
    [row] = claim(place.db, NOW, 1, "lease")
    with place.db.write() as connection:
        connection.execute(
            t.outbox.update().where(t.outbox.c.id == row.id).values(gateway_sid="SMx")
        )
    take_receipt(place.db, Receipt("SMx", "failed", 21610), NOW)
    assert place.consents()[-1] == ("stopped", "gateway code 21610")


def test_a_record_says_which_wording_which_channel_and_when(place: Place) -> None:
    place.invite()
    place.text("1", hours=1)
    with place.db.read() as connection:
        row = connection.execute(
            select(t.consent_record).order_by(t.consent_record.c.id.desc()).limit(1)
        ).one()
    key, _, version = row.wording.partition("@")
    assert (key, len(version), row.channel, row.language) == ("ask_join", 8, "sms", "en")
    assert (row.message_id, row.at) == ("SM1", NOW + timedelta(hours=1, seconds=1))


def test_only_the_phone_itself_opts_in_again(place: Place) -> None:
    place.text("300 chicks friday", hours=-1)
    place.text("stop")
    assert not place.invite(after=DAY)
    assert "Welcome back" in place.text("START", hours=30)


def test_forget_me_asks_back_and_then_nothing_of_the_person_is_left(place: Place) -> None:
    place.text("300 chicks friday", hours=-1)
    place.text("my name is zawadi")
    place.text("zebra umbrella")
    with place.db.write() as connection:
        dialled = {"session": "s1", "number": FARMER, "at": NOW, "typed": "4*1*3"}
        connection.execute(insert(t.ussd_session).values(**dialled))
    assert "1 yes 2 no" in place.text("forget me", hours=2)
    assert "erased" in place.text("1", hours=2.1)
    left = place.everything()
    assert [one for one in (FARMER, "Zawadi", "zawadi", "zebra") if one in left] == []


def test_a_no_to_forgetting_erases_nothing(place: Place) -> None:
    place.text("300 chicks friday", hours=-1)
    place.text("forget me")
    assert "nothing is erased" in place.text("2")
    assert FARMER in place.everything()


def test_a_forgotten_number_is_never_invited_again_and_comes_back_only_by_itself(
    place: Place,
) -> None:
    place.text("300 chicks friday", hours=-1)
    place.text("forget me")
    place.text("1")
    assert not place.invite(after=DAY)
    place.text("300 chicks friday", OTHER, hours=1)
    place.text(f"caretaker {FARMER}", OTHER, hours=2)
    assert place.waiting() == []
    assert FARMER not in {one.split(" ")[0] for one in place.waiting()}
    place.text("START", hours=30)
    assert "300" in place.text("300 chicks friday", hours=30.1)
    assert place.consent() == ["active", "active"]


def test_forgetting_one_of_two_farmers_keeps_the_phone_for_the_other(place: Place) -> None:
    place.text("300 chicks friday", hours=-1)
    place.text("belongs to juma")
    place.text("forget me", hours=2)
    assert "go on" in place.text("1", hours=2.1)
    assert place.consent() == ["active"]
    assert FARMER in place.everything()
    assert "300" in place.text("status", hours=4)


def test_what_is_held_is_told_by_kind_and_shows_no_figure_of_the_farm(place: Place) -> None:
    place.text("275 chicks friday", hours=-1)
    said = place.text("what do you hold about me?", hours=1)
    assert "1 batches" in said or "1 batch" in said
    assert "275" not in said


@pytest.mark.parametrize(
    "body", ["nisahau", "effacez mes données", "forget me please", "Forget me!"]
)
def test_forgetting_can_be_asked_for_in_every_language(place: Place, body: str) -> None:
    place.text("300 chicks friday", hours=-1)
    assert place.take(body).decision.question is not None


@pytest.mark.parametrize("body", ["i forget to feed", "forget the vaccine today", "delete that"])
def test_a_text_that_only_sounds_like_it_forgets_nobody(place: Place, body: str) -> None:
    place.text("300 chicks placed sunday", hours=-1)
    question = place.take(body).decision.question
    assert question is None or question.name != "forget"


def test_a_new_phone_of_a_known_farmer_goes_through_the_adviser_and_agrees_itself(
    place: Place,
) -> None:
    place.text("300 chicks placed sunday", hours=-1)
    assert "alive" not in place.text("this is my new number i am amina of 300 chicks", OTHER)
    with place.db.write() as connection:
        book = place.thinking.handbook
        assert give_new_phone(connection, book, FARMER, OTHER, NOW + timedelta(hours=1))
    assert len(place.waiting(OTHER)) == 1
    assert "alive" not in place.text("status", OTHER, hours=1.1)
    place.text("1", OTHER, hours=1.2)
    assert "300 alive" in place.text("status", OTHER, hours=30)
    assert "alive" not in place.text("status", FARMER, hours=31)


def test_consent_records_are_only_ever_added() -> None:
    changing = re.compile(r"(update|delete)\(\s*t\.consent_record|consent_record\.(update|delete)")
    files = (Path(bot.__file__).parent).rglob("*.py")
    assert [str(one) for one in files if changing.search(one.read_text("utf-8"))] == []
