"""The desk of the invented cooperative as a running service, and a browser before it. The farms are
played once; each screen gets the service anew, as it stood then."""

from __future__ import annotations

import multiprocessing
import shutil
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
import requests
from pyotp import TOTP
from selenium import webdriver
from urllib3.util import Retry

from bot.doors.cli.demo import HOST, played, script
from bot.doors.cli.handset import free_port
from bot.doors.cli.serve import serve
from bot.doors.demo import NUMBER, SERVICE, SignIn, let_in, set_rules
from bot.facts.talk import Incoming
from bot.records.session import Database
from bot.wiring import Bot
from tests.browser.lists import NEWCOMERS
from tests.browser.trainer import Screen, Trainer, browser, look_on

PASSWORD = "fiction-not-a-secret"
KEY = "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP"
OWNERS = ("demo-owner", "owner-1", "owner-2", "owner-3", "owner-4", "owner-5", "owner-6", "owner-7")
# A code counts once, so each of them signs in once a screen.
STRANGE = "my chicks are frimbling again"  # a word that is none
SCREENS = (Screen("desktop", 1100), Screen("plain", 1100, scripts=False), Screen("phone", 320))
FORK = multiprocessing.get_context("fork")  # the thinking is loaded once


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--shots", type=Path, help="folder for a picture of each page")


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Bot:
    """The cooperative's farms played up to now; one of them has just sent an unreadable text,
    and some have just joined: more than one person alone may write to."""
    bot = played(tmp_path_factory.mktemp("demo"), "")
    now = bot.clock.now()
    people = (
        SignIn("Trainer", "demo", "advises", PASSWORD),
        *(SignIn("Owner", name, "owns", PASSWORD, KEY) for name in OWNERS),
    )
    let_in(bot, people, now)
    set_rules(bot, script().rulings, now)
    at = now - timedelta(minutes=5)
    bot.take(Incoming("SMstrange", "ACdemo", "+254700000222", SERVICE, STRANGE, at))
    for place in NEWCOMERS:
        number = NUMBER.format(place)
        bot.take(Incoming(f"SMnew{place}", "ACdemo", number, SERVICE, "200 chicks", at))
    bot.db.close()
    return bot


@pytest.fixture(scope="session", params=SCREENS, ids=lambda screen: screen.name)
def screen(request: pytest.FixtureRequest) -> Screen:
    """What the desk is looked at on."""
    found: Screen = request.param
    return found


@pytest.fixture(scope="session")
def address(demo: Bot, screen: Screen, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where the service of this screen listens; the address of its desk."""
    path = tmp_path_factory.mktemp(screen.name) / "demo.db"
    shutil.copy(str(demo.db.engine.url.database), path)
    port = free_port()
    base = f"http://{HOST}:{port}"
    settings = replace(demo.settings, public_url=base)
    bot = replace(demo, settings=settings, db=Database(f"sqlite:///{path}"))
    service = FORK.Process(target=serve, args=(bot, HOST, port))
    service.start()
    try:
        _await(base)
        yield f"{base}/desk"
    finally:
        service.terminate()
        service.join()


def _await(base: str) -> None:
    """Until the service answers."""
    with requests.Session() as session:
        retry = Retry(connect=12, backoff_factor=0.05)
        session.mount(base, requests.adapters.HTTPAdapter(max_retries=retry))
        session.get(f"{base}/desk/in", timeout=30).raise_for_status()


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the browser keeps its profile and what it takes down."""
    return tmp_path_factory.mktemp("browser")


@pytest.fixture(scope="session")
def driver(folder: Path) -> Iterator[webdriver.Chrome]:
    """One browser for all screens."""
    with browser(folder) as driver:
        yield driver


@pytest.fixture(scope="session")
def stranger(
    address: str, screen: Screen, driver: webdriver.Chrome, folder: Path,
    request: pytest.FixtureRequest,
) -> Trainer:  # fmt: skip
    """Whoever sits before the browser, on this screen."""
    shots: Path | None = request.config.getoption("--shots")
    if shots:
        shots.mkdir(parents=True, exist_ok=True)
    look_on(driver, screen)
    return Trainer(driver, address, screen, folder / "files", shots)


@pytest.fixture
def trainer(stranger: Trainer) -> Trainer:
    """Signed in as the demo's trainer."""
    _sign_in(stranger, "demo")
    return stranger


@pytest.fixture(scope="session")
def owners(address: str) -> Iterator[str]:
    """Names of owners who have not signed in yet."""
    assert address
    return iter(OWNERS)


@pytest.fixture
def half_owner(stranger: Trainer, owners: Iterator[str]) -> Trainer:
    """An owner with a password, before the second factor."""
    _sign_in(stranger, next(owners))
    return stranger


@pytest.fixture
def owner(half_owner: Trainer) -> Trainer:
    """Signed in as an owner, with the second factor."""
    prove(half_owner)
    return half_owner


@pytest.fixture
def another_owner(stranger: Trainer, owners: Iterator[str]) -> Callable[[], Trainer]:
    """Signs whoever is there out, and another owner in."""

    def change() -> Trainer:
        _sign_in(stranger, next(owners))
        prove(stranger)
        return stranger

    return change


def prove(somebody: Trainer, asked_for: str = "Visits") -> None:
    """Type the code of this moment; the page that was asked for comes."""
    somebody.fill("code", TOTP(KEY).now())
    somebody.press("Go on")
    assert somebody.title == asked_for


def _sign_in(somebody: Trainer, name: str) -> None:
    somebody.driver.delete_all_cookies()
    somebody.open("/in?lang=en")
    somebody.fill("name", name)
    somebody.fill("password", PASSWORD)
    somebody.press("Sign in")
