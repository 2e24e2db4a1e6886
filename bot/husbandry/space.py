"""Floor, feeders, drinkers, stoves, light and litter. Pure; ages in days, areas in m2.
Called by the calendar, the answers and `figures`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, floor, pi, sqrt

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Equipment, Husbandry
from bot.husbandry.limits import check, check_age, check_count, step

MOST_M2 = 5000.0
ROUNDING = 1e-9  # so that 300 birds at exactly 3.0 pieces stay 3 pieces


@dataclass(frozen=True, slots=True)
class Floor:
    """The floor of a batch [m2]: for the birds, for the equipment, and what stands on it."""

    birds_m2: float
    equipment_m2: float
    feeders: int
    feeder_kind: str
    drinkers: int
    drinker_kind: str
    stoves: int

    @property
    def total_m2(self) -> float:
        return self.birds_m2 + self.equipment_m2


@dataclass(frozen=True, slots=True)
class Light:
    """Hours of light a day, and the longest dark piece at least [h]."""

    light_h: float
    dark_piece_h: float


def birds_per_m2(age_days: int, h: Husbandry) -> float:
    """Birds a m2 of floor, in steps: 40 at ages 0-6, 30, 20, 15, 10 from 28. Valid at ages 0-56."""
    check_age(age_days, int(h.birds_per_m2.last))
    return step(h.birds_per_m2.points, age_days)


def floor_needed(
    count: int,
    age_days: int,
    h: Husbandry,
    *,
    feeders: int | None = None,
    drinkers: int | None = None,
    stoves: int | None = None,
) -> Floor:
    """The floor of a brooder [m2], equipment included. Without numbers: feeders and drinkers as
    the birds need them and one stove for 250. Valid for 1-50,000 birds, ages 0-56."""
    density = birds_per_m2(age_days, h)
    check_count(count)
    feeder, drinker = default_feeder(age_days, h), default_drinker(age_days, h)
    feeders = feeders_needed(count, age_days, h) if feeders is None else feeders
    drinkers = drinkers_needed(count, age_days, h) if drinkers is None else drinkers
    stoves = stoves_needed(count, h) if stoves is None else stoves
    for name, pieces in (("feeders", feeders), ("drinkers", drinkers), ("stoves", stoves)):
        check(name, pieces, 0, 5000, "pieces")
    equipment = (
        feeders * h.feeders[feeder].footprint_m2
        + drinkers * h.drinkers[drinker].footprint_m2
        + stoves * h.stove_footprint.value
    )
    return Floor(count / density, equipment, feeders, feeder, drinkers, drinker, stoves)


def ring_across_m(area_m2: float) -> float:
    """Diameter [m] of a round ring of this floor. Valid for 0.5-5000 m2."""
    check("area_m2", area_m2, 0.5, MOST_M2, "square metres")
    return 2 * sqrt(area_m2 / pi)


def strip_length_m(area_m2: float, width_m: float) -> float:
    """Length [m] of a brooder of this floor where the house is only so wide. Valid for 0.5-5000 m2
    and 0.5-20 m."""
    check("area_m2", area_m2, 0.5, MOST_M2, "square metres")
    check("width_m", width_m, 0.5, 20, "metres")
    return area_m2 / width_m


def capacity_birds(house_m2: float, age_days: int, h: Husbandry) -> int:
    """How many birds a clear floor of house_m2 holds at an age. Valid for 0.5-5000 m2."""
    check("house_m2", house_m2, 0.5, MOST_M2, "square metres; 10 square feet are about 1")
    return floor(house_m2 * birds_per_m2(age_days, h) + ROUNDING)


def capacity_with_equipment(house_m2: float, age_days: int, h: Husbandry) -> int:
    """As capacity_birds, but with feeders, drinkers and stoves standing on the floor too."""
    most = capacity_birds(house_m2, age_days, h)
    low, high = 0, most
    while low < high:
        middle = (low + high + 1) // 2
        if floor_needed(middle, age_days, h).total_m2 <= house_m2:
            low = middle
        else:
            high = middle - 1
    return low


def default_feeder(age_days: int, h: Husbandry) -> str:
    """Trays for the first week, then tube feeders."""
    return "tray" if age_days <= h.tray_until_age.value else "tube"


def default_drinker(age_days: int, h: Husbandry) -> str:
    """Founts in the brooder, then bells."""
    return "fount" if age_days <= h.fount_until_age.value else "bell"


def feeders_needed(count: int, age_days: int, h: Husbandry, kind: str | None = None) -> int:
    """How many feeders; kind tray, tube or trough (of 1 m, eaten from both sides)."""
    check_age(age_days)
    return _pieces(count, age_days, _kind(h.feeders, kind or default_feeder(age_days, h)))


def drinkers_needed(count: int, age_days: int, h: Husbandry, kind: str | None = None) -> int:
    """How many drinkers; kind fount, bell or nipple."""
    check_age(age_days)
    return _pieces(count, age_days, _kind(h.drinkers, kind or default_drinker(age_days, h)))


def stoves_needed(count: int, h: Husbandry) -> int:
    """One heat source for 250 chicks (common practice)."""
    check_count(count)
    return ceil(count / h.birds_per_stove.value)


def _kind(known: Mapping[str, Equipment], kind: str) -> Equipment:
    if kind not in known:
        raise OutsideRange(f"kind {kind} is not one that we know", ", ".join(known))
    return known[kind]


def _pieces(count: int, age_days: int, equipment: Equipment) -> int:
    check_count(count)
    serves = [row for row in equipment.serves if row[0] <= age_days][-1]
    _, birds, pieces = serves
    return max(1, ceil(count * pieces / birds - ROUNDING))


def light(age_days: int, h: Husbandry) -> Light:
    """Hours of light and the longest dark piece. Valid at ages 0-56."""
    check_age(age_days, int(h.light_hours.last))
    return Light(step(h.light_hours.points, age_days), step(h.dark_piece.points, age_days))


def litter_m3(area_m2: float, depth_cm: float) -> float:
    """Litter for a floor [m3]. Valid for 0.5-5000 m2 and 2-20 cm."""
    check("area_m2", area_m2, 0.5, MOST_M2, "square metres")
    check("depth_cm", depth_cm, 2, 20, "centimetres; 5 to 10 is usual")
    return area_m2 * depth_cm / 100


def litter_bags(volume_m3: float, h: Husbandry) -> int:
    """Feed sacks of loose shavings or husks for a volume, rounded up."""
    return ceil(volume_m3 / h.litter_bag.value - ROUNDING)
