"""How a pushed text reaches the gateway, and what happens while the gateway is away."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

import pytest

from tests.serve.playing import (
    ACCOUNT,
    NAME,
    SENDER,
    TOKEN,
    Clock,
    Counter,
    Gateway,
    Push,
    Sent,
    Service,
    free_port,
    morning,
    phone,
    receipt,
    serving,
    sign,
    until,
)


@dataclass(frozen=True, slots=True)
class Posted:
    """One pushed text, how it was posted, and the service that did."""

    service: Service
    tries_while_busy: int
    sent: list[Sent]


@pytest.fixture(scope="module")
def posted(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Posted]:
    """A morning text after a night, at a counter that is busy at first."""
    here = tmp_path_factory.mktemp("posted")
    counter = Counter()
    counter.mood = "busy"
    clock = Clock(here / "clock", morning(0, 23))
    farmer = phone()
    with serving(here / "data", counter.url, clock) as service:
        service.text(farmer, "new batch 300 today")
        clock.play_to(morning(1, 8), service)
        until(lambda: counter.to(farmer))
        tries = len(counter.to(farmer))
        counter.mood = "takes"
        counter.taken.clear()
        for hour in (9, 10):
            clock.play_to(morning(1, hour), service)
        service.a_tick()
        yield Posted(service, tries, counter.to(farmer))
    counter.close()


def test_a_busy_gateway_is_tried_and_then_tried_again_later(posted: Posted) -> None:
    assert posted.tries_while_busy >= 1
    assert len(posted.sent) == 1


def test_a_push_is_posted_to_the_accounts_messages(posted: Posted) -> None:
    paths = {one.path for one in posted.sent}
    assert paths == {f"/2010-04-01/Accounts/{ACCOUNT}/Messages.json"}


def test_a_push_is_authorised_by_account_and_token(posted: Posted) -> None:
    key = base64.b64encode(f"{ACCOUNT}:{TOKEN}".encode()).decode()
    assert {one.authorization for one in posted.sent} == {f"Basic {key}"}


def test_a_push_comes_from_our_number_and_is_signed_by_name(posted: Posted) -> None:
    assert posted.sent
    for one in posted.sent:
        assert one.fields["From"] == SENDER
        assert one.fields["Body"].startswith(f"{NAME}: ")


def test_a_push_asks_for_receipts_at_our_public_address(posted: Posted) -> None:
    assert posted.sent
    for one in posted.sent:
        address = one.fields["StatusCallback"]
        assert address.startswith(f"{posted.service.url}/sms/receipt")
        assert one.fields["To"].lstrip("+") not in address


def test_the_receipt_of_a_push_is_taken_where_it_was_asked_for(posted: Posted) -> None:
    assert posted.sent
    path = posted.sent[0].fields["StatusCallback"].removeprefix(posted.service.url)
    fields = receipt("SMdelivered", "delivered", To=posted.sent[0].fields["To"])
    assert posted.service.post(path, fields, None).status == 403
    assert posted.service.signed(path, fields).status == 200
    late = receipt("SMdelivered", "sent", To=posted.sent[0].fields["To"])
    assert posted.service.signed(path, late).status == 200


def test_a_receipt_signed_without_the_query_of_its_address_is_refused(posted: Posted) -> None:
    assert posted.sent
    path = posted.sent[0].fields["StatusCallback"].removeprefix(posted.service.url)
    fields = receipt("SMdelivered", "delivered", To=posted.sent[0].fields["To"])
    elsewhere = sign(TOKEN, f"{posted.service.url}/elsewhere", fields)
    assert posted.service.post(path, fields, elsewhere).status == 403


@dataclass(frozen=True, slots=True)
class Away:
    """What came through after the gateway had been away over the morning hour."""

    returned: datetime
    pushes: list[Push]
    answered: list[str]


@pytest.fixture(scope="module")
def away(tmp_path_factory: pytest.TempPathFactory) -> Away:
    """Nobody listens at the gateway's address until half past eight."""
    here = tmp_path_factory.mktemp("away")
    clock = Clock(here / "clock", morning(0, 23))
    port = free_port()
    farmer = phone()
    with serving(here / "data", f"http://127.0.0.1:{port}", clock) as service:
        service.text(farmer, "new batch 300 today")
        clock.play_to(morning(1, 8, 30), service)
        answered = service.text(farmer, "status").texts
        returned = clock.now
        gateway = Gateway(service, clock, port)
        for hour in (9, 10):
            clock.play_to(morning(1, hour), service)
        service.a_tick()
        pushes = gateway.pushes(farmer)
        gateway.close()
    return Away(returned, pushes, answered)


def test_while_the_gateway_is_away_texts_are_answered_all_the_same(away: Away) -> None:
    assert "300" in " ".join(away.answered)


def test_what_could_not_be_sent_goes_once_the_gateway_is_back(away: Away) -> None:
    assert len(away.pushes) == 1
    assert away.pushes[0].at >= away.returned
