"""The door for gateways of a dialect of their own: the secret, the names, the answer by SMS."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select, update

from bot.doors.web import create_app
from bot.errors import SettingsError
from bot.gateway.client import TwilioCompatible
from bot.gateway.plain_http import PlainHttp
from bot.outbox.claim import claim, sweep
from bot.records import tables as t
from bot.records.session import MEMORY, Database
from bot.settings import Settings, read_settings
from bot.wiring import Bot, Thinking, gateway_of
from tests.turn.dialling import FARMER, SERVICE, Dialler, service

VET = "+254700000099"
SECRET = "another-invented-path-of-24-letters"
NAMES = "from=msisdn,text=content,id=smsId,to=shortcode"
TEXT = {"msisdn": FARMER, "content": "new batch 300 today", "smsId": "7", "shortcode": SERVICE}


@pytest.fixture
def bot(thinking: Thinking) -> Bot:
    db = Database(MEMORY)
    db.create_all()
    made = service(db, thinking)
    made.settings = Settings(inbound_secret=SECRET, inbound_fields=NAMES, gateway_account="box")
    return made


def _client(bot: Bot) -> FlaskClient:
    return create_app(bot).test_client()


@pytest.mark.parametrize("style", ["data", "json"])
def test_a_text_is_taken_once_and_answered_by_a_text(bot: Bot, style: str) -> None:
    for _ in range(2):
        answer = _client(bot).post(f"/in/{SECRET}", **{style: TEXT})
        assert (answer.status_code, answer.data) == (200, b"")
    (text,) = Dialler(bot).waiting()
    assert text.startswith("300 chicks today, noted.")


def test_a_text_without_an_id_that_is_repeated_within_the_minute_is_taken_once(bot: Bot) -> None:
    form = {name: value for name, value in TEXT.items() if name != "smsId"}
    for _ in range(2):
        assert _client(bot).post(f"/in/{SECRET}", data=form).status_code == 200
    assert len(Dialler(bot).waiting()) == 1


@pytest.mark.parametrize(
    "body",
    [
        b"[" * 100_000,
        b'{"a":' * 20_000,
        b'{"msisdn": 1' + b"0" * 5000 + b"}",
        b'{"msisdn": "+254700000001", "smsId": "9", "content": "\\ud800"}',
        b'{"msisdn": "\\ud800", "smsId": "\\udfff", "content": "status"}',
        b"\xff\xfe",
        b"NaN",
    ],
)
def test_json_of_any_shape_is_taken_or_refused_and_breaks_nothing(bot: Bot, body: bytes) -> None:
    answer = _client(bot).post(f"/in/{SECRET}", data=body, content_type="application/json")
    assert answer.status_code in (200, 400)


def test_after_stop_nothing_is_posted_to_the_phone(bot: Bot) -> None:
    for number, text in enumerate(("new batch 300 today", "STOP", "STOP", "hello")):
        form = {**TEXT, "content": text, "smsId": str(number)}
        assert _client(bot).post(f"/in/{SECRET}", data=form).status_code == 200
    assert Dialler(bot).waiting() == []


STATES: dict[str, dict[str, object]] = {
    "active": {},
    "stopped": {"consent": "stopped"},
    "suspended": {"suspended": True},
    "stopped and suspended": {"consent": "stopped", "suspended": True},
}


def _say(bot: Bot, text: str, number: str = "8", sender: str = FARMER) -> list[str]:
    """Text the service; what its sender posts, coming by right away."""
    form = {**TEXT, "msisdn": sender, "content": text, "smsId": number}
    assert _client(bot).post(f"/in/{SECRET}", data=form).status_code == 200
    sweep(bot.db, bot.clock.now())
    posted = claim(bot.db, bot.clock.now(), 10, f"lease {number}")
    with bot.db.write() as connection:
        connection.execute(
            update(t.outbox).where(t.outbox.c.state == "leased").values(state="delivered")
        )
    return [one.text for one in posted]


def _be(bot: Bot, **state: object) -> None:
    with bot.db.write() as connection:
        connection.execute(update(t.phone).values(**{"consent": "active", **state}))


@pytest.mark.parametrize("state", STATES)
def test_danger_is_answered_by_a_text_whatever_state_the_phone_is_in(bot: Bot, state: str) -> None:
    _say(bot, "new batch 300 today", "7")
    _be(bot, **STATES[state])
    (said,) = _say(bot, "blood in the droppings of many")
    assert VET in said
    if "stopped" in state:
        assert _say(bot, "status", "9") == []


def test_a_stranger_in_danger_is_answered_by_a_text(bot: Bot) -> None:
    (said,) = _say(bot, "blood in the droppings of many")
    assert VET in said


def test_a_stop_with_danger_in_it_stops_and_sends_the_vets_number_and_nothing_after(
    bot: Bot,
) -> None:
    _say(bot, "new batch 300 today", "7")
    (said,) = _say(bot, "stop. many birds are dead, blood in the droppings")
    assert VET in said
    with bot.db.read() as connection:
        assert connection.execute(select(t.phone.c.consent)).scalars().all() == ["stopped"]
    assert _say(bot, "hello", "9") == []


def test_a_suspended_phone_that_texts_is_answered_and_pushed_nothing(bot: Bot) -> None:
    _say(bot, "new batch 300 today", "7")
    _be(bot, suspended=True)
    bot.tick()
    assert [one[:5] for one in _say(bot, "how warm on day 6")] == ["Day 6"]


def test_a_wrong_secret_finds_no_door(bot: Bot) -> None:
    client = _client(bot)
    for path in ("/in/wrong", "/in/", f"/in/{SECRET}x"):
        assert client.post(path, data=TEXT).status_code == 404
    bot.settings = Settings()
    assert _client(bot).post("/in/x", data=TEXT).status_code == 404
    assert Dialler(bot).waiting() == []


@pytest.mark.parametrize("body", ["[]", "7", "", '"x"', '{"msisdn": {}}', "{", "{}"])
def test_a_post_that_holds_no_text_is_refused(bot: Bot, body: str) -> None:
    answer = _client(bot).post(f"/in/{SECRET}", data=body, content_type="application/json")
    assert answer.status_code == 400


def test_the_settings_choose_the_gateway() -> None:
    given = {"BROODPOST_GATEWAY_TOKEN": "t", "BROODPOST_GATEWAY_URL": "http://127.0.0.1:9"}
    assert isinstance(gateway_of(read_settings(given)), TwilioCompatible)
    for style in ("form", "json"):
        found = read_settings({**given, "BROODPOST_GATEWAY_STYLE": style})
        assert isinstance(gateway_of(found), PlainHttp)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("GATEWAY_STYLE", "xml"),
        ("GATEWAY_FIELDS", "to=recipient"),
        ("GATEWAY_FIELDS", "to=a,text=b,colour=c"),
        ("GATEWAY_FIELDS", "to"),
        ("GATEWAY_FIXED", "type"),
        ("INBOUND_FIELDS", "sender=x"),
    ],
)
def test_a_dialect_that_is_miswritten_is_refused_by_name(name: str, value: str) -> None:
    given = {"BROODPOST_GATEWAY_TOKEN": "t", f"BROODPOST_{name}": value}
    with pytest.raises(SettingsError, match=f"BROODPOST_{name}"):
        read_settings(given)
