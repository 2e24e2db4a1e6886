"""Say to many: people, parts and cost first, a second person above a size, stopped midway."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from sqlalchemy import insert, select, update

from bot.facts.farm import SECOND_FROM as LARGE
from bot.records import tables as t
from tests.doors.desk.world import MOST_BYTES, NOW, OURS, THEIRS, World

BODY = "Meeting on Friday at ten"


def add_farms(world: World, many: int, **person: Any) -> None:
    """Farms that joined, each with a batch on day 15."""
    with world.db.write() as connection:
        first = 100 + len(connection.execute(select(t.person.c.id)).all())
        for at in range(first, first + many):
            values = {"id": at, "cooperative_id": OURS, "language": "sw", "place": "Bondeni",
                      "created_at": NOW, **person}  # fmt: skip
            connection.execute(insert(t.person).values(**values))
            connection.execute(insert(t.phone).values(
                id=at, cooperative_id=values["cooperative_id"], person_id=at,
                number=f"+254700001{at}", consent="active", created_at=NOW))  # fmt: skip
            connection.execute(insert(t.batch).values(
                id=at, phone_id=at, person_id=at, state="running", count=300,
                placed_on=(NOW - timedelta(days=14)).date(), created_at=NOW))  # fmt: skip


def shown(world: World, **fields: Any) -> str:
    return world.visitor("runs").post("/desk/many/try", body=BODY, **fields).text


def people(page: str) -> int:
    found = re.search(r'name="people" value="(\d+)"', page)
    return int(found[1]) if found else 0


def send(world: World, **fields: Any) -> str:
    """Look, confirm; the address of what was kept."""
    seen = people(shown(world, **fields))
    answer = world.visitor("runs").post("/desk/many/try", body=BODY, people=seen, **fields)
    assert answer.status_code == 303
    return str(answer.headers["Location"])


def waiting(world: World) -> list[tuple[int, str, Any]]:
    with world.db.read() as connection:
        row = t.outbox.c
        found = select(row.phone_id, row.text, row.not_before).where(row.state == "waiting")
        return [(one.phone_id, one.text, one.not_before) for one in connection.execute(found)]


def test_people_parts_and_cost_stand_there_before_anything_goes(world: World) -> None:
    add_farms(world, 3)
    with world.db.write() as connection:
        connection.execute(update(t.cooperative).values(prices={"part": 0.8}))
    page = shown(world)
    assert people(page) == 4
    assert "3.20" in page
    assert f"Mkulima (Mkulima): {BODY}" in page
    assert waiting(world) == []


def test_a_form_that_comes_twice_is_sent_once_and_says_so(world: World) -> None:
    add_farms(world, 2)
    first, second = send(world), send(world)
    assert second.split("?")[0] == first
    assert len(waiting(world)) == 3
    assert "The form came twice" in world.visitor("runs").get(second).text


def test_a_text_that_was_stopped_may_be_sent_again(world: World) -> None:
    add_farms(world, 2)
    first = send(world)
    world.visitor("runs").post(f"{first}/stop")
    assert send(world) != first
    assert len(waiting(world)) == 3


def test_only_those_who_joined_and_whose_number_works_are_meant(world: World) -> None:
    add_farms(world, 4)
    with world.db.write() as connection:
        ids = list(connection.execute(select(t.phone.c.id).where(t.phone.c.id >= 100)).scalars())
        changes: list[dict[str, Any]]
        changes = [{"consent": "stopped"}, {"consent": "invited"}, {"suspended": True}]
        for at, values in zip(ids, changes, strict=False):
            connection.execute(update(t.phone).where(t.phone.c.id == at).values(**values))
    assert people(shown(world)) == 2


@pytest.mark.parametrize(
    ("fields", "meant"),
    [
        ({"place": "Bondeni"}, 2),
        ({"language": "sw"}, 2),
        ({"language": "en"}, 1),
        ({"from_day": "14", "to_day": "16"}, 2),
        ({"to_day": "10"}, 1),
        ({"from_day": "16"}, 0),
        ({"place": "Bondeni", "language": "en"}, 0),
    ],
)
def test_place_age_and_language_choose_who_is_meant(
    world: World, fields: dict[str, str], meant: int
) -> None:
    add_farms(world, 2)
    assert people(shown(world, **fields)) == meant


def test_a_few_get_it_at_once_and_nobody_of_another_cooperative(world: World) -> None:
    add_farms(world, 2)
    add_farms(world, 2, cooperative_id=THEIRS)
    where = send(world)
    with world.db.read() as connection:
        mine = select(t.phone.c.id).where(t.phone.c.cooperative_id == OURS)
        ours = set(connection.execute(mine).scalars())
    assert {phone for phone, _, _ in waiting(world)} == ours
    assert len(waiting(world)) == 3
    page = world.visitor("runs").get(where).text
    assert re.search(r"waits</th><td>3</td>", page)


def test_outside_the_allowed_hours_it_waits_for_the_morning(world: World) -> None:
    late = NOW + timedelta(hours=14)  # 23:00 in Nairobi
    world.clock.moment = late
    with world.db.write() as connection:
        open_still = {"seen_at": late, "ends_at": late + timedelta(hours=1)}
        connection.execute(update(t.staff_session).values(**open_still))
    send(world)
    [(_, _, goes_at)] = waiting(world)
    assert goes_at == NOW + timedelta(hours=21)  # 06:00 the next day


def test_to_many_a_second_person_must_agree(world: World) -> None:
    add_farms(world, LARGE)
    where = send(world)
    assert waiting(world) == []
    assert world.visitor("runs").post(f"{where}/agree").status_code == 403
    assert world.visitor("advises").post(f"{where}/agree").status_code == 403
    assert world.visitor("owns").post(f"{where}/agree").status_code == 303
    assert len(waiting(world)) == LARGE + 1
    world.visitor("owns").post(f"{where}/agree")
    assert len(waiting(world)) == LARGE + 1
    page = world.visitor("runs").get(where).text
    assert "Mkulima owns" in page
    assert len(page.encode()) < MOST_BYTES


def test_whoever_stops_meanwhile_gets_nothing(world: World) -> None:
    add_farms(world, LARGE)
    where = send(world)
    with world.db.write() as connection:
        stopped = t.phone.c.id == world.ids[OURS]["phone"]
        connection.execute(update(t.phone).where(stopped).values(consent="stopped"))
    world.visitor("owns").post(f"{where}/agree")
    assert len(waiting(world)) == LARGE


def test_it_can_be_stopped_in_the_middle(world: World) -> None:
    add_farms(world, 4)
    where = send(world)
    with world.db.write() as connection:
        gone = t.outbox.c.phone_id == world.ids[OURS]["phone"]
        connection.execute(update(t.outbox).where(gone).values(state="delivered"))
    assert world.visitor("runs").post(f"{where}/stop").status_code == 303
    assert waiting(world) == []
    page = world.visitor("runs").get(where).text
    assert re.search(r"arrived</th><td>1</td>", page)
    assert re.search(r"taken back, not sent</th><td>4</td>", page)


def test_what_was_stopped_before_it_went_never_goes(world: World) -> None:
    add_farms(world, LARGE)
    where = send(world)
    world.visitor("runs").post(f"{where}/stop")
    world.visitor("owns").post(f"{where}/agree")
    assert waiting(world) == []


def test_other_people_than_were_shown_are_shown_again(world: World) -> None:
    add_farms(world, 2)
    answer = world.visitor("runs").post("/desk/many/try", body=BODY, people=99)
    assert "other people than was shown" in answer.text
    assert waiting(world) == []


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"body": "  "}, "no text to send"),
        ({"body": "x" * 480}, "three parts at most"),
        ({"body": BODY, "from_day": "x"}, "number from 1 to 120"),
        ({"body": BODY, "from_day": "9", "to_day": "8"}, "number from 1 to 120"),
        ({"body": BODY, "place": "Nowhere"}, "Nobody who has joined"),
    ],
)
def test_what_can_not_go_says_why(world: World, fields: dict[str, str], said: str) -> None:
    answer = world.visitor("runs").post("/desk/many/try", **fields)
    assert answer.status_code == 400
    assert said in answer.text


@pytest.mark.parametrize(
    ("body", "word"),
    [
        ("Give all chicks oxytetracycline in the water", "oxytetracycline"),
        ("Put 5 ml of the syrup in each drinker", "5 ml"),
        ("Wash the drinkers with bleach", "bleach"),
        ("Lavez avec de l'eau de Javel", "javel"),
        ("Wape siki kidogo", "siki"),
    ],
)
def test_no_medicine_or_dose_goes_to_many_however_sure_the_writer_is(
    world: World, body: str, word: str
) -> None:
    visitor = world.visitor("runs")
    for more in ({}, {"people": "1", "vet": "on"}):
        answer = visitor.post("/desk/many/try", body=body, **more)
        assert answer.status_code == 400
        assert f"&#34;{word}&#34; names a medicine" in answer.text
        assert body.replace("'", "&#39;") in answer.text
        assert 'name="people"' not in answer.text
    assert waiting(world) == []


@pytest.mark.parametrize(
    "body",
    [
        "Enrol your neighbour, the office helps with the formalities",
        "Les formalites sont simples, enroulez les rideaux le jour",
        "Sikiliza redio kesho saa mbili",
    ],
)
def test_everyday_words_that_begin_like_a_medicine_go(world: World, body: str) -> None:
    assert people(world.visitor("runs").post("/desk/many/try", body=body).text) == 1
