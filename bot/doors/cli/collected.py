"""The texts collected so far: the examples of every language, what the adviser's list holds, and
files of one's own. In: content folders, a data folder, JSON Lines. Out: `Collected`. Called by
`changes`.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import Connection, Row, select

from bot.doors.context import ZONE
from bot.errors import BroodpostError
from bot.handbook.shape_words import Example
from bot.handbook.words import EXAMPLE_CONTEXT, load_collected, load_examples
from bot.records import tables as t
from bot.records.session import Database


@dataclass(frozen=True, slots=True)
class Collected:
    """A text that was once sent or thought of. lang: the language stored for its sender, or None.
    context: of the farm, as in contract 1. example: what it is known to mean, None where nobody has
    said so. fresh: the changed folder brings this example, or says anew what it means. where: whose
    it is, for a reader."""

    text: str
    lang: str | None
    context: Mapping[str, object]
    where: str
    example: Example | None = None
    fresh: bool = False


def examples(live: Path, changed: Path) -> list[Collected]:
    """Every example of the changed folder, and those of the live one that it took out, of which
    nothing is expected any more."""
    before = {_key(one): one for one in all_examples(live)}
    after = {_key(one): one for one in all_examples(changed)}
    found = [_example(one, fresh=before.get(key) != one) for key, one in after.items()]
    return found + [
        Collected(one.text, None, one.context, f"{one.language}, taken out")
        for key, one in before.items()
        if key not in after
    ]


def all_examples(content: Path) -> Iterator[Example]:
    """Every example and every collected text of a content folder, language by language."""
    for folder in sorted(path for path in (content / "languages").iterdir() if path.is_dir()):
        yield from load_examples(folder)
        yield from load_collected(folder)


def _key(one: Example) -> tuple[str, str, str]:
    return one.language, one.text, json.dumps(one.context, sort_keys=True, default=str)


def _example(one: Example, *, fresh: bool) -> Collected:
    return Collected(one.text, None, one.context, one.language, one, fresh)


def from_lines(file: str, lines: Iterable[str]) -> Iterator[Collected]:
    """Texts of a file: {"text", "lang", "context"} a line as in contract 1; with an "intent", and
    the other keys of an example, it is known what the text means."""
    for number, line in enumerate(lines, start=1):
        if line.strip():
            try:
                yield _from_line(json.loads(line), f"{file}:{number}")
            except (ValueError, TypeError, KeyError, AttributeError) as error:
                raise BroodpostError(f"{file}:{number}: {type(error).__name__}: {error}") from error


def _from_line(row: Mapping[str, Any], where: str) -> Collected:
    context = {**EXAMPLE_CONTEXT, **(row.get("context") or {})}
    lang, text = row.get("lang"), str(row["text"])
    if row.get("intent") is None:
        return Collected(text, lang, context, where)
    example = Example(
        language=str(lang),
        text=text,
        intent=str(row["intent"]),
        also=tuple(row.get("also") or row.get("intent_also_ok") or ()),
        slots=row.get("slots") or {},
        signals=tuple(row.get("signals") or ()),
        not_signals=tuple(row.get("not_signals") or ()),
        cause=tuple(row.get("cause") or ()),
        red_flag=bool(row.get("red_flag")),
        context=context,
    )
    return Collected(text, lang, context, where, example)


def not_understood(db: Database) -> list[Collected]:
    """The texts of the adviser's list, ticked off or not, each once; farms as they were then."""
    with db.read() as connection:
        rows = connection.execute(
            select(t.unread.c.text, t.unread.c.at, t.turn.c.phone_id, t.person.c.language)
            .select_from(t.unread.join(t.turn).outerjoin(t.phone).outerjoin(t.person))
            .order_by(t.unread.c.id)
        ).all()
        batches = _batches(connection)
    found: dict[tuple[str, str | None], Collected] = {}
    for row in rows:
        context = _farm(row.at, batches.get(row.phone_id, []))
        made = Collected(row.text, row.language, context, "adviser's list")
        found.setdefault((row.text.casefold().strip(), row.language), made)
    return list(found.values())


def _batches(connection: Connection) -> dict[int | None, list[Row[Any]]]:
    found: dict[int | None, list[Row[Any]]] = {}
    for row in connection.execute(select(t.batch).order_by(t.batch.c.id)):
        found.setdefault(row.phone_id, []).append(row)
    return found


def _farm(at: datetime, batches: list[Row[Any]]) -> dict[str, object]:
    """The context of a text: its sender's youngest batch at that time."""
    today = at.astimezone(ZoneInfo(ZONE)).date()
    known = [one for one in batches if one.created_at <= at and one.placed_on is not None]
    if not known:
        return {"has_batch": False, "today": today.isoformat()}
    batch = known[-1]
    return {
        "has_batch": True,
        "age_days": (today - batch.placed_on).days,
        "count": batch.count,
        "today": today.isoformat(),
    }
