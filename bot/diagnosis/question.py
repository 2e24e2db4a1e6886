"""Finds the one question that settles most, weighed by danger and by how easy it is to look.

In: `Evidence`, what was asked already. Out: a `Query` or None. Called by `decide.observe`.

The worth of a question is the information expected from its answer (bits over the single causes
still alive), times the ease of looking, times a weight for the danger of what it asks about.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import log2, prod

from bot.diagnosis.weigh import KEPT, Evidence, Hypothesis, Weighed, sign_chance, weigh
from bot.handbook.shape_causes import Causes

BEHAVIOUR = (
    "spread_evenly",
    "piled_near_heat",
    "away_from_heat",
    "crowded_one_side",
    "at_edges_or_walls",
)
LITTER = ("dry", "wet", "caked", "smells")
LITTER_SIGNS = {"wet": "litter_wet", "caked": "litter_caked", "smells": "ammonia_smell"}
YES_NO = ("yes", "no")
SIGN = "sign:"
ALIVE = 0.05  # a cause this small beside the likeliest is no longer asked about
ON_THE_LINE = 1 - 1e-9  # a cause that stands on it is alive, however figures were rounded
DANGER_WEIGHT = 0.15  # a step of danger makes a question this much more worth asking
CHANCES = 8192  # kept; those of an answer depend on a farm's age band, hour, house and heat


@dataclass(frozen=True, slots=True)
class Query:
    """A question to put. name: "sign:<code>", "behaviour" or "litter". options: codes of the
    menu, first for 1. worth: what it was ranked by."""

    name: str
    options: tuple[str, ...]
    worth: float

    @property
    def sign(self) -> str | None:
        """The sign that a yes/no question asks for."""
        return self.name.removeprefix(SIGN) if self.name.startswith(SIGN) else None


@lru_cache(maxsize=KEPT)
def best_question(evidence: Evidence, asked: tuple[str, ...], causes: Causes) -> Query | None:
    """The question most worth asking; None where nothing is left to ask."""
    ranked = questions(evidence, asked, causes)
    return ranked[0] if ranked else None


def questions(evidence: Evidence, asked: Collection[str], causes: Causes) -> tuple[Query, ...]:
    """Every question still open, the one most worth asking first."""
    shares = alive(weigh(evidence, causes))
    conditions = evidence.circumstances.conditions()
    before = _entropy(shares.values())
    found = [
        Query(name, options, _worth(name, options, conditions, shares, before, causes))
        for name, options in _open(evidence, asked, causes)
    ]
    return tuple(sorted(found, key=lambda one: (-one.worth, one.name)))


def _open(
    evidence: Evidence, asked: Collection[str], causes: Causes
) -> list[tuple[str, tuple[str, ...]]]:
    """The questions whose answer is not known yet."""
    known = {*evidence.signals, *evidence.not_signals}
    found: list[tuple[str, tuple[str, ...]]] = [
        (f"{SIGN}{code}", YES_NO)
        for code, sign in causes.signs.items()
        if sign.ask and code not in known and f"{SIGN}{code}" not in asked
    ]
    if "behaviour" not in asked and not set(evidence.signals).intersection(BEHAVIOUR):
        found.append(("behaviour", BEHAVIOUR))
    if "litter" not in asked and not _litter_known(evidence):
        found.append(("litter", LITTER))
    return found


def _litter_known(evidence: Evidence) -> bool:
    """Whether the litter was described: wet, caked or smelling, or said to be dry."""
    seen = set(evidence.signals).intersection(LITTER_SIGNS.values())
    return bool(seen) or "litter_wet" in evidence.not_signals


def _worth(
    name: str,
    options: Sequence[str],
    conditions: frozenset[str],
    shares: Mapping[Hypothesis, float],
    before: float,
    causes: Causes,
) -> float:
    gain = before - _left(name, options, conditions, shares, causes)
    signs = [causes.signs[code] for code in asked_signs(name)]
    ease = min(sign.ease for sign in signs)
    danger = sum(sign.danger for sign in signs) / len(signs)
    return gain * ease * (1 + DANGER_WEIGHT * danger)


def asked_signs(name: str) -> tuple[str, ...]:
    """The signs that a question looks for."""
    if name == "behaviour":
        return BEHAVIOUR
    if name == "litter":
        return tuple(LITTER_SIGNS.values())
    return (name.removeprefix(SIGN),)


def _left(
    name: str,
    options: Sequence[str],
    conditions: frozenset[str],
    shares: Mapping[Hypothesis, float],
    causes: Causes,
) -> float:
    """The bits that are still to be told about which one cause holds, as is to be expected of the
    answer. shares: of the causes still alive."""
    chances = {one: answer_chances(name, one, conditions, causes) for one in shares}
    after = 0.0
    for option in options:
        joint = [shares[one] * chances[one][option] for one in shares]
        total = sum(joint)
        if total > 0:
            after += total * _entropy(part / total for part in joint)
    return after


def alive(weighed: Weighed) -> dict[Hypothesis, float]:
    """The single causes still worth telling apart, with their shares among each other."""
    singles = {one: share for one, share in weighed.hypotheses if len(one) == 1}
    most = max(singles.values())
    kept = {one: share for one, share in singles.items() if share >= ALIVE * most * ON_THE_LINE}
    total = sum(kept.values())
    return {one: share / total for one, share in kept.items()}


def _entropy(shares: Iterable[float]) -> float:
    return -sum([share * log2(share) for share in shares if share > 0])


@lru_cache(maxsize=CHANCES)
def answer_chances(
    name: str, hypothesis: Hypothesis, conditions: frozenset[str], causes: Causes
) -> Mapping[str, float]:
    """How likely each answer is while these causes hold; they add up to 1."""
    if name == "behaviour":
        return _shared(
            {code: sign_chance(hypothesis, code, conditions, causes) for code in BEHAVIOUR}
        )
    if name == "litter":
        seen = {
            option: sign_chance(hypothesis, code, conditions, causes)
            for option, code in LITTER_SIGNS.items()
        }
        return _shared({"dry": prod(1 - chance for chance in seen.values()), **seen})
    yes = sign_chance(hypothesis, name.removeprefix(SIGN), conditions, causes)
    return {"yes": yes, "no": 1 - yes}


def _shared(weights: Mapping[str, float]) -> Mapping[str, float]:
    total = sum(weights.values())
    return {option: weight / total for option, weight in weights.items()}
