"""Weighs doing against asking: what an action may harm, and how much of it one question would save.

In: the ranking, `Evidence`, the table of harms (`harm` of content/causes). Out: a harm expected, 0
(none) to 10 (birds or people die of it). Called by `decide.observe`. Figures: expert judgement, no
source.

While its own cause holds an action harms nothing; while another holds beside it, a share of what it
harms under that one. The action after an answer is the one that harms least by then.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from bot.diagnosis.question import Query, answer_chances
from bot.diagnosis.weigh import Evidence, Hypothesis, Weighed
from bot.handbook.shape_causes import Causes

BESIDE = 0.3  # of the harm under another cause counts where the action's own holds too
OPPOSED = 6.0  # harm from which two actions are not given together
LEAST = 0.02  # hypotheses this small beside the likeliest change nothing


def harm(doing: Collection[str], shares: Mapping[Hypothesis, float], causes: Causes) -> float:
    """What the actions for these causes are expected to harm. shares: of what may hold, adding up
    to 1."""
    tables = [causes.causes[code].harm for code in doing]
    found = 0.0
    for held, share in shares.items():
        others = [code for code in held if code not in doing]
        part = 1.0 if len(others) == len(held) else BESIDE
        found += share * part * max([table[one] for table in tables for one in others], default=0)
    return found


def saved(
    query: Query, doing: Collection[str], weighed: Weighed, evidence: Evidence, causes: Causes
) -> float:
    """How much less harm is expected if this is asked before anything is done. doing: the causes
    that would be acted on now."""
    shares = likely(weighed)
    conditions = evidence.circumstances.conditions()
    chances = {one: answer_chances(query.name, one, conditions, causes) for one in shares}
    after = 0.0
    for option in query.options:
        joint = {one: share * chances[one][option] for one, share in shares.items()}
        after += min(harm((cause,), joint, causes) for cause in causes.causes)
    return harm(doing, shares, causes) - after


def opposed(first: str, second: str, causes: Causes) -> bool:
    """Whether what helps against one does harm where the other holds."""
    table = causes.causes
    return max(table[first].harm[second], table[second].harm[first]) >= OPPOSED


def likely(weighed: Weighed) -> dict[Hypothesis, float]:
    """What may hold, one or two at once, with their shares; the very small left out."""
    most = weighed.hypotheses[0][1]
    kept = {one: share for one, share in weighed.hypotheses if share >= LEAST * most}
    total = sum(kept.values())
    return {one: share / total for one, share in kept.items()}
