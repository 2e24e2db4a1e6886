"""Sending what waits: once, in order, at its pace, and never what is stale or unwanted."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import datetime, timedelta

from sqlalchemy import select

from bot.gateway.client import Outgoing
from bot.outbox.bucket import Bucket
from bot.outbox.claim import claim
from bot.records import tables as t
from bot.records.heartbeat import last_beat
from tests.outbox.conftest import MINUTE, NOW, SECOND, FakeGateway, Outbox, not_sent, refused

A, B, C = "+15005550101", "+15005550102", "+15005550103"


def test_a_waiting_text_is_sent_once_and_written_down(outbox: Outbox, gateway: FakeGateway) -> None:
    key = outbox.add("Day 3: 31 C")
    assert outbox.send(gateway).sent == 1
    assert outbox.send(gateway).sent == 0
    row = outbox.row(key)
    assert gateway.taken == [(A, "Day 3: 31 C")]
    assert (row.state, row.gateway_sid, row.sent_at, row.attempt) == ("sent", "SM1", NOW, 1)


def test_a_text_is_not_sent_before_its_time(outbox: Outbox, gateway: FakeGateway) -> None:
    outbox.add("later", at=NOW + MINUTE)
    assert outbox.send(gateway).sent == 0
    outbox.now += MINUTE
    assert outbox.send(gateway).sent == 1


def test_a_stale_text_is_dropped_and_never_sent(outbox: Outbox, gateway: FakeGateway) -> None:
    key = outbox.add("this morning", expires_at=NOW + MINUTE)
    outbox.now += MINUTE
    outbox.send(gateway)
    assert (outbox.state(key), gateway.posts) == ("expired", 0)


def test_the_network_is_told_how_long_a_text_holds(outbox: Outbox, gateway: FakeGateway) -> None:
    seen: list[Outgoing] = []
    gateway.meanwhile = seen.append
    key = outbox.add("tonight", expires_at=NOW + MINUTE)
    outbox.send(gateway)
    assert (seen[0].valid_seconds, seen[0].reference) == (60, str(outbox.row(key).id))


def test_a_phone_that_said_stop_gets_nothing_more(outbox: Outbox, gateway: FakeGateway) -> None:
    key = outbox.add("routine")
    outbox.change_phone(A, consent="stopped")
    outbox.send(gateway)
    assert (outbox.state(key), gateway.posts) == ("cancelled", 0)


def test_a_stop_between_the_sweep_and_the_claim_holds(outbox: Outbox, gateway: FakeGateway) -> None:
    outbox.add("first")
    outbox.add("routine", B)
    gateway.meanwhile = lambda _: outbox.change_phone(B, consent="stopped")
    outbox.send(gateway)
    assert gateway.texts == ["first"]


def test_a_suspended_number_waits_for_the_desk(outbox: Outbox, gateway: FakeGateway) -> None:
    key = outbox.add("routine")
    outbox.change_phone(A, suspended=True)
    outbox.send(gateway)
    assert (outbox.state(key), gateway.posts) == ("waiting", 0)
    outbox.change_phone(A, suspended=False)
    assert outbox.send(gateway).sent == 1


def test_danger_goes_first_and_a_phone_reads_its_texts_in_order(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    outbox.add("routine 1")
    outbox.add("routine 2")
    outbox.add("danger", klass="danger")
    outbox.add("reply", klass="reply")
    outbox.send(gateway)
    assert gateway.texts == ["danger", "reply", "routine 1", "routine 2"]


def test_while_a_text_is_under_way_its_phone_gets_no_other(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    outbox.add("first")
    outbox.add("second")
    outbox.add("other phone", B)
    taken_meanwhile: list[list[str]] = []

    def look(_: Outgoing) -> None:
        if not taken_meanwhile:
            found = claim(outbox.db, outbox.now, 10, "someone else")
            taken_meanwhile.append([row.text for row in found])

    gateway.meanwhile = look
    outbox.send(gateway, limit=1)
    assert taken_meanwhile == [["other phone"]]


def test_a_text_that_waits_for_its_next_attempt_holds_back_the_later_ones(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.append(not_sent())
    outbox.add("first")
    outbox.send(gateway, limit=1)
    outbox.add("second")
    assert outbox.send(gateway).sent == 0
    outbox.now += 5 * SECOND
    outbox.send(gateway)
    assert gateway.texts == ["first", "second"]


def test_a_text_planned_for_later_holds_back_nothing(outbox: Outbox, gateway: FakeGateway) -> None:
    outbox.add("tomorrow", at=NOW + timedelta(days=1))
    outbox.add("today")
    outbox.send(gateway)
    assert gateway.texts == ["today"]


def test_what_was_not_sent_is_tried_again_after_a_pause_that_doubles(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.extend([not_sent(), not_sent()])
    key = outbox.add("Day 3")
    outbox.send(gateway)
    assert outbox.row(key).not_before == NOW + 5 * SECOND
    outbox.now += 4 * SECOND
    assert outbox.send(gateway).refused == 0
    outbox.now += SECOND
    outbox.send(gateway)
    assert outbox.row(key).not_before == outbox.now + 10 * SECOND
    outbox.now += 10 * SECOND
    assert outbox.send(gateway).sent == 1
    assert (outbox.row(key).attempt, gateway.texts) == (3, ["Day 3"])


def test_a_gateway_that_takes_nothing_is_left_alone_after_three(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    for last in range(8):
        gateway.planned.append(not_sent())
        outbox.add("text", f"+1500555020{last}")
    outbox.send(gateway)
    assert gateway.posts == 3
    assert outbox.states().count("waiting") == 8


def test_a_final_refusal_is_not_tried_again_and_keeps_its_code(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.append(refused(21408))
    key = outbox.add("text")
    outbox.send(gateway)
    outbox.now += timedelta(days=1)
    outbox.send(gateway)
    assert (outbox.state(key), outbox.row(key).error_code, gateway.posts) == ("failed", 21408, 1)


def test_an_opt_out_known_to_the_gateway_is_a_stop(outbox: Outbox, gateway: FakeGateway) -> None:
    gateway.planned.append(refused(21610))
    outbox.add("first")
    second = outbox.add("second")
    outbox.add("still wanted", B)
    outbox.send(gateway)
    with outbox.db.read() as connection:
        records = connection.execute(select(t.consent_record)).all()
    assert outbox.phone(A).consent == "stopped"
    assert outbox.state(second) == "cancelled"
    assert [(one.state, one.language) for one in records] == [("stopped", "sw")]
    assert gateway.texts == ["still wanted"]


def test_a_number_that_is_no_good_is_suspended_at_the_second_time(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    gateway.planned.extend([refused(21211), refused(21614)])
    outbox.add("first")
    outbox.send(gateway)
    assert not outbox.phone(A).suspended
    outbox.add("second")
    third = outbox.add("third")
    outbox.send(gateway)
    assert outbox.phone(A).suspended
    assert outbox.state(third) == "waiting"


def test_a_stop_that_comes_while_a_text_is_under_way_is_kept_but_the_truth_is_written(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    key = outbox.add("on its way")
    later = outbox.add("not any more")

    def stop(_: Outgoing) -> None:
        outbox.change_phone(A, consent="stopped")
        with outbox.db.write() as connection:
            connection.execute(
                t.outbox.update()
                .where(t.outbox.c.state.in_(("waiting", "leased")))
                .values(state="cancelled")
            )

    gateway.meanwhile = stop
    outbox.send(gateway)
    assert (outbox.state(key), outbox.state(later)) == ("sent", "cancelled")
    assert gateway.texts == ["on its way"]


def test_no_transaction_is_open_while_the_network_is_spoken_to(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    outbox.add("text")
    written: list[bool] = []

    def write(_: Outgoing) -> None:
        def other() -> None:
            outbox.add("from another thread", B, at=NOW + MINUTE)
            written.append(True)

        thread = threading.Thread(target=other)
        thread.start()
        thread.join(3)

    gateway.meanwhile = write
    outbox.send(gateway)
    assert written == [True]


def test_a_bucket_holds_the_pace(outbox: Outbox, gateway: FakeGateway) -> None:
    for number in (A, B, C):
        outbox.add("text", number)
    bucket = Bucket(1, 2)
    assert outbox.send(gateway, bucket=bucket).sent == 2
    assert outbox.send(gateway, bucket=bucket).sent == 0
    outbox.now += SECOND
    assert outbox.send(gateway, bucket=bucket).sent == 1


def test_a_limit_is_kept_and_many_threads_send_each_text_once(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    for last in range(40):
        outbox.add(f"text {last}", f"+150055503{last:02d}")
    assert outbox.send(gateway, limit=25, threads=8).sent == 25
    assert outbox.send(gateway, threads=8).sent == 15
    assert sorted(gateway.texts) == sorted(f"text {last}" for last in range(40))


def test_two_senders_at_once_send_nothing_twice(outbox: Outbox, gateway: FakeGateway) -> None:
    for last in range(60):
        outbox.add(f"text {last}", f"+150055504{last:02d}")
    senders = [
        threading.Thread(target=outbox.send, args=(gateway,), kwargs={"threads": 4})
        for _ in range(3)
    ]
    for one in senders:
        one.start()
    for one in senders:
        one.join()
    assert sorted(gateway.texts) == sorted(f"text {last}" for last in range(60))


def test_a_name_that_no_phone_can_show_is_written_plainly_when_sent(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    outbox.add("Chipukizi’s José: 32°C")
    outbox.send(gateway)
    assert gateway.texts == ["Chipukizi's Jose: 32 C"]


def test_a_fault_nobody_foresaw_is_treated_as_a_lost_answer(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    def broken(_: Outgoing) -> None:
        raise RuntimeError("a bug")

    gateway.meanwhile = broken
    key = outbox.add("text")
    assert outbox.send(gateway).unknown == 1
    assert outbox.state(key) == "unknown"


def test_the_sender_leaves_its_heartbeat(outbox: Outbox, gateway: FakeGateway) -> None:
    outbox.send(gateway)
    with outbox.db.read() as connection:
        assert last_beat(connection, "send") == NOW


class StopBehindTheClaim:
    """A pace whose giving back, right behind a claim, is the moment at which a STOP commits."""

    def __init__(self, stop: Callable[[], None]) -> None:
        self._stop = stop

    def take(self, wanted: int, now: datetime) -> int:
        del now
        return wanted

    def give_back(self, tokens: int) -> None:
        del tokens
        self._stop()


def test_no_post_begins_after_a_stop_has_committed(outbox: Outbox, gateway: FakeGateway) -> None:
    key = outbox.add("routine")

    def stop() -> None:
        outbox.change_phone(A, consent="stopped")
        with outbox.db.write() as connection:
            connection.execute(t.outbox.update().values(state="cancelled"))

    outbox.send(gateway, threads=8, bucket=StopBehindTheClaim(stop))
    assert (outbox.state(key), gateway.posts) == ("cancelled", 0)
