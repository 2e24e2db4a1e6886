"""The sender against the misbehaving gateway over real HTTP: nothing lost, no blind double, in
order. Senders that are killed stand in tests/kill."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import timedelta

import pytest

from bot.clock import FixedClock
from bot.gateway.client import TwilioCompatible
from bot.gateway.faults import Fault, Faults
from bot.gateway.phones import Service
from bot.gateway.pretend import PretendGateway
from tests.outbox.conftest import NOW, Outbox

NOBODY = "http://127.0.0.1:9"
SERVICE = Service(NOBODY, NOBODY, "ACtest", "secret", "+15005550006")
TAKEN = {"sent", "delivered"}  # the list tells how far a text has come
RATES = {
    Fault.BUSY: 0.08,
    Fault.ERROR_BEFORE: 0.08,
    Fault.ERROR_AFTER: 0.08,
    Fault.RESET_BEFORE: 0.08,
    Fault.RESET_AFTER: 0.08,
    Fault.HTML_BEFORE: 0.04,
    Fault.HTML_AFTER: 0.04,
}


@pytest.fixture
def clock() -> FixedClock:
    return FixedClock(NOW)


@pytest.fixture
def pretend(clock: FixedClock) -> Iterator[PretendGateway]:
    with PretendGateway(SERVICE, clock=clock) as gateway:
        yield gateway


def _client(url: str) -> TwilioCompatible:
    return TwilioCompatible(url, "ACtest", "secret", SERVICE.number, f"{NOBODY}/sms/receipt")


@pytest.mark.parametrize("seed", [1, 2])
def test_through_all_faults_every_text_arrives_once_and_in_order(
    outbox: Outbox, pretend: PretendGateway, clock: FixedClock, seed: int
) -> None:
    pretend.faults = Faults(seed, rates=RATES)
    phones = [f"+150055506{last:02d}" for last in range(30)]
    for number in range(4):
        for phone in phones:
            outbox.add(f"text {number}", phone)
    client = _client(pretend.url)
    for _ in range(200):
        outbox.send(client, threads=4)
        if set(outbox.states()) <= TAKEN:
            break
        clock.move(timedelta(seconds=10))
        outbox.now = clock.now()
    read: dict[str, list[str]] = defaultdict(list)
    for kept in pretend.book.since(0):
        read[kept.to].append(kept.body)
    assert set(outbox.states()) <= TAKEN
    assert read == {phone: ["text 0", "text 1", "text 2", "text 3"] for phone in phones}


def test_a_gateway_away_for_two_days_costs_only_what_is_stale(
    outbox: Outbox, pretend: PretendGateway, clock: FixedClock
) -> None:
    stale = outbox.add("Day 3", expires_at=NOW + timedelta(hours=12))
    away = TwilioCompatible(NOBODY, "ACtest", "secret", SERVICE.number, NOBODY)
    for hour in range(0, 48, 6):
        outbox.now = NOW + timedelta(hours=hour)
        outbox.send(away)
    clock.move(timedelta(hours=48))
    outbox.now = clock.now()
    outbox.add("Day 5")
    outbox.send(_client(pretend.url))
    assert outbox.state(stale) == "expired"
    assert [kept.body for kept in pretend.book.since(0)] == ["Day 5"]
