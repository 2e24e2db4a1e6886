"""Says why: what a ranking rests on, and what would have changed it.

In: `Evidence` and its `Weighed`. Out: `facts.talk.Why`. Called by `decide.observe` and
`decide.danger`; a farmer who asks "why" and the desk are shown it.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import islice
from math import log

from bot.diagnosis.weigh import KEPT, Evidence, Weighed, sign_chances, together, with_one_more
from bot.facts.talk import Why
from bot.handbook.shape_causes import Causes

THERMOMETER = "temperature"
SHOWN = 3
CHANGING = 2
UNCLEAR = "unclear"


def explain(evidence: Evidence, weighed: Weighed, causes: Causes, cause: str | None = None) -> Why:
    """The reasons behind a ranking. cause: what was decided, where it is not the top ("unclear"
    while only a question is asked)."""
    return Why(
        cause=cause or weighed.top,
        ranked=weighed.ranked,
        because=because(evidence, weighed.top, causes),
        would_change=would_change(evidence, weighed, causes),
    )


def because(evidence: Evidence, cause: str, causes: Causes) -> tuple[str, ...]:
    """The signs that speak for a cause, the most telling first; "temperature" where the
    thermometer does."""
    conditions = evidence.circumstances.conditions()
    telling: dict[str, float] = {}
    for sign in dict.fromkeys(evidence.signals):
        if sign in causes.signs:
            chance = causes.causes[cause].signs[sign].of(conditions)
            telling[sign] = log(chance / causes.signs[sign].base)
    if evidence.verdict is not None:
        rows = [one.temperature[evidence.verdict] for one in causes.causes.values()]
        own = causes.causes[cause].temperature[evidence.verdict]
        telling[THERMOMETER] = log(own / (sum(rows) / len(rows)))
    speaking = [one for one in sorted(telling, key=lambda one: -telling[one]) if telling[one] > 0]
    return tuple(speaking[:SHOWN])


@lru_cache(maxsize=KEPT)
def would_change(evidence: Evidence, weighed: Weighed, causes: Causes) -> tuple[str, ...]:
    """Signs nobody spoke of that would have named another cause, the likeliest to be seen first."""
    known = {*evidence.signals, *evidence.not_signals}
    conditions = evidence.circumstances.conditions()

    def expected(code: str) -> float:
        chance = sign_chances(code, conditions, causes)
        both = together(code, causes)
        return sum(share * both(map(chance.__getitem__, one)) for one, share in weighed.hypotheses)

    easy = [
        code
        for code, sign in causes.signs.items()
        if (sign.ask or sign.ease >= 1) and code not in known
    ]
    likeliest = sorted(easy, key=expected, reverse=True)
    turning = (code for code in likeliest if _turns(code, evidence, weighed, causes))
    return tuple(islice(turning, CHANGING))


def _turns(sign: str, evidence: Evidence, weighed: Weighed, causes: Causes) -> bool:
    other = with_one_more(weighed, evidence, sign, causes)
    return other.sure and other.top != weighed.top
