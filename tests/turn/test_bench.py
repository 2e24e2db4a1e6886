"""The measurements in small: each reference does exactly the named work; the line has its keys."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import func, select

from bot.gateway.client import Outgoing
from bot.gateway.signature import HEADER, sign
from bot.records import tables as t
from bot.records.session import Database
from bot.turn.tick import CHUNK, tick
from tests.bench import inbound, plan, send
from tests.bench.databases import Place
from tests.bench.farms import MORNING, fill
from tests.bench.sides import by_turns
from tests.bench.stand_in import stand_in, taken
from tests.turn.test_plan import statements

KEYS = "name database figure unit reference ratio spread rounds seconds machine".split()
FARMS = 60


def rows(db: Database) -> int:
    with db.read() as connection:
        return connection.execute(select(func.count()).select_from(t.outbox)).scalar_one()


def test_the_reference_of_planning_claims_inserts_and_advances_in_one_transaction(
    db: Database,
) -> None:
    fill(db, plan.handbook(), FARMS)
    with statements(db) as seen:
        said = plan.constant_body(db, plan.handbook(), MORNING)
    words = [one.split()[0] for one in seen if not one.startswith("BEGIN")]
    assert words == ["SELECT", "INSERT", "UPDATE", "SELECT"]  # the last finds nothing
    assert said == rows(db) == FARMS
    assert CHUNK == 2000
    plan.check(db, said, FARMS)


def test_both_sides_of_planning_tell_the_same_farms(db: Database) -> None:
    fill(db, plan.handbook(), FARMS)
    assert tick(db, plan.handbook(), MORNING) == FARMS
    plan.check(db, FARMS, FARMS)


def test_a_round_that_left_someone_out_is_no_figure(db: Database) -> None:
    fill(db, plan.handbook(), FARMS)
    with pytest.raises(AssertionError, match="60 left"):
        plan.check(db, 0, FARMS)


def test_a_line_of_planning_has_its_keys_and_both_figures(tmp_path: Path) -> None:
    said = plan.measure(Place("sqlite", str(tmp_path)), batches=FARMS, rounds=2)
    assert list(said)[: len(KEYS)] == KEYS
    assert said["rounds"] == 2
    assert float(str(said["figure"])) > 0


def test_the_reference_of_a_turn_checks_reads_one_row_and_commits_one_insert(db: Database) -> None:
    fill(db, plan.handbook(), 5)
    phone = inbound.bare_app(db, inbound.SETTINGS).test_client()
    form = {**inbound.message(1), "From": "+15005550000002"}
    url = f"{inbound.SETTINGS.public_url}/sms"
    signed = sign(url, {name: [value] for name, value in form.items()}, send.TOKEN)
    with statements(db) as seen:
        answer = phone.post("/sms", data=form, headers={HEADER: signed})
    assert answer.status_code == 200
    words = [one.split()[0] for one in seen if not one.startswith("BEGIN")]
    assert words == ["SELECT", "INSERT"]
    with statements(db) as seen:
        assert phone.post("/sms", data=form, headers={HEADER: "wrong"}).status_code == 403
    assert seen == []
    with db.read() as connection:
        assert connection.execute(select(func.count()).select_from(t.turn)).scalar_one() == 1


def test_the_reference_of_sending_posts_every_text_once() -> None:
    assert send.bare_posts(40) > 0  # it counts for itself


def test_a_gateway_of_the_measurements_counts_what_came_twice() -> None:
    with stand_in(0) as url:
        gateway = send.client(url)
        for reference in ("1", "2", "2"):
            gateway.send(Outgoing("+15005550101", "Day 4", reference))
        assert taken(url) == (3, 1)


def test_rounds_go_by_turns() -> None:
    order: list[str] = []

    def side(name: str) -> float:
        order.append(name)
        return float(len(order))

    own, others = by_turns(lambda: side("ours"), lambda: side("reference"), 3)
    assert order == ["ours", "reference", "ours", "reference", "ours"]
    assert (own, others) == ([1.0, 3.0, 5.0], [2.0, 4.0])
