"""The shape of the calendar: rows that are said, questions that are asked, sizes of their texts.

Made by `handbook.calendar` from content/calendar/; read by `bot.day` (pure). Ages are whole days
since placement, negative before it. Plain frozen dataclasses, no I/O.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Literal

from bot.handbook.shape_husbandry import Husbandry

SLOTS = ("arrival", "feed", "crop", "morning", "night", "fire", "fumes", "sale", "rest")
UNVENTED = ("charcoal", "kerosene", "gas", "wood")
HEATS = ("fire", "gas", "bulb", "unknown", "none")
NIGHTS = ("warm", "cool", "cold", "unknown")
# What is foretold of the coming night (bot.day.tonight): this brooder falls below its target, as
# its own record shows; most do; it would on a night of so many degrees, where none is foretold.
TONIGHT = ("yours", "most", "degrees")
# What the record or the weather warns of (bot.day.warnings).
WARNINGS = (
    "feed_falls",
    "water_falls",
    "feed_two_days",
    "feed_today",
    "fuel_ends",
    "cold_long",
    "hot_long",
    "hot_day",
)
# The days on which a vaccine is due: by content/calendar/vaccines.yaml; or, where the cooperative
# keeps its vet's programme in its own rules, by that.
VACCINE = ("today", "tomorrow", "programme_today", "programme_tomorrow")


@dataclass(frozen=True, slots=True)
class When:
    """On which farms a row counts; () or None means on all.

    heat: any of "fire" (charcoal, kerosene, wood), "gas" (gas and no such fire), "bulb", "unknown"
    (not said yet, taken for a fire), "none". several: more than one stove or heater. nights: any
    of NIGHTS. ready: warm nights and feathered, so that no heat is needed after the move.
    thermometer: True only where there is one, False where there is none or it was
    not said. feathered: "yes", "no", "unknown". held: only (not) while a disease is suspected.
    may_sell: not held and no withdrawal running. last_wait_day: the last day of a withdrawal.
    wait_unknown: treated, and the days on the label were not told.
    hot: heat was seen lately. awaited: planned and not yet said to be here. weighed: (not) weighed
    in the last four days. mix: the cooperative allows the first water with glucose and vitamins.
    silent: nothing was heard for days on which we wrote. well, troubled: no, or any, trouble of
    these ("cold", "hot" ...: bot.day.standing.troubles). moved: (not) in the new house. tonight:
    any of TONIGHT. warned: any of WARNINGS. vaccine: any of VACCINE. looks: some condition needs a
    look into the batch's record.
    """

    heat: tuple[str, ...] = ()
    nights: tuple[str, ...] = ()
    feathered: tuple[str, ...] = ()
    ready: bool | None = None
    thermometer: bool | None = None
    held: bool | None = None
    may_sell: bool | None = None
    last_wait_day: bool | None = None
    wait_unknown: bool | None = None
    hot: bool | None = None
    awaited: bool | None = None
    weighed: bool | None = None
    mix: bool | None = None
    several: bool | None = None
    silent: bool | None = None
    well: tuple[str, ...] = ()
    troubled: tuple[str, ...] = ()
    moved: bool | None = None
    tonight: tuple[str, ...] = ()
    warned: tuple[str, ...] = ()
    vaccine: tuple[str, ...] = ()
    looks: bool = field(init=False, compare=False)

    def __post_init__(self) -> None:
        asked = (self.hot, self.weighed, self.may_sell, self.last_wait_day, self.wait_unknown,
                 self.silent, self.tonight or None, self.warned or None)  # fmt: skip
        object.__setattr__(self, "looks", any(one is not None for one in asked))


@dataclass(frozen=True, slots=True)
class Row:
    """One thing to say.

    first, last: ages at which it belongs; a row said once may still be said up to `expires`, late
    but not stale; a recurring one comes again every `every` days, counted from `first`, and may be
    said on the `window` first days of each turn. after: counts only once that row was said on an
    earlier day. priority: smaller first. essential: never dropped. size: septets its text may take.
    by: of a step of the countdown, the age by which it must be done; None: no step. fire: it adds
    heat, lights a stove or closes curtains. figures: names of the numbers placed in
    it (bot.day.figures). does: what it tells to do (content/calendar/opposites.yaml).
    """

    id: str
    slot: str
    first: int
    last: int
    expires: int
    every: int | None
    window: int
    after: str | None
    priority: int
    essential: bool
    text: str
    size: int
    fire: bool
    figures: tuple[str, ...] = ()
    when: When = field(default_factory=When)
    does: tuple[str, ...] = ()
    source: tuple[str, ...] = ()
    by: int | None = None

    @property
    def once(self) -> bool:
        return self.every is None


@dataclass(frozen=True, slots=True)
class Ask:
    """One question of the calendar, by its id. name to high: as in talk.Question;
    high None for a number means "as many as are alive". times: how often it is asked at most;
    every: days until it is asked again; window: where given, once in each turn of `every` days, on
    its first days; after: only once that row was said on an earlier day. Fields shared with Row
    mean the same."""

    id: str
    name: str
    kind: Literal["menu", "number"]
    prompt: str
    first: int
    last: int
    every: int
    window: int | None
    times: int
    priority: int
    text: str
    size: int
    options: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    after: str | None = None
    figures: tuple[str, ...] = ()
    when: When = field(default_factory=When)
    source: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pace:
    """How close together routine questions may come. Ages up to `early_last`: at least
    `early_gap` days apart, later `late_gap`. A question with `always` priority or less waits for
    no gap (feathers, nights, arrival)."""

    early_last: int
    early_gap: int
    late_gap: int
    always: int


@dataclass(frozen=True, slots=True, eq=False)  # so that what counts of it can be kept by it
class Calendar:
    """The whole calendar. rows: by slot and age, essentials first, then by priority; a row is
    listed at every age at which it may be said. asks: by age. sizes: septets of every text that a
    day may hold. book: the husbandry figures that numbers come from. against: pairs of acts that no
    farmer is told on one day. advised: trouble -> the acts that the advice on it names. vaccines:
    ages on which the cooperative's vet has set one."""

    rows: Mapping[str, Mapping[int, tuple[Row, ...]]]
    asks: Mapping[int, tuple[Ask, ...]]
    all_rows: tuple[Row, ...]
    all_asks: tuple[Ask, ...]
    sizes: Mapping[str, int]
    pace: Pace
    first_age: int
    last_age: int
    book: Husbandry
    against: tuple[tuple[str, str], ...] = ()
    advised: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    vaccines: tuple[int, ...] = ()

    def opposes(self, acts: Collection[str], others: Collection[str]) -> bool:
        """Whether one of these acts contradicts one of the others."""
        return any(
            (a in acts and b in others) or (b in acts and a in others) for a, b in self.against
        )

    def at(self, slot: str, age: int) -> tuple[Row, ...]:
        """The rows of a slot that may be said at an age."""
        return self.rows[slot].get(age, ())
