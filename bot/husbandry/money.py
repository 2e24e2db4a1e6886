"""How well a batch did, and crates for its sale. Pure.
Called by the answers, the desk and `figures`."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, floor

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.limits import check, check_count, check_weight, step


def production_index(
    livability_pct: float, weight_kg: float, age_days: float, feed_conversion: float, h: Husbandry
) -> float:
    """Livability % x live weight [kg] x 100 / (age [days] x feed conversion) (Shane c.1998).
    Valid for 1-100 %, 0.1-6 kg, 10-80 days, feed conversion 0.5-6."""
    check("livability_pct", livability_pct, 1, 100, "percent: 95 birds alive of 100 is 95")
    check("weight_kg", weight_kg, 0.1, 6, "kilograms a bird; 1500 grams is 1.5")
    check("age_days", age_days, 10, 80, "days old at sale")
    check("feed_conversion", feed_conversion, 0.5, 6, "kilograms of feed a kilogram of bird")
    factor = h.production_factor.value
    return livability_pct * weight_kg * factor / (age_days * feed_conversion)


def crates_needed(count: int, weight_g: float, h: Husbandry) -> int:
    """Crates for a sale: floor of a crate / (space a kg by EU 1/2005 x weight), whole birds a
    crate. Valid for 200-5000 g. Fewer a crate on a hot day."""
    check_count(count)
    return ceil(count / birds_a_crate(weight_g, h))


def birds_a_crate(weight_g: float, h: Husbandry) -> int:
    """Birds of a weight in one plastic crate, at least one."""
    check_weight(weight_g)
    low = h.crate_space.points[0][0]
    check("weight_g", weight_g, low, h.crate_space.last, "grams a bird")
    return max(1, floor(h.crate_floor.value / _crate_space_cm2(weight_g, h)))


def _crate_space_cm2(weight_g: float, h: Husbandry) -> float:
    """Floor of a bird in a crate [cm2]. The space a kg falls in jumps, at 1.6 and 3 kg; yet a bird
    never has less than a lighter one."""
    points = h.crate_space.points
    lighter = (a_kg * up_to for (_, a_kg), (up_to, _) in pairwise(points) if up_to <= weight_g)
    return max(step(points, weight_g) * weight_g, *lighter, 0.0) / 1000
