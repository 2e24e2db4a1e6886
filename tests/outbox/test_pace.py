"""The pace of a sender number that many workers share."""

from __future__ import annotations

from datetime import timedelta
from threading import Barrier, Thread

import pytest

from bot.outbox.pace import SharedPace
from bot.records.session import Database
from tests.outbox.conftest import NOW, FakeGateway, Outbox

SECOND = timedelta(seconds=1)


def test_workers_together_send_no_more_than_the_number_may(db: Database) -> None:
    start, granted = Barrier(4), [0, 0, 0, 0]

    def worker(place: int) -> None:
        own = SharedPace(db, 10, 20)
        start.wait()
        for _ in range(5):
            granted[place] += own.take(3, NOW)

    workers = [Thread(target=worker, args=(place,)) for place in range(4)]
    for one in workers:
        one.start()
    for one in workers:
        one.join()
    assert sum(granted) == 20
    assert SharedPace(db, 10, 20).take(50, NOW + SECOND) == 10


def test_what_was_not_used_may_be_used_by_another(db: Database) -> None:
    pace = SharedPace(db, 10, 20)
    assert pace.take(20, NOW) == 20
    pace.give_back(5)
    assert SharedPace(db, 10, 20).take(20, NOW) == 5


def test_a_clock_that_jumps_fills_it_at_most_once_and_one_set_back_does_not_block(
    db: Database,
) -> None:
    pace = SharedPace(db, 10, 20)
    assert pace.take(20, NOW) == 20
    assert pace.take(500, NOW + timedelta(days=2)) == 20
    assert pace.take(1, NOW) == 0
    assert pace.take(500, NOW + 2 * SECOND) == 20


def test_a_pace_has_room_for_one_text(db: Database) -> None:
    with pytest.raises(ValueError, match="above 0"):
        SharedPace(db, 0, 1)


def test_two_senders_at_one_pace_take_every_text_once_and_a_phones_in_order(
    outbox: Outbox, gateway: FakeGateway
) -> None:
    phones = [f"+15005550{one:03d}" for one in range(12)]
    for place in range(3):
        for phone in phones:
            outbox.add(f"text {place}", phone, at=NOW - timedelta(minutes=9 - place))
    start = Barrier(2)

    def sender() -> None:
        start.wait()
        for _ in range(4):
            outbox.send(gateway, threads=4, bucket=SharedPace(outbox.db, 1000, 1000), tidy=False)

    senders = [Thread(target=sender) for _ in range(2)]
    for one in senders:
        one.start()
    for one in senders:
        one.join()
    assert len(gateway.taken) == len(set(gateway.taken)) == 36
    for phone in phones:
        assert [text for to, text in gateway.taken if to == phone] == ["text 0", "text 1", "text 2"]
