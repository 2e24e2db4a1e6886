"""What the gateway says became of a text."""

from __future__ import annotations

from datetime import timedelta

from bot.gateway.client import Outgoing
from bot.outbox.receipts import Receipt, take_receipt
from tests.outbox.conftest import MINUTE, FakeGateway, Outbox, refused

A = "+15005550101"


def _told(
    outbox: Outbox, status: str, code: int | None = None, *, sid: str = "SM1", ref: int = 1
) -> bool:
    return take_receipt(outbox.db, Receipt(sid, status, code, ref), outbox.now)


def test_receipts_doubled_and_out_of_order_leave_the_last_word(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    key = outbox.add("Day 3")
    outbox.send(gateway)
    told = [_told(outbox, status) for status in ("delivered", "sent", "delivered", "failed")]
    assert told == [True, False, False, False]
    assert outbox.state(key) == "delivered"


def test_a_receipt_that_comes_before_the_answer_is_not_undone_by_it(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    key = outbox.add("Day 3")

    def early(outgoing: Outgoing) -> None:
        _told(outbox, "delivered", ref=int(outgoing.reference))

    gateway.meanwhile = early
    outbox.send(gateway)
    assert (outbox.state(key), outbox.row(key).gateway_sid) == ("delivered", "SM1")


def test_a_receipt_for_a_text_nobody_sent_changes_nothing(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    key = outbox.add("Day 3")
    assert not _told(outbox, "delivered", sid="SMother", ref=999)
    assert not _told(outbox, "delivered", sid="SMother", ref=outbox.row(key).id)
    assert outbox.state(key) == "waiting"
    outbox.send(gateway)
    assert not _told(outbox, "delivered", sid="SMother", ref=outbox.row(key).id)
    assert outbox.state(key) == "sent"


def test_a_handset_that_is_off_gets_the_text_once_more_an_hour_later(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    key = outbox.add("Day 3")
    outbox.send(gateway)
    for _ in range(2):
        _told(outbox, "undelivered", 30003)
    outbox.now += timedelta(minutes=59)
    assert outbox.send(gateway).sent == 0
    outbox.now += MINUTE
    assert outbox.send(gateway).sent == 1
    _told(outbox, "undelivered", 30003, sid="SM2", ref=2)
    outbox.now += timedelta(hours=2)
    assert outbox.send(gateway).sent == 0
    assert (outbox.state(key), outbox.state(f"{key}:later")) == ("undelivered", "undelivered")


def test_a_text_that_is_stale_by_then_is_not_sent_later(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    outbox.add("Day 3", expires_at=outbox.now + 30 * MINUTE)
    outbox.send(gateway)
    _told(outbox, "undelivered", 30003)
    assert outbox.states() == ["undelivered"]


def test_a_dead_number_is_suspended_after_two_and_a_doubled_receipt_counts_once(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    outbox.add("first")
    outbox.send(gateway)
    for _ in range(3):
        _told(outbox, "undelivered", 30005)
    assert not outbox.phone(A).suspended
    outbox.add("second")
    outbox.send(gateway)
    _told(outbox, "failed", 30006, sid="SM2", ref=2)
    assert outbox.phone(A).suspended


def test_a_text_that_arrives_wipes_out_an_earlier_failure(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.append(refused(21614))
    outbox.add("first")
    outbox.send(gateway)
    outbox.add("second")
    outbox.send(gateway)
    _told(outbox, "delivered", sid="SM2", ref=2)
    assert outbox.phone(A).failures == 0


def test_an_opt_out_in_a_receipt_is_a_stop(outbox: Outbox, gateway: FakeGateway) -> None:
    outbox.add("first")
    outbox.send(gateway)
    waiting = outbox.add("second")
    _told(outbox, "failed", 21610)
    assert (outbox.phone(A).consent, outbox.state(waiting)) == ("stopped", "cancelled")
