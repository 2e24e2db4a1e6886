"""All that one answer is decided on, and the lines that many answers begin with."""

from __future__ import annotations

from dataclasses import dataclass, replace

from bot.decide.common import answers, asked_batch, maybe
from bot.diagnosis.action import DEFAULT_HEAT
from bot.diagnosis.danger import FIRES, PILING
from bot.diagnosis.explain import explain
from bot.diagnosis.question import SIGN
from bot.diagnosis.story import (
    WAKE,
    WAKES,
    WORRIED,
    Heard,
    Story,
    circumstances_of,
    listen,
    not_by_guess,
    past_the_mark,
    story_of,
    with_heard,
)
from bot.diagnosis.thermometer import last_reading, verdict
from bot.diagnosis.weigh import Circumstances, Evidence, Weighed, weigh
from bot.facts.farm import Batch, Case, Event
from bot.facts.talk import Line, Meaning, Why
from bot.facts.writes import TellAdviser, Write
from bot.handbook.shapes import Handbook
from bot.husbandry.limits import LAST_AGE
from bot.husbandry.stress import Level, heat_stress
from bot.husbandry.temperature import JUDGED_HUMIDITY_PCT
from bot.understand.read import STOVE

SPREAD, PLACES = "spread_evenly", (*PILING, "at_edges_or_walls", "away_from_heat")
OF_THINGS = ("not_drinking", "feed_out_of_reach", "feed_mouldy")  # asked of a thing, not a bird
OF_WHAT_STANDS = ("thirst", "hunger")
CHECKS = 4  # check-backs a complaint at most


@dataclass(frozen=True, slots=True)
class Scene:
    """All that one answer is decided on. value_c: a reading in this text, or in the question that
    it answers. verdict: the reading to go by, None where none is believed. dead: told of today, in
    this text too. answer: the option of the open question that was chosen."""

    case: Case
    batch: Batch | None
    handbook: Handbook
    heard: Heard
    story: Story
    circumstances: Circumstances
    value_c: float | None
    verdict: str | None
    dead: int = 0
    answer: str | None = None

    @property
    def evidence(self) -> Evidence:
        return Evidence(
            self.story.signals,
            self.story.not_signals,
            self.circumstances,
            None if self.story.hang == "no" else self.verdict,
            self.story.worked,
        )

    @property
    def known(self) -> str:
        """The reading in words of a question's `about`; empty where none was given."""
        return "" if self.value_c is None else f"{self.value_c:g}"

    @property
    def alarm(self) -> Event | None:
        """The danger of these birds that is still open."""
        return None if self.batch is None else self.batch.open_alarm(self.case.today)

    def weigh(self, evidence: Evidence | None = None) -> Weighed:
        return weigh(evidence or self.evidence, self.handbook.causes)

    @property
    def heat(self) -> Level:
        """How hard the reading is on grown birds, by the published index; "none" below its age."""
        age = self.circumstances.age
        if self.value_c is None or self.verdict is None or age is None:
            return "none"
        book = self.handbook.husbandry
        if not book.stress_from_age.value <= age <= LAST_AGE:
            return "none"
        return heat_stress(self.value_c, JUDGED_HUMIDITY_PCT, age, book).level

    def why(self, weighed: Weighed, cause: str | None = None) -> Why:
        return explain(self.evidence, weighed, self.handbook.causes, cause)


def scene_of(meaning: Meaning, case: Case, handbook: Handbook) -> Scene:
    """What was said now, on top of what was known."""
    batch = asked_batch(case)
    before, causes = story_of(case, batch), handbook.causes
    heard = not_by_guess(listen(meaning, case.question), meaning, before, causes)
    heard = _of_the_thing(heard, before, case)
    circumstances = circumstances_of(case, batch)
    slots = meaning.slots
    circumstances = _with_heat_told(circumstances, slots.heat)
    value_c = slots.value_c
    if value_c is None and heard.hang and case.question is not None:
        carried = case.question.about.get("c")
        value_c = float(carried) if carried else None
    reading = value_c if value_c is not None else last_reading(batch, case.now)
    story = past_the_mark(with_heard(before, heard, causes), heard)
    if answers(case, WAKE) and slots.answer in WAKES and WAKE not in story.asked:
        story = story.marked(WAKE)  # it stood behind an alarm
    if worried(meaning, case) and WORRIED not in story.asked:
        story = story.marked(WORRIED)
    judged = None if reading is None else verdict(reading, circumstances, handbook.husbandry)
    dead = (slots.deaths or 0) + (batch.total("deaths", case.today) if batch else 0)
    return Scene(
        case, batch, handbook, heard, story, circumstances, value_c, judged, dead, slots.answer
    )


def _with_heat_told(circumstances: Circumstances, told: str | None) -> Circumstances:
    """With the heat that they tell of, where the record knows of another: "the jiko went off"
    beside bulbs is a fire to be lit."""
    heats = circumstances.heats
    if told == STOVE:
        told = None if set(heats).intersection(FIRES) else DEFAULT_HEAT
    return circumstances if told is None or told in heats else replace(circumstances, heats=(told,))


def _of_the_thing(heard: Heard, before: Story, case: Case) -> Heard:
    """ "two, they stand by the stove" of drinkers that we asked or spoke of: of birds that were
    told to be spread out just now it is no place."""
    asked = any(answers(case, f"{SIGN}{one}") for one in OF_THINGS) and heard.taken is not None
    spoken = before.cause in OF_WHAT_STANDS and set(heard.signals) <= set(PLACES)
    if not (asked or spoken) or SPREAD not in before.signals:
        return heard
    kept = tuple(one for one in heard.signals if one not in PLACES)
    return replace(heard, signals=kept)


def worried(meaning: Meaning, case: Case) -> bool:
    """Whether a worry that we did not read was told now, or before our question."""
    return meaning.worried or (case.question is not None and WORRIED in case.question.about)


def taken(scene: Scene) -> tuple[Line, ...]:
    """What an answer to our question was taken for."""
    found = scene.heard.taken
    if found is None:
        return ()
    how, sign = found
    return (maybe(f"taken_{how}", sign=sign),) if sign else (maybe(f"taken_{how}"),)


def tell(scene: Scene, reason: str, what: str, cause: str | None = None) -> Write:
    """A line on the adviser's list. what: the reason as a code, with the cause it is about."""
    seen = ", ".join(scene.story.signals) or "no signs told"
    told = {"what": what, "cause": cause, "signs": list(scene.story.signals)}
    batch_id = scene.batch.id if scene.batch else None
    return TellAdviser("worse", f"{reason} ({seen})", batch_id, told)
