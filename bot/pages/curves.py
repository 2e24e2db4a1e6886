"""The curves of a batch's report: what was told beside what is usual. Pure.

In: a batch, a moment, the figures, words. Out: charts, each with a line that says in words what it
shows; None where nothing was told. Used by the report.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime
from zoneinfo import ZoneInfo

from bot.errors import OutsideRange
from bot.facts.farm import WAYS_OUT, Batch
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.feed_water import water_ml
from bot.husbandry.forecast import Weighing, forecast_weight, published_prior
from bot.husbandry.growth import feed_intake_g
from bot.husbandry.limits import LAST_TABLE_AGE
from bot.husbandry.losses import expected_deaths
from bot.husbandry.temperature import spot_temperature_c
from bot.ledger.ledger import ledger_of
from bot.pages.chart import Band, Bars, Chart, Line

Words = Mapping[str, str]
FEW = 10  # birds weighed together where it was not told
LAST_HEATED, LAST_DRAWN = 20, 42  # ages
COOL_C, HOT_C = 21.0, 32.0


def temperature(batch: Batch, zone: ZoneInfo, h: Husbandry, w: Words) -> Chart | None:
    """Readings against the target under the heat, ages 0-20."""
    told = sorted(
        (_day(batch, one.on_date) + _hours(one.at.astimezone(zone)), float(str(value)))
        for one in batch.live_events("temperature")
        if isinstance(value := one.values.get("value_c"), int | float)
    )
    if not told:
        return None
    targets = [(age, spot_temperature_c(age, h)) for age in range(LAST_HEATED + 1)]
    inside = sum(_within(age, value, h) for age, value in told)
    last = max(LAST_HEATED + 1, *(x for x, _ in told))
    return Chart(
        words=w["temperature_words"].format(n=len(told), inside=inside),
        x_name=w["day"],
        y_name="C",
        x=(1.0, last + 1),
        lines=(
            Line(w["target_line"], _from_one((age, one.value_c) for age, one in targets), "target"),
            Line(w["readings"], _from_one(told)),
        ),
        bands=(
            Band(
                w["right_band"],
                _from_one((age, one.low_c) for age, one in targets),
                _from_one((age, one.high_c) for age, one in targets),
            ),
        ),
        zero=False,
    )


def weight(batch: Batch, today: date, h: Husbandry, w: Words) -> Chart | None:
    """Weighings against the curve of a hot-climate strain, and how it likely goes on."""
    known = [
        Weighing(_day(batch, one.on_date), one.mean_g, one.birds or FEW)
        for one in ledger_of(batch).weighings
        if 1 <= _day(batch, one.on_date) <= LAST_TABLE_AGE
    ]
    if not known:
        return None
    prior = published_prior(h)
    ages = range(LAST_DRAWN + 1)
    usual = [(age, forecast_weight((), age, prior).value_g) for age in ages]
    since = max(one.age_days for one in known)
    ahead = [forecast_weight(known, age, prior) for age in range(since, LAST_DRAWN + 1)]
    if batch.state == "closed" or _day(batch, today) > LAST_DRAWN:
        ahead = []  # nothing lies ahead
    last = known[-1]
    words = w["weight_words"].format(
        day=last.age_days + 1,
        g=round(last.mean_g),
        usual=round(forecast_weight((), last.age_days, prior).value_g),
    )
    lines = [
        Line(w["usual_curve"], _from_one(usual), "target"),
        Line(w["weighings"], _from_one((one.age_days, one.mean_g) for one in known)),
    ]
    bands: list[Band] = []
    if len(ahead) > 1:
        likely = _from_one((one.age_days, one.value_g) for one in ahead)
        lines.append(Line(w["likely"], likely, "ahead"))
        low = _from_one((one.age_days, one.low_g) for one in ahead)
        high = _from_one((one.age_days, one.high_g) for one in ahead)
        bands.append(Band(w["eight_of_ten"], low, high))
    return Chart(words, w["day"], "g", (1.0, LAST_DRAWN + 1.0), tuple(lines), tuple(bands))


def deaths(batch: Batch, today: date, h: Husbandry, w: Words) -> Chart | None:
    """Deaths and culls of each day against what is usual at that age."""
    told: dict[int, float] = defaultdict(float)
    for kind in ("deaths", "dead_on_arrival", "culled"):
        for one in batch.live_events(kind):
            told[_day(batch, one.on_date)] += int(str(one.values.get("n") or 0))
    if not told:
        return None
    last = max(7, min(56, _day(batch, today)), *told)
    usual = [
        (float(age), expected_deaths(alive, age, h))
        for age in range(min(56, last) + 1)
        if (alive := alive_on(batch, age)) > 0
    ]
    total, days = round(sum(told.values())), sum(map(bool, told.values()))
    words = w["deaths_words"].format(n=total, days=days)
    bars = Bars(w["dead_bars"], _from_one(sorted(told.items())))
    line = Line(w["usual_deaths"], _from_one(usual), "target")
    return Chart(words, w["day"], w["birds"], (0.5, last + 1.5), (line,), bars=(bars,))


def feed(batch: Batch, h: Husbandry, w: Words) -> Chart | None:
    """Feed eaten a bird and day against the table."""
    told = _a_bird(batch, "feed_eaten", "kg")
    return _intake(told, lambda age: feed_intake_g(age, h), "g", w["feed_words"], w)


def water(batch: Batch, h: Husbandry, w: Words) -> Chart | None:
    """Water drunk a bird and day, against what is usual from cool to hot air."""
    told = _a_bird(batch, "water", "litres")
    if not told:
        return None
    last = _last(told)
    ages = range(last + 1)
    band = Band(
        w["water_band"],
        _from_one((age, water_ml(age, h, COOL_C).value_ml) for age in ages),
        _from_one((age, water_ml(age, h, HOT_C).value_ml) for age in ages),
    )
    line = Line(w["told"], _from_one(told))
    words = w["water_words"].format(n=len(told))
    return Chart(words, w["day"], "ml", (1.0, last + 1.0), (line,), (band,))


def _intake(
    told: list[tuple[float, float]],
    table: Callable[[int], float],
    unit: str,
    words: str,
    w: Words,
) -> Chart | None:
    if not told:
        return None
    last = _last(told)
    usual = Line(w["table"], _from_one((age, table(age)) for age in range(last + 1)), "target")
    line = Line(w["told"], _from_one(told))
    return Chart(words.format(n=len(told)), w["day"], unit, (1.0, last + 1.0), (usual, line))


def _last(told: list[tuple[float, float]]) -> int:
    return min(LAST_TABLE_AGE, max(7, round(max(age for age, _ in told))))


def _a_bird(batch: Batch, kind: str, name: str) -> list[tuple[float, float]]:
    """(age, grams or millilitres a bird) of each day that was told of."""
    sums: dict[int, float] = defaultdict(float)
    for one in batch.live_events(kind):
        value = one.values.get(name)
        age = _day(batch, one.on_date)
        if isinstance(value, int | float) and 0 <= age <= LAST_TABLE_AGE:
            sums[age] += float(value)
    return [
        (float(age), 1000 * total / alive)
        for age, total in sorted(sums.items())
        if (alive := alive_on(batch, age)) > 0
    ]


def alive_on(batch: Batch, age: int) -> int:
    """Birds alive on the morning of an age."""
    gone = sum(
        int(str(one.values.get("n") or 0))
        for kind in WAYS_OUT
        for one in batch.live_events(kind)
        if _day(batch, one.on_date) < age
    )
    return max(0, (batch.count or 0) - gone)


def _within(age: float, value: float, h: Husbandry) -> bool:
    try:
        target = spot_temperature_c(int(age), h)
    except OutsideRange:
        return False
    return target.low_c <= value <= target.high_c


def _day(batch: Batch, day: date) -> int:
    return batch.age(day) or 0


def _hours(at: datetime) -> float:
    """The hour of the day as a share of it."""
    return (at.hour + at.minute / 60) / 24


def _from_one(points: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Ages as days: age 0 is day 1."""
    return [(age + 1.0, float(value)) for age, value in points]
