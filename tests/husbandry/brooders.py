"""Simulated brooders, seeded: what a farmer would report of each, and what was true.

A brooder warms by its stove and its birds and leaks by its own loss, half-hourly, with a lag of one
to three hours; the loss is off the computed one by about a third, the stove gives 0.3 to 0.6 of its
heat, wind changes the loss by a tenth at each fill. Fuel is filled at 6 and at 15 h, off by 20 %
anew each time; inside is read at 6 and at 17:30 h, off by 1 C; outside is a forecast off by 1.2 C.
The farmer does not heed us. Either he fills the same tins every night, enough for a normal night at
age 7 as far as he half knows his brooder (habit "tins"), or he knows what is needed at each age and
fills more or less than that by habit ("need"), which leaves less to foretell.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import exp, sqrt
from pathlib import Path
from random import Random
from statistics import median

from bot.handbook.husbandry import load_husbandry
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.brooder import Fill, Loss, Reading, learn_lag, learn_loss, usual_loss
from bot.husbandry.growth import weight_g
from bot.husbandry.heat import (
    SECONDS_AN_HOUR,
    air_of_changes_m3h,
    bird_heat_w,
    shell_w_k,
)
from bot.husbandry.night import Night, Outside, forecast_night, foretell_night
from bot.husbandry.temperature import spot_temperature_c

CONTENT = Path(__file__).parents[2] / "content"
KIND = "charcoal"
HALF_HOUR = 0.5
LEARNING_DAYS = 5
LAST_NIGHT = 13
NIGHT_H = 15.0
SPELL_SD = 3.0  # about the normals of the month, as content has it
FILL_SD, READING_SD, FORECAST_SD = 0.2, 1.0, 1.2
WALLS = ("curtain", "curtain2", "mud", "plank")


@cache
def book() -> Husbandry:
    """The figures of content, loaded once."""
    return load_husbandry(CONTENT)


@dataclass(frozen=True)
class Evening:
    """One evening at 17:30: what was foretold, and whether the night was cold after all. read_c,
    dawn_c: what the farmer read inside that evening and at 6 the next morning."""

    age: int
    night: Night
    was_cold: bool
    read_c: float
    dawn_c: float


@dataclass(frozen=True)
class Brooder:
    """A played brooder: its loss learnt after five days and the true one [kg/(h K)], the prior, and
    every evening's foretelling. count: birds. normals: usual warmest and coldest of a day [C]."""

    true_loss: float
    prior: Loss
    learnt: Loss
    evenings: tuple[Evening, ...]
    count: int
    normals: tuple[float, float]

    @property
    def error(self) -> float:
        return abs(self.learnt.value / self.true_loss - 1)


@dataclass(frozen=True)
class Score:
    """Over many brooders: the errors of the learnt loss, and how nights were foretold."""

    brooders: int
    median_error: float
    within_30_pct: float
    inside_interval: float
    prior_median_error: float
    nights: int
    cold_share: float
    foretold: float
    false_alarms: float


@dataclass(frozen=True)
class _Place:
    """What is true of one brooder and of its farmer."""

    count: int
    loss_w_k: float
    usual: Loss
    stove: float
    lag_h: float
    habit: str
    fills_more: float
    normal_high: float
    normal_low: float


def play(seed: int, habit: str = "tins") -> Brooder:
    """One brooder from age 0 to 13."""
    random, h = Random(seed), book()
    place = _place(random, h, habit)
    inside = spot_temperature_c(0, h).value_c
    fills: list[Fill] = []
    evenings: list[Evening] = []
    nights: list[tuple[Reading, Reading]] = []
    learnt = place.usual
    spell = random.gauss(0, SPELL_SD)
    for age in range(LAST_NIGHT + 1):
        spell = 0.6 * spell + random.gauss(0, 0.8 * SPELL_SD)
        weather = Outside(place.normal_high + spell, place.normal_low + spell, 0)
        guess = _guessed(weather, random, h)
        birds = _birds_w(place, age, h)
        day_fuel = _need_kg_h(place, age, (17 + place.normal_high) / 2, h)
        inside = _burn(place, inside, day_fuel, birds, weather, range(12, 30), random)[-1]
        fuel = _night_kg_h(place, age, random, h)
        trace = _burn(place, inside, fuel, birds, weather, range(30, 60), random)
        inside = trace[-1]
        evening = Reading(trace[4] + random.gauss(0, READING_SD), guess.felt(17, h))
        target = spot_temperature_c(age, h).low_c
        loss = learn_loss(place.usual, _as_of(age, fills), h)
        told = foretell_night(loss, fuel, birds, guess, target, h, (evening, learn_lag(nights, h)))
        morning = Reading(trace[-1] + random.gauss(0, READING_SD), guess.felt(6, h))
        was_cold = min(trace[8:]) < target
        evenings.append(Evening(age, told, was_cold, evening.inside_c, morning.inside_c))
        fills.append(Fill(fuel * NIGHT_H, NIGHT_H, birds, (morning,)))
        if age:  # on the first evening the brooder was warmed since yesterday
            nights.append((evening, morning))
        if age == LEARNING_DAYS - 1:
            learnt = learn_loss(place.usual, _as_of(age + 1, fills), h)
    true = place.loss_w_k / (_heat_w(h) * place.stove)
    normals = (place.normal_high, place.normal_low)
    return Brooder(true, place.usual, learnt, tuple(evenings), place.count, normals)


def _as_of(age: int, fills: Sequence[Fill]) -> list[Fill]:
    """The nights' fills (one for each age so far), as old as they are on the day of an age."""
    return [replace(fill, days_ago=age - made - 1) for made, fill in enumerate(fills)]


def score(seeds: Sequence[int], habit: str = "tins", from_age: int = LEARNING_DAYS) -> Score:
    """All brooders; nights from an age on."""
    played = [play(seed, habit) for seed in seeds]
    nights = [one for brooder in played for one in brooder.evenings if one.age >= from_age]
    cold = [one for one in nights if one.was_cold]
    alarms = [one for one in nights if one.night.foretold]
    right = sum(one.was_cold for one in alarms)
    return Score(
        len(played),
        median(one.error for one in played),
        sum(one.error <= 0.3 for one in played) / len(played),
        sum(one.learnt.low <= one.true_loss <= one.learnt.high for one in played) / len(played),
        median(abs(one.prior.value / one.true_loss - 1) for one in played),
        len(nights),
        len(cold) / len(nights),
        right / len(cold),
        1 - right / len(alarms),
    )


def _place(random: Random, h: Husbandry, habit: str) -> _Place:
    count = random.choice((100, 200, 300, 500))
    side = (count / 30) ** 0.5
    shell = shell_w_k(side, side, 1.5, random.choice(WALLS), h)
    air = air_of_changes_m3h(side, side, 1.5, h) * h.air_density.value * h.air_heat.value
    usual = usual_loss(shell, air / SECONDS_AN_HOUR, KIND, h)
    low = random.uniform(8, 19)
    return _Place(
        count,
        (shell + air / SECONDS_AN_HOUR) * exp(random.gauss(0, 0.35)),
        usual,
        random.uniform(0.3, 0.6),
        random.uniform(1, 3),
        habit,
        exp(random.gauss(-0.1, 0.2)),
        low + random.uniform(8, 13),
        low,
    )


def _heat_w(h: Husbandry) -> float:
    """Heat of a kilogram of fuel an hour [W], all of it."""
    return h.fuels[KIND].heating_mj_kg * 1e6 / SECONDS_AN_HOUR


def _birds_w(place: _Place, age: int, h: Husbandry) -> float:
    return place.count * bird_heat_w(weight_g(age, h).value_g, 30, h).sensible_w


def _need_kg_h(place: _Place, age: int, outside: float, h: Husbandry) -> float:
    """The fuel that this brooder truly needs [kg an hour]."""
    wanted = spot_temperature_c(age, h).value_c - outside
    need = place.loss_w_k * wanted - _birds_w(place, age, h)
    return max(0.01, need / (_heat_w(h) * place.stove))


def _night_kg_h(place: _Place, age: int, random: Random, h: Husbandry) -> float:
    """What the farmer says he fills for the night [kg an hour]."""
    often = place.fills_more * exp(random.gauss(0, 0.1))
    if place.habit == "need":
        return _need_kg_h(place, age, place.normal_low, h) * often
    true = place.loss_w_k / (_heat_w(h) * place.stove)
    known = sqrt(place.usual.value / true)
    return _need_kg_h(place, 7, place.normal_low, h) * known * often


def _burn(
    place: _Place,
    inside: float,
    fuel: float,
    birds: float,
    weather: Outside,
    halves: range,
    random: Random,
) -> list[float]:
    """Inside [C] at the end of each half hour; halves: half hours since midnight."""
    h = book()
    burnt = fuel * max(0.2, 1 + random.gauss(0, FILL_SD))
    loss = place.loss_w_k * exp(random.gauss(0, 0.1))
    warmth = burnt * _heat_w(h) * place.stove + birds
    trace = []
    for half in halves:
        steady = _air(weather, half / 2, h) + warmth / loss
        inside += (steady - inside) * (1 - exp(-HALF_HOUR / place.lag_h))
        trace.append(inside)
    return trace


def _air(weather: Outside, hour: float, h: Husbandry) -> float:
    whole = int(hour)
    share = hour - whole
    return (1 - share) * weather.at(whole % 24, h) + share * weather.at((whole + 1) % 24, h)


def _guessed(weather: Outside, random: Random, h: Husbandry) -> Outside:
    high, low = (x + random.gauss(0, FORECAST_SD) for x in (weather.high_c, weather.low_c))
    return forecast_night(max(high, low + 1), low, h)
