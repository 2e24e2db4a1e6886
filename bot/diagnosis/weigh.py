"""Ranks what may be wrong, from all that is known of a batch just now.

In: the evidence model (content/causes, content/signs.yaml) and `Evidence`. Out: `Weighed`: the
causes with their probability, likeliest first, and the one to name. Called by `question`,
`explain` and `decide.observe`.

The model: one cause holds, or two at once (never two of cold, hot and uneven heat, never
comfortable with anything).
Two at once are as likely beforehand as both priors together; a sign is as likely under the two as
under the one that brings it more, a sign of calm as under the one that allows it less. A sign
neither said nor denied says nothing. Figures: expert judgement, no source, where content names
none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations
from math import prod

from bot.handbook.shape_causes import VERDICTS, Cause, Causes

COMFORTABLE = "comfortable"
# Never both at once: uneven heat is too cold here and too hot there already.
OPPOSITES = frozenset(
    {
        frozenset({"cold", "hot"}),
        frozenset({"cold", "uneven_heat"}),
        frozenset({"hot", "uneven_heat"}),
    }
)
NIGHT_FROM, NIGHT_TO = 18, 6
MIDDAY_FROM, MIDDAY_TO = 11, 16
SPEAKS_FOR = 3.5  # times as likely as without any cause; expert judgement, no source
IN_NEW_HOUSE_FROM = 21  # ages from which every batch lives in the open house; common practice

Hypothesis = tuple[str, ...]


def is_night(hour: int) -> bool:
    """Whether it is night at a local hour 0-23."""
    return hour >= NIGHT_FROM or hour < NIGHT_TO


@dataclass(frozen=True, slots=True)
class Circumstances:
    """Where and when: age [days] or None, local hour 0-23, house, kinds of heat; stoves: a word of
    shape_causes.STOVES, None where nobody told how many there are."""

    age: int | None
    hour: int
    house: str = "brooder"
    heats: tuple[str, ...] = ("charcoal",)
    stoves: str | None = None

    @property
    def night(self) -> bool:
        return is_night(self.hour)

    @property
    def open_house(self) -> bool:
        return self.house == "open" or (self.age is not None and self.age >= IN_NEW_HOUSE_FROM)

    @property
    def band(self) -> str | None:
        """The age band of content/causes; None before placement and without an age."""
        if self.age is None or self.age < 0:
            return None
        bands = ((6, "young"), (13, "chick"), (20, "grower"))
        return next((band for last, band in bands if self.age <= last), "big")

    def conditions(self) -> frozenset[str]:
        """The words of shape_causes.CONDITIONS that hold. A kind of heat only where it is the one
        kind in use."""
        midday = MIDDAY_FROM <= self.hour < MIDDAY_TO
        found = {
            "night" if self.night else "midday" if midday else "day",
            "open" if self.open_house else "brooder",
        }
        if self.band is not None:
            found.add(self.band)
        if len(self.heats) == 1:
            found.add(self.heats[0])
        return frozenset(found)


NOWHERE = Circumstances(None, 9)
KEPT = 512  # rankings; farms tell the same few stories, some 10 kB each


@dataclass(frozen=True, slots=True)
class Evidence:
    """All that is known. verdict: the thermometer against the target (shape_causes.VERDICTS), None
    where none was read or it is not to be believed. worked: (cause treated, "same" or "worse")."""

    signals: tuple[str, ...] = ()
    not_signals: tuple[str, ...] = ()
    circumstances: Circumstances = NOWHERE
    verdict: str | None = None
    worked: tuple[tuple[str, str], ...] = ()

    def with_sign(self, sign: str, *, seen: bool) -> Evidence:
        """The same evidence after one more sign was said or denied."""
        if seen:
            return replace(self, signals=(*self.signals, sign))
        return replace(self, not_signals=(*self.not_signals, sign))


@dataclass(frozen=True, slots=True)
class Weighed:
    """hypotheses: one or two causes at once, with their probability (they add up to 1). ranked:
    every cause with the probability that it holds, likeliest first. top: the cause to name. sure:
    likely enough to act on; else there is something to ask. also: the other of two that hold."""

    hypotheses: tuple[tuple[Hypothesis, float], ...]
    ranked: tuple[tuple[str, float], ...]
    top: str
    sure: bool
    also: str | None = None


@lru_cache(maxsize=KEPT)
def weigh(evidence: Evidence, causes: Causes) -> Weighed:
    """Rank the causes. Signs that content does not know are left out."""
    singles = {code: _single(one, evidence, causes) for code, one in causes.causes.items()}
    weights = {
        hypothesis: _weight(hypothesis, singles, evidence, causes)
        for hypothesis in hypotheses(tuple(causes.causes))
    }
    return _ranking(weights, evidence, causes)


def with_one_more(weighed: Weighed, evidence: Evidence, sign: str, causes: Causes) -> Weighed:
    """The ranking after one more sign was seen: as `weigh` of all of it, without starting again.
    evidence: what `weighed` was made of."""
    chance = sign_chances(sign, evidence.circumstances.conditions(), causes)
    both = together(sign, causes)
    weights = {one: share * both(map(chance.__getitem__, one)) for one, share in weighed.hypotheses}
    return _ranking(weights, evidence.with_sign(sign, seen=True), causes)


def _ranking(weights: Mapping[Hypothesis, float], evidence: Evidence, causes: Causes) -> Weighed:
    total = sum(weights.values())
    shares = {one: weight / total for one, weight in weights.items()}
    ranked = _marginals(shares, causes)
    held = _held(ranked, shares, evidence, causes)
    top = min(held or [ranked[0][0]], key=lambda code: causes.causes[code].danger)
    return Weighed(
        tuple(sorted(shares.items(), key=lambda item: (-item[1], item[0]))),
        ranked,
        top,
        bool(held) and not _decides_nothing(evidence, causes),
        next((code for code in held if code != top), None),
    )


def _held(
    ranked: tuple[tuple[str, float], ...],
    shares: Mapping[Hypothesis, float],
    evidence: Evidence,
    causes: Causes,
) -> list[str]:
    """The causes taken to hold: one that is likely enough (by a sign of its own, or by what was
    denied or read), or two of which one at least must, each with a sign of its own."""
    (first, share), (second, next_share) = ranked[:2]
    two = next_share >= causes.also and frozenset((first, second)) not in OPPOSITES
    two = two and all(has_a_sign(code, evidence, causes) for code in (first, second))
    if two:
        neither = sum(
            part for one, part in shares.items() if first not in one and second not in one
        )
        two = 1 - neither >= causes.either
    if two:
        return [first, second]
    proven = has_a_sign(first, evidence, causes) or evidence.not_signals or evidence.verdict
    return [first] if share >= causes.accept and proven else []


def has_a_sign(code: str, evidence: Evidence, causes: Causes) -> bool:
    """Whether a sign speaks for this cause that decides something alone."""
    alone = [one for one in speaking(code, evidence, causes) if not causes.signs[one].alone_asks]
    return bool(alone)


def speaking(code: str, evidence: Evidence, causes: Causes) -> tuple[str, ...]:
    """The signs seen that speak for this cause."""
    conditions = evidence.circumstances.conditions()
    return tuple(
        sign
        for sign in evidence.signals
        if sign in causes.signs
        and causes.causes[code].signs[sign].of(conditions) >= SPEAKS_FOR * causes.signs[sign].base
    )


@lru_cache(maxsize=8)
def hypotheses(codes: tuple[str, ...]) -> tuple[Hypothesis, ...]:
    """Every cause alone, and every two that may hold at once."""
    troubles = [code for code in codes if code != COMFORTABLE]
    pairs = [pair for pair in combinations(troubles, 2) if frozenset(pair) not in OPPOSITES]
    return (*((code,) for code in codes), *pairs)


def together(sign: str, causes: Causes) -> Callable[[Iterable[float]], float]:
    """How the chances of a sign under two causes make one: the more telling counts, for a sign of
    calm the less telling."""
    return min if causes.signs[sign].calm else max


def sign_chances(sign: str, conditions: Set[str], causes: Causes) -> dict[str, float]:
    """How likely a sign is under each cause alone."""
    return {code: cause.signs[sign].of(conditions) for code, cause in causes.causes.items()}


def sign_chance(hypothesis: Hypothesis, sign: str, conditions: Set[str], causes: Causes) -> float:
    """How likely a sign is while these causes hold."""
    return together(sign, causes)(
        causes.causes[code].signs[sign].of(conditions) for code in hypothesis
    )


def _verdict_chance(rows: Sequence[Mapping[str, float]], verdict: str) -> float:
    """How likely the thermometer's verdict is; of two causes the more telling one counts."""
    both = {one: max(row[one] for row in rows) for one in VERDICTS}
    return both[verdict] / sum(both.values())


def _weight(
    hypothesis: Hypothesis, singles: Mapping[str, _Single], evidence: Evidence, causes: Causes
) -> float:
    """How likely a hypothesis is together with all that was said, not yet a share."""
    parts = [singles[code] for code in hypothesis]
    weight = prod(part.prior for part in parts)
    for sign in _known(evidence.signals, causes):
        weight *= together(sign, causes)(part.chances[sign] for part in parts)
    for sign in _known(evidence.not_signals, causes):
        weight *= 1 - together(sign, causes)(part.chances[sign] for part in parts)
    if evidence.verdict is not None:
        weight *= _verdict_chance([part.temperature for part in parts], evidence.verdict)
    return weight


@dataclass(frozen=True, slots=True)
class _Single:
    """What one cause says to the evidence: its prior (what was tried included), its chances of the
    signs seen and denied, its row of the thermometer."""

    prior: float
    chances: Mapping[str, float]
    temperature: Mapping[str, float]


def _single(cause: Cause, evidence: Evidence, causes: Causes) -> _Single:
    conditions = evidence.circumstances.conditions()
    tried = prod(causes.worked[answer] for code, answer in evidence.worked if code == cause.code)

    known = _known((*evidence.signals, *evidence.not_signals), causes)
    chances = {sign: cause.signs[sign].of(conditions) for sign in known}
    return _Single(prior(cause, conditions) * tried, chances, cause.temperature)


def _known(signs: tuple[str, ...], causes: Causes) -> tuple[str, ...]:
    """The signs that content knows, each once."""
    return tuple(sign for sign in dict.fromkeys(signs) if sign in causes.signs)


def prior(cause: Cause, conditions: Set[str]) -> float:
    """How likely a cause is before any sign, at this age, hour, house and heat."""
    figure = cause.prior.of(conditions)
    for condition, factor in cause.times.items():
        if condition in conditions:
            figure *= factor
    return figure


def _marginals(shares: Mapping[Hypothesis, float], causes: Causes) -> tuple[tuple[str, float], ...]:
    found = dict.fromkeys(causes.causes, 0.0)
    for hypothesis, share in shares.items():
        for code in hypothesis:
            found[code] += share
    order = causes.causes
    return tuple(sorted(found.items(), key=lambda item: (-item[1], order[item[0]].danger)))


def _decides_nothing(evidence: Evidence, causes: Causes) -> bool:
    """Nothing was seen at all, or only signs that alone decide nothing."""
    if evidence.verdict is not None or evidence.worked:
        return False
    if not evidence.signals:
        return True
    alone = all(sign in causes.signs and causes.signs[sign].alone_asks for sign in evidence.signals)
    return alone and not evidence.not_signals
