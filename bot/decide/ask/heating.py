"""A stove, heater or bulb that is asked about while something is wrong with the birds: where it
goes, or that it goes out.

In: the case. Out: the line, by what is wrong and what heats them; None where no trouble of warmth
is open. Common practice, no source. Called by `answer`.
"""

from __future__ import annotations

from bot.decide.common import open_trouble, say
from bot.diagnosis.action import heat_to_change
from bot.diagnosis.danger import PILING
from bot.diagnosis.story import POISONED
from bot.facts.farm import Batch, Case
from bot.facts.talk import Line

WORDED = {"cold": "heat_cold", "uneven_heat": "heat_uneven", "hot": "heat_hot"}
WIND = ("draught",)
HANGING = ("gas", "bulb")
PLACES = (*PILING, "spread_evenly", "away_from_heat", "at_edges_or_walls")


def heat_in_trouble(case: Case) -> Line | None:
    """Where the heat goes that was asked about."""
    batch = case.batch
    complaint = open_trouble(case)
    if batch is None or complaint is None:
        return None
    cause = complaint.cause
    if cause is None and set(PILING).intersection(complaint.signals):
        cause = "cold"
    if cause == "fumes":
        return None if POISONED in complaint.asked else say(_smoky(batch))
    if cause in WIND:
        return say("heat_wind")
    return say(f"{WORDED[cause]}_{_kind(batch, cause)}") if cause in WORDED else None


def place_known(case: Case) -> bool:
    """Whether it was told in the trouble at hand where the chicks are."""
    complaint = open_trouble(case)
    return complaint is not None and bool(set(PLACES).intersection(complaint.signals))


def _smoky(batch: Batch) -> str:
    return "fumes_wick" if "kerosene" in batch.heat else "heat_smoky"


def _kind(batch: Batch, cause: str) -> str:
    """What they have, in the words of a text: against heat only a fire is carried out."""
    heat = heat_to_change(batch.heat or ("charcoal",), cause, ())
    if cause == "hot":
        return "other" if heat in HANGING else "fire"
    return heat if heat in HANGING else "fire"
