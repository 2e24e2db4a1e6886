"""What SQLite and PostgreSQL say in different words. Used by records.case and records.planning.

`one_of` takes a list of ids as one bound value: a statement is worded, parsed and kept once,
however many ids there are. `json_rows` brings the rows that hang on another row as one JSON value,
so that they take no statement of their own and multiply nothing, `json_row` one row: a value costs
less than its columns. `listed` takes rows to write as one bound value.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    Boolean,
    Dialect,
    Integer,
    Text,
    TypeDecorator,
    bindparam,
    cast,
    column,
    func,
)
from sqlalchemy.dialects.postgresql import ARRAY
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.functions import FunctionElement
from sqlalchemy.types import TypeEngine


class Ids(TypeDecorator[list[int]]):
    """A list of ids, bound as one value."""

    impl = JSON
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        return ARRAY(Integer()) if dialect.name == "postgresql" else JSON()


class one_of(FunctionElement[bool]):
    """one_of(column, ids): whether the column holds one of them."""

    name = "one_of"
    type = Boolean()
    inherit_cache = True
    _is_implicitly_boolean = True  # else SQLite is asked "... = 1", which no index answers


@compiles(one_of, "postgresql")
def _any(element: one_of, compiler: Any, **how: Any) -> str:
    column, ids = element.clauses
    return f"{compiler.process(column, **how)} = ANY ({compiler.process(ids, **how)})"


@compiles(one_of, "sqlite")
def _each(element: one_of, compiler: Any, **how: Any) -> str:
    column, ids = element.clauses
    listed = f"SELECT value FROM json_each({compiler.process(ids, **how)})"
    return f"{compiler.process(column, **how)} IN ({listed})"


def listed(name: str, columns: Mapping[str, TypeEngine[Any]]) -> Any:
    """Rows bound as one JSON value of that name: however many they are, PostgreSQL takes them in
    one statement, and it costs less than a list a column. Bind them as `as_json` gives them."""
    own = (column(one, kind) for one, kind in columns.items())
    rows = func.json_to_recordset(cast(bindparam(name, type_=Text), JSON))
    return rows.table_valued(*own, name=f"{name}_rows").render_derived(with_types=True)


def as_json(rows: Sequence[Mapping[str, object]]) -> str:
    """Rows of plain values, dates, moments and JSON, as `listed` takes them."""
    return _ENCODER.encode(rows)


def _iso(day: date) -> str:
    """A date, or a moment with its zone."""
    return day.isoformat()


_ENCODER = json.JSONEncoder(default=_iso)


class json_rows(FunctionElement[Any]):
    """json_rows(column, ...): all rows as a list of lists, in no order; None or [] where there are
    none. Moments come as text (`moment_of`), truths as true or 1."""

    name = "json_rows"
    type = JSON()
    inherit_cache = True


class json_row(FunctionElement[Any]):
    """json_row(column, ...): the columns of a row as a list; None where the first is empty."""

    name = "json_row"
    type = JSON()
    inherit_cache = True


@compiles(json_rows, "postgresql")
def _built(element: json_rows, compiler: Any, **how: Any) -> str:
    return f"json_agg({_array(element, compiler, **how)})"


@compiles(json_rows, "sqlite")
def _grouped(element: json_rows, compiler: Any, **how: Any) -> str:
    return f"json_group_array({_array(element, compiler, **how)})"


@compiles(json_row, "postgresql")
@compiles(json_row, "sqlite")
def _row(element: json_row, compiler: Any, **how: Any) -> str:
    first = compiler.process(next(iter(element.clauses)), **how)
    return f"CASE WHEN {first} IS NOT NULL THEN {_array(element, compiler, **how)} END"


def _array(element: FunctionElement[Any], compiler: Any, **how: Any) -> str:
    said = [(compiler.process(one, **how), one.type) for one in element.clauses]
    if compiler.dialect.name == "postgresql":
        return f"json_build_array({', '.join(one for one, _ in said)})"
    columns = (f"json({one})" if isinstance(kind, JSON) else one for one, kind in said)
    return f"json_array({', '.join(columns)})"


def moment_of(text: str) -> datetime:
    """The moment that stands in JSON: with its zone (PostgreSQL), or without, in UTC (SQLite)."""
    found = datetime.fromisoformat(text)
    return found if found.tzinfo is not None else found.replace(tzinfo=UTC)
