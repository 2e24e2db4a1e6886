"""What a farmer asks leave for: "should I return it?", "je coupe l'eau?", "tuwakamate?".
In: an annotated text and the hearing. Out: codes of what is asked, in the order said. Pure; called
by `read`. The words stand in replies.yaml: `leave`, of which `else` only sounds alike; and
`leave_asked`, the words that ask where no mark does, that tell of others' advice and, under `open`,
that ask for more than a yes.
"""

from __future__ import annotations

from bot.facts.talk import Hearing
from bot.understand.annotate import Text
from bot.understand.spoken import Aside, Forms, told_aside

LEAVE, ASKED = "leave", "leave_asked"
ASKS, EITHER, ADVISED, OPEN = "asks", "either", "advised", "open"
TRUCK = "truck"  # that it comes is a matter by itself: nobody needs to ask
GIVE, CURE, ELSE = "feed_give", "cure", "else"
CURES = ("medicine", "vaccine", "home_remedy", "treat")  # "can i give it?" is then of these


def leave(text: Text, hearing: Hearing, forms: Forms) -> tuple[str, ...]:
    """What is asked about that the farmer might do."""
    found = told_aside(text, LEAVE, hearing, forms)
    if not found:
        return ()
    asking: dict[int, set[str]] = {}
    for one in told_aside(text, ASKED, hearing, forms):
        asking.setdefault(one.clause.start, set()).add(one.option)
    told = dict.fromkeys(
        one.option
        for one in found
        if (one.option == CURE or not one.denied or EITHER in asking.get(one.clause.start, ()))
        and (one.option == TRUCK or _wants_a_yes(text, one, asking.get(one.clause.start, set())))
    )
    told.pop(ELSE, None)
    if text.has(*CURES):
        told.pop(GIVE, None)
    return tuple(told)


def _wants_a_yes(text: Text, told: Aside, here: set[str]) -> bool:
    """By a mark at the end of the sentence, or in words; what others advise where it asks at all.
    Not where it asks when, how or how much, unless of a medicine: that has one answer."""
    if OPEN in here:
        return told.option == CURE
    if told.clause.asked or here & {ASKS, EITHER}:
        return True
    asks = text.has("what_to_do") or any(one.asked for one in text.clauses)
    return ADVISED in here and asks
