"""Texts whose answer was lost, and senders that died: nothing lost, nothing blindly sent twice."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.errors import SendError
from bot.gateway.client import Outgoing
from bot.outbox.claim import claim
from bot.outbox.receipts import Receipt, take_receipt
from tests.outbox.conftest import MINUTE, NOW, SECOND, FakeGateway, Outbox

A = "+15005550101"


def test_a_text_that_was_taken_is_found_and_not_sent_again(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.append(True)
    key = outbox.add("Day 3")
    outbox.send(gateway)
    assert outbox.state(key) == "unknown"
    outbox.now += 10 * SECOND
    assert outbox.send(gateway).reconciled == 1
    row = outbox.row(key)
    assert (row.state, row.gateway_sid, gateway.posts) == ("sent", "SM1", 1)


@pytest.mark.parametrize("klass", ["danger", "reply", "routine"])
def test_a_text_the_gateway_does_not_know_is_sent_once_the_list_has_settled(
    outbox: Outbox, gateway: FakeGateway, klass: str
) -> None:
    gateway.planned.append(False)
    key = outbox.add("Day 3", klass=klass)
    outbox.send(gateway)
    for seconds, posts in ((10, 1), (35, 1), (54, 1), (55, 2)):
        outbox.now = NOW + seconds * SECOND
        outbox.send(gateway)
        assert gateway.posts == posts, seconds
    assert (outbox.state(key), gateway.texts) == ("sent", ["Day 3"])


def test_a_list_that_shows_a_text_late_makes_no_second_one(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.append(True)
    outbox.add("Day 3", klass="danger")
    outbox.send(gateway)
    shown, gateway.listed = gateway.listed, []
    outbox.now += 10 * SECOND
    outbox.send(gateway)
    gateway.listed = shown
    outbox.now += 30 * SECOND
    outbox.send(gateway)
    assert gateway.texts == ["Day 3"]


def test_where_nobody_can_say_danger_is_sent_once_more_and_only_once(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.extend([True, True])
    gateway.can_be_asked = False
    key = outbox.add("Call the vet now", klass="danger")
    for minute in range(12):
        outbox.now = NOW + minute * MINUTE
        outbox.send(gateway)
    assert gateway.texts == ["Call the vet now"] * 2
    assert outbox.state(key) == "unknown"
    assert outbox.state(f"{key}:again") == "unknown"


def test_where_nobody_can_say_a_routine_text_is_left_to_the_desk(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.append(True)
    gateway.can_be_asked = False
    key = outbox.add("Day 3")
    for hour in range(9):
        outbox.now = NOW + timedelta(hours=hour)
        outbox.send(gateway)
    asked = gateway.asked
    outbox.now += timedelta(hours=1)
    outbox.send(gateway)
    assert gateway.asked == asked
    assert (outbox.state(key), gateway.posts, outbox.row(key).lease_until) == ("unknown", 1, None)


def test_stale_danger_is_not_sent_once_more(outbox: Outbox, gateway: FakeGateway) -> None:
    gateway.planned.append(True)
    gateway.can_be_asked = False
    outbox.add("Tonight: look at the stoves", klass="danger", expires_at=NOW + MINUTE)
    for minute in range(12):
        outbox.now = NOW + minute * MINUTE
        outbox.send(gateway)
    assert gateway.posts == 1


def test_the_same_words_sent_earlier_are_not_taken_for_the_lost_text(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    outbox.add("Still danger", klass="danger")
    outbox.send(gateway)
    gateway.planned.append(False)
    second = outbox.add("Still danger", klass="danger")
    outbox.send(gateway)
    outbox.now += MINUTE
    outbox.send(gateway)
    assert outbox.row(second).gateway_sid == "SM3"
    assert gateway.texts == ["Still danger"] * 2


def test_later_texts_of_the_phone_wait_for_the_lost_one_but_danger_does_not(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.append(False)
    outbox.add("first")
    outbox.send(gateway)
    outbox.add("second")
    outbox.add("danger", klass="danger")
    outbox.add("other phone", "+15005550102")
    outbox.now += SECOND
    outbox.send(gateway)
    assert gateway.texts == ["danger", "other phone"]
    outbox.now += MINUTE
    outbox.send(gateway)
    assert gateway.texts[2:] == ["first", "second"]


def test_a_sender_that_died_leaves_a_lease_that_runs_out_and_is_asked_after(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    taken = outbox.add("taken before it died")
    never = outbox.add("not yet posted", "+15005550102")
    rows = {row.text: row for row in claim(outbox.db, NOW, 10, "the dead")}
    gateway.planned.append(True)
    assert len(rows) == 2
    with pytest.raises(SendError):
        gateway.send(Outgoing(A, "taken before it died", "0"))
    outbox.now += 44 * SECOND
    outbox.send(gateway)
    assert outbox.states() == ["leased", "leased"]
    outbox.now += 2 * SECOND
    outbox.send(gateway)
    assert (outbox.state(taken), outbox.state(never)) == ("sent", "sent")
    assert sorted(gateway.texts) == ["not yet posted", "taken before it died"]


def test_a_receipt_settles_a_lost_answer_before_anyone_asks(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.append(True)
    key = outbox.add("Day 3")
    outbox.send(gateway)
    assert take_receipt(outbox.db, Receipt("SM1", "sent", None, outbox.row(key).id), outbox.now)
    outbox.now += MINUTE
    outbox.send(gateway)
    assert (outbox.state(key), gateway.asked, gateway.posts) == ("sent", 0, 1)


def test_a_clock_set_back_does_not_keep_a_lease_for_ever(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    outbox.now += timedelta(days=1)
    key = outbox.add("Day 3", at=NOW)
    claim(outbox.db, outbox.now, 1, "the dead")
    outbox.now = NOW
    outbox.send(gateway)
    outbox.now += timedelta(minutes=2)
    outbox.send(gateway)
    assert outbox.state(key) != "leased"
