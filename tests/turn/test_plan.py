"""Planning in chunks: many planners, few statements, farms that are alike worked out once."""

from __future__ import annotations

import random
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import timedelta
from threading import Barrier, Thread
from typing import Any

import pytest
from sqlalchemy import event, insert, select, update

from bot.day.alike import alike
from bot.day.due import next_moment
from bot.facts.farm import Batch, Case, Cooperative, Event, Person, Phone
from bot.facts.told import Told
from bot.handbook.shapes import Handbook
from bot.records import tables as t
from bot.records.case import cases_of_phones
from bot.records.session import Database
from bot.turn.plan import Planner
from bot.turn.tick import tick
from tests.bench.farms import kinds
from tests.kill.plain import MORNING, add_cooperative, add_farms, handbook, keys, told

HOUR = timedelta(hours=1)


@pytest.fixture(scope="module")
def book() -> Handbook:
    return handbook()


@contextmanager
def statements(db: Database) -> Iterator[list[str]]:
    """Every statement that goes to the database meanwhile."""
    seen: list[str] = []

    def look(_c: object, _cur: object, statement: str, *_: object) -> None:
        seen.append(statement)

    event.listen(db.engine, "before_cursor_execute", look)
    yield seen
    event.remove(db.engine, "before_cursor_execute", look)


def morning_keys(farms: int) -> list[str]:
    return sorted(f"{one}:1:2026-03-05:morning" for one in range(1, farms + 1))


def test_planners_side_by_side_tell_every_farm_once(db: Database, book: Handbook) -> None:
    add_cooperative(db)
    add_farms(db, 90)
    start, said = Barrier(3), [0, 0, 0]

    def plan(planner: int) -> None:
        start.wait()
        said[planner] = tick(db, book, MORNING, 7)

    planners = [Thread(target=plan, args=(one,)) for one in range(3)]
    for one in planners:
        one.start()
    for one in planners:
        one.join()
    said.append(tick(db, book, MORNING))  # what two planners had passed over for each other
    assert sum(said) == 90
    assert sorted(keys(db)) == morning_keys(90)
    assert told(db) == 90


def test_a_chunk_takes_as_few_statements_for_many_farms_as_for_few(
    db: Database, book: Handbook
) -> None:
    add_cooperative(db)
    add_farms(db, 60)
    with db.write() as connection:  # no two alike
        connection.execute(
            insert(t.event),
            [
                {"batch_id": one, "kind": "weight", "on_date": MORNING.date(), "at": MORNING}
                | {"data": {"avg_g": one}}
                for one in range(1, 61)
            ],
        )
        connection.execute(update(t.batch).where(t.batch.c.id <= 5).values(next_due=MORNING - HOUR))
    with statements(db) as few:
        assert tick(db, book, MORNING - 2 * HOUR) == 0
        few.clear()
        tick(db, book, MORNING - HOUR / 2)
    with statements(db) as many:
        assert tick(db, book, MORNING) == 60
    assert len(many) <= 12
    assert len(many) <= len(few) + 4  # texts, questions and the one that they close


def test_no_statement_of_a_tick_reads_a_table_from_end_to_end(db: Database, book: Handbook) -> None:
    if not db.is_sqlite:
        pytest.skip("PostgreSQL chooses by how much there is")
    add_cooperative(db)
    add_farms(db, 20)
    asked: list[tuple[str, Any]] = []

    def look(_c: object, _cur: object, statement: str, bound: Any, _x: object, m: bool) -> None:
        asked.append((statement, bound[0] if m and isinstance(bound, list) else bound))

    event.listen(db.engine, "before_cursor_execute", look)
    tick(db, book, MORNING)
    event.remove(db.engine, "before_cursor_execute", look)
    ways = []
    with db.read() as connection:
        for statement, bound in asked:
            if statement.startswith(("SELECT", "UPDATE")):
                plan = connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {statement}", bound)
                ways += [row[3] for row in plan]
    assert len(ways) > 10
    big = ("phone", "person", "batch", "question", "event", "outbox", "turn")
    assert [one for one in ways if one.startswith(tuple(f"SCAN {name}" for name in big))] == []


def test_a_phone_whose_text_is_being_answered_is_told_a_moment_later(
    db: Database, book: Handbook
) -> None:
    if db.is_sqlite:
        pytest.skip("one writer at a time: the clock waits")
    add_cooperative(db)
    add_farms(db, 3)
    with db.write() as answering:
        answering.execute(select(t.phone.c.id).where(t.phone.c.id == 2).with_for_update())
        assert tick(db, book, MORNING) == 2
    assert tick(db, book, MORNING) == 1


def test_a_farm_that_cant_be_planned_keeps_no_other_from_its_text(
    db: Database, book: Handbook
) -> None:
    add_cooperative(db)
    add_farms(db, 3)
    with db.write() as connection:
        connection.execute(update(t.batch).where(t.batch.c.id == 2).values(said="no day at all\n"))
    assert tick(db, book, MORNING) == 2
    assert sorted(keys(db)) == [morning_keys(3)[0], morning_keys(3)[2]]
    with db.write() as connection:
        connection.execute(update(t.batch).where(t.batch.c.id == 2).values(said=""))
    assert tick(db, book, MORNING) == 0
    assert tick(db, book, MORNING + HOUR) == 1


def test_what_is_worked_out_for_after_a_text_is_what_the_database_then_holds(
    db: Database, book: Handbook
) -> None:
    add_cooperative(db)
    add_farms(db, 4)
    with db.write() as connection:
        for batch_id, age in ((1, 3), (2, 13), (3, 20), (4, 35)):
            placed = MORNING.date() - timedelta(days=age)
            connection.execute(
                update(t.batch)
                .where(t.batch.c.id == batch_id)
                .values(placed_on=placed, nights="warm", feathered=True)
            )
    now = MORNING
    for _ in range(6):
        tick(db, book, now)
        with db.read() as connection:
            cases = cases_of_phones(connection, [1, 2, 3, 4], now, planning=True)
            rows = connection.execute(select(t.batch.c.id, t.batch.c.next_due)).all()
        stored = {row.id: row.next_due for row in rows}
        for case in cases.values():
            batch = case.batches[0]
            assert stored[batch.id] == next_moment(case, batch, book.calendar, now)
        now = min(moment for moment in stored.values() if moment is not None)


# Alike


def case_of(batch: Batch, language: str, heard_hours: float, number: int) -> Case:
    phone = Phone(number, f"+1500555{number:04d}", "active", heard_at=MORNING - heard_hours * HOUR)
    cooperative = Cooperative(1, "Umoja", "Africa/Nairobi", "KE", "sw")
    return Case(MORNING, cooperative, phone, Person(number, language), language, (batch,))


def test_a_farm_is_told_the_same_whether_it_was_worked_out_for_itself_or_for_one_like_it(
    book: Handbook,
) -> None:
    drawn = random.Random(5)
    shared, compared = 0, 0
    for kind in kinds(book)[:80]:
        planner = Planner(book, MORNING)
        known: set[object] = set()
        for number in range(6):
            lines = kind.lines if number > 1 else ""
            arrived = kind.batch.arrived_at
            assert arrived is not None
            batch = replace(
                kind.batch,
                id=100 + number,
                arrived_at=arrived + timedelta(minutes=drawn.randrange(12 * 60)),
                said=Told(lines) if lines else (),
            )  # fmt: skip
            case = case_of(batch, kind.language, drawn.choice((1, 28, 29, 60)), number)
            planned = planner.plan(case, batch)
            alone = Planner(book, MORNING)._worked_out(case, batch)
            assert [one.text for one in planned.texts] == [one.text for one in alone.texts]
            assert (planned.lines, planned.next_due) == (alone.lines, alone.next_due)
            key = alike(case, batch)
            shared += key in known
            known.add(key)
            compared += 1
    assert compared == 480
    assert shared > 25


def test_farms_that_were_told_the_same_are_told_what_each_would_be_by_itself(
    book: Handbook,
) -> None:
    """What farms share hangs on the lines said to them; rows of tuples are shared with nobody."""
    drawn = random.Random(7)
    texts: set[str] = set()
    for kind in kinds(book):
        said = Told(kind.lines)
        for number in range(4):
            batch = replace(
                kind.batch,
                id=100 + number,
                heat=drawn.choice((("charcoal",), ("bulb",), ("gas",), ())),
                nights=drawn.choice((None, "warm", "cool", "cold")),
                feathered=drawn.choice((None, True, False)),
                held=number == 3,
                events=_entries(drawn),
            )
            plans = []
            for rows in (said, tuple(said)):
                one = replace(batch, said=rows)
                case = case_of(one, kind.language, drawn.choice((1, 60)), number)
                for now in (MORNING, MORNING + 11 * HOUR):
                    at = replace(case, now=now, phone=replace(case.phone, heard_at=MORNING - HOUR))
                    plans.append(Planner(book, now).plan(at, one))
            assert plans[:2] == plans[2:]
            texts |= {text.text for plan in plans for text in plan.texts}
    assert len(texts) > 300


def _entries(drawn: random.Random) -> tuple[Event, ...]:
    told: list[tuple[str, dict[str, object]]] = [
        ("deaths", {"n": 2}),
        ("feed_in", {"kg": 50.0}),
        ("feed_eaten", {"kg": 9.0}),
        ("temperature", {"value_c": drawn.choice((24.0, 31.0, 36.0))}),
        ("treated", {"days": 2}),
        ("weight", {"avg_g": 300.0}),
    ]
    at = MORNING - timedelta(hours=drawn.randrange(10, 60))
    chosen = drawn.sample(told, drawn.randrange(4))
    return tuple(Event(one, kind, at.date(), at, data) for one, (kind, data) in enumerate(chosen))


def test_only_what_a_text_can_speak_of_tells_two_farms_apart(book: Handbook) -> None:
    kind = kinds(book)[7]
    plain = replace(kind.batch, said=Told(kind.lines))
    one = alike(case_of(plain, "en", 28, 1), plain)
    assert one == alike(case_of(replace(plain, id=9), "en", 29, 2), replace(plain, id=9))
    for other in (
        replace(plain, count=17),
        replace(plain, heat=("wood",)),
        replace(plain, name="Old"),
        replace(plain, said=Told(kind.lines + "2026-03-05 morning day\n")),
    ):
        assert alike(case_of(other, "en", 28, 1), other) != one
    heard = replace(plain, events=(Event(1, "deaths", MORNING.date(), MORNING, {"n": 2}),))
    assert alike(case_of(heard, "en", 28, 1), heard) is None


def test_what_was_said_is_read_from_its_lines_and_back(book: Handbook) -> None:
    lines = kinds(book)[30].lines
    said = Told(lines)
    assert len(said) > 20
    assert {one.slot for one in said} >= {"morning"}
    assert said == Told(lines)
    assert not Told("")
