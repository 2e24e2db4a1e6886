"""The migrations lead to exactly the tables of the code, and back, on both databases."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from bot.cooperative.sealed import unseal
from bot.errors import BroodpostError
from bot.records.migrate import check, downgrade, go_to, upgrade
from bot.records.session import Database
from bot.records.tables import metadata
from tests.bench.databases import Place


@pytest.fixture(params=["sqlite", "postgresql"])
def empty(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """A database without a table."""
    if request.param == "sqlite":
        url = f"sqlite:///{tmp_path / 'empty.db'}"
    else:
        url = Place("postgresql", request.getfixturevalue("postgres_url")).make("migrations")
    db = Database(url)
    yield db
    db.close()


def test_migrating_up_gives_the_tables_of_the_code(empty: Database) -> None:
    upgrade(empty)
    with empty.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []
    check(empty)


def test_migrating_down_leaves_no_table_and_up_again_works(empty: Database) -> None:
    upgrade(empty)
    downgrade(empty)
    assert set(inspect(empty.engine).get_table_names()) <= {"alembic_version"}
    upgrade(empty)
    check(empty)


def test_a_database_that_was_never_migrated_is_named_as_such(empty: Database) -> None:
    with pytest.raises(BroodpostError, match="migration None"):
        check(empty)


SAID = """INSERT INTO said (batch_id, placement_version, row, on_date, slot) VALUES
(1, 1, 'paper_off', '2026-03-04', 'morning'), (1, 2, 'day', '2026-03-05', 'morning'),
(1, 2, 'ring_open', '2026-03-05', 'morning'), (1, 2, 'look_low', '2026-03-05', 'night')"""


def test_a_database_in_use_is_brought_forward_and_back_with_what_was_said(empty: Database) -> None:
    go_to(empty, "0001")
    tables = ("cooperative", "phone", "batch")
    shapes = {table: inspect(empty.engine).get_columns(table) for table in tables}
    with empty.engine.begin() as connection:
        for table, columns in shapes.items():
            needed = {one["name"]: plain_value(one) for one in columns if not one["nullable"]}
            names, values = ", ".join(needed), ", ".join(needed.values())
            connection.execute(text(f"INSERT INTO {table} ({names}) VALUES ({values})"))
        connection.execute(text("UPDATE batch SET placement_version = 2"))
        connection.execute(text(SAID))
        connection.execute(
            text(
                "INSERT INTO event (batch_id, kind, on_date, at, data) VALUES "
                "(1, 'deaths', '2026-03-04', '2026-03-04 05:00:00', '{}')"
            )
        )
    upgrade(empty)
    with empty.engine.connect() as connection:
        lines = connection.execute(text("SELECT said FROM batch")).scalar_one()
    assert lines == "2026-03-05 morning day ring_open\n2026-03-05 night look_low\n"
    go_to(empty, "0001", down=True)
    with empty.engine.connect() as connection:
        found = connection.execute(text("SELECT row, slot FROM said ORDER BY id")).all()
    assert [tuple(one) for one in found] == [
        ("day", "morning"),
        ("ring_open", "morning"),
        ("look_low", "night"),
    ]


def test_second_factors_that_lay_in_plain_are_sealed_and_hold(empty: Database) -> None:
    secret, plain = b"of the service", "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP"
    go_to(empty, "0012")
    shapes = {one: inspect(empty.engine).get_columns(one) for one in ("cooperative", "staff")}
    with empty.engine.begin() as connection:
        for table, own in (
            ("cooperative", {}),
            ("staff", {"sign_in": "'a'", "second_secret": f"'{plain}'"}),
            ("staff", {"sign_in": "'b'", "id": "2"}),
        ):
            needed = {one["name"]: plain_value(one) for one in shapes[table] if not one["nullable"]}
            names, values = ", ".join(needed | own), ", ".join((needed | own).values())
            connection.execute(text(f"INSERT INTO {table} ({names}) VALUES ({values})"))
    upgrade(empty, secret)
    with empty.engine.connect() as connection:
        whole = connection.execute(text("SELECT * FROM staff ORDER BY id")).all()
        kept = connection.execute(text("SELECT second_sealed FROM staff ORDER BY id")).scalars()
        first, second = kept
    assert plain not in str(whole)
    assert (unseal(secret, 1, first), second) == (plain, None)
    go_to(empty, "0012", down=True, secret=secret)
    with empty.engine.connect() as connection:
        back = connection.execute(text("SELECT second_secret FROM staff ORDER BY id")).scalars()
        assert list(back) == [plain, None]


def plain_value(column: Any) -> str:
    """A value of a column's type; 1 for ids and numbers."""
    kind = str(column["type"]).upper()
    values = {"VARCHAR": "'x'", "TEXT": "'x'", "DATE": "'2026-03-02'", "TIME": "'06:00'",
              "BOOLEAN": "false", "JSON": "'{}'"}  # fmt: skip
    if kind.startswith(("DATETIME", "TIMESTAMP")):
        return "'2026-03-02 05:00:00'"
    return next((value for name, value in values.items() if kind.startswith(name)), "1")
