"""`broodpost checkup` against a service that is really served: an operator reads what is wrong."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.serve.playing import ROOT, Service, serving

NOBODY = "http://127.0.0.1:9"


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    """A service in real time whose gateway is away."""
    with serving(tmp_path_factory.mktemp("checked") / "data", NOBODY) as service:
        yield service


def checkup(service: Service, **settings: str) -> tuple[int, dict[str, str]]:
    """The exit code, and the lines by what was looked at; "" where all is well."""
    env = {k: v for k, v in os.environ.items() if not k.startswith("BROODPOST_")}
    ended = subprocess.run(
        [sys.executable, "-m", "bot", "checkup", "--data", str(service.data)],
        cwd=ROOT,
        env=env | service.settings | settings,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert "Traceback" not in ended.stderr
    told: dict[str, str] = {}
    for line in ended.stdout.splitlines():
        name, _, wrong = line[7:].partition(": ")
        assert line.startswith("WRONG" if wrong else "ok")
        told[name] = wrong
    return ended.returncode, told


def test_a_service_that_works_is_found_well(served: Service) -> None:
    code, told = checkup(served)
    assert {name: wrong for name, wrong in told.items() if wrong} == {}
    assert set(told) >= {"database", "clock and sender", "public address", "signature"}
    assert code == 0


def test_a_public_address_that_the_proxy_does_not_hand_on_is_named(served: Service) -> None:
    code, told = checkup(served, BROODPOST_PUBLIC_URL=served.url.replace("127.0.0.1", "localhost"))
    assert code == 1
    assert "BROODPOST_PUBLIC_URL" in told["signature"]
    assert told["public address"] == ""


def test_a_public_address_where_nobody_answers_is_named(served: Service) -> None:
    code, told = checkup(served, BROODPOST_PUBLIC_URL=NOBODY)
    assert code == 1
    assert f"{NOBODY} can't be reached" in told["public address"]


def test_a_token_that_is_not_the_gateways_is_named(served: Service) -> None:
    code, told = checkup(served, BROODPOST_GATEWAY_TOKEN="another")
    assert code == 1
    assert "403" in told["signature"]


def test_a_folder_without_a_database_says_so(tmp_path: Path) -> None:
    elsewhere = Service(tmp_path / "data", NOBODY)
    elsewhere.data.mkdir()
    code, told = checkup(elsewhere)
    assert code == 1
    assert "start the service once" in told["database"]


def test_when_the_service_is_stopped_its_address_is_silent(tmp_path: Path) -> None:
    with serving(tmp_path / "data", NOBODY) as service:
        assert checkup(service)[0] == 0
        service.stop()
        code, told = checkup(service)
    assert code == 1
    assert "can't be reached" in told["public address"]
    assert told["database"] == ""
