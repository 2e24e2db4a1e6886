"""The pages of visits: the list, the same on paper, a visit written down."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from sqlalchemy import insert, select, update

from bot.facts.talk import Incoming
from bot.records import tables as t
from bot.records.forgetting import forget
from tests.doors.desk.world import FOREIGN, MOST_BYTES, NOW, OURS, THEIRS, World, counted

NUMBER = "+254700000001"


def text(world: World, body: str, number: str = NUMBER) -> None:
    """A farmer's text through the real engine."""
    at = world.clock.now()
    world.bot.take(Incoming(f"SM{body}{number}", "ACtest", number, "+254700000100", body, at))


def add_line(world: World, kind: str, **values: Any) -> int:
    ids = world.ids[OURS]
    row = {"cooperative_id": OURS, "phone_id": ids["phone"], "batch_id": ids["batch"],
           "kind": kind, "reason": kind, "at": NOW, **values}  # fmt: skip
    with world.db.write() as connection:
        made = connection.execute(insert(t.adviser).values(**row)).inserted_primary_key
    assert made is not None
    return int(made[0])


def keep(world: World, note: str = "Litter was wet, turned together", **fields: Any) -> int:
    path = f"/desk/visits/{world.ids[OURS]['person']}"
    page = world.visitor("advises").get(path).text
    seen = re.search(r'name="up_to" value="(\d+)"', page)
    values = {"how": "there", "ago": "0", "up_to": seen[1] if seen else "0", "note": note, **fields}
    return world.visitor("advises").post(path, **values).status_code


def listed(world: World) -> str:
    return world.visitor("looks").get("/desk/visits").text


def rows(world: World, table: Any, *names: str) -> list[tuple[Any, ...]]:
    with world.db.read() as connection:
        found = connection.execute(select(*(table.c[name] for name in names)).order_by(table.c.id))
        return [tuple(row) for row in found]


def test_a_danger_that_a_farmer_texts_stands_first_in_his_own_words(world: World) -> None:
    text(world, "there is blood in the droppings")
    page = listed(world)
    assert "<strong>Danger: blood in the droppings</strong>" in page
    assert "<q>there is blood in the droppings</q>" in page
    assert "<h2>Danger (1)</h2>" in page


def test_a_danger_of_a_number_that_never_joined_stands_with_the_number(world: World) -> None:
    text(world, "40 dead chicks help", "+254700000077")
    page = listed(world)
    assert "A number that never joined" in page
    assert "+254700000077" in page
    line = re.search(r"/desk/visits/line/(\d+)", world.visitor("advises").get("/desk/visits").text)
    assert line is not None
    assert world.visitor("advises").post(line[0]).status_code == 303
    assert "+254700000077" not in listed(world)


def test_a_spent_budget_is_no_visit(world: World) -> None:
    add_line(world, "budget", phone_id=None, batch_id=None)
    page = listed(world)
    assert "Farms that need somebody: 1." in page
    assert "never joined" not in page


def test_a_suspected_disease_is_announced_above_and_stands_at_the_end(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(update(t.batch).where(t.batch.c.id == world.ids[OURS]["batch"])
                           .values(held=True))  # fmt: skip
        connection.execute(insert(t.person).values(id=50, cooperative_id=OURS, language="en",
                                                   name="Baraka", created_at=NOW))  # fmt: skip
        connection.execute(insert(t.phone).values(id=50, cooperative_id=OURS, person_id=50,
                           number="+254700000050", consent="active", created_at=NOW))  # fmt: skip
    add_line(world, "call_me", phone_id=50, batch_id=None)
    page = listed(world)
    assert page.index("On 1 of them a disease") < page.index("Baraka") < page.index("Amina")
    assert "Boots and clothes changed" in page[page.index("Baraka") :]
    paper = world.visitor("looks").get("/desk/visits/paper").text
    assert paper.index("Baraka") < paper.index("Boots and clothes changed") < paper.index("Amina")


def test_a_visit_with_a_note_takes_the_farm_off_the_list_and_stays_in_the_record(
    world: World,
) -> None:
    assert "Amina" in listed(world)
    assert keep(world) == 303
    assert "Amina" not in listed(world)
    page = world.visitor("looks").get(f"/desk/visits/{world.ids[OURS]['person']}").text
    assert "I was there, Mkulima advises: Litter was wet, turned together" in page
    [(batch, note)] = rows(world, t.visit, "batch_id", "note")
    assert (batch, note) == (world.ids[OURS]["batch"], "Litter was wet, turned together")
    assert [one for (one,) in rows(world, t.audit, "what")] == ["visit_there"]


def test_what_came_after_the_page_was_read_still_waits(world: World) -> None:
    path = f"/desk/visits/{world.ids[OURS]['person']}"
    up_to = world.ids[OURS]["line"]
    assert f'value="{up_to}"' in world.visitor("advises").get(path).text
    add_line(world, "call_me")
    values = {"how": "called", "ago": "1", "up_to": str(up_to), "note": "spoke with her"}
    assert world.visitor("advises").post(path, **values).status_code == 303
    page = listed(world)
    assert "Asked to be called" in page
    assert "No better after what was tried" not in page
    assert 'Last visited or called: <time datetime="2026-03-09">' in page


def test_a_visit_without_a_note_is_not_kept_and_says_so(world: World) -> None:
    assert keep(world, "   ") == 400
    assert rows(world, t.visit, "id") == []
    assert "Amina" in listed(world)


def test_a_form_with_a_number_that_no_row_has_does_no_harm(world: World) -> None:
    assert keep(world, up_to="9" * 30) == 303
    assert keep(world, up_to="x") == 303


def test_whoever_only_looks_can_write_no_visit_down(world: World) -> None:
    path = f"/desk/visits/{world.ids[OURS]['person']}"
    assert '<form method="post">' not in world.visitor("looks").get(path).text
    assert world.visitor("looks").post(path, note="x").status_code == 403


def test_a_visit_settles_nothing_of_another_cooperative(world: World) -> None:
    keep(world, up_to="999999")
    theirs = world.visitor("looks", THEIRS).get("/desk/visits").text
    assert f"{FOREIGN} Amina" in theirs


def test_a_visit_is_handed_out_and_forgotten_with_the_person(world: World) -> None:
    keep(world)
    person = world.ids[OURS]["person"]
    held = world.visitor("owns").post(f"/desk/farm/{person}/held.jsonl").text
    assert "Litter was wet" in held
    add_line(world, "call_me")
    with world.db.write() as connection:
        forget(connection, world.ids[OURS]["phone"], b"key", NOW)
    assert [one for (one,) in rows(world, t.visit, "note")] == [""]
    assert "Asked to be called" not in listed(world)


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_the_fullest_list_is_under_25_kilobytes_and_asks_four_times(
    world: World, language: str
) -> None:
    with world.db.write() as connection:
        for at in range(100, 260):
            name = f"Mwanajuma Wanjiku wa Kilimani {at}"
            connection.execute(insert(t.person).values(
                id=at, cooperative_id=OURS, language="en", name=name,
                place="Bondeni kwa Mzee, karibu na mto", created_at=NOW))  # fmt: skip
            connection.execute(insert(t.phone).values(
                id=at, cooperative_id=OURS, person_id=at, number=f"+254700001{at}",
                consent="active", created_at=NOW))  # fmt: skip
            connection.execute(insert(t.batch).values(
                id=at, phone_id=at, person_id=at, state="running", count=500,
                placed_on=NOW.date(), created_at=NOW))  # fmt: skip
            connection.execute(insert(t.turn).values(
                id=at, account="A", message_id=f"m{at}", sender=f"+254700001{at}", recipient="x",
                channel="sms", body="dead " * 60, at=NOW))  # fmt: skip
    for at in range(100, 260):
        told = {"what": "deaths", "dead": 100, "alive": 500, "signs": ["lethargic", "heap"]}
        add_line(world, "danger", phone_id=at, batch_id=at, turn_id=at, told=told,
                 at=NOW - timedelta(hours=1))  # fmt: skip
    visitor = world.visitor("advises")
    visitor.post("/desk/you/language", language=language)
    for path in ("/desk/visits", "/desk/visits?after=40", "/desk/visits/paper"):
        with counted(world.db) as statements:
            page = visitor.get(path)
        assert len(page.get_data()) < MOST_BYTES
        assert len(statements) == 4
    shown: list[str] = []
    path = "/desk/visits"
    while path:
        page = visitor.get(path)
        shown += re.findall(r"Kilimani (\d+)</a>", page.text)
        more = re.search(r'href="(/desk/visits\?after=\d+)"', page.text)
        path = more[1] if more else ""
    assert sorted(map(int, shown)) == list(range(100, 260))
