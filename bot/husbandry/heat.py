"""The heat of birds, the heat a brooder needs, and the fuel for it. Pure; W, C, m, kg.
Called by the answers, the desk and `figures`. Bird heat: CIGR (2002), broilers."""

from __future__ import annotations

from dataclasses import dataclass

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Fuel, Husbandry
from bot.husbandry.air import POWER
from bot.husbandry.limits import check, check_count, check_weight

SECONDS_AN_HOUR = 3600
FEET = "metres; if you measured in feet, multiply by 0.3"
MOST_M2_A_BIRD = 2.0  # above this the house was surely measured in feet (common practice)


@dataclass(frozen=True, slots=True)
class BirdHeat:
    """Heat of one bird [W]: total, and the sensible part that warms the air."""

    total_w: float
    sensible_w: float


@dataclass(frozen=True, slots=True)
class HeatNeed:
    """Heat balance of a brooder [W]: loss through shell and air, what the birds give, the rest.

    need_w below 0: the birds cover the loss and no fuel is needed."""

    shell_w_k: float
    air_m3h: float
    loss_w: float
    birds_w: float

    @property
    def need_w(self) -> float:
        return self.loss_w - self.birds_w


def bird_heat_w(weight_g: float, temperature_c: float, h: Husbandry) -> BirdHeat:
    """Heat of a broiler [W]: 10.62 m^0.75 at 20 C; a 1000 W: total 1000 + 20 (20 - t), sensible
    0.61 of that - 0.228 t^2, not below 0 (CIGR 2002). Valid for 25-6000 g and 0-45 C."""
    check_weight(weight_g)
    check("temperature_c", temperature_c, 0, 45, "degrees C; a reading in F must be converted")
    at_20 = h.bird_heat.value * (weight_g / 1000) ** POWER / 1000
    total = 1000 + h.bird_heat_fall.value * (20 - temperature_c)
    sensible = h.sensible_share.value * total - h.sensible_fall.value * temperature_c**2
    return BirdHeat(at_20 * total, at_20 * max(0.0, sensible))


def shell_w_k(length_m: float, width_m: float, height_m: float, walls: str, h: Husbandry) -> float:
    """Heat loss of walls, roof and floor [W/K]: U-value x area each; the roof a metal sheet, the
    floor litter on the ground. Valid for 0.5-40 m, 0.5-20 m and 0.3-6 m."""
    check_house(length_m, width_m, height_m)
    if walls not in h.wall_loss:
        raise OutsideRange(f"walls {walls} are not known here", ", ".join(h.wall_loss))
    wall_m2 = 2 * (length_m + width_m) * height_m
    floor_m2 = length_m * width_m
    ends = h.roof_loss.value + h.floor_loss.value
    return wall_m2 * h.wall_loss[walls].value + floor_m2 * ends


def check_house(length_m: float, width_m: float, height_m: float) -> None:
    """OutsideRange unless these can be the metres of a smallholder's house."""
    check("length_m", length_m, 0.5, 40, FEET)
    check("width_m", width_m, 0.5, 20, FEET)
    check("height_m", height_m, 0.3, 6, FEET)


def check_floor_for(count: int, length_m: float, width_m: float) -> None:
    """OutsideRange when the floor is absurd for the birds: more than 2 m2 for each."""
    if length_m * width_m > MOST_M2_A_BIRD * count:
        raise OutsideRange(
            f"{length_m:g} m by {width_m:g} m is very large for {count} birds",
            f"up to {MOST_M2_A_BIRD:g} square metres a bird; are these feet? multiply by 0.3",
        )


def air_of_changes_m3h(length_m: float, width_m: float, height_m: float, h: Husbandry) -> float:
    """The air [m3/h] that passes where the top stays open for a fire without a flue: 3 changes an
    hour (common practice). A heat loss, never a promise that the air is safe."""
    check_house(length_m, width_m, height_m)
    return h.air_changes.value * length_m * width_m * height_m


def heat_needed(
    inside_c: float,
    outside_c: float,
    shell: float,
    air_m3h: float,
    count: int,
    weight_g: float,
    h: Husbandry,
) -> HeatNeed:
    """Heat balance [W]: (shell [W/K] + air) x (inside - outside) - sensible heat of the birds.
    Valid for 5-40 C inside, -20 to 40 outside and not above inside, shell 0-20,000 W/K."""
    check("inside_c", inside_c, 5, 40, "degrees C; a reading in F must be converted")
    check("outside_c", outside_c, -20, inside_c, "degrees C, not above inside_c")
    check("shell_w_k", shell, 0.1, 20_000, "W/K")
    check("air_m3h", air_m3h, 0, 200_000, "cubic metres an hour")
    check_count(count)
    air_w_k = air_m3h * h.air_density.value * h.air_heat.value / SECONDS_AN_HOUR
    loss = (shell + air_w_k) * (inside_c - outside_c)
    birds = count * bird_heat_w(weight_g, inside_c, h).sensible_w
    return HeatNeed(shell, air_m3h, loss, birds)


@dataclass(frozen=True, slots=True)
class FuelNeed:
    """Fuel [kg]: usual, and with the best (low) and the worst (high) share of its heat used."""

    value_kg: float
    low_kg: float
    high_kg: float
    fuel: Fuel


def fuel_kg(
    heat_w: float, hours: float, kind: str, h: Husbandry, efficiency: float | None = None
) -> FuelNeed:
    """Fuel for a heat [W] over hours: heat x time / (heating value x share that warms the brooder).
    Valid for 0-100,000 W, up to 744 h, efficiency 0.05-1; with it, low and high are within a
    twentieth, as heating values differ."""
    if kind not in h.fuels:
        raise OutsideRange(f"kind {kind} is not a fuel that we know", ", ".join(h.fuels))
    check("heat_w", heat_w, 0, 100_000, "watts; below 0 the birds need no fire")
    check("hours", hours, 0.1, 744, "hours")
    fuel = h.fuels[kind]
    mj = heat_w * hours * SECONDS_AN_HOUR / 1e6
    if efficiency is not None:
        check("efficiency", efficiency, 0.05, 1, "a share: 0.5 is half of the heat")
        value = mj / fuel.heating_mj_kg / efficiency
        return FuelNeed(value, value * 0.95, value * 1.05, fuel)
    worst, usual, best = (mj / fuel.heating_mj_kg / share for share in fuel.share)
    return FuelNeed(usual, best, worst, fuel)
