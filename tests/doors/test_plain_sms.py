"""The door for gateways of a dialect of their own: the secret, the names, the answer by SMS."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from bot.doors.web import create_app
from bot.errors import SettingsError
from bot.gateway.client import TwilioCompatible
from bot.gateway.plain_http import PlainHttp
from bot.records.session import MEMORY, Database
from bot.settings import Settings, read_settings
from bot.wiring import Bot, Thinking, gateway_of
from tests.turn.dialling import FARMER, SERVICE, Dialler, service

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
