"""Days played by the clock file: what is pushed, when, how often; outage, restart, stop.

One service and one pretend gateway live through everything in this order, once, and keep what was
delivered; each check then looks at one thing. Day 0 begins at two in the afternoon.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

import pytest

from tests.serve.playing import (
    NAME,
    Answer,
    Clock,
    Gateway,
    Push,
    Service,
    free_port,
    inbound,
    language,
    morning,
    parts,
    phone,
    until,
)

REGISTER = {
    "en": "new batch 300 today",
    "sw": "kundi jipya la vifaranga 300 leo",
    "fr": "nouveau lot de 300 poussins aujourd'hui",
}


@dataclass(frozen=True, slots=True)
class Story:
    """What was delivered to whom, and where the story stood at its turns."""

    phones: dict[str, str]
    arrived: Answer
    pushes: list[Push]
    exit_code: int
    restarted: datetime
    back: datetime

    def to(self, who: str, begin: datetime, end: datetime) -> list[Push]:
        """What one phone got from `begin` until `end`."""
        number = self.phones[who]
        return [one for one in self.pushes if one.to == number and begin <= one.at < end]


def _register(service: Service) -> tuple[dict[str, str], Answer]:
    phones = {who: phone() for who in ["en", "sw", "fr", "stopped", "told", "again"]}
    for lang, said in REGISTER.items():
        service.text(phones[lang], said)
    for who in ["stopped", "told"]:
        service.text(phones[who], REGISTER["en"])
    fields = inbound(phones["again"], REGISTER["en"])
    for _ in range(3):
        service.signed("/sms", fields)
    arrived = service.text(phones["en"], "arrived")
    service.text(phones["stopped"], "STOP")
    service.text(phones["told"], "STOP", OptOutType="STOP")
    return phones, arrived


def _play(service: Service, gateway: Gateway, clock: Clock) -> Story:
    phones, arrived = _register(service)
    clock.play_to(morning(1, 10), service)
    until(lambda: gateway.pushes(phones["fr"]))
    exit_code = service.stop()[0]
    restarted = clock.now
    service.start()
    service.a_tick()
    service.a_tick()
    clock.play_to(morning(1, 20, 30), service)
    back = morning(4, 12)
    clock.set(back)
    until(lambda: [one for one in gateway.pushes() if one.at >= back], 10)
    for _ in range(2):
        service.a_tick()
    return Story(phones, arrived, gateway.pushes(), exit_code, restarted, back)


@pytest.fixture(scope="module")
def story(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Story]:
    """The days as they went."""
    here = tmp_path_factory.mktemp("days")
    clock = Clock(here / "clock", morning(hour=14))
    port = free_port()
    service = Service(here / "data", f"http://127.0.0.1:{port}", clock)
    gateway = Gateway(service, clock, port)
    try:
        service.start()
        yield _play(service, gateway, clock)
    finally:
        if service.running():
            service.stop()
        gateway.close()


def test_the_arrival_is_answered_with_water_and_the_hour_of_the_first_feed(story: Story) -> None:
    """Feed two hours after the arrival at two: common practice, no source."""
    assert "water" in story.arrived.said.lower()
    assert "16:0" in story.arrived.said


@pytest.mark.parametrize("who", ["en", "sw", "fr"])
def test_the_next_morning_brings_exactly_one_text(story: Story, who: str) -> None:
    assert len(story.to(who, morning(1, 5), morning(1, 12))) == 1


@pytest.mark.parametrize("who", ["en", "sw", "fr"])
def test_the_morning_text_is_in_the_farmers_language(story: Story, who: str) -> None:
    got = story.to(who, morning(1, 5), morning(1, 12))
    assert [language(one.body) for one in got] == [who]


def test_the_evening_of_the_second_day_brings_exactly_one_text(story: Story) -> None:
    assert len(story.to("en", morning(1, 16), morning(1, 22))) == 1


def test_nothing_is_pushed_between_ten_at_night_and_five(story: Story) -> None:
    assert [one for one in story.pushes if one.at.hour >= 22 or one.at.hour < 5] == []


def test_every_pushed_text_is_signed_by_name(story: Story) -> None:
    assert story.pushes
    assert [one.body for one in story.pushes if not one.body.startswith(f"{NAME}: ")] == []


def test_every_pushed_text_is_ascii_and_one_part(story: Story) -> None:
    assert story.pushes
    assert all(one.body.isascii() and parts(one.body) == 1 for one in story.pushes)
    assert {(one.parts, one.encoding) for one in story.pushes} == {(1, "gsm7")}


def test_no_text_is_pushed_twice_to_a_phone_on_one_day(story: Story) -> None:
    seen = [(one.to, one.body, one.at.date()) for one in story.pushes]
    assert len(seen) == len(set(seen))


def test_a_text_posted_three_times_makes_one_batch_and_one_morning_text(story: Story) -> None:
    assert len(story.to("again", morning(1, 5), morning(1, 12))) == 1


def test_nothing_is_pushed_after_stop(story: Story) -> None:
    assert story.pushes
    assert story.to("stopped", morning(), morning(9)) == []


def test_nothing_is_pushed_after_an_opt_out_told_by_the_gateway(story: Story) -> None:
    assert story.pushes
    assert story.to("told", morning(), morning(9)) == []


def test_a_restart_in_the_middle_sends_nothing_again(story: Story) -> None:
    assert story.exit_code == 0
    assert story.to("fr", story.restarted, morning(1, 12)) == []


def test_after_a_restart_the_day_goes_on(story: Story) -> None:
    assert len(story.to("fr", morning(1, 16), morning(1, 22))) == 1


@pytest.mark.parametrize("who", ["en", "sw", "fr", "again"])
def test_after_an_outage_of_days_one_text_catches_up(story: Story, who: str) -> None:
    assert len(story.to(who, story.back, morning(9))) == 1


def test_what_catches_up_is_of_that_day_and_nothing_stale(story: Story) -> None:
    """Age 4 is printed as day 5."""
    said = [one.body for one in story.to("en", story.back, morning(9))]
    assert len(said) == 1
    assert "ay 5" in said[0]


def test_the_days_that_were_slept_through_are_not_sent_later(story: Story) -> None:
    late = [one.body for one in story.pushes if one.at >= story.back]
    assert late
    assert [body for body in late if any(f"ay {n}" in body for n in (2, 3, 4))] == []
