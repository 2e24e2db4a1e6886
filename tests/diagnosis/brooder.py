"""A small brooder of its own: air, heat, wind and litter as a few plain states with a clock of
minutes; chicks that go where it is warm, still and dry. It shares no table with content/; its
figures are invented for the test, near what a brooder of some ten square metres shows.

In: a trouble to plant, a chance. Out: a `Brooder`, what could be seen in it, what an action of ours
does to it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import cos, exp, hypot, pi, sin
from random import Random

FIRES = ("charcoal", "kerosene", "wood")
SHELL_W_K, AIR_W_K = 25.0, 90.0  # loss a degree: the shell's, and for each square metre of gap
SLOW_MIN = 20.0  # minutes in which the air goes most of the way to its new warmth
GLOW_C, GLOW_M = 6.0, 0.5  # what a stove adds beside it, and how far that reaches
COMFORT_C = 2.0  # how far from what they want a chick still stays
RINGS = (0.25, 0.6, 0.95, 1.25)  # metres from the middle; the last is along the wall
TURNS = tuple(2 * pi * step / 12 for step in range(12))
UNDER = 1.5  # the air between the stoves is right when it is this much below what a chick wants


@dataclass
class Brooder:
    """outside_c, air_c: warmth outside and between the stoves [C]. heat_w: of all stoves, burning
    share `lit`. gap: opening at the top [m2]; wide: minutes for which it is opened wider. stove_at:
    metres from the middle. wind: draught at chick height from one side [m/s]. wet: litter moisture
    in the middle [0-1]. sharp: ammonia [ppm]. dry_h, empty_h: hours without water or feed in reach.
    mould, smoke, ill: shares. dense: birds against the room they need. tracks: of an animal."""

    age: int
    heat: str = "charcoal"
    outside_c: float = 22.0
    heat_w: float = 900.0
    lit: float = 1.0
    gap: float = 0.4
    wide: float = 0.0
    stove_at: float = 0.0
    wind: float = 0.1
    wet: float = 0.25
    sharp: float = 4.0
    dry_h: float = 0.0
    empty_h: float = 0.0
    mould: float = 0.0
    dense: float = 0.7
    smoke: float = 0.0
    ill: float = 0.0
    tracks: bool = False
    air_c: float = field(default=0.0)

    @property
    def wanted_c(self) -> float:
        return 33.0 - 0.45 * min(self.age, 21)

    @property
    def off_c(self) -> float:
        """How far the air is from right; below 0 too cold."""
        return self.air_c - (self.wanted_c - UNDER)

    def settled_c(self) -> float:
        """Where the air would come to rest."""
        gap = self.gap + (0.6 if self.wide > 0 else 0.0)
        return self.outside_c + self.lit * self.heat_w / (SHELL_W_K + AIR_W_K * gap)

    def settle_at(self, off_c: float) -> None:
        """Choose the heat so that the air rests this far from right, and let it rest."""
        wanted = self.wanted_c - UNDER + off_c
        self.heat_w = max(0.0, wanted - self.outside_c) * (SHELL_W_K + AIR_W_K * self.gap)
        self.air_c = self.settled_c()

    def minute(self) -> None:
        self.air_c += (self.settled_c() - self.air_c) / SLOW_MIN
        self.wide = max(0.0, self.wide - 1)

    def felt_c(self, x: float, y: float) -> float:
        """Warmth on a chick at this spot: air, glow, less what the wind takes."""
        reach = hypot(x - self.stove_at, y) / (GLOW_M + self.stove_at)
        glow = self.lit * (GLOW_C + 4 * self.stove_at) * exp(-(reach**2))
        chill = 5.0 * max(0.0, self.wind - 0.2) * max(0.0, 0.4 + x)
        return self.air_c + glow - chill

    def places(self) -> dict[tuple[float, float], float]:
        """Where the chicks are: the share on each spot (ring, x)."""
        found: dict[tuple[float, float, float], float] = {}
        for ring in RINGS:
            for turn in TURNS:
                x, y = ring * cos(turn), ring * sin(turn)
                off = self.felt_c(x, y) - self.wanted_c
                damp = 2.5 * max(0.0, self.wet - 0.3) * (ring < 0.9)
                found[ring, x, y] = ring * exp(-((off / COMFORT_C) ** 2) / 2 - 2 * damp)
        whole = sum(found.values())
        shares: dict[tuple[float, float], float] = {}
        for (ring, x, _), weight in found.items():
            shares[ring, x] = shares.get((ring, x), 0.0) + weight / whole
        return shares

    def mean_off_c(self) -> float:
        """How far chicks on average feel from what they want."""
        shares = self.places()
        return sum(
            share * (self.felt_c(x, (max(0.0, ring**2 - x**2)) ** 0.5) - self.wanted_c)
            for (ring, x), share in shares.items()
        )


PLANTED = (
    ("cold", 18), ("hot", 16), ("draught", 9), ("uneven_heat", 5), ("damp_litter", 11),
    ("ammonia", 8), ("thirst", 6), ("hunger", 7), ("crowding", 4), ("fumes", 3), ("sick", 8),
    ("predator", 2), ("feed_problem", 3), ("comfortable", 12),
)  # fmt: skip


def planted(cause: str, chance: Random) -> Brooder:
    """A brooder with one thing wrong; the rest varies a little."""
    made = Brooder(
        age=chance.randint(1, 12),
        heat=chance.choice((*FIRES, "gas", "bulb")),
        outside_c=chance.uniform(14, 24),
        gap=chance.uniform(0.3, 0.5),
        wet=chance.uniform(0.15, 0.35),
    )
    off = chance.gauss(0, 0.6)
    if cause == "cold":
        off = chance.uniform(-9, -4.5)
        made.outside_c = min(made.outside_c, made.wanted_c - 12)
    elif cause == "hot":
        off = chance.uniform(4, 8)
    elif cause == "draught":
        made.wind = chance.uniform(0.7, 1.5)
    elif cause == "uneven_heat":
        made.stove_at, off = chance.uniform(0.6, 0.9), chance.uniform(0.5, 2)
    elif cause == "damp_litter":
        made.wet = chance.uniform(0.6, 0.9)
    elif cause == "ammonia":
        made.wet, made.sharp = chance.uniform(0.3, 0.45), chance.uniform(25, 70)
    elif cause == "thirst":
        made.dry_h = chance.uniform(3, 10)
    elif cause == "hunger":
        made.empty_h = chance.uniform(4, 12)
    elif cause == "crowding":
        made.dense = chance.uniform(1.4, 2.2)
    elif cause == "fumes":
        made.smoke = chance.uniform(0.5, 1)
    elif cause == "sick":
        made.ill = chance.uniform(0.02, 0.2)
    elif cause == "predator":
        made.tracks = True
    elif cause == "feed_problem":
        made.mould = chance.uniform(0.5, 1)
    made.settle_at(off)
    return made


def holding(state: Brooder) -> set[str]:
    """The causes that hold in this state; "comfortable" where none does."""
    found = {
        "cold": state.off_c < -3,
        "hot": state.off_c > 3,
        "draught": state.wind > 0.5,
        "uneven_heat": state.stove_at > 0.5,
        "damp_litter": state.wet > 0.5,
        "ammonia": state.sharp > 20,
        "thirst": state.dry_h > 2,
        "hunger": state.empty_h > 3,
        "crowding": state.dense > 1.3,
        "fumes": state.smoke > 0.4,
        "sick": state.ill > 0,
        "predator": state.tracks,
        "feed_problem": state.mould > 0.4,
    }
    return {cause for cause, holds in found.items() if holds} or {"comfortable"}


def place(state: Brooder, chance: Random) -> str:
    """Where a person sees them to be; of all far off, some say at the walls, some away from it."""
    shares = state.places()
    near = sum(share for (ring, _), share in shares.items() if ring < 0.5)
    wall = sum(share for (ring, _), share in shares.items() if ring > 1.1)
    left = sum(share for (_, x), share in shares.items() if x < -1e-9)
    right = sum(share for (_, x), share in shares.items() if x > 1e-9)
    if max(left, right) > 0.62:
        return "crowded_one_side"
    if near > 0.45:
        return "piled_near_heat"
    if near < 0.001 and chance.random() < 0.5:
        return "away_from_heat"
    return "at_edges_or_walls" if wall > 0.52 else "spread_evenly"


def showing(state: Brooder, chance: Random) -> set[str]:
    """What could be seen by someone who looks at everything."""
    found = {place(state, chance)}
    feels = state.mean_off_c()

    def maybe(sign: str, likely: float, *, where: bool = True) -> None:
        if where and chance.random() < likely:
            found.add(sign)

    maybe("panting", 0.95, where=feels > 2.5)
    maybe("wings_spread", 0.6, where=feels > 2.5)
    maybe("drinking_more", 0.4, where=feels > 2.5)
    maybe("noisy_distress", 0.8, where=feels < -2)
    maybe("litter_cold", 0.4, where=state.off_c < -4)
    maybe("rain_or_wind_in", 0.9, where=state.wind > 0.5)
    maybe("noisy_distress", 0.3, where=state.wind > 0.5)
    maybe("litter_wet", 1, where=state.wet > 0.5)
    maybe("litter_caked", 0.4, where=state.wet > 0.5)
    maybe("ammonia_smell", 1, where=state.sharp > 20)
    maybe("eyes_swollen_or_closed", (state.sharp - 20) / 100, where=state.sharp > 20)
    maybe("not_drinking", 0.6, where=state.dry_h > 2)
    maybe("drinking_less", 0.7, where=state.dry_h > 2)
    maybe("noisy_distress", 0.5, where=max(state.dry_h - 2, state.empty_h - 3) > 0)
    maybe("feed_finished", 0.6, where=state.empty_h > 3)
    maybe("crop_empty", 0.85, where=state.empty_h > 3)
    maybe("feed_mouldy", 0.95, where=state.mould > 0.4)
    maybe("not_eating", 0.6, where=state.mould > 0.4)
    maybe("uneven_size", 0.6, where=state.dense > 1.3)
    maybe("cannibalism_or_pecking", 0.7, where=state.dense > 1.3)
    maybe("smoke_or_fumes", 1, where=state.smoke > 0.4)
    maybe("lethargic", 0.7, where=state.ill > 0)
    maybe("white_or_green_diarrhoea", 0.5, where=state.ill > 0)
    maybe("sneezing_or_rattle", 0.4, where=state.ill > 0)
    maybe("feathers_ruffled", 0.4, where=state.ill > 0)
    maybe("not_eating", 0.3, where=state.ill > 0)
    maybe("rats_or_predator", 1, where=state.tracks)
    maybe("quiet_content", 0.8, where=found == {"spread_evenly"})
    return found


def carry_out(state: Brooder, key: str) -> None:
    """What an advised action does to the brooder, by the key of its text."""
    room = max(1.0, state.wanted_c - state.outside_c)
    loss = SHELL_W_K + AIR_W_K * state.gap
    if key.startswith(("cold", "relight", "power", "believe_cold", "smother")):
        state.lit = 1.0
        state.heat_w += 0.35 * room * loss  # one more stove beside about three
    elif key in ("hot_one", "hot_wood", "hot_none", "hot_more", "believe_hot"):
        state.wide = 10
    elif key in ("hot_gas", "hot_bulb"):
        state.wide, state.heat_w = 10, 0.75 * state.heat_w
    elif key in ("hot_stove_out", "hot_stove_first", "hot_by_day", "hot_open_fire", "hot_open_off"):
        state.heat_w *= 0.66
    elif key in ("hot_open", "ammonia_open"):
        state.gap += 0.6
    elif key.startswith("ammonia"):
        state.wide, state.wet, state.sharp = 10, 0.25, 10
    elif key.startswith("draught"):
        state.wind, state.gap = 0.1, max(0.25, state.gap - 0.05)
    elif key.startswith("uneven"):
        state.stove_at = 0.0
    elif key.startswith("damp"):
        state.wet = 0.25
    elif key.startswith("fumes"):
        state.wide, state.smoke = 20, 0.0
