"""How well a farm's own record foretells its cold nights: simulated brooders, seeded, of which we
know what the farmer reads and the month's normals, neither walls nor fuel nor weather."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

from bot.day.standing import standing
from bot.day.tonight import tonight
from bot.facts.farm import Event
from tests.day.farms import NAIROBI, PLACED, batch, calendar, case, event, local
from tests.husbandry import brooders

BROODERS = range(40)
FROM_AGE = 5


def evenings(brooder: brooders.Brooder, *, reads: bool) -> Iterator[tuple[bool, bool]]:
    """(foretold at 17:30, cold that night) for the nights from age 5 on."""
    coop = replace(NAIROBI, normals=(brooder.normals,) * 12)
    known: list[Event] = []
    for one in brooder.evenings:
        day = PLACED + timedelta(days=one.age)
        if reads:
            known.append(_read(len(known), event("temperature", day, 17, value_c=one.read_c)))
        mine = batch(count=brooder.count, events=tuple(known))
        at = standing(case(mine, coop=coop), mine, calendar(), local(day, 17, 30))
        assert at is not None
        if one.age >= FROM_AGE:
            yield tonight(at).cold_from is not None, one.was_cold
        if reads:
            dawn = day + timedelta(days=1)
            known.append(_read(len(known), event("temperature", dawn, 6, value_c=one.dawn_c)))


def _read(number: int, one: Event) -> Event:
    return replace(one, id=number)


def rates(*, reads: bool) -> tuple[float, float]:
    """Share of the cold nights that were foretold, and of alarms that were false."""
    found = [one for seed in BROODERS for one in evenings(brooders.play(seed), reads=reads)]
    cold = [foretold for foretold, was_cold in found if was_cold]
    alarms = [was_cold for foretold, was_cold in found if foretold]
    return sum(cold) / len(cold), 1 - sum(alarms) / len(alarms)


def test_two_readings_a_day_foretell_most_cold_nights_and_few_others() -> None:
    foretold, false_alarms = rates(reads=True)
    assert foretold >= 0.85
    assert false_alarms <= 0.25


def test_without_readings_a_general_figure_foretells_far_less() -> None:
    foretold, _ = rates(reads=False)
    assert foretold <= 0.5
