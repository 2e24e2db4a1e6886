"""What speaks for the cause that was named last. In: a story, the case, its batch. Out: `Evidence`
as it was weighed. Called by `decide.reasons` and the desk's page of a farm."""

from __future__ import annotations

from bot.diagnosis.story import Story, circumstances_of
from bot.diagnosis.thermometer import contradicts, last_reading, verdict
from bot.diagnosis.weigh import Evidence
from bot.facts.farm import Batch, Case
from bot.handbook.shapes import Handbook


def evidence_of(story: Story, case: Case, batch: Batch | None, handbook: Handbook) -> Evidence:
    """As it was weighed: a reading that speaks against the chicks is no reason."""
    here = circumstances_of(case, batch)
    reading = None if story.hang == "no" else last_reading(batch, case.now)
    judged = None if reading is None else verdict(reading, here, handbook.husbandry)
    if story.cause is not None and contradicts(judged, story.cause):
        judged = None
    return Evidence(story.signals, story.not_signals, here, judged, story.worked)
