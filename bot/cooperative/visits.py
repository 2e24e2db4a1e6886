"""Which farms need somebody today, in order of need, each with its reason. Pure. In: what waits on
the adviser's list, with what is known of each farm now. Out: the farms, the most urgent first.

The order is common practice, without a source: danger, a complaint that is not better, deaths above
what chance brings, weight or feed behind, silence, an essential step that is late, a wish to be
called. A farm on which a disease that must be reported is suspected comes last and alone, so that
nobody carries it on: that is the order of the road, not of the haste. What waited so long that it
says nothing of today, or has settled by itself, is left out; it stays in the record.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from itertools import groupby
from typing import Literal, get_args

Need = Literal[
    "danger", "worse", "deaths", "behind", "silent", "late", "call", "asked", "suspected"
]
NEEDS: tuple[Need, ...] = get_args(Need)
NEED_OF: Mapping[str, Need] = {
    "danger": "danger",
    "worse": "worse",
    "deaths": "deaths",
    "sale": "deaths",
    "behind": "behind",
    "intake": "behind",
    "heat": "behind",
    "count": "behind",
    "silent": "silent",
    "late": "late",
    "call_me": "call",
}
SETTLES = ("over", "vet_free")  # what a farmer tells that takes a danger back
LASTS = {  # so long a line says something of today
    "danger": timedelta(days=7),
    "worse": timedelta(days=7),
    "deaths": timedelta(days=7),
    "sale": timedelta(days=14),
    "behind": timedelta(days=14),
    "intake": timedelta(days=3),
    "heat": timedelta(days=3),
    "count": timedelta(days=14),
    "silent": timedelta(days=14),
    "late": timedelta(days=28),
}
LONGEST = timedelta(days=28)  # everything else, and what is read at all


@dataclass(frozen=True, slots=True)
class Flock:
    """A batch as it is now. troubled: whether a complaint is open."""

    id: int
    state: str
    placed_on: date | None = None
    birds: int | None = None
    held: bool = False
    troubled: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """A line that waits on the adviser's list. told: its reason as codes and figures. words: the
    farmer's own text with which it came."""

    id: int
    kind: str
    at: datetime
    told: Mapping[str, object] = field(default_factory=dict)
    words: str | None = None
    flock: Flock | None = None


@dataclass(frozen=True, slots=True)
class Farm:
    """Who needs somebody. person_id: None where the number never joined. heard_at: when a text last
    came from this phone."""

    person_id: int | None
    name: str | None = None
    number: str | None = None
    place: str | None = None
    heard_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Visit:
    """A farm that needs somebody: its most urgent need, all its lines, the one that speaks for it
    first. flock: the batch that this line is about."""

    farm: Farm
    need: Need
    lines: tuple[Line, ...]
    flock: Flock | None

    @property
    def first(self) -> Line | None:
        return next(iter(self.lines), None)


def in_order(
    waiting: Iterable[tuple[Farm, Line]], held: Iterable[tuple[Farm, Flock]], now: datetime
) -> list[Visit]:
    """The farms that need somebody. waiting: the open lines. held: batches on which a disease that
    must be reported is suspected, whether a line is open or not."""
    lines: dict[object, list[Line]] = {}
    farms: dict[object, Farm] = {}
    suspected: dict[object, Flock] = {}
    for farm, line in waiting:
        if stands(farm, line, now):
            lines.setdefault(_key(farm, line), []).append(line)
            farms[_key(farm, line)] = farm
    for farm, flock in held:
        suspected[_key(farm, None)] = flock
        farms[_key(farm, None)] = farm
    found = [_visit(farms[key], lines.get(key, []), suspected.get(key)) for key in farms]
    return sorted((one for one in found if one is not None), key=_rank)


def _key(farm: Farm, line: Line | None) -> object:
    """Lines of one farm belong together; those of nobody we know stand alone."""
    if farm.person_id is not None:
        return farm.person_id
    return farm.number or ("line", line.id if line else None)


def stands(farm: Farm, line: Line, now: datetime) -> bool:
    """Whether a line still says something of today."""
    flock = line.flock
    if now - line.at > LASTS.get(line.kind, LONGEST):
        return False
    if line.kind == "silent" and farm.heard_at is not None and farm.heard_at > line.at:
        return False
    if flock is None:
        return True
    if line.kind == "late":
        return flock.state == "planned"
    if line.kind == "worse":
        return flock.troubled and flock.state != "closed"
    return flock.state != "closed" or line.kind not in NEED_OF or line.kind == "call_me"


def _visit(farm: Farm, lines: Sequence[Line], suspected: Flock | None) -> Visit | None:
    ordered = sorted(
        lines,
        key=lambda one: (
            NEEDS.index(_need(one, lines)),
            one.told.get("what") != "fumes",
            -one.at.timestamp(),
        ),
    )
    if suspected is not None:
        return Visit(farm, "suspected", tuple(ordered), suspected)
    if not ordered:
        return None
    return Visit(farm, _need(ordered[0], lines), tuple(ordered), ordered[0].flock)


def _need(line: Line, lines: Iterable[Line]) -> Need:
    """What a line asks for. A danger that the farmer took back afterwards asks for a word."""
    if line.kind == "danger" and _is_settled(line, lines):
        return "asked"
    return NEED_OF.get(line.kind, "asked")


def _is_settled(line: Line, lines: Iterable[Line]) -> bool:
    flock = line.flock
    return flock is not None and any(
        one.flock is not None
        and one.flock.id == flock.id
        and one.told.get("what") in SETTLES
        and one.id >= line.id
        for one in lines
    )


def _rank(visit: Visit) -> tuple[int, bool, float, int]:
    """Need first; people in bad air before birds; among equals whatever came last."""
    first = visit.first
    at = first.at.timestamp() if first else 0.0
    birds_only = first is None or first.told.get("what") != "fumes"
    return NEEDS.index(visit.need), birds_only, -at, visit.farm.person_id or 0


@dataclass(frozen=True, slots=True)
class Group:
    """The farms of one need."""

    need: Need
    visits: tuple[Visit, ...]


def groups(visits: Iterable[Visit]) -> list[Group]:
    """Farms in order, by need."""
    return [Group(need, tuple(found)) for need, found in groupby(visits, lambda one: one.need)]


@dataclass(frozen=True, slots=True)
class Reason:
    """Why, as a key under `reason` in desk.yaml with its values. causes, steps, signs: codes that
    are worded apart; in the wording they stand as {cause} and {steps}."""

    key: str
    values: Mapping[str, object] = field(default_factory=dict)
    cause: str | None = None
    steps: tuple[str, ...] = ()
    signs: tuple[str, ...] = ()


OTHER = "other"
WORDED = (*NEED_OF, "not_me", "caretaker", "about_me", "robot", "storm")
NEEDS_VALUES: Mapping[str, tuple[str, ...]] = {
    "danger_deaths_of": ("dead", "alive"),
    "danger_deaths": ("dead",),
    "danger_fumes": (),
    "danger_notifiable": (),
    "danger_many": (),
    "danger_blood": (),
    "danger_ill": (),
    "danger_dull": (),
    "danger_no_vet": (),
    "danger_vet_free": (),
    "danger_vet_found": (),
    "danger_over": (),
    "worse_tried": ("cause",),
    "worse_same": ("cause",),
    "worse_worse": ("cause",),
    "worse_unclear": (),
    "worse_unseen": (),
    "worse_unheard": (),
    "worse_air": (),
    "worse_heap": (),
    "deaths_more": ("dead", "alive", "day"),
    "sale_held": ("n",),
    "sale_treated": ("n",),
    "behind_weight": ("day", "g", "usual"),
    "behind_no_reason": (),
    "heat_low": ("day",),
    "heat_high": ("day",),
    "count_gap": ("n", "alive", "gap"),
    "silent_days": ("days",),
    "late_steps": ("steps", "days"),
}


def reason_of(line: Line, today: date, told_on: date) -> Reason:
    """Why a line waits, as of today. told_on: the local day on which it came."""
    values = {name: value for name, value in line.told.items() if value is not None}
    if line.kind == "silent" and isinstance(values.get("days"), int):
        values["days"] = int(str(values["days"])) + (today - told_on).days
    if line.kind == "late" and line.flock and line.flock.placed_on:
        values["days"] = max(0, (line.flock.placed_on - today).days)
    key = next((one for one in _keys(line, values) if _fits(one, values)), "")
    key = key or (line.kind if line.kind in WORDED else OTHER)
    return Reason(
        key,
        {name: values[name] for name in NEEDS_VALUES.get(key, ())},
        str(values["cause"]) if "cause" in values else None,
        _codes(values.get("steps")),
        _codes(values.get("signs")),
    )


def _keys(line: Line, values: Mapping[str, object]) -> tuple[str, ...]:
    """The wordings that may fit, the fullest first."""
    what = values.get("what")
    if line.kind == "danger" and what == "deaths":
        return ("danger_deaths_of", "danger_deaths", "danger_many")
    fixed = {"deaths": "deaths_more", "count": "count_gap", "silent": "silent_days",
             "late": "late_steps"}  # fmt: skip
    return (fixed.get(line.kind, f"{line.kind}_{what}"),)


def _fits(key: str, values: Mapping[str, object]) -> bool:
    return key in NEEDS_VALUES and set(NEEDS_VALUES[key]) <= set(values)


def _codes(value: object) -> tuple[str, ...]:
    return tuple(str(one) for one in value) if isinstance(value, list | tuple) else ()
