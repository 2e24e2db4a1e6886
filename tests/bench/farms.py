"""A union's farms on the eve of a morning, as many as wanted, for the measurements.

In: an empty migrated database, how many farms, the share of them with entries of their own. Out:
rows in it: farms of every age in three languages whose routine text is due at MORNING, with all
that was said to them before. Flocks are bought in boxes of 50 and came at any minute, their farmers
were last heard on any of the last days; half of them told of deaths, feed, heat or weight, each
something else. Seeded by their numbers, so that two runs are alike.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from typing import Any

from sqlalchemy import Connection, String, Table, cast, func, insert, literal, select

from bot.day.due import said_until
from bot.facts.farm import Batch, Case, Cooperative, Person, Phone
from bot.facts.told import lines_of
from bot.handbook.shapes import Handbook
from bot.records import tables as t
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values

MORNING = datetime(2026, 3, 5, 3, 30, tzinfo=UTC)  # 06:30 in Nairobi
LAST_AGE = 40
LANGUAGES = ("sw", "fr", "en")
HEATS = ("charcoal", "charcoal", "bulb", "gas", "kerosene")
COUNTS = (100, 150, 200, 250, 300, 400, 500, 1000)
BOX, MOST_BOXES = 50, 20
SILENT_DAYS = 6  # at most, since a farmer was last heard
OWN = 0.5  # of the farms told something; a guess, printed with every figure
KINDS = 240  # farms that differ in more than their number
ROWS = 10_000
WORDED = 19_997  # farms made one by one; no multiple of what tells them apart
AREA = "+1500555"


@dataclass(frozen=True)
class Kind:
    """What many farms have in common."""

    language: str
    batch: Batch
    lines: str


def kinds(handbook: Handbook) -> list[Kind]:
    """Every age from 1 on, with languages, heats and counts by turns."""
    found = []
    for number in range(KINDS):
        age = 1 + number % LAST_AGE
        placed = MORNING.date() - timedelta(days=age)
        batch = Batch(
            id=1,
            state="running",
            count=COUNTS[number % len(COUNTS)],
            placed_on=placed,
            arrived_at=datetime.combine(placed, time(5), UTC),
            heat=(HEATS[number // 3 % len(HEATS)],),
            thermometer=number % 4 == 0,
        )
        language = LANGUAGES[number // LAST_AGE % len(LANGUAGES)]
        found.append(Kind(language, batch, _said(batch, language, handbook)))
    return found


def _said(batch: Batch, language: str, handbook: Handbook) -> str:
    cooperative = Cooperative(1, "Umoja", "Africa/Nairobi", "KE", "sw")
    phone = Phone(1, "+254700000001", "active", heard_at=batch.arrived_at)
    case = Case(MORNING, cooperative, phone, Person(1, language), language, (batch,))
    return lines_of(said_until(case, batch, handbook.calendar, MORNING - timedelta(minutes=1)))


def fill(db: Database, handbook: Handbook, farms: int, own: float = OWN) -> None:
    """One cooperative with so many farms. own: the share of farms with entries of their own. Beyond
    the first `WORDED` the database makes them of those, with another number and count."""
    made = kinds(handbook)
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(**cooperative_values(Settings())))
    for first in range(1, min(farms, WORDED) + 1, ROWS):
        ids = range(first, min(first + ROWS, farms + 1, WORDED + 1))
        chosen = {one: made[one * 7 % len(made)] for one in ids}
        with db.write() as connection:
            connection.execute(insert(t.person), [_person(chosen[one]) for one in ids])
            connection.execute(insert(t.phone), [_phone(one, chosen[one]) for one in ids])
            connection.execute(insert(t.batch), [_batch(one, chosen[one]) for one in ids])
            unlike = [one for one in ids if one * 997 % 1000 < own * 1000]
            if unlike:
                entries = [entry for one in unlike for entry in _entries(one, chosen[one])]
                connection.execute(insert(t.event), entries)
    for done in range(WORDED, farms, WORDED):
        with db.write() as connection:
            _copy(connection, done, min(WORDED, farms - done))


def _copy(connection: Connection, done: int, many: int) -> None:
    """So many farms more, numbered from done + 1."""
    own = t.batch.c.id + done
    digits = cast(t.phone.c.id + done, String)
    padded = func.substr(literal("0000000").concat(digits), func.length(digits) + 1)
    new: dict[Table, dict[str, Any]] = {
        t.person: {"id": t.person.c.id + done},
        t.phone: {
            "id": t.phone.c.id + done,
            "person_id": t.phone.c.person_id + done,
            "number": literal(AREA).concat(padded),
        },
        t.batch: {
            "id": own,
            "phone_id": own,
            "person_id": own,
            "count": BOX * (1 + own * 13 % MOST_BOXES),
        },
        t.event: {"batch_id": t.event.c.batch_id + done},
    }
    for table, columns in new.items():
        names = [one.name for one in table.c if one.name != "id" or "id" in columns]
        farm = table.c.batch_id if table is t.event else table.c.id
        copied = select(*(columns.get(name, table.c[name]) for name in names)).where(farm <= many)
        connection.execute(insert(table).from_select(names, copied, include_defaults=False))


def number(farm: int) -> str:
    """The farm's phone: reserved for fiction."""
    return f"{AREA}{farm:07d}"


def _person(kind: Kind) -> dict[str, object]:
    return {"cooperative_id": 1, "language": kind.language, "created_at": kind.batch.arrived_at}


def _phone(farm: int, kind: Kind) -> dict[str, object]:
    arrived = kind.batch.arrived_at
    assert arrived is not None
    heard = MORNING - timedelta(days=farm % SILENT_DAYS, hours=12, seconds=farm % 3600)
    return {
        "cooperative_id": 1,
        "person_id": farm,
        "number": number(farm),
        "consent": "active",
        "heard_at": max(arrived, heard),
        "created_at": arrived,
    }


def _batch(farm: int, kind: Kind) -> dict[str, object]:
    batch = kind.batch
    assert batch.arrived_at is not None
    return {
        "phone_id": farm,
        "person_id": farm,
        "state": batch.state,
        "count": BOX * (1 + farm * 13 % MOST_BOXES),
        "placed_on": batch.placed_on,
        "arrived_at": batch.arrived_at + timedelta(minutes=farm % 400),
        "heat": batch.heat[0],
        "thermometer": batch.thermometer,
        "said": kind.lines,
        "next_due": MORNING,
        "created_at": batch.arrived_at,
    }


def _entries(farm: int, kind: Kind) -> list[dict[str, object]]:
    """Two to five entries of the last days, in amounts that hardly another farm has."""
    age = (MORNING.date() - (kind.batch.placed_on or MORNING.date())).days
    told: list[tuple[str, dict[str, float]]] = [
        ("deaths", {"n": 1 + farm % 3}),
        ("feed_in", {"kg": 50 + farm / 8 % 400}),
        ("temperature", {"value_c": 24 + farm % 90 / 10}),
        ("feed_eaten", {"kg": 2 + farm % 170 / 10}),
        ("weight", {"avg_g": 40.0 + 40 * age + farm % 25}),
    ]
    return [
        {"batch_id": farm, "kind": kind_of, "on_date": at.date(), "at": at, "data": data}
        for days, (kind_of, data) in enumerate(told[: 2 + farm % 4])
        for at in [MORNING - timedelta(days=min(days, age), hours=11, seconds=farm % 7200)]
    ]
