"""Who may: letting somebody in, changing what they may, what was done."""

from __future__ import annotations

import re
from typing import Any

import pytest
from sqlalchemy import insert, select
from sqlalchemy.exc import DatabaseError

from bot.doors.desk.frame import STYLE_NAME
from bot.records import tables as t
from tests.doors.desk.world import NOW, OURS, World


def new(world: World, **changed: str) -> str:
    fields = {"name": "Juma", "sign_in": "juma", "role": "enrols", "language": "sw", **changed}
    return world.visitor("owns").post("/desk/who/add", **fields).text


def staff(world: World, sign_in: str) -> Any:
    with world.db.read() as connection:
        return connection.execute(select(t.staff).where(t.staff.c.sign_in == sign_in)).first()


def test_a_password_is_shown_once_and_kept_as_a_hash(world: World) -> None:
    page = new(world)
    password = re.search(r"[a-z2-9]{4}(-[a-z2-9]{4}){3}", page)
    assert password is not None
    row = staff(world, "juma")
    assert row.password.startswith("$argon2id$")
    assert (row.fresh, row.role, row.cooperative_id) == (True, "enrols", OURS)
    assert password[0] not in world.visitor("owns").get("/desk/who").text


@pytest.mark.parametrize(
    "changed",
    [
        {"name": " "},
        {"name": "x" * 41},
        {"sign_in": "ju"},
        {"sign_in": "ju ma"},
        {"role": "rules"},
        {"language": "xx"},
        {"sign_in": "ZEBRA-looks"},
    ],
)
def test_what_can_not_be_is_said_and_nobody_is_let_in(
    world: World, changed: dict[str, str]
) -> None:
    page = new(world, **changed)
    assert 'role="alert"' in page
    assert staff(world, "juma") is None


def test_a_changed_role_counts_at_once_and_a_lock_out_too(world: World) -> None:
    looks = world.ids[OURS]["staff"]
    owner = world.visitor("owns")
    owner.post(f"/desk/who/{looks}/change", role="enrols")
    assert world.visitor("looks").get("/desk/you").status_code == 303
    assert staff(world, "mkulima-looks").role == "enrols"
    owner.post(f"/desk/who/{looks}/change", role="enrols", disabled="on")
    assert staff(world, "mkulima-looks").disabled is True


def test_nobody_changes_themselves(world: World) -> None:
    me = staff(world, "mkulima-owns").id
    owner = world.visitor("owns")
    assert owner.post(f"/desk/who/{me}/change", role="looks").status_code == 400
    assert owner.post(f"/desk/who/{me}/renew").status_code == 400
    assert staff(world, "mkulima-owns").role == "owns"
    assert "Nobody changes their own role" in owner.get(f"/desk/who/{me}").text


def test_a_renewed_password_ends_the_second_proof(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(t.staff.update().values(second_sealed="A" * 32, second_since=NOW))
    answer = world.visitor("owns").post(f"/desk/who/{world.ids[OURS]['staff']}/renew")
    row = staff(world, "mkulima-looks")
    assert answer.status_code == 200
    assert (row.second_sealed, row.second_since, row.fresh) == (None, None, True)


def test_what_was_done_can_be_read_and_taken_away_safe_from_formulas(world: World) -> None:
    with world.db.write() as connection:
        deed = {"cooperative_id": OURS, "at": NOW, "what": "=cmd()", "about": "@batch 7"}
        connection.execute(insert(t.audit).values(**deed))
    owner = world.visitor("owns")
    assert "=cmd()" in owner.get("/desk/who/done").text
    file = owner.post("/desk/who/done.csv").text
    assert "command line,'=cmd(),'@batch 7" in file
    assert "took the list" in owner.get("/desk/who/done").text


def test_fifty_deeds_stand_on_a_page_and_the_older_behind_it(world: World) -> None:
    with world.db.write() as connection:
        for at in range(60):
            deed = {"cooperative_id": OURS, "at": NOW, "what": "wrote", "about": f"farm {at:03}"}
            connection.execute(insert(t.audit).values(**deed))
    page = world.visitor("owns").get("/desk/who/done").text
    assert page.count("farm 0") == 50
    older = re.search(r'href="(/desk/who/done\?before=\d+)"', page)
    assert older is not None
    assert world.visitor("owns").get(older[1]).text.count("farm 0") == 10


def test_no_deed_is_ever_changed_or_deleted(world: World) -> None:
    new(world)
    for statement in (t.audit.update().values(what="nothing"), t.audit.delete()):
        with pytest.raises(DatabaseError, match="append-only"), world.db.write() as connection:
            connection.execute(statement)


def test_the_style_is_kept_by_the_browser_and_changes_its_name_with_its_text(world: World) -> None:
    answer = world.visitor(None).get(f"/desk/{STYLE_NAME}")
    assert "immutable" in answer.headers["Cache-Control"]
    assert len(answer.data) < 6000
