"""This day's advice, where it is asked for: nothing is pushed, nothing is noted as said.

In: TODAY. Out: the texts of the day. Called by `turn.choose`.
"""

from __future__ import annotations

from bot.day.today import advice_of_today
from bot.decide.common import answer, running, say
from bot.facts.farm import Case
from bot.facts.talk import Decision, Meaning
from bot.handbook.shapes import Handbook


def today(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What the calendar says of this day, of the youngest batch with birds in it, else of the one
    that is awaited."""
    del meaning
    batch = running(case) or case.batch
    if batch is None or batch.placed_on is None:
        return answer(say("register_first"))
    texts = advice_of_today(case, batch, handbook.calendar)
    if texts:
        return Decision(texts[0], more=texts[1:])
    if batch.state == "planned":
        return answer(say("status_planned", n=batch.count or 0, date=batch.placed_on))
    return answer(say("screen_nothing_today"))
