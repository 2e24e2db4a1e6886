"""Services that many checks of this folder share: each started once, met over HTTP."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.serve.playing import Clock, Counter, Service, morning, serving


@pytest.fixture(scope="session")
def counter() -> Iterator[Counter]:
    """A gateway that takes every text and keeps the request."""
    found = Counter()
    yield found
    found.close()


@pytest.fixture(scope="session")
def service(tmp_path_factory: pytest.TempPathFactory, counter: Counter) -> Iterator[Service]:
    """A service on an empty directory at nine in the morning, its public address loopback."""
    here = tmp_path_factory.mktemp("service")
    clock = Clock(here / "clock", morning())
    with serving(here / "data", counter.url, clock) as started:
        yield started


@pytest.fixture(scope="session")
def proxied(tmp_path_factory: pytest.TempPathFactory, counter: Counter) -> Iterator[Service]:
    """A service behind a proxy: its public address is not the one it listens on."""
    here = tmp_path_factory.mktemp("proxied")
    with serving(
        here / "data", counter.url, BROODPOST_PUBLIC_URL="https://texts.example.org"
    ) as started:
        yield started
