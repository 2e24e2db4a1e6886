"""The door for missed calls: every signed call is rejected, whatever it holds; what it means."""

from __future__ import annotations

from datetime import timedelta

import pytest
from flask.testing import FlaskClient
from sqlalchemy import func, insert, select, update
from twilio.request_validator import RequestValidator

from bot.clock import FixedClock
from bot.doors.web import create_app
from bot.records import tables as t
from bot.records.session import MEMORY, Database
from bot.settings import Settings
from bot.wiring import Bot, Thinking
from tests.turn.dialling import FARMER, SERVICE, Dialler, service

PUBLIC = "https://chicks.example"
REJECTED = '<?xml version="1.0" encoding="UTF-8"?><Response><Reject/></Response>'


@pytest.fixture
def bot(thinking: Thinking) -> Bot:
    db = Database(MEMORY)
    db.create_all()
    made = service(db, thinking)
    made.settings = Settings(gateway_account="ACtest", gateway_token="secret", public_url=PUBLIC)
    return made


def _ring(bot: Bot, number: str = FARMER, call: str = "CA1", **more: str) -> str:
    """One signed call as the gateway posts it; the signature is that of the gateway's package."""
    form = {"CallSid": call, "AccountSid": "ACtest", "From": number, "To": SERVICE}
    form |= {"CallStatus": "ringing", "Direction": "inbound", "ApiVersion": "2010-04-01", **more}
    form = {name: value for name, value in form.items() if value}
    signature = RequestValidator("secret").compute_signature(f"{PUBLIC}/voice", form)
    answer = _client(bot).post("/voice", data=form, headers={"X-Twilio-Signature": signature})
    assert answer.status_code == 200
    assert answer.content_type == "text/xml; charset=utf-8"
    return answer.get_data(as_text=True)


def _client(bot: Bot) -> FlaskClient:
    return create_app(bot).test_client()


def _count(bot: Bot, table: str) -> int:
    with bot.db.read() as connection:
        found = select(func.count()).select_from(t.metadata.tables[table])
        return int(connection.execute(found).scalar_one())


def _pass(bot: Bot, **span: float) -> None:
    assert isinstance(bot.clock, FixedClock)
    bot.clock.move(timedelta(**span))


def test_a_farmer_who_rings_is_put_on_the_advisers_list_and_told_so_once(bot: Bot) -> None:
    phone = Dialler(bot)
    phone.begin("en")
    for minutes, call in ((0, "CA1"), (0, "CA1"), (1, "CA2"), (30, "CA3"), (600, "CA4")):
        _pass(bot, minutes=minutes)
        assert _ring(bot, call=call) == REJECTED
    assert phone.told() == ["call_me"]
    assert phone.waiting() == ["Your adviser is told and will call you on this number."]
    _pass(bot, hours=26)
    _ring(bot, call="CA5")
    assert phone.told() == ["call_me", "call_me"]


def test_an_unknown_phone_is_never_registered_by_a_ring(bot: Bot) -> None:
    for call in ("CA1", "CA2"):
        assert _ring(bot, call=call) == REJECTED
    assert [_count(bot, name) for name in ("phone", "person", "adviser", "outbox")] == [0] * 4


def _ask_well(bot: Bot) -> None:
    with bot.db.write() as connection:
        connection.execute(
            insert(t.question).values(
                phone_id=1, name="well", kind="menu", prompt="yes_no", options=["yes", "no"],
                about={}, asked_at=bot.clock.now(), pushed=True,
            )
        )  # fmt: skip


def test_ring_and_hang_up_says_all_well_where_the_question_offered_it(bot: Bot) -> None:
    phone = Dialler(bot)
    phone.begin("en")
    _ask_well(bot)
    _ring(bot)
    with bot.db.read() as connection:
        assert connection.execute(select(t.question.c.closed_at)).scalars().all()[-1] is not None
    assert (phone.told(), phone.waiting()) == ([], [])  # it costs nobody a text
    _pass(bot, minutes=20)
    _ring(bot, call="CA2")  # nothing is open any more: now it means call me
    assert phone.told() == ["call_me"]


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_the_question_offers_the_ring_and_takes_a_digit_as_well(bot: Bot, language: str) -> None:
    phone = Dialler(bot)
    phone.begin(language)
    _ask_well(bot)
    assert phone.text("1")
    _ask_well(bot)
    assert "1" in phone.text("2")[0]  # not well: what they see is asked


def test_a_ring_answers_no_question_that_did_not_offer_it(bot: Bot) -> None:
    phone = Dialler(bot)
    phone.text("new batch 300 today")  # have they come? is open
    _ring(bot)
    assert phone.told() == ["call_me"]


def test_rings_count_in_the_limits_and_a_muted_phone_gets_nothing(bot: Bot) -> None:
    phone = Dialler(bot)
    phone.begin("en")
    with bot.db.write() as connection:
        until = bot.clock.now() + timedelta(hours=6)
        connection.execute(update(t.phone).values(muted_until=until))
    assert _ring(bot) == REJECTED
    assert (phone.told(), phone.waiting()) == ([], [])


def test_a_stopped_phone_that_rings_is_called_and_sent_nothing(bot: Bot) -> None:
    phone = Dialler(bot)
    phone.begin("en")
    phone.text("STOP")
    _ring(bot)
    assert (phone.told(), phone.waiting()) == (["call_me"], [])


def test_unsigned_and_wrongly_signed_calls_are_refused_and_leave_nothing(bot: Bot) -> None:
    form = {"CallSid": "CA1", "From": FARMER, "To": SERVICE}
    client = _client(bot)
    assert client.post("/voice", data=form).status_code == 403
    wrong = {"X-Twilio-Signature": "bm8="}
    assert client.post("/voice", data=form, headers=wrong).status_code == 403
    assert client.get("/voice").status_code == 405
    assert _count(bot, "turn") == 0


@pytest.mark.parametrize(
    "more", [{"call": ""}, {"From": ""}, {"Direction": "outbound-api"}, {"From": "40404"},
             {"From": SERVICE}, {"From": "anonymous"}, {"CallSid": "\x00"}],
)  # fmt: skip
def test_whatever_a_call_holds_it_is_rejected_and_changes_nothing(
    bot: Bot, more: dict[str, str]
) -> None:
    assert _ring(bot, **more) == REJECTED
    assert [_count(bot, name) for name in ("phone", "adviser", "outbox")] == [0] * 3
