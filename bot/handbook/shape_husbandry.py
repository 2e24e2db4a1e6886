"""The shapes of the husbandry figures: plain frozen dataclasses, one kind of table each.

Made by `bot.handbook.husbandry` from content/; read by `bot.husbandry` (pure). Every entry carries
its unit, the ids of its sources and for each a status: "read" (seen in a copy of the source), "from
memory", "computed" (arithmetic on the source) or "common practice".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields

PSEUDO = ("common-practice", "from-memory")
STATUSES = ("read", "from memory", "computed", "common practice")


@dataclass(frozen=True, slots=True)
class Source:
    """A published work, or one of the pseudo-sources common-practice and from-memory."""

    id: str
    title: str
    organisation: str = ""
    year: str = ""
    section: str = ""

    def said(self) -> str:
        """The source in one line, for a reader."""
        by = " ".join(part for part in (self.organisation, self.year) if part)
        text = f"{self.title} ({by})" if by else self.title
        return f"{text}, {self.section}" if self.section else text


@dataclass(frozen=True, slots=True)
class Sources:
    """All sources by id."""

    by_id: Mapping[str, Source]

    def __contains__(self, source_id: object) -> bool:
        return source_id in self.by_id

    def said(self, *entries: Entry) -> str:
        """Where the figures of these entries come from and how sure we are, in one line."""
        found: dict[str, None] = {}
        for entry in entries:
            for source_id, status in zip(entry.source, entry.status, strict=True):
                text = self.by_id[source_id].said()
                found[text if source_id in PSEUDO else f"{text}: {status}"] = None
        return "; ".join(found)


@dataclass(frozen=True, slots=True)
class Entry:
    """What every figure carries, whatever its shape. status: one for each source."""

    name: str
    unit: str
    source: tuple[str, ...]
    status: tuple[str, ...]
    note: str


@dataclass(frozen=True, slots=True)
class Constant(Entry):
    """One number, with the range in which sources or farms differ."""

    value: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Curve(Entry):
    """Points (x, y) that a straight line joins; x rises. `of` names x."""

    of: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Steps(Entry):
    """Values that hold from x until the next step, up to `last`. `of` names x."""

    of: str
    points: tuple[tuple[float, float], ...]
    last: float


@dataclass(frozen=True, slots=True)
class Grid(Entry):
    """A table of two arguments: rows by age, columns by relative humidity in percent."""

    columns: tuple[float, ...]
    rows: tuple[tuple[float, tuple[float, ...]], ...]


@dataclass(frozen=True, slots=True)
class Phases(Entry):
    """Named spans of age: the name holds from its first age until the next."""

    points: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class GrowthRow:
    """One day of a strain's table. Weights and feed in g a bird; what is not printed is None."""

    age_days: int
    weight_g: float
    feed_day_g: float | None
    feed_total_g: float | None
    feed_conversion: float | None
    deaths_pct: float | None


@dataclass(frozen=True, slots=True)
class Growth(Entry):
    """A strain's table, as hatched; ages rise. deaths_pct is cumulative."""

    rows: tuple[GrowthRow, ...]


@dataclass(frozen=True, slots=True)
class Equipment(Entry):
    """A kind of feeder, drinker or stove.

    serves: (from age, birds, pieces): from that age so many pieces serve so many birds.
    footprint_m2: floor that one piece takes from the birds.
    """

    serves: tuple[tuple[int, float, float], ...]
    footprint_m2: float


@dataclass(frozen=True, slots=True)
class Fuel(Entry):
    """A fuel: net heating value [MJ/kg], the share of it that warms the brooder (engineering
    guess: low, usual, high), and whether its smoke stays in the room."""

    heating_mj_kg: float
    share: tuple[float, float, float]
    vented: bool


@dataclass(frozen=True, slots=True)
class GasLimit(Entry):
    """The most of a gas that people or birds may breathe; by exposure [minutes] where published.

    points: (minutes, limit); one point with 0 minutes where no time is published.
    """

    gas: str
    who: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # so that formulas can be cached by it
class Husbandry:
    """Every husbandry figure of the handbook. Field names are the keys in content/husbandry/."""

    sources: Sources
    # temperature
    spot_start: Constant
    spot_fall: Constant
    spot_floor: Constant
    spot_band: Constant
    spot_far: Constant
    late_spot: Constant
    late_spot_ages: Constant
    hardening_low: Constant
    hardening_ages: Constant
    grown_cold: Constant
    grown_low: Constant
    air_temperature: Grid
    litter_temperature: Constant
    # space and equipment
    birds_per_m2: Steps
    density_caution: Constant
    density_from_age: Constant
    birds_per_stove: Constant
    stove_footprint: Constant
    feeders: Mapping[str, Equipment]
    drinkers: Mapping[str, Equipment]
    tray_until_age: Constant
    fount_until_age: Constant
    # light and litter
    light_hours: Steps
    dark_piece: Steps
    litter_depth: Constant
    litter_bag: Constant
    # growth, feed, water
    growth: Mapping[str, Growth]
    chick_multiple: Constant
    feed_phases: Phases
    feed_bag: Constant
    water_ratio: Constant
    water_rise: Constant
    water_rise_from: Constant
    intake_fall: Constant
    crop_fill: Curve
    feed_spread: Constant
    # losses
    first_week_deaths: Constant
    danger_least: Constant
    danger_pct: Constant
    quiet_pct: Constant
    unusual_chance: Constant
    unusual_chance_two: Constant
    # air and heat
    minimum_air: Constant
    air_changes: Constant
    air_density: Constant
    air_heat: Constant
    gas_limits: Mapping[str, GasLimit]
    charcoal_co: Constant
    bird_heat: Constant
    bird_heat_fall: Constant
    sensible_share: Constant
    sensible_fall: Constant
    wall_loss: Mapping[str, Constant]
    roof_loss: Constant
    floor_loss: Constant
    fuels: Mapping[str, Fuel]
    # heat stress
    stress_dry: Constant
    stress_wet: Constant
    stress_watch: Constant
    stress_act: Constant
    stress_danger: Constant
    stress_from_age: Constant
    # a brooder of which nothing was measured
    brooder_height: Constant
    guessed_night: Constant
    stove_burn: Mapping[str, Constant]
    fuel_measure: Mapping[str, Constant]
    charcoal_sack: Constant
    bulb_w: Constant
    # money
    feed_cost_share: Constant
    other_cost_share: Constant
    costs_before: Constant
    price_ratio: Constant
    sold_from: Constant
    # groups and sale
    uniformity_band: Constant
    confidence_z: Constant
    crate_floor: Constant
    crate_space: Steps
    production_factor: Constant
    # spreads behind forecasts
    growth_start_sd: Constant
    growth_pace_sd: Constant
    growth_wander_sd: Constant
    scale_sd: Constant
    bird_cv: Constant
    behind_errors: Constant
    loss_sd: Constant
    fill_sd: Constant
    weather_sd: Constant
    loss_drift_sd: Constant
    reading_sd: Constant
    outside_sd: Constant
    evening_lag: Constant
    evening_lag_sd: Constant
    normal_sd: Constant
    persistence: Constant
    stove_heat: Constant
    usual_night: Constant
    usual_night_house: Constant
    nights_low: Mapping[str, Constant]
    night_swing: Constant
    calm_sd: Constant
    piling_below: Constant
    piling_sd: Constant
    alarm_chance: Constant
    warmest_hour: Constant
    coldest_hour: Constant
    empty_days: Constant
    # texts
    text_part: Constant

    def entries(self) -> tuple[Entry, ...]:
        """Every entry of the book, for proofs and lists."""
        found: list[Entry] = []
        for one in fields(self):
            value = getattr(self, one.name)
            if isinstance(value, Entry):
                found.append(value)
            elif isinstance(value, Mapping):
                found.extend(value.values())
        return tuple(found)
