"""The coming night: whether and when this brooder falls below its target, from the batch's record.

In: where a batch stands. Out: `Tonight`. The outside air comes from the forecast for the
cooperative, else from what the farmer said of the nights in degrees, else from the cooperative's
normals of the month, else from the farmer's "warm, cool, cold"; where none of these is known no
hour is foretold. Pure; the science is in bot.husbandry.brooder and night. Called by conditions and
figures.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from math import floor
from typing import Literal

from bot.day.standing import Standing, heat_of, stoves_of
from bot.errors import OutsideRange
from bot.facts.farm import Event
from bot.husbandry.brooder import (
    Fill,
    Lag,
    Loss,
    Reading,
    calm_reading,
    learn_lag,
    learn_loss,
    piling_reading,
    practice_loss,
    stoves_as_fuel_kg_h,
)
from bot.husbandry.growth import weight_g
from bot.husbandry.heat import bird_heat_w
from bot.husbandry.night import (
    Outside,
    coldest_held_c,
    forecast_night,
    foretell_night,
    normal_night,
)
from bot.husbandry.space import stoves_needed
from bot.husbandry.temperature import spot_temperature_c

Kind = Literal["none", "yours", "most", "degrees"]
LAST_AGE = 20
NEW_HOUSE_AGE = 14
NIGHT_HOURS = 12.0  # one fill of fuel burns through the night; common practice
EVENING_FROM, EVENING_TO = 15, 19  # a reading of these hours is one of the evening
NIGHT_FROM, NIGHT_TO = 19, 9  # and of these of the night
TOLD_DAYS = 3  # so long what was said of a night, or of the fuel, is taken for the next ones
LOOK_FIRST, LOOK_LAST = 20, 2  # the look before the cold hour lies between these hours
MIDNIGHT = 0
ACCOUNT = "charcoal"  # bulbs and what is not said are counted as the fire that they stand for
DEGREES = (5, 25)  # a night outside of which it is worth speaking [C]


@dataclass(frozen=True, slots=True)
class Tonight:
    """kind: "yours" where this brooder is foretold to be cold, "most" where only the usual one is,
    "degrees" where the outside air is unknown and only the night is named down to which it holds;
    else "none". cold_from: the full hour. degrees: that night outside [C]."""

    kind: Kind
    cold_from: int | None = None
    degrees: int | None = None

    @property
    def before(self) -> int:
        """The hour to look where they look once: the one before it gets cold, 20:00 at the
        earliest; midnight where no hour is foretold."""
        if self.cold_from is None:
            return MIDNIGHT
        before = (self.cold_from - 1) % 24
        return LOOK_FIRST if 12 <= before < LOOK_FIRST else before

    @property
    def look(self) -> int:
        """The hour to look first where they look again at 04:00: the one before it gets cold,
        midnight where that is late."""
        return MIDNIGHT if LOOK_LAST < self.before < 12 else self.before


NONE = Tonight("none")


def tonight(at: Standing) -> Tonight:
    """What is foretold of the night that follows the day of `at`."""
    if "tonight" not in at.memo:
        at.memo["tonight"] = _tonight(at)
    found: Tonight = at.memo["tonight"]
    return found


def _tonight(at: Standing) -> Tonight:
    if not 0 <= at.age <= LAST_AGE or not at.batch.alive:
        return NONE
    try:
        return _foretold(at)
    except OutsideRange:
        return NONE  # a figure beyond what the formulas hold for: nothing is foretold


def _foretold(at: Standing) -> Tonight:
    book = at.calendar.book
    target = spot_temperature_c(at.age, book)
    birds = _birds_w(at, at.age)
    outside = outside_on(at, at.today)
    prior = _prior(at)
    if outside is None:
        held = floor(coldest_held_c(prior, _fuel_kg_h(at), birds, target.low_c, book))
        return Tonight("degrees", None, held) if DEGREES[0] <= held <= DEGREES[1] else NONE
    nights = _nights(at)
    loss = learn_loss(prior, [_fill(at, *one) for one in nights.items()], book)
    evening = _evening(at, nights)
    night = foretell_night(loss, _fuel_kg_h(at), birds, outside, target.low_c, book, evening)
    if not night.foretold:
        return NONE
    return Tonight("yours" if loss.learnt else "most", night.cold_from)


def outside_on(at: Standing, day: date) -> Outside | None:
    """The air outside in the night after a day, or None where nothing is known of it."""
    book, coop = at.calendar.book, at.case.cooperative
    if day in coop.forecast:
        return forecast_night(*coop.forecast[day], book)
    said = _last_said(at, "night", "low_c", day)
    if said is not None:
        return normal_night(said + book.night_swing.value, said, book)
    if coop.normals:
        return normal_night(*coop.normals[day.month - 1], book)
    word = book.nights_low.get(at.batch.nights or "")
    if word is not None:
        low = word.value
        return normal_night(low + book.night_swing.value, low, book)
    return None


# What the record tells


def _nights(at: Standing) -> dict[date, list[tuple[int, Reading]]]:
    """Past nights of this brooder by their first day: (hour, reading) of the evening and after."""
    found: dict[date, list[tuple[int, Reading]]] = {}
    for one in at.batch.events:
        local = one.at.astimezone(at.case.cooperative.zone)
        night = local.date() if local.hour >= NIGHT_TO else local.date() - timedelta(days=1)
        if one.undone or night >= at.today or not _same_house(at, night):
            continue
        reading = _reading(at, one, local, night)
        if reading is not None:
            found.setdefault(night, []).append((local.hour, reading))
    return found


def _reading(at: Standing, one: Event, local: datetime, night: date) -> Reading | None:
    """What an entry tells of the temperature inside at its hour; None where it tells nothing."""
    age, book = _age_on(at, night), at.calendar.book
    outside = outside_on(at, night)
    if outside is None or not 0 <= age <= LAST_AGE:
        return None
    felt = outside.felt(local.hour, book)
    dark = not NIGHT_TO <= local.hour < NIGHT_FROM
    if one.kind == "temperature" and (dark or _is_evening(local)):
        value = one.values.get("value_c")
        return Reading(float(value), felt) if isinstance(value, int | float) else None
    signals = one.values.get("signals")
    if one.kind != "observed" or not dark or not isinstance(signals, list | tuple):
        return None
    if "piled_near_heat" in signals:
        return piling_reading(age, felt, book)
    return calm_reading(age, felt, book) if "spread_evenly" in signals else None


def _fill(at: Standing, night: date, told: list[tuple[int, Reading]]) -> Fill:
    """A night's fuel with what was read in the dark."""
    readings = tuple(reading for hour, reading in told if not _evening_hour(hour))
    birds = _birds_w(at, max(0, _age_on(at, night)))
    fuel = _fuel_kg_h(at, night) * NIGHT_HOURS
    return Fill(fuel, NIGHT_HOURS, birds, readings, (at.today - night).days)


def _evening(
    at: Standing, nights: dict[date, list[tuple[int, Reading]]]
) -> tuple[Reading, Lag] | None:
    """Today's last reading of the evening, and how this brooder goes on from there until dawn."""
    outside, book = outside_on(at, at.today), at.calendar.book
    for one in reversed(at.batch.live_events("temperature")):
        local = one.at.astimezone(at.case.cooperative.zone)
        value = one.values.get("value_c")
        if local.date() == at.today and _is_evening(local) and isinstance(value, int | float):
            assert outside is not None
            reading = Reading(float(value), outside.felt(local.hour, book))
            return reading, learn_lag(list(_pairs(nights)), book)
    return None


def _pairs(
    nights: dict[date, list[tuple[int, Reading]]],
) -> Iterator[tuple[Reading, Reading]]:
    """An evening's and a morning's reading of the same night."""
    for told in nights.values():
        evening = [one for hour, one in told if _evening_hour(hour)]
        dawn = [one for hour, one in told if hour < NIGHT_TO]
        if evening and dawn:
            yield evening[-1], dawn[-1]


# The fire and the birds


def _prior(at: Standing) -> Loss:
    """What the usual fire holds: in the brooder the first day's limit, in the new house its own."""
    book, kind = at.calendar.book, _account(at)
    if _in_new_house(at):
        limit = spot_temperature_c(NEW_HOUSE_AGE, book).low_c
        fuel, birds = stoves_as_fuel_kg_h(1, kind, book), _birds_w(at, NEW_HOUSE_AGE)
        return practice_loss(limit, book.usual_night_house.value, fuel, birds, kind, book)
    usual = stoves_as_fuel_kg_h(stoves_needed(at.batch.alive, book), kind, book)
    limit = spot_temperature_c(0, book).low_c
    return practice_loss(limit, book.usual_night.value, usual, _birds_w(at, 0), kind, book)


def _fuel_kg_h(at: Standing, night: date | None = None) -> float:
    """The fuel of a night [kg an hour]: as told of it or of the nights before, else as so many
    stoves burn."""
    book, kind = at.calendar.book, _account(at)
    told = _fuel_told(at, night or at.today)
    if told:
        return told / NIGHT_HOURS
    if heat_of(at.batch) == "none":
        return 0.0
    if _in_new_house(at):
        return stoves_as_fuel_kg_h(1, kind, book)
    return stoves_as_fuel_kg_h(stoves_of(at) or stoves_needed(at.batch.alive, book), kind, book)


def _fuel_told(at: Standing, night: date) -> float:
    """The fuel [kg] told of a night or, up to three days back, of the last one told of; else 0."""
    entries = [
        (one.on_date, float(str(one.values.get("kg", 0))))
        for one in at.batch.live_events("fuel")
        if 0 <= (night - one.on_date).days < TOLD_DAYS
    ]
    last = max((day for day, _ in entries), default=None)
    return sum(kg for day, kg in entries if day == last)


def _account(at: Standing) -> str:
    """The fuel in which the fire is counted."""
    return next((kind for kind in at.batch.heat if kind in at.calendar.book.fuels), ACCOUNT)


def _birds_w(at: Standing, age: int) -> float:
    """The sensible heat of the living birds [W] at the target of an age."""
    book = at.calendar.book
    inside = spot_temperature_c(age, book).value_c
    return at.batch.alive * bird_heat_w(weight_g(age, book).value_g, inside, book).sensible_w


def _in_new_house(at: Standing) -> bool:
    return at.batch.house == "open" and at.age >= NEW_HOUSE_AGE


def _same_house(at: Standing, night: date) -> bool:
    """Whether that night was spent where they are now."""
    moved = at.batch.moved_on
    return not _in_new_house(at) or moved is None or night >= moved


def _last_said(at: Standing, kind: str, name: str, day: date) -> float | None:
    """The last figure of a kind told in the days up to `day`."""
    for one in reversed(at.batch.live_events(kind)):
        value = one.values.get(name)
        if 0 <= (day - one.on_date).days < TOLD_DAYS and isinstance(value, int | float):
            return float(value)
    return None


def _age_on(at: Standing, day: date) -> int:
    return at.age - (at.today - day).days


def _is_evening(local: datetime) -> bool:
    return time(EVENING_FROM) <= local.time() < time(EVENING_TO)


def _evening_hour(hour: int) -> bool:
    return EVENING_FROM <= hour < EVENING_TO
