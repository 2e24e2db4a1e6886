"""Why: what the open advice, question or alarm rests on, in one text.

In: WHY. Out: the likely cause with the signs or the reading that speak most for it; while a
question is open, what it tells apart; after an alarm, the sign it rests on. Called by
`turn.choose`.
"""

from __future__ import annotations

from bot.decide.common import answer, asked_batch, say
from bot.diagnosis.danger import NOTIFIABLE
from bot.diagnosis.evidence import evidence_of
from bot.diagnosis.explain import THERMOMETER, because
from bot.diagnosis.story import HANG, Story, story_of
from bot.diagnosis.thermometer import SIDES, last_reading
from bot.diagnosis.weigh import COMFORTABLE, weigh
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Line, Meaning
from bot.handbook.shapes import Handbook

MANY_DEAD = "sudden_many_deaths"
LOOKING = ("behaviour", "litter", "hang")
DEADLIEST = 3  # the danger of a sign that is an alarm by itself


def why(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The reasons of what we said last."""
    del meaning
    batch = asked_batch(case)
    story = story_of(case, batch)
    if story.cause is not None:
        return answer(_advised(story.cause, story, case, batch, handbook))
    if case.question is not None and _looks(case.question.name):
        return answer(_asked(story, case, batch, handbook))
    alarm = _alarm(case, batch, handbook)
    return answer(alarm or say("no_reasons"))


def _looks(name: str) -> bool:
    return name.startswith("sign:") or name in LOOKING


def _advised(cause: str, story: Story, case: Case, batch: Batch | None, handbook: Handbook) -> Line:
    """The two things that speak most for it; what else was said where none does."""
    evidence = evidence_of(story, case, batch, handbook)
    found = because(evidence, cause, handbook.causes) or story.signals
    reading = last_reading(batch, case.now)
    said = [f"{reading:g} C" if one == THERMOMETER else one for one in found]
    if not said:
        return say("no_reasons")
    if len(said) == 1:
        return say("because", cause=cause, sign=said[0])
    return say("because_two", cause=cause, sign=said[0], other=said[1])


def _asked(story: Story, case: Case, batch: Batch | None, handbook: Handbook) -> Line:
    """The two likeliest troubles, between which the answer decides."""
    evidence = evidence_of(story, case, batch, handbook)
    reading = last_reading(batch, case.now)
    if case.question is not None and case.question.name == HANG and reading is not None:
        side = SIDES.get(evidence.verdict or "")
        if side is not None and not story.signals:
            return say("because", cause=side, sign=f"{reading:g} C")
    weighed = weigh(evidence, handbook.causes)
    first, other = [code for code, _ in weighed.ranked if code != COMFORTABLE][:2]
    return say("because_asked", cause=first, other=other)


def _alarm(case: Case, batch: Batch | None, handbook: Handbook) -> Line | None:
    """The sign that today's alarm rests on; many deaths where it was a number."""
    today = (
        [one for one in batch.live_events("alarm") if one.on_date == case.today] if batch else []
    )
    if batch is None or not today:
        return None
    seen = [one for one in batch.live_events("observed") if one.on_date == case.today]
    signs = handbook.causes.signs
    told = [str(sign) for one in reversed(seen) for sign in _list(one.values.get("signals"))]
    grave = [one for one in told if one in NOTIFIABLE or signs[one].danger >= DEADLIEST]
    return say("because_alarm", sign=(grave or told or [MANY_DEAD])[0])


def _list(found: object) -> list[object]:
    return found if isinstance(found, list) else []
