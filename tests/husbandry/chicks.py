"""The bar of the weight forecast: ChickWeight, day 21 foretold from the weighings to an earlier
day, each chick left out of the prior that is fitted on the others; the rivals see it alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from bot.husbandry.forecast import Weighing, WeightForecast, forecast_weight, learnt_prior
from tests.husbandry.curves import Curve, fit, gompertz, line, logistic

DATA = Path(__file__).parents[1] / "outside" / "chickweight.csv"
LAST_DAY = 21
SCALE_SD = 0.03  # one chick on a scale of 1 g, feed in the crop
RIVALS = {"line": line, "logistic": logistic, "gompertz": gompertz}
Chick = Mapping[int, float]


@dataclass(frozen=True)
class Score:
    """Median absolute errors [g] at day 21 of ours and of each rival, and the share of chicks
    within our 80 % interval."""

    from_day: int
    chicks: int
    error_g: float
    rivals_g: Mapping[str, float]
    covered: float

    @property
    def ratio(self) -> float:
        """Ours over the best rival's."""
        return self.error_g / min(self.rivals_g.values())


def all_chicks() -> tuple[Chick, ...]:
    """Each chick's weights [g] by day; those that died early end early."""
    rows = [row.split(",") for row in DATA.read_text("utf-8").splitlines() if row[0] != "#"]
    days = [int(day) for day in rows[0][2:]]
    return tuple(
        {day: float(w) for day, w in zip(days, row[2:], strict=True) if w} for row in rows[1:]
    )


def whole_chicks() -> tuple[Chick, ...]:
    """Those that were weighed to day 21."""
    return tuple(chick for chick in all_chicks() if LAST_DAY in chick)


def foretold(chicks: Sequence[Chick], one: int, from_day: int) -> WeightForecast:
    """Day 21 of a chick from its weighings to a day, the prior from all the others."""
    prior = learnt_prior([chick for i, chick in enumerate(chicks) if i != one], SCALE_SD)
    seen = [Weighing(day, w, 1) for day, w in chicks[one].items() if day <= from_day]
    return forecast_weight(seen, LAST_DAY, prior)


def score(from_day: int) -> Score:
    """All chicks of the data, from one day."""
    chicks = whole_chicks()
    told = [foretold(chicks, i, from_day) for i in range(len(chicks))]
    true = [chick[LAST_DAY] for chick in chicks]
    inside = sum(one.low_g <= w <= one.high_g for one, w in zip(told, true, strict=True))
    ours = median(abs(one.value_g - w) for one, w in zip(told, true, strict=True))
    rivals = {name: _error(curve, chicks, from_day) for name, curve in RIVALS.items()}
    return Score(from_day, len(chicks), ours, rivals, inside / len(chicks))


def _error(curve: Curve, chicks: Sequence[Chick], from_day: int) -> float:
    errors = []
    for chick in chicks:
        points = [(float(day), w) for day, w in chick.items() if day <= from_day]
        found = curve(float(LAST_DAY), fit(curve, points).parameters)
        errors.append(abs(found - chick[LAST_DAY]))
    return median(errors)
