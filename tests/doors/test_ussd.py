"""The door of the phone's own menu: its secret, and the contract that every style of gateway keeps:
what it posts becomes one event (start, input, abort), and a screen becomes what it reads."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field

import pytest
from flask import Flask
from flask.testing import FlaskClient

from bot.doors.ussd import ConEnd, Style, ussd_door
from bot.errors import SettingsError
from bot.facts.dial import Dialled, Screen
from bot.settings import Settings, read_settings

SECRET = "an-invented-path-of-more-than-24-letters"
FARMER = "+254700000001"


@dataclass
class Ears:
    """Remembers what was dialled and shows one screen."""

    heard: list[Dialled] = field(default_factory=list)
    screen: Screen = field(default_factory=lambda: Screen("1 one\n2 two", True))

    def dial(self, dialled: Dialled) -> Screen:
        self.heard.append(dialled)
        return self.screen


class LatestOnly:
    """Another style, to hold the seam to its word: the latest input alone, a number for each
    callback, and word when the phone hung up; answers are JSON."""

    def heard(self, form: Mapping[str, str], region: str) -> Dialled | None:
        session = form.get("id", "")
        if not session:
            return None
        kind = form["type"]
        assert kind in ("start", "input", "abort")
        sender = ConEnd().heard({"sessionId": session, "phoneNumber": form["from"]}, region)
        assert sender is not None
        return Dialled(
            kind=kind,  # type: ignore[arg-type]  # one of the three, as just seen
            session=session,
            sender=sender.sender,
            code="",
            key=form["number"],
            typed=form.get("typed", ""),
        )

    def shown(self, screen: Screen) -> str:
        return json.dumps({"text": screen.text, "go_on": screen.more})


@dataclass(frozen=True)
class Gateway:
    """A style, and how a gateway of that style posts."""

    style: Style
    start: Mapping[str, str]
    first: Mapping[str, str]
    second: Mapping[str, str]
    goes_on: str
    ends: str
    hung_up: Mapping[str, str] | None = None


_CON = {"sessionId": "s1", "phoneNumber": FARMER, "serviceCode": "*384*5#", "networkCode": "1"}
_LATEST = {"id": "s1", "from": FARMER}
GATEWAYS = {
    "CON/END form": Gateway(
        ConEnd(),
        {**_CON, "text": ""},
        {**_CON, "text": "4"},
        {**_CON, "text": "4*12"},
        "CON 1 one\n2 two",
        "END thanks",
    ),
    "latest input only": Gateway(
        LatestOnly(),
        {**_LATEST, "type": "start", "number": "1"},
        {**_LATEST, "type": "input", "number": "2", "typed": "4"},
        {**_LATEST, "type": "input", "number": "3", "typed": "12"},
        '{"text": "1 one\\n2 two", "go_on": true}',
        '{"text": "thanks", "go_on": false}',
        {**_LATEST, "type": "abort", "number": "4"},
    ),
}


@pytest.fixture
def ears() -> Ears:
    return Ears()


def _client(ears: Ears, style: Style | None = None, secret: str = SECRET) -> FlaskClient:
    app = Flask(__name__)
    app.register_blueprint(ussd_door(ears.dial, Settings(ussd_secret=secret), style))
    return app.test_client()


@pytest.mark.parametrize("name", GATEWAYS)
def test_every_style_keeps_the_contract(ears: Ears, name: str) -> None:
    gateway = GATEWAYS[name]
    client = _client(ears, gateway.style)
    for form in (gateway.start, gateway.first, gateway.second, gateway.second):
        answer = client.post(f"/ussd/{SECRET}", data=form)
        assert (answer.status_code, answer.get_data(as_text=True)) == (200, gateway.goes_on)
    ears.screen = Screen("thanks", False)
    assert client.post(f"/ussd/{SECRET}", data=gateway.first).get_data(as_text=True) == gateway.ends
    start, first, second, again, late = ears.heard
    assert [one.kind for one in ears.heard] == ["start", "input", "input", "input", "input"]
    assert {(one.session, one.sender) for one in ears.heard} == {("s1", FARMER)}
    assert again == second  # a repeat is known as one
    assert late == first
    assert len({start.key, first.key, second.key}) == 3
    newest = second.typed.removeprefix(f"{first.typed}*") if second.joined else second.typed
    assert (first.typed, newest) == ("4", "12")
    if gateway.hung_up is not None:  # the CON/END style is never told
        assert client.post(f"/ussd/{SECRET}", data=gateway.hung_up).status_code == 200
        assert (ears.heard[-1].kind, ears.heard[-1].session) == ("abort", "s1")


def test_a_wrong_secret_finds_no_door_and_nothing_is_heard(ears: Ears) -> None:
    client = _client(ears)
    for path in ("/ussd/wrong", f"/ussd/{SECRET}x", f"/ussd/{SECRET[:-1]}", "/ussd/", "/ussd/é"):
        assert client.post(path, data=_CON).status_code == 404
    assert ears.heard == []


@pytest.mark.parametrize(
    ("peer", "forwarded", "let_in"),
    [
        ("203.0.113.7", None, True),
        ("198.51.100.200", None, True),
        ("2001:db8::5", None, True),
        ("203.0.113.8", None, False),
        ("203.0.113.8", "203.0.113.7", False),  # whoever is no proxy of ours can write this
        ("127.0.0.1", None, False),
        ("127.0.0.1", "203.0.113.7", True),
        ("127.0.0.1", "203.0.113.7, 192.0.2.1", False),  # the last is what our proxy saw
        ("127.0.0.1", "192.0.2.1, 203.0.113.7", True),
        ("127.0.0.1", "nonsense", False),
    ],
)
def test_only_the_addresses_of_the_gateway_are_let_in(
    ears: Ears, peer: str, forwarded: str | None, let_in: bool
) -> None:
    settings = Settings(ussd_secret=SECRET, ussd_from="203.0.113.7, 198.51.100.0/24,2001:db8::/64")
    app = Flask(__name__)
    app.register_blueprint(ussd_door(ears.dial, settings))
    answer = app.test_client().post(
        f"/ussd/{SECRET}",
        data=_CON,
        environ_base={"REMOTE_ADDR": peer},
        headers={} if forwarded is None else {"X-Forwarded-For": forwarded},
    )
    assert (answer.status_code, len(ears.heard)) == ((200, 1) if let_in else (404, 0))


def test_an_address_that_is_none_is_refused_at_start() -> None:
    with pytest.raises(SettingsError, match=r"BROODPOST_USSD_FROM.*203\.0\.113"):
        read_settings({"BROODPOST_USSD_FROM": "203.0.113", "BROODPOST_GATEWAY_TOKEN": "x"})


def test_without_a_secret_there_is_no_door(ears: Ears) -> None:
    client = _client(ears, secret="")
    for path in ("/ussd/", "/ussd/x", "/ussd/%00"):
        assert client.post(path, data=_CON).status_code == 404
    assert ears.heard == []


def test_a_post_that_names_no_session_is_refused(ears: Ears) -> None:
    form = {name: value for name, value in _CON.items() if name != "sessionId"}
    assert _client(ears).post(f"/ussd/{SECRET}", data=form).status_code == 400
    assert _client(ears).get(f"/ussd/{SECRET}").status_code == 405
    assert ears.heard == []


@pytest.mark.parametrize(
    ("said", "taken"),
    [
        (FARMER, FARMER),
        (" 254700000001", FARMER),  # the plus sign of a form that was not encoded
        ("0700000001", FARMER),
        ("00254700000001", FARMER),
        ("40404", ""),
        ("", ""),
        ("anonymous", ""),
        ("+" + "9" * 90, ""),
        ("\x00", ""),
    ],
)
def test_the_caller_is_kept_in_one_form_and_what_is_no_number_is_none(
    ears: Ears, said: str, taken: str
) -> None:
    _client(ears).post(f"/ussd/{SECRET}", data={**_CON, "phoneNumber": said})
    assert ears.heard[0].sender == taken


def test_what_no_table_can_hold_is_made_to_fit_and_two_sessions_never_become_one(
    ears: Ears,
) -> None:
    for end in "ab":
        form = {**_CON, "sessionId": "x" * 90 + end, "text": "1\x00" + "9" * 5000}
        assert _client(ears).post(f"/ussd/{SECRET}", data=form).status_code == 200
    first, second = ears.heard
    assert first.session != second.session
    assert len(first.session) <= 64
    assert len(first.typed) <= 2000
    assert "\x00" not in first.typed
