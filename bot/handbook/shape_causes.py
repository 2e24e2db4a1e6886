"""The shape of the evidence model: signs, causes, how likely one is under the other, and actions.

Made by `handbook.causes`; read by `diagnosis`. Plain dataclasses, no I/O.
"""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass

HEATS = ("charcoal", "gas", "bulb", "kerosene", "wood", "none")
HOUSES = ("brooder", "open")
BANDS = ("young", "chick", "grower", "big")  # ages 0-6, 7-13, 14-20, from 21
HOURS = ("night", "day", "midday")  # 18-6, the rest, 11-16
STOVES = ("one", "many")  # as the farmer told; neither where nobody did
VERDICTS = ("far_below", "below", "right", "above", "far_above")
OTHERWISE = "otherwise"
CONDITIONS = (*BANDS, *HOURS, *HOUSES, *HEATS)


@dataclass(frozen=True, slots=True)
class Chance:
    """A probability that may depend on the circumstances: `when` by condition, else `otherwise`."""

    otherwise: float
    when: Mapping[str, float]

    def of(self, conditions: Set[str]) -> float:
        """The figure of the first condition that holds, else the general one."""
        for condition, figure in self.when.items():
            if condition in conditions:
                return figure
        return self.otherwise


@dataclass(frozen=True, slots=True)
class Sign:
    """What may be seen.

    ease: how easy it is to look at now, above 0 to 1. danger: 0 harmless to 3 (a flock, people).
    base: how often it is seen without any cause of ours. ask: a question of its own asks for it.
    alone_asks: alone it decides nothing. calm: shown only where nothing drives them. contradicts:
    signs that a later word on this takes back. leads_to: the questions put before anything is
    weighed, one after another; leads_alone: only where nothing but calm was told beside it;
    leads_not_with: not beside these. ours: contract 1 does not name it, so `broodpost read` does
    not show it.
    """

    code: str
    kind: str
    ease: float
    danger: int
    base: float
    ask: bool = False
    alone_asks: bool = False
    calm: bool = False
    contradicts: tuple[str, ...] = ()
    leads_to: tuple[str, ...] = ()
    leads_alone: bool = False
    leads_not_with: tuple[str, ...] = ()
    ours: bool = False


@dataclass(frozen=True, slots=True)
class Instead:
    """An action that comes first in place of the cause's own where all that is named holds.
    Empty: anything. also: a second cause that holds, of which the text speaks too. hours: words of
    HOURS. stoves: of STOVES. then: what follows it, in place of the cause's own."""

    action: str
    sign: str | None = None
    heats: tuple[str, ...] = ()
    bands: tuple[str, ...] = ()
    house: str | None = None
    also: str | None = None
    hours: tuple[str, ...] = ()
    stoves: str | None = None
    then: str | None = None


@dataclass(frozen=True, slots=True)
class Cause:
    """What may be wrong.

    prior: before any sign. times: factors on the prior where a condition holds. danger: 1 is the
    most dangerous now. check_in: minutes until we look again, 0 for never. temperature: how likely
    each verdict on the thermometer is. signs: how likely each sign is. actions: (house, heat) ->
    keys of the texts, first to last. harm: what these do while another cause holds, 0 to 10.
    """

    code: str
    prior: Chance
    times: Mapping[str, float]
    danger: int
    check_in: int
    temperature: Mapping[str, float]
    signs: Mapping[str, Chance]
    actions: Mapping[tuple[str, str], tuple[str, ...]]
    harm: Mapping[str, float]
    instead: tuple[Instead, ...] = ()
    source: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)  # so that rankings can be kept by it
class Causes:
    """The whole evidence model.

    accept: a cause this likely is named. also: a second one this likely holds as well, where one
    of the two at least is `either` likely. worked: what remains of a cause's weight after its
    action was followed by "same" or "worse". row: questions in a row at most. asking: what a
    question costs, in harm; one that saves less is not put.
    """

    signs: Mapping[str, Sign]
    causes: Mapping[str, Cause]
    accept: float
    also: float
    either: float
    worked: Mapping[str, float]
    row: int
    asking: float

    def by_danger(self) -> tuple[str, ...]:
        """The causes, the most dangerous first."""
        return tuple(sorted(self.causes, key=lambda code: self.causes[code].danger))
