"""The application as a whole: health, figures, limits."""

from __future__ import annotations

import os
from dataclasses import fields
from datetime import UTC, datetime, timedelta

import pytest
from flask.testing import FlaskClient
from sqlalchemy import insert

from bot.clock import FixedClock
from bot.doors.web import LARGEST_BODY, create_app
from bot.facts.limits import Limits
from bot.gateway.client import TwilioCompatible
from bot.records import tables as t
from bot.records.heartbeat import beat
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import Bot, Thinking, cooperative_values

NOW = datetime(2026, 3, 1, 6, 0, tzinfo=UTC)
SETTINGS = Settings(gateway_account="ACtest", unsigned="1", public_url="http://127.0.0.1:8080")


@pytest.fixture
def clock() -> FixedClock:
    return FixedClock(NOW)


@pytest.fixture
def client(db: Database, clock: FixedClock, thinking: Thinking) -> FlaskClient:
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(id=1, **cooperative_values(SETTINGS)))
    gateway = TwilioCompatible("http://127.0.0.1:9", "ACtest", "", "+15005550006", "")
    return create_app(Bot(SETTINGS, thinking, db, gateway, clock)).test_client()


def _beat(db: Database, *names: str, at: datetime = NOW) -> None:
    with db.write() as connection:
        for name in names:
            beat(connection, name, at)


def _form(body: str, message_id: str = "SM1") -> dict[str, str]:
    return {"MessageSid": message_id, "From": "+254700000001", "To": "+15005550006", "Body": body}


def test_health_is_red_until_the_clock_and_the_sender_have_worked(
    client: FlaskClient, db: Database
) -> None:
    assert client.get("/health").status_code == 503
    _beat(db, "tick")
    assert client.get("/health").json == {
        "status": "late",
        "wrong": ["the sender has not worked yet"],
    }
    _beat(db, "send")
    assert (client.get("/health").status_code, client.get("/health").json) == (
        200,
        {"status": "ok", "wrong": []},
    )


def test_health_turns_red_when_the_clock_is_late_and_green_again(
    client: FlaskClient, db: Database, clock: FixedClock
) -> None:
    _beat(db, "tick", "send")
    clock.move(timedelta(minutes=3))
    _beat(db, "send", at=clock.now())
    late = client.get("/health")
    assert (late.status_code, late.get_json()["wrong"]) == (
        503,
        ["the clock last worked at 2026-03-01 06:00 UTC"],
    )
    _beat(db, "tick", at=clock.now())
    assert client.get("/health").status_code == 200


def test_a_database_that_cannot_be_read_is_a_red_health(
    thinking: Thinking, clock: FixedClock
) -> None:
    away = Database("sqlite:////nowhere/at/all.db")
    gateway = TwilioCompatible("http://127.0.0.1:9", "ACtest", "", "+15005550006", "")
    health = create_app(Bot(SETTINGS, thinking, away, gateway, clock)).test_client().get("/health")
    assert (health.status_code, health.get_json()["wrong"]) == (
        503,
        ["the database does not work: it can't be opened"],
    )


def test_figures_count_messages_and_show_what_waits(
    client: FlaskClient, db: Database, clock: FixedClock
) -> None:
    _beat(db, "tick", "send")
    client.post("/sms", data=_form("new batch 300 today"))
    client.post("/sms", data=_form("new batch 300 today"))
    with db.write() as connection:
        connection.execute(
            insert(t.outbox).values(
                business_key="k",
                phone_id=1,
                to_number="+254700000001",
                klass="routine",
                text="Day 3",
                parts=1,
                encoding="gsm7",
                state="waiting",
                not_before=NOW,
                created_at=NOW,
            )
        )
    clock.move(timedelta(seconds=30))
    figures = client.get("/metrics").text.splitlines()
    assert 'broodpost_messages_total{result="repeated"} 1.0' in figures
    assert 'broodpost_outbox_texts{state="waiting"} 1.0' in figures
    assert 'broodpost_outbox_parts{state="waiting"} 1.0' in figures
    assert 'broodpost_outbox_oldest_seconds{klass="routine"} 30.0' in figures
    assert 'broodpost_loop_age_seconds{loop="tick"} 30.0' in figures
    assert "broodpost_reply_seconds_count 2.0" in figures
    assert not any("254700000001" in line for line in figures)


def test_every_state_a_text_can_end_in_has_its_figure_and_what_is_due_its_lag(
    client: FlaskClient, db: Database, clock: FixedClock
) -> None:
    client.post("/sms", data=_form("new batch 300 today"))
    client.post("/sms", data=_form("zxqw plorf ndegu", "SM2"))
    with db.write() as connection:
        for place, state in enumerate(("sent", "delivered", "unknown")):
            values = {"business_key": f"k{place}", "phone_id": 1, "to_number": "+254700000001"}
            values |= {"klass": "routine", "text": "Day 3", "encoding": "gsm7", "state": state}
            moments = {"not_before": NOW, "created_at": NOW}
            connection.execute(insert(t.outbox).values(parts=2, **values, **moments))
        connection.execute(t.batch.update().values(state="running", next_due=NOW))
    clock.move(timedelta(seconds=90))
    figures = client.get("/metrics").text.splitlines()
    for state in ("sent", "delivered", "unknown"):
        assert f'broodpost_outbox_texts{{state="{state}"}} 1.0' in figures
        assert f'broodpost_outbox_parts{{state="{state}"}} 2.0' in figures
    assert 'broodpost_messages_total{result="not_understood"} 1.0' in figures
    assert "broodpost_due_lag_seconds 90.0" in figures


def test_every_limit_is_shown_in_the_figures(client: FlaskClient) -> None:
    shown = client.get("/metrics").get_data(as_text=True)
    for one in fields(Limits):
        assert f'broodpost_limit{{limit="{one.name}"}} {one.default}.0' in shown


def test_a_body_beyond_reason_is_refused_and_a_long_text_is_answered(client: FlaskClient) -> None:
    assert client.post("/sms", data=_form("a" * LARGEST_BODY)).status_code == 413
    assert client.post("/sms", data=_form("a " * 5000)).status_code == 200


@pytest.mark.parametrize("path", ["//sms", "/ussd//x", "/sms/", "/sms//receipt"])
def test_a_path_that_is_no_door_is_refused_and_led_nowhere(client: FlaskClient, path: str) -> None:
    answer = client.post(path, data=_form("hello"))
    assert (answer.status_code, answer.headers.get("Location")) == (404, None)


def test_a_binary_body_is_answered_kindly(client: FlaskClient) -> None:
    noise = os.urandom(300).decode("latin-1")
    answer = client.post("/sms", data=_form(noise))
    assert (answer.status_code, b"<Response" in answer.data) == (200, True)


def test_an_answer_is_never_stored_on_the_way_and_a_refusal_echoes_nothing(
    client: FlaskClient,
) -> None:
    lost = client.get("/no/such/<script>door")
    assert (lost.status_code, lost.text) == (404, "Not Found\n")
    assert lost.headers["Cache-Control"] == "no-store"
    assert lost.headers["X-Content-Type-Options"] == "nosniff"
