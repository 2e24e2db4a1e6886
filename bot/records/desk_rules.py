"""The versions of a cooperative's rules: drafts, those in force, those before. In: a connection
inside a transaction, the cooperative's id. Called by the page "Our rules".

What counts stands in the cooperative's own row, which every turn and tick reads anew; a version
keeps who set it, who approved it, and what it said.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Select, bindparam, func, insert, select, update

from bot.cooperative.may import PROVED
from bot.cooperative.rules import Values, values_of, with_values
from bot.facts.farm import Cooperative
from bot.records import tables as t
from bot.records.spending import take_up

PAST = 20
WAKES = ("place", "hours", "vaccines", "nights")  # groups that move the moments of a day


@dataclass(frozen=True, slots=True)
class Version:
    """One version of a group. by, agreed: names; by is None for what stood there before anybody
    changed the group."""

    id: int
    group: str
    values: Values
    state: str
    staff_id: int | None
    by: str | None
    agreed: str | None
    made_at: datetime
    agreed_at: datetime | None


def _versions() -> Select[Any]:
    by, agreed = t.staff.alias("by"), t.staff.alias("agreed")
    return (
        select(t.rules, by.c.name.label("by"), agreed.c.name.label("agreed"))
        .select_from(
            t.rules.outerjoin(by, by.c.id == t.rules.c.staff_id).outerjoin(
                agreed, agreed.c.id == t.rules.c.agreed_by
            )
        )
        .where(t.rules.c.cooperative_id == bindparam("own"))
    )


# Made once: building them costs a page more than asking them.
_ROW = t.rules.c
_OPEN = _versions().where(_ROW.state.in_(("live", "draft"))).order_by(_ROW.id.desc())
_COUNTED = (
    _versions()
    .where(_ROW.part == bindparam("group"), _ROW.state.in_(("live", "past")))
    .order_by(_ROW.agreed_at.is_(None), _ROW.agreed_at.desc(), _ROW.id.desc())
    .limit(PAST)
)
_ONE = _versions().where(_ROW.id == bindparam("number"))


def _version(row: Any) -> Version:
    return Version(row.id, row.part, row.data, row.state, row.staff_id, row.by, row.agreed,
                   row.made_at, row.agreed_at)  # fmt: skip


def open_versions(connection: Connection, cooperative_id: int) -> list[Version]:
    """Those in force and the drafts, the newest first. One statement."""
    return [_version(row) for row in connection.execute(_OPEN, {"own": cooperative_id})]


def versions_of(connection: Connection, cooperative_id: int, group: str) -> list[Version]:
    """Those of a group that counted, the newest first. One statement."""
    given = {"own": cooperative_id, "group": group}
    return [_version(row) for row in connection.execute(_COUNTED, given)]


def version(connection: Connection, cooperative_id: int, number: int) -> Version | None:
    """One version; None where the cooperative has none of that number."""
    row = connection.execute(_ONE, {"own": cooperative_id, "number": number}).first()
    return None if row is None else _version(row)


def approvers(connection: Connection, cooperative_id: int) -> int:
    """How many of the staff may approve."""
    row = t.staff.c
    return int(
        connection.execute(
            select(func.count()).where(
                row.cooperative_id == cooperative_id,
                row.role.in_(PROVED),
                row.disabled.is_(False),
            )
        ).scalar_one()
    )


def keep_draft(
    connection: Connection, cooperative_id: int, group: str, values: Values, staff_id: int,
    now: datetime,
) -> int:  # fmt: skip
    """Keep a draft; its number."""
    return _put(connection, cooperative_id, group, values, "draft", staff_id, now)


def _put(
    connection: Connection, cooperative_id: int, group: str, values: Values, state: str,
    staff_id: int | None, now: datetime,
) -> int:  # fmt: skip
    made = connection.execute(
        insert(t.rules).values(
            cooperative_id=cooperative_id, part=group, data=values, state=state,
            staff_id=staff_id, made_at=now,
        )
    ).inserted_primary_key  # fmt: skip
    assert made is not None
    return int(made[0])


def drop(connection: Connection, cooperative_id: int, number: int) -> bool:
    """Put a draft away; False where it is none."""
    return _moved(connection, cooperative_id, number, state="dropped")


def put_live(
    connection: Connection, cooperative: Cooperative, draft: Version, agreed_by: int, now: datetime
) -> bool:
    """The draft counts from now on: for the next text of a farmer, and the next look of the clock.
    cooperative: as it is, held in this transaction. False where it is no draft any more."""
    own, rule = cooperative.id, t.rules.c
    if not _moved(connection, own, draft.id, state="live", agreed_by=agreed_by, agreed_at=now):
        return False
    ended = connection.execute(
        update(t.rules)
        .where(
            rule.cooperative_id == own, rule.part == draft.group, rule.state == "live",
            rule.id != draft.id,
        )
        .values(state="past")
    )  # fmt: skip
    if not ended.rowcount:
        before = values_of(draft.group, cooperative)
        _put(connection, own, draft.group, before, "past", None, now)
    columns = _columns(with_values(cooperative, draft.group, draft.values))
    connection.execute(update(t.cooperative).where(t.cooperative.c.id == own).values(**columns))
    if draft.group in WAKES:
        _wake(connection, own, now)
    budget = columns["budget"]
    if isinstance(budget, int) and budget != cooperative.budget:
        take_up(connection, cooperative, budget, now)
    return True


def _moved(connection: Connection, cooperative_id: int, number: int, **values: object) -> bool:
    row = t.rules.c
    changed = connection.execute(
        update(t.rules)
        .where(row.id == number, row.cooperative_id == cooperative_id, row.state == "draft")
        .values(**values)
    )
    return changed.rowcount == 1


def _columns(one: Cooperative) -> dict[str, object]:
    """The row of a cooperative, as far as its rules say it."""
    rows = [[row.age, row.words, row.by, row.on.isoformat()] for row in one.programme]
    return {
        "name": one.name, "language": one.language, "vet_number": one.vet_number,
        "authority_number": one.authority_number, "region": one.region,
        "timezone": one.timezone, "allowed_from": one.allowed_from,
        "allowed_to": one.allowed_to, "routine_at": one.routine_at, "night_at": one.night_at,
        "quiet": list(one.quiet), "water_mix": one.water_mix, "programme": rows,
        "normals": [list(pair) for pair in one.normals], "prices": dict(one.prices),
        "budget": one.budget, "second_from": one.second_from, "limits": dict(one.limits),
    }  # fmt: skip


def _wake(connection: Connection, cooperative_id: int, now: datetime) -> None:
    """The clock looks at every batch anew: its next moment was worked out by the rules before."""
    phones = select(t.phone.c.id).where(t.phone.c.cooperative_id == cooperative_id)
    connection.execute(
        update(t.batch)
        .where(t.batch.c.phone_id.in_(phones), t.batch.c.next_due.is_not(None))
        .values(next_due=now)
    )
