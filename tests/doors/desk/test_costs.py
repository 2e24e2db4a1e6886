"""The page Costs: parts by kind and day, the budget, a batch, results by season."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from sqlalchemy import insert, select, update

from bot.records import tables as t
from bot.records.spending import spend
from tests.doors.desk.world import MOST_BYTES, NOW, OURS, THEIRS, World


def add_text(world: World, cooperative: int, key: str, **changed: object) -> None:
    ids = world.ids[cooperative]
    values = {"business_key": key, "phone_id": ids["phone"], "batch_id": ids["batch"],
              "sent_at": NOW, "to_number": "x", "klass": "routine", "text": "", "parts": 2,
              "encoding": "gsm7", "state": "delivered", "not_before": NOW,
              "created_at": NOW}  # fmt: skip
    with world.db.write() as connection:
        connection.execute(insert(t.outbox).values(**{**values, **changed}))


def rows(page: str) -> dict[str, list[str]]:
    """The figures of a row by its name."""
    found = re.findall(r'<th scope="row">([^<]+)</th>((?:<td class="n">[^<]*</td>)+)', page)
    return {name: re.findall(r">([^<]*)</td>", cells) for name, cells in found}


def test_texts_and_parts_are_counted_by_kind_and_day_and_only_our_own(world: World) -> None:
    add_text(world, OURS, "a", sent_at=NOW - timedelta(days=1))
    add_text(world, OURS, "desk:3:abc", parts=3)
    add_text(world, OURS, "danger", klass="danger", state="answered")
    add_text(world, OURS, "waits", klass="danger", state="waiting", sent_at=None)
    add_text(world, OURS, "old", sent_at=NOW - timedelta(days=31))
    add_text(world, THEIRS, "theirs", parts=100)
    found = rows(world.visitor("runs").get("/desk/costs").text)
    assert found["daily texts"] == ["2", "3"]
    assert found["written by staff"] == ["1", "3"]
    assert found["danger"] == ["1", "2"]
    assert found["All"] == ["4", "8"]
    assert (found["2026-03-10"], found["2026-03-09"]) == (["3", "6"], ["1", "2"])


@pytest.mark.parametrize(
    ("used", "said"),
    [(49, None), (50, "More than 50 %"), (80, "More than 80 %"), (100, "only answers, danger")],
)
def test_the_month_is_shown_against_its_budget(world: World, used: int, said: str | None) -> None:
    visitor = world.visitor("runs")
    with world.db.write() as connection:
        connection.execute(update(t.cooperative).values(budget=100))
        spend(connection, {OURS: used}, NOW)
    page = visitor.get("/desk/costs").text
    assert f"{used} of 100 parts are used, {used} %" in page
    assert (said in page) if said else ('class="care"' not in page)


def test_a_price_of_a_part_makes_money_of_it(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(update(t.cooperative).values(prices={"chick": 100, "part": 0.8}))
    assert "1 (0.80 money)" in world.visitor("runs").get("/desk/costs").text


def add_ended(world: World, farms: int, cooperative: int = OURS) -> None:
    """Farms whose batch has ended: the more birds died, the higher its number."""
    with world.db.write() as connection:
        for at in range(farms):
            own = 1000 * cooperative + at
            person = {"id": own, "cooperative_id": cooperative, "language": "en"}
            connection.execute(insert(t.person).values(**person, name="X", created_at=NOW))
            phone: dict[str, object] = {"id": own, "cooperative_id": cooperative, "person_id": own}
            phone |= {"number": f"+2547000{own}", "consent": "active"}
            connection.execute(insert(t.phone).values(**phone, created_at=NOW))
            batch = {"id": own, "phone_id": own, "person_id": own, "state": "closed", "count": 100}
            batch |= {"placed_on": (NOW - timedelta(days=60)).date()}
            connection.execute(insert(t.batch).values(**batch, created_at=NOW))
            for kind, data in (
                ("deaths", {"n": at + 1}),
                ("sold", {"n": 99 - at, "price": 250, "price_per": "bird"}),
            ):
                event = {"batch_id": own, "kind": kind, "on_date": NOW.date(), "at": NOW}
                connection.execute(insert(t.event).values(**event, data=data))


def test_results_of_five_farms_are_shown_with_their_spread_and_no_name(world: World) -> None:
    add_ended(world, 5)
    add_ended(world, 7, THEIRS)
    page = world.visitor("runs").get("/desk/costs").text
    assert "2026, January to March: 5 farms" in page
    assert rows(page)["Livability, % (5)"] == ["96", "97", "98"]


def test_results_of_four_farms_are_not_shown(world: World) -> None:
    add_ended(world, 4)
    page = world.visitor("runs").get("/desk/costs").text
    assert "Fewer than five farms" in page
    assert "Livability" not in page


def test_the_fullest_page_is_under_25_kilobytes_and_its_curve_under_six(world: World) -> None:
    add_ended(world, 60)
    for at in range(30):
        for kind in ("danger", "reply", "check_back", "system", "night", "routine"):
            moment = NOW - timedelta(days=at)
            add_text(world, OURS, f"{at}{kind}", klass=kind, sent_at=moment, parts=11_111)
    visitor = world.visitor("owns")
    with world.db.write() as connection:
        prices = {"part": 0.85}
        connection.execute(update(t.cooperative).values(budget=1_000_000, prices=prices))
    visitor.post("/desk/you/language", language="fr")
    answer = visitor.get("/desk/costs")
    curve = re.search(r"<svg.*?</svg>", answer.text, re.S)
    assert curve is not None
    assert len(curve[0]) < 6000
    assert len(answer.data) < MOST_BYTES


def test_the_figures_are_taken_away_as_a_file_and_that_is_written_down(world: World) -> None:
    add_text(world, OURS, "a")
    answer = world.visitor("runs").post("/desk/costs.csv")
    assert answer.text.splitlines() == ["Day,Kind,Texts,Parts", "2026-03-10,daily texts,2,3"]
    with world.db.read() as connection:
        assert list(connection.execute(select(t.audit.c.what)).scalars()) == ["costs_exported"]
