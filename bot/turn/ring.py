"""What a missed call means: "call me", or the answer that the open question offered for it. Pure.

In: the case, the earlier rings of the day. Out: a Meaning and a Decision. Called by `turn.take`. An
unknown phone is noted and nothing else: a ring never registers anybody. Further rings change
nothing.
"""

from __future__ import annotations

from bot.decide import people, steps
from bot.facts.farm import Case
from bot.facts.talk import Decision, Intent, Meaning, Slots
from bot.handbook.shapes import Handbook

RING = "(missed call)"  # what a turn keeps as its text
MOST_RINGS = 3  # a phone and day that are looked at
OFFERED = ("well",)  # questions whose text says: ring and hang up for yes
NOTHING = (Meaning(Intent.OTHER), Decision())


def rung(case: Case, rings: int, called: bool, handbook: Handbook) -> tuple[Meaning, Decision]:
    """What this ring means. rings: earlier ones of the day. called: one of them asked for a call
    already."""
    if case.person is None or rings >= MOST_RINGS or _is_silent(case):
        return NOTHING
    if case.question is not None and case.question.name in OFFERED:
        yes = Meaning(Intent.OTHER, Slots(answer="yes"))
        return yes, steps.answer_well(yes, case, handbook)
    if called or case.recent.same:
        return NOTHING
    meaning = Meaning(Intent.CALL_ME)
    return meaning, people.call_me(meaning, case, handbook)


def _is_silent(case: Case) -> bool:
    """Muted, or at the limits that texts have."""
    muted = case.phone.muted_until is not None and case.now < case.phone.muted_until
    recent = case.recent
    return (
        muted
        or recent.answers_hour >= case.limits.answers_hour
        or recent.answers_day >= case.limits.answers_day
    )
