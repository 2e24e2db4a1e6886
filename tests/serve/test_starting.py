"""How `broodpost serve` begins and ends: what it refuses, what it keeps, how fast it goes."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import requests

from tests.serve.playing import (
    STEP,
    Clock,
    Counter,
    Service,
    inbound,
    morning,
    phone,
    serving,
    until,
)

NO_DAC = ["setpriv", "--bounding-set=-dac_override", "--inh-caps=-dac_override"]
"""Takes from root the right to write what is read-only (util-linux)."""


def refused(service: Service, *before: str) -> str:
    """What a service that must not start says on standard error."""
    process = service.launch(*before)
    until(lambda: process.poll() is not None or service.healthy(), 20)
    code = process.poll()
    if code is None:
        service.stop()
    said = service.stderr.read_text()
    assert code not in (None, 0), f"it started: {code} {said}"
    assert service.stdout.read_text() == ""
    assert "Traceback" not in said
    return said


@pytest.mark.parametrize("name", ["Mfano Farmers", "Élevage"], ids=["long", "accent"])
def test_a_name_too_long_or_not_plain_is_refused_at_start(
    tmp_path: Path, counter: Counter, name: str
) -> None:
    said = refused(Service(tmp_path / "data", counter.url, BROODPOST_NAME=name))
    assert "BROODPOST_NAME" in said


def test_a_setting_nobody_knows_is_refused_at_start(tmp_path: Path, counter: Counter) -> None:
    said = refused(Service(tmp_path / "data", counter.url, BROODPOST_SENDR="+15005550006"))
    assert "BROODPOST_SENDR" in said


def test_without_a_token_it_does_not_start(tmp_path: Path, counter: Counter) -> None:
    said = refused(Service(tmp_path / "data", counter.url, BROODPOST_GATEWAY_TOKEN=None))
    assert "BROODPOST_GATEWAY_TOKEN" in said


def test_unsigned_is_refused_where_the_public_address_is_not_loopback(
    tmp_path: Path, counter: Counter
) -> None:
    public = "https://texts.example.org"
    service = Service(
        tmp_path / "data", counter.url, BROODPOST_UNSIGNED="1", BROODPOST_PUBLIC_URL=public
    )
    assert "BROODPOST_UNSIGNED" in refused(service)


@pytest.mark.parametrize("public", ["https://texts.example.org", "http://127.0.0.1.example.org"])
def test_a_played_clock_is_refused_where_the_public_address_is_not_loopback(
    tmp_path: Path, counter: Counter, public: str
) -> None:
    clock = Clock(tmp_path / "clock", morning())
    service = Service(tmp_path / "data", counter.url, clock, BROODPOST_PUBLIC_URL=public)
    assert "BROODPOST_CLOCK_FILE" in refused(service)


def test_a_time_zone_that_does_not_exist_is_refused(tmp_path: Path, counter: Counter) -> None:
    said = refused(Service(tmp_path / "data", counter.url, BROODPOST_TZ="Africa/Nowhere"))
    assert "BROODPOST_TZ" in said


def test_a_data_directory_that_is_a_file_is_refused(tmp_path: Path, counter: Counter) -> None:
    data = tmp_path / "data"
    data.write_text("not a directory")
    said = refused(Service(data, counter.url))
    assert str(data) in said
    assert data.read_text() == "not a directory"


def test_a_read_only_database_is_refused(tmp_path: Path, counter: Counter) -> None:
    data = tmp_path / "data"
    with serving(data, counter.url):
        pass
    kept = [path for path in data.rglob("*") if path.is_file()]
    for path in kept:
        path.chmod(0o444)
    data.chmod(0o555)
    try:
        said = refused(Service(data, counter.url), *(NO_DAC if os.geteuid() == 0 else []))
    finally:
        data.chmod(0o755)
    assert "data" in said.lower()


@pytest.fixture(scope="module")
def loose(tmp_path_factory: pytest.TempPathFactory, counter: Counter) -> Iterator[Service]:
    """Unsigned on loopback, without a token, its name as long as a name may be."""
    data = tmp_path_factory.mktemp("loose") / "data"
    with serving(
        data,
        counter.url,
        BROODPOST_GATEWAY_TOKEN=None,
        BROODPOST_UNSIGNED="1",
        BROODPOST_NAME="Mfano Farms",
    ) as started:
        yield started


def test_a_name_of_twelve_characters_with_its_colon_is_taken(loose: Service) -> None:
    assert loose.healthy()


def test_unsigned_on_loopback_takes_texts_without_signature_and_token(loose: Service) -> None:
    assert loose.post("/sms", inbound(phone(), "new batch 300 today"), None).texts


def test_standard_output_stays_empty_from_start_to_end(tmp_path: Path, counter: Counter) -> None:
    with serving(tmp_path / "deep" / "er" / "data", counter.url) as service:
        service.text(phone(), "new batch 300 today")
        service.post("/sms", inbound(phone(), "status"), None)
        requests.get(f"{service.url}/no-such-door", timeout=5)
        code, seconds = service.stop()
    assert (code, service.stdout.read_bytes()) == (0, b"")
    assert seconds < 5


def _keeps(tmp_path: Path, counter: Counter, asked: Callable[[Service, str], bool]) -> bool:
    """A text is taken, the service ends at once and is started again; then `asked`."""
    farmer = phone()
    fields = inbound(farmer, "new batch 287 today")
    with serving(tmp_path / "data", counter.url) as service:
        took = service.signed("/sms", fields)
        assert service.stop()[0] == 0
    with serving(tmp_path / "data", counter.url, BROODPOST_PUBLIC_URL=service.url) as again:
        return asked(again, farmer) and again.signed("/sms", fields) == took


def test_a_text_taken_just_before_the_end_is_there_after_the_next_start(
    tmp_path: Path, counter: Counter
) -> None:
    """The batch is known, and the repeated post gets the stored answer."""
    assert _keeps(tmp_path, counter, lambda again, who: "287" in again.text(who, "status").said)


def test_it_ends_in_five_seconds_while_the_gateway_hangs(tmp_path: Path) -> None:
    counter = Counter()
    counter.mood = "hangs"
    clock = Clock(tmp_path / "clock", morning(hour=9))
    farmer = phone()
    with serving(tmp_path / "data", counter.url, clock) as service:
        service.text(farmer, "new batch 300 today")
        service.text(farmer, "arrived")
        for _ in range(13):
            clock.set(clock.now + STEP)
            if until(lambda: counter.to(farmer), 1.5):
                break
        assert counter.to(farmer), "nothing was pushed to hang on"
        code, seconds = service.stop()
    counter.close()
    assert (code, seconds < 5) == (0, True)
