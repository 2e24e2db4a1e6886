"""What the client makes of a gateway that behaves and of one that does not, over real HTTP."""

from __future__ import annotations

import socket
from collections import deque
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest

from bot.clock import FixedClock
from bot.errors import SendError
from bot.gateway.client import Outgoing, TwilioCompatible
from bot.gateway.faults import Fault, Faults
from bot.gateway.phones import Service
from bot.gateway.pretend import PretendGateway

NOW = datetime(2026, 3, 1, 6, 0, tzinfo=UTC)
FARMER, OTHER, OURS = "+15005550009", "+15005550010", "+15005550006"
NOBODY = "http://127.0.0.1:9"  # the discard port: nothing listens there
SERVICE = Service(NOBODY, NOBODY, "ACtest", "secret", OURS)


@pytest.fixture
def clock() -> FixedClock:
    return FixedClock(NOW)


@pytest.fixture
def pretend(clock: FixedClock) -> Iterator[PretendGateway]:
    with PretendGateway(SERVICE, clock=clock) as gateway:
        yield gateway


def _client(url: str, *, token: str = "secret", answer_within: float = 5) -> TwilioCompatible:
    receipts = f"{NOBODY}/sms/receipt"
    return TwilioCompatible(url, "ACtest", token, OURS, receipts, (0.3, answer_within))


def _text(text: str = "Day 3: 31 C", to: str = FARMER) -> Outgoing:
    return Outgoing(to, text, "17", valid_seconds=3600)


def _failed(client: TwilioCompatible, outgoing: Outgoing) -> SendError:
    with pytest.raises(SendError) as caught:
        client.send(outgoing)
    return caught.value


def test_a_text_is_handed_over_word_for_word_and_its_receipt_carries_our_reference(
    pretend: PretendGateway,
) -> None:
    sent = _client(pretend.url).send(_text("Feed & water: 50%? + é 'now'"))
    (kept,) = pretend.book.since(0)
    assert (kept.sid, kept.body, kept.to) == (sent.sid, "Feed & water: 50%? + é 'now'", FARMER)
    assert kept.sender == OURS
    assert kept.receipt_url == f"{NOBODY}/sms/receipt?ref=17"
    assert (sent.status, sent.segments) == ("queued", 1)


@pytest.mark.parametrize(
    ("fault", "permanent", "unknown", "taken"),
    [
        (Fault.BUSY, False, False, 0),
        (Fault.ERROR_BEFORE, False, True, 0),
        (Fault.ERROR_AFTER, False, True, 1),
        (Fault.RESET_BEFORE, False, True, 0),
        (Fault.RESET_AFTER, False, True, 1),
        (Fault.HTML_BEFORE, False, True, 0),
        (Fault.HTML_AFTER, False, True, 1),
    ],
)
def test_a_lost_answer_is_unknown_and_a_refusal_for_pace_is_not_sent(
    pretend: PretendGateway, fault: Fault, permanent: bool, unknown: bool, taken: int
) -> None:
    pretend.faults.planned = deque([fault])
    client = _client(pretend.url)
    failed = _failed(client, _text())
    assert (failed.permanent, failed.unknown) == (permanent, unknown)
    assert pretend.book.count() == taken
    assert client.send(_text("again")).sid  # the connection is usable afterwards


def test_an_answer_that_takes_too_long_is_unknown(pretend: PretendGateway) -> None:
    pretend.faults = Faults(planned=deque([Fault.SLOW]), slow_seconds=30)
    failed = _failed(_client(pretend.url, answer_within=0.1), _text())
    assert (failed.permanent, failed.unknown) == (False, True)
    assert pretend.book.count() == 1


@pytest.mark.parametrize("code", [21610, 21614, 21408])
def test_a_number_that_is_refused_is_final_and_keeps_its_code(
    pretend: PretendGateway, code: int
) -> None:
    pretend.faults.refused = {FARMER: code}
    failed = _failed(_client(pretend.url), _text())
    assert (failed.permanent, failed.unknown, failed.code) == (True, False, code)


def test_a_number_that_is_none_is_final(pretend: PretendGateway) -> None:
    assert _failed(_client(pretend.url), _text(to="12345")).code == 21211


@pytest.mark.parametrize("url", [NOBODY, "http://nobody.invalid", "nonsense", "ftp://127.0.0.1"])
def test_a_gateway_that_cannot_be_reached_was_not_sent_to(url: str) -> None:
    failed = _failed(_client(url), _text())
    assert (failed.permanent, failed.unknown) == (False, False)


def test_a_connection_that_is_never_accepted_was_not_sent() -> None:
    with socket.socket() as full:
        full.bind(("127.0.0.1", 0))
        full.listen(0)
        address = full.getsockname()
        waiting = [socket.socket() for _ in range(4)]
        for one in waiting:
            one.setblocking(False)
            one.connect_ex(address)
        failed = _failed(_client(f"http://127.0.0.1:{address[1]}"), _text())
        for one in waiting:
            one.close()
    assert (failed.permanent, failed.unknown) == (False, False)


def test_a_wrong_key_loses_no_text(pretend: PretendGateway) -> None:
    failed = _failed(_client(pretend.url, token="old"), _text())
    assert (failed.permanent, failed.unknown, failed.code) == (False, False, 20003)
    assert pretend.book.count() == 0


def test_an_error_never_tells_the_number_or_the_text(pretend: PretendGateway) -> None:
    pretend.faults.planned = deque([Fault.RESET_AFTER])
    for failed in (_failed(_client(pretend.url), _text()), _failed(_client(NOBODY), _text())):
        assert FARMER not in repr(failed)
        assert "Day 3" not in repr(failed)
        assert failed.__cause__ is None


def test_a_text_whose_answer_was_lost_is_found_again(
    pretend: PretendGateway, clock: FixedClock
) -> None:
    pretend.faults.planned = deque([Fault.RESET_AFTER])
    client = _client(pretend.url)
    _failed(client, _text())
    (found,) = client.find(FARMER, "Day 3: 31 C", NOW)
    assert found.sid == pretend.book.since(0)[0].sid
    assert client.find(FARMER, "Day 4: 30 C", NOW) == ()
    assert client.find(OTHER, "Day 3: 31 C", NOW) == ()
    assert client.find(FARMER, "Day 3: 31 C", NOW + timedelta(seconds=2)) == ()
    clock.move(timedelta(days=2))
    assert client.find(FARMER, "Day 3: 31 C", NOW) == (found,)
    assert client.find(FARMER, "Day 3: 31 C", clock.now()) == ()


def test_the_same_text_twice_is_found_twice_oldest_first(
    pretend: PretendGateway, clock: FixedClock
) -> None:
    client = _client(pretend.url)
    first = client.send(_text())
    clock.move(timedelta(seconds=5))
    second = client.send(_text())
    assert [one.sid for one in client.find(FARMER, "Day 3: 31 C", NOW)] == [first.sid, second.sid]


def test_a_gateway_that_cannot_be_asked_says_so(pretend: PretendGateway) -> None:
    for client in (_client(NOBODY), _client(pretend.url, token="old")):
        with pytest.raises(SendError):
            client.find(FARMER, "Day 3: 31 C", NOW)
