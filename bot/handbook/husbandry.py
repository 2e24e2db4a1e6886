"""Loads content/sources.yaml and content/husbandry/*.yaml into frozen shapes.

In: the content folder. Out: `Sources` and `Husbandry`. Called by wiring, the command line and the
proof. Every cited id must resolve, every key must be known, and a table that must rise with age
(or fall, where `falls: true` stands) is refused when it does not: HandbookError names file and key.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import fields
from itertools import pairwise
from pathlib import Path
from typing import Any, get_args, get_origin, get_type_hints

from bot.errors import HandbookError
from bot.handbook.shape_husbandry import (
    STATUSES,
    Constant,
    Curve,
    Entry,
    Equipment,
    Fuel,
    GasLimit,
    Grid,
    Growth,
    GrowthRow,
    Husbandry,
    Phases,
    Source,
    Sources,
    Steps,
)
from bot.handbook.strict import Section, read_section

FOLDER = "husbandry"


def load_sources(content: Path) -> Sources:
    """The sources of content/sources.yaml by id."""
    file = read_section(content / "sources.yaml")
    return Sources({key: _source(key, file.section(key)) for key in file.keys()})


def _source(key: str, section: Section) -> Source:
    source = Source(
        key,
        section.text("title"),
        section.text("organisation", ""),
        section.text("year", ""),
        section.text("section", ""),
    )
    section.done()
    return source


def load_husbandry(content: Path) -> Husbandry:
    """All figures of content/husbandry/. Missing and unknown names are refused."""
    sources = load_sources(content)
    found = _found(content / FOLDER)
    kinds = get_type_hints(Husbandry)
    values: dict[str, Any] = {"sources": sources}
    for one in fields(Husbandry):
        if one.name == "sources":
            continue
        if one.name not in found:
            raise HandbookError(FOLDER, one.name, "is missing in every file")
        values[one.name] = _made(found.pop(one.name), one.name, kinds[one.name], sources)
    for name, section in found.items():
        section.refuse("", f"{name} is not a figure that we know")
    return Husbandry(**values)


def _found(folder: Path) -> dict[str, Section]:
    """Every top key of every file, as a section; a name may stand in one file only."""
    found: dict[str, Section] = {}
    for path in sorted(folder.glob("*.yaml")):
        file = read_section(path)
        for name in file.keys():
            if name in found:
                file.refuse(name, f"stands in {found[name].file} too")
            found[name] = file.section(name)
    return found


def _made(section: Section, name: str, kind: Any, sources: Sources) -> object:
    """One field of Husbandry: an entry, or a mapping of entries by kind."""
    if get_origin(kind) is None:
        return _entry(section, name, kind, sources)
    wanted = get_args(kind)[1]
    return {key: _entry(section.section(key), key, wanted, sources) for key in section.keys()}


def _entry(section: Section, name: str, kind: Any, sources: Sources) -> Entry:
    common = _common(section, name, sources)
    entry = _BUILDERS[kind](section, common)
    section.done()
    return entry


Common = tuple[str, str, tuple[str, ...], tuple[str, ...], str]


def _common(section: Section, name: str, sources: Sources) -> Common:
    cited = section.texts("source")
    for source_id in cited:
        if source_id not in sources:
            section.refuse("source", f"{source_id} is not in sources.yaml")
    if not cited:
        section.refuse("source", "is empty; a figure without a source is common-practice")
    return (
        name,
        section.text("unit"),
        cited,
        _statuses(section, len(cited)),
        section.text("note", ""),
    )


def _statuses(section: Section, sources: int) -> tuple[str, ...]:
    """One status for all sources, or a list with one for each."""
    raw = section.take("status")
    found = tuple(raw) if isinstance(raw, list) else (raw,) * sources
    if len(found) != sources:
        section.refuse("status", "must be one word or a list as long as source")
    for one in found:
        if one not in STATUSES:
            section.refuse("status", f"must be one of: {', '.join(STATUSES)}")
    return tuple(str(one) for one in found)


def _constant(section: Section, common: Common) -> Constant:
    low = section.number("low") if section.has("low") else None
    high = section.number("high") if section.has("high") else None
    value = section.number("value")
    if (low is not None and low > value) or (high is not None and high < value):
        section.refuse("value", "must lie between low and high")
    return Constant(*common, value, low, high)


def _curve(section: Section, common: Common) -> Curve:
    points = _points(section, "points")
    _check_direction(section, "points", [y for _, y in points])
    return Curve(*common, section.text("of"), points)


def _steps(section: Section, common: Common) -> Steps:
    points = _points(section, "steps")
    _check_direction(section, "steps", [y for _, y in points])
    last = section.number("last")
    if last < points[-1][0]:
        section.refuse("last", "must not come before the last step")
    return Steps(*common, section.text("of"), points, last)


def _grid(section: Section, common: Common) -> Grid:
    columns = section.numbers("columns")
    _check_rising(section, "columns", columns)
    rows = tuple((row[0], row[1:]) for row in _tuples(section, "rows", 1 + len(columns)))
    _check_rising(section, "rows", [age for age, _ in rows])
    falls = section.flag("falls", False)
    for at in range(len(columns)):
        _check_order(section, "rows", [values[at] for _, values in rows], falls)
    return Grid(*common, columns, rows)


def _phases(section: Section, common: Common) -> Phases:
    points: list[tuple[int, str]] = []
    inner = section.sections("phases")
    for one in inner:
        points.append((one.whole("from_age"), one.text("name")))
        one.done()
    _check_rising(section, "phases", [age for age, _ in points])
    return Phases(*common, tuple(points))


def _growth(section: Section, common: Common) -> Growth:
    columns = section.texts("columns")
    known = ("age_days", "weight_g", "feed_day_g", "feed_total_g", "feed_conversion", "deaths_pct")
    if columns[:2] != known[:2] or any(name not in known for name in columns):
        section.refuse("columns", f"must be age_days, weight_g and any of {', '.join(known[2:])}")
    rows = tuple(_growth_row(section, columns, row) for row in section.rows("rows"))
    _check_rising(section, "rows", [row.age_days for row in rows])
    for name in known[1:]:
        values = [getattr(row, name) for row in rows if getattr(row, name) is not None]
        _check_order(section, f"rows ({name})", values, False)
    return Growth(*common, rows)


def _growth_row(section: Section, columns: Sequence[str], row: object) -> GrowthRow:
    if not isinstance(row, list) or len(row) != len(columns):
        section.refuse("rows", f"each row must have {len(columns)} values: {row}")
    cells = dict(zip(columns, row, strict=True))
    for name, value in cells.items():
        optional = value is None and name not in ("age_days", "weight_g")
        if not optional and (isinstance(value, bool) or not isinstance(value, int | float)):
            section.refuse("rows", f"{name} must be a number: {row}")
    return GrowthRow(
        int(cells["age_days"]),
        float(cells["weight_g"]),
        cells.get("feed_day_g"),
        cells.get("feed_total_g"),
        cells.get("feed_conversion"),
        cells.get("deaths_pct"),
    )


def _equipment(section: Section, common: Common) -> Equipment:
    serves = tuple(
        (int(age), birds, pieces) for age, birds, pieces in _tuples(section, "serves", 3)
    )
    _check_rising(section, "serves", [age for age, _, _ in serves])
    return Equipment(*common, serves, section.number("footprint_m2"))


def _fuel(section: Section, common: Common) -> Fuel:
    low, usual, high = _triple(section, "share")
    if not 0 < low <= usual <= high <= 1:
        section.refuse("share", "must rise between 0 and 1")
    return Fuel(
        *common, section.number("heating_mj_kg"), (low, usual, high), section.flag("vented")
    )


def _gas_limit(section: Section, common: Common) -> GasLimit:
    points = _points(section, "points")
    _check_order(section, "points", [-limit for _, limit in points], False)
    return GasLimit(*common, section.text("gas"), section.text("who"), points)


_BUILDERS: dict[type, Callable[[Section, Common], Entry]] = {
    Constant: _constant,
    Curve: _curve,
    Steps: _steps,
    Grid: _grid,
    Phases: _phases,
    Growth: _growth,
    Equipment: _equipment,
    Fuel: _fuel,
    GasLimit: _gas_limit,
}


def _tuples(section: Section, key: str, length: int) -> tuple[tuple[float, ...], ...]:
    """A list of lists of `length` numbers."""
    found = []
    for row in section.rows(key):
        if not isinstance(row, list) or len(row) != length:
            section.refuse(key, f"each row must have {length} numbers: {row}")
        if any(isinstance(cell, bool) or not isinstance(cell, int | float) for cell in row):
            section.refuse(key, f"each row must have {length} numbers: {row}")
        found.append(tuple(float(cell) for cell in row))
    if not found:
        section.refuse(key, "is empty")
    return tuple(found)


def _points(section: Section, key: str) -> tuple[tuple[float, float], ...]:
    points = tuple((x, y) for x, y in _tuples(section, key, 2))
    _check_rising(section, key, [x for x, _ in points])
    return points


def _triple(section: Section, key: str) -> tuple[float, float, float]:
    found = section.numbers(key)
    if len(found) != 3:
        section.refuse(key, "must be three numbers: low, usual, high")
    return found[0], found[1], found[2]


def _check_direction(section: Section, key: str, values: Sequence[float]) -> None:
    _check_order(section, key, values, section.flag("falls", False))


def _check_order(section: Section, key: str, values: Sequence[float], falls: bool) -> None:
    """A table rises with age, or falls where the file says so; level stretches are fine."""
    for before, after in pairwise(values):
        if (after > before) if falls else (after < before):
            word = "rises" if falls else "falls"
            section.refuse(key, f"{word} from {before:g} to {after:g}")


def _check_rising(section: Section, key: str, values: Iterable[float]) -> None:
    """Ages and the like stand in order, none twice."""
    for before, after in pairwise(values):
        if after <= before:
            section.refuse(key, f"must be in order: {before:g} stands before {after:g}")
