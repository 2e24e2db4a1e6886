"""The door for texts: who is let in, what is taken, what is answered."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from xml.etree import ElementTree

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.datastructures import MultiDict
from werkzeug.test import TestResponse

from bot.clock import FixedClock
from bot.doors.receipts import receipts_door
from bot.doors.sms import sms_door
from bot.facts.talk import Decision, Incoming, Intent, Meaning
from bot.gateway.signature import HEADER, SETTINGS_HEADER, SHA256, sign
from bot.outbox.receipts import Receipt
from bot.settings import Settings
from bot.turn.take import Taken

NOW = datetime(2026, 3, 1, 6, 0, tzinfo=UTC)
PUBLIC = "https://chicks.example"
SIGNED = Settings(gateway_account="ACtest", gateway_token="secret", public_url=PUBLIC)
UNSIGNED = Settings(gateway_account="ACtest", unsigned="1", public_url="http://127.0.0.1:8080")
FORM = {
    "MessageSid": "SM1",
    "AccountSid": "ACtest",
    "From": "+254700000001",
    "To": "+15005550006",
    "Body": "chicks are loud",
}


class Ears:
    """Remembers what the doors took and answers each text with its own words."""

    def __init__(self) -> None:
        self.heard: list[Incoming] = []
        self.receipts: list[Receipt] = []

    def take(self, incoming: Incoming) -> Taken:
        self.heard.append(incoming)
        texts = (f"You said {incoming.text}",) if incoming.text else ()
        return Taken(texts, Meaning(Intent.OTHER), Decision())


Client = Callable[[Settings], FlaskClient]


@pytest.fixture
def ears() -> Ears:
    return Ears()


@pytest.fixture
def client(ears: Ears) -> Client:
    def made(settings: Settings) -> FlaskClient:
        app = Flask(__name__)
        app.register_blueprint(sms_door(ears.take, settings, FixedClock(NOW)))
        app.register_blueprint(receipts_door(ears.receipts.append, settings))
        return app.test_client()

    return made


def _post(
    client: FlaskClient, form: dict[str, str], path: str = "/sms", *, token: str = "secret"
) -> TestResponse:
    signature = sign(PUBLIC + path, {name: [value] for name, value in form.items()}, token)
    return client.post(path, data=form, headers={HEADER: signature})


def _said(answer: TestResponse) -> list[str | None]:
    assert answer.status_code == 200
    assert answer.content_type == "text/xml; charset=utf-8"
    return [message.text for message in ElementTree.fromstring(answer.data).findall("Message")]


def test_a_signed_text_is_taken_and_answered(client: Client, ears: Ears) -> None:
    assert _said(_post(client(SIGNED), FORM)) == ["You said chicks are loud"]
    (incoming,) = ears.heard
    assert incoming == Incoming(
        "SM1", "ACtest", "+254700000001", "+15005550006", "chicks are loud", NOW
    )


def test_fields_we_do_not_know_are_part_of_the_signature(client: Client, ears: Ears) -> None:
    assert _said(_post(client(SIGNED), {**FORM, "NewField": "é&=", "NumMedia": "0"}))
    unsigned_extra = client(SIGNED).post(
        "/sms",
        data={**FORM, "NewField": "x"},
        headers={HEADER: sign(PUBLIC + "/sms", {k: [v] for k, v in FORM.items()}, "secret")},
    )
    assert unsigned_extra.status_code == 403
    assert len(ears.heard) == 1


def test_a_field_said_twice_is_signed_with_both_values(client: Client) -> None:
    form = {**{name: [value] for name, value in FORM.items()}, "Tag": ["b", "a"]}
    headers = {HEADER: sign(PUBLIC + "/sms", form, "secret")}
    posted: MultiDict[str, str] = MultiDict([(k, v) for k, vs in form.items() for v in vs])
    assert client(SIGNED).post("/sms", data=posted, headers=headers).status_code == 200


@pytest.mark.parametrize("settings", [SIGNED, UNSIGNED])
def test_a_wrong_signature_is_refused_and_nothing_is_taken(
    client: Client, ears: Ears, settings: Settings
) -> None:
    assert _post(client(settings), FORM, token="stolen").status_code == 403
    assert ears.heard == []


def test_without_a_signature_nobody_gets_in_unless_the_operator_says_so(
    client: Client, ears: Ears
) -> None:
    assert client(SIGNED).post("/sms", data=FORM).status_code == 403
    assert client(UNSIGNED).post("/sms", data=FORM).status_code == 200
    far = client(UNSIGNED).post("/sms", data=FORM, environ_base={"REMOTE_ADDR": "203.0.113.7"})
    assert far.status_code == 403
    assert len(ears.heard) == 1


def test_the_raw_path_and_query_are_what_was_signed(client: Client) -> None:
    path = "/sms?x=%20a%2Fb&y="
    assert _post(client(SIGNED), FORM, path).status_code == 200


def test_the_newer_algorithm_and_the_older_token_are_followed(client: Client) -> None:
    fields = {name: [value] for name, value in FORM.items()}
    headers = {
        HEADER: sign(PUBLIC + "/sms", fields, "secret", SHA256),
        SETTINGS_HEADER: "key=k,algorithm=HMAC_SHA256",
    }
    assert client(SIGNED).post("/sms", data=FORM, headers=headers).status_code == 200
    rotating = Settings(gateway_token="new", gateway_token_old="secret", public_url=PUBLIC)
    assert _post(client(rotating), FORM).status_code == 200
    assert _post(client(rotating), FORM, token="new").status_code == 200


def test_nothing_to_say_is_an_empty_response(client: Client, ears: Ears) -> None:
    assert _said(_post(client(SIGNED), {**FORM, "Body": ""})) == []
    without = {name: value for name, value in FORM.items() if name != "Body"}
    assert _said(_post(client(SIGNED), without)) == []
    assert [incoming.text for incoming in ears.heard] == ["", ""]


def test_an_opt_out_the_gateway_has_answered_is_taken_and_not_answered_again(
    client: Client, ears: Ears
) -> None:
    assert _said(_post(client(SIGNED), {**FORM, "Body": "STOP", "OptOutType": "stop"})) == []
    assert ears.heard[0].opt_out == "STOP"


@pytest.mark.parametrize("missing", ["MessageSid", "From"])
def test_a_form_without_an_id_or_a_sender_is_refused(
    client: Client, ears: Ears, missing: str
) -> None:
    form = {name: value for name, value in FORM.items() if name != missing}
    assert _post(client(SIGNED), form).status_code == 400
    assert ears.heard == []


def test_the_old_twin_of_the_id_will_do(client: Client, ears: Ears) -> None:
    form = {name: value for name, value in FORM.items() if name != "MessageSid"}
    _post(client(SIGNED), {**form, "SmsSid": "SM9"})
    assert ears.heard[0].message_id == "SM9"


def test_what_no_table_can_hold_is_made_to_fit_and_two_ids_never_become_one(
    client: Client, ears: Ears
) -> None:
    for end in "ab":
        form = {**FORM, "MessageSid": "x" * 80 + end, "From": "9" * 90, "Body": "a\x00b"}
        assert _post(client(SIGNED), form).status_code == 200
    first, second = ears.heard
    assert first.message_id != second.message_id
    assert len(first.message_id) <= 64
    assert len(first.sender) <= 40
    assert first.text == "ab"


@pytest.mark.parametrize(
    ("said", "taken"),
    [
        ("+254700000001", "+254700000001"),
        ("0700000001", "+254700000001"),
        ("00254700000001", "+254700000001"),
        ("40404", "40404"),
        ("MPESA-LIKE", "MPESA-LIKE"),
    ],
)
def test_a_number_is_kept_in_one_form_and_a_short_code_as_it_is(
    client: Client, ears: Ears, said: str, taken: str
) -> None:
    _post(client(SIGNED), {**FORM, "From": said})
    assert ears.heard[0].sender == taken


RECEIPT = {"MessageSid": "SM1", "MessageStatus": "delivered", "AccountSid": "ACtest"}


def test_a_receipt_is_taken_with_our_reference(client: Client, ears: Ears) -> None:
    path = "/sms/receipt?ref=17"
    failed = {**RECEIPT, "MessageStatus": "undelivered", "ErrorCode": "30003"}
    assert _post(client(SIGNED), RECEIPT, path).status_code == 200
    assert _post(client(SIGNED), failed, path).status_code == 200
    assert ears.receipts == [
        Receipt("SM1", "delivered", None, 17),
        Receipt("SM1", "undelivered", 30003, 17),
    ]


def test_a_receipt_for_another_account_or_unsigned_is_refused(client: Client, ears: Ears) -> None:
    path = "/sms/receipt?ref=17"
    other = {**RECEIPT, "AccountSid": "ACother"}
    assert _post(client(SIGNED), other, path).status_code == 403
    assert client(SIGNED).post(path, data=RECEIPT).status_code == 403
    assert ears.receipts == []


@pytest.mark.parametrize("query", ["", "?ref=", "?ref=-1", "?ref=x", "?ref=" + "9" * 30])
def test_a_receipt_with_a_reference_that_is_none_is_known_by_its_id(
    client: Client, ears: Ears, query: str
) -> None:
    assert _post(client(SIGNED), RECEIPT, f"/sms/receipt{query}").status_code == 200
    assert ears.receipts == [Receipt("SM1", "delivered", None, None)]


def test_a_receipt_that_names_nothing_is_let_go(client: Client, ears: Ears) -> None:
    for form in ({"AccountSid": "ACtest"}, {**RECEIPT, "MessageStatus": " "}):
        assert _post(client(SIGNED), form, "/sms/receipt").status_code == 200
    assert ears.receipts == []
