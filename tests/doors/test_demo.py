"""The invented cooperative of scripts/try, on a few of its farms; the whole of it takes longer."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from flask.testing import FlaskClient
from pyotp import TOTP

from bot.clock import FixedClock
from bot.doors.cli.demo import keep
from bot.doors.demo import NUMBER, Demo, Ear, Player, SignIn, let_in, load_demo, set_rules
from bot.doors.desk.frame import COOKIE
from bot.doors.web import create_app
from bot.handbook.load import content_folder
from bot.records.session import MEMORY, Database
from bot.settings import Settings
from bot.wiring import Bot, Thinking, ensure_cooperative

SCRIPT = content_folder() / "stories" / "desk.yaml"
NOW = datetime(2026, 3, 10, 6, 0, tzinfo=UTC)
ZONE = ZoneInfo("Africa/Nairobi")
PASSWORD = "four-words-beside-it"


def test_the_demo_has_forty_farms_in_all_stages_and_every_language() -> None:
    demo = load_demo(SCRIPT)
    assert len(demo.farms) == 40
    assert {one.language for one in demo.farms} == {"en", "fr", "sw"}
    days = [one.day for one in demo.farms]
    assert min(days) < 0 < max(days)
    assert all(any(low <= day < low + 7 for day in days) for low in range(-6, 43, 7))
    assert re.fullmatch(r"\+254700000\d{3}", NUMBER.format(239))


@pytest.fixture
def bot(thinking: Thinking, tmp_path: Path) -> Iterator[Bot]:
    """The service after the farms called Gaston (blood) and Awa (not yet) were played."""
    whole = load_demo(SCRIPT)
    farms = tuple(
        one for one in whole.farms if (one.name, one.day) in (("Gaston", 13), ("Awa", -1))
    )
    assert len(farms) == 2
    settings = Settings(gateway_account="ACdemo", unsigned="1", desk="1", name="Mkulima")
    db = Database(MEMORY)
    db.create_all()
    ensure_cooperative(db, settings)
    clock = FixedClock(NOW)
    bot = Bot(settings, thinking, db, Ear(), clock)
    assert len(list(Player(bot, clock, Demo("Mkulima", farms), NOW, ZONE).play())) > 5
    keep(db, tmp_path / "kept.db")
    bot.db = Database(f"sqlite:///{tmp_path / 'kept.db'}")
    yield bot
    bot.db.close()


def test_the_demo_is_played_to_this_moment_and_its_trainer_can_sign_in(bot: Bot) -> None:
    assert bot.clock.now() == NOW
    key = "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP"
    people = (
        SignIn("Trainer", "demo", "advises", PASSWORD),
        SignIn("Owner", "demo-owner", "owns", PASSWORD, key),
    )
    let_in(bot, people, NOW)
    set_rules(bot, load_demo(SCRIPT).rulings, NOW)
    visits = signed_in(bot, "demo").get("/desk/visits").text
    assert visits.index("Danger: blood in the droppings") < visits.index("A step before arrival")
    assert "Gaston</a>, Shambani" in visits
    owner = signed_in(bot, "demo-owner")
    page = owner.get("/desk/code")
    owner.post("/desk/code", data={"form_token": token(page.text), "code": TOTP(key).at(NOW)})
    assert owner.get("/desk/who").status_code == 200
    assert "Day 15</dt><dd>Gumboro, in water" in owner.get("/desk/rules").text
    past = re.findall(r"/desk/rules/version/\d+", owner.get("/desk/rules/vaccines").text)
    assert len(past) == 3
    before = owner.get(past[1]).text
    assert "Earlier version" in before
    assert "Bring this version back" in before


def signed_in(bot: Bot, name: str) -> FlaskClient:
    client = create_app(bot).test_client()
    page = client.get("/desk/in").text
    fields = {"form_token": token(page), "name": name, "password": PASSWORD}
    client.post("/desk/in", data=fields)
    assert client.get_cookie(COOKIE, path="/desk") is not None
    return client


def token(page: str) -> str:
    found = re.search(r'name="form_token" value="(\w+)"', page)
    assert found is not None
    return found[1]
