"""People before birds after an alarm of bad air: what helps whoever is ill, how they are now, and
nothing that sends anybody in before the house stood open.

In: the meaning, the case, what danger found. Out: the answer; None where none is open. Carbon
monoxide has no smell and stays in the body (CPSC 5012); so long open, out and watched: common
practice. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import answers, asked_batch, menu, say
from bot.diagnosis.danger import AIR_AGAIN, DIRTY_LITTER, FIRES, FUMES, OWN_EYES, SMELL, SMOKE
from bot.diagnosis.keep import keep
from bot.diagnosis.story import PEOPLE_MARK, POISONED, Story, circumstances_of, listen, story_of
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Why
from bot.facts.writes import AddEvent, ChangeBatch, KeepUnread, TellAdviser, Write
from bot.understand.people import DOWN, GRAVE, ILL, INSIDE, OUT, WELL

PEOPLE, OPTIONS = "people", (WELL, ILL, DOWN)
# What a text may be of while birds wait: all that is of the birds, or that nobody understood.
OF_BIRDS = (
    *(Intent.OBSERVE, Intent.TEMPERATURE, Intent.HUMIDITY, Intent.DEATHS, Intent.CULLED),
    *(Intent.CROP_CHECK, Intent.WEIGHT, Intent.ASK, Intent.OTHER, Intent.NEXT, Intent.HELP),
    *(Intent.TODAY, Intent.MULTI),
)
KEPT = (AddEvent, TellAdviser, ChangeBatch, KeepUnread)  # writes that only take down what was said
OF_SMOKE = ("fumes_fire", "fumes_gas", "fumes_bulb", "fumes_none", "fumes_more")
SHARP = "ammonia"  # the cause that is left where nobody is ill and nothing smokes


def is_open(case: Case) -> bool:
    """Whether an alarm of bad air stands; of a phone without birds, whether one went today. With a
    phone that stopped nobody talks: each danger is heard as a new one."""
    if case.phone.consent == "stopped":
        return False
    batch = case.batch
    if batch is None:
        return case.recent.danger_today.get("fumes", 0) > 0
    return _poisoned(story_of(case, batch))


def _poisoned(story: Story) -> bool:
    return story.cause == "fumes" and POISONED in story.asked


def as_better(meaning: Meaning, case: Case) -> Meaning:
    """Told that people are well once we had asked about the air: as good as "better"."""
    story = story_of(case, asked_batch(case))
    well = _told(meaning, case)[:1] == (WELL,) and not meaning.signals
    if not (well and is_open(case) and story.checks):
        return meaning
    return Meaning(Intent.OBSERVE, replace(meaning.slots, answer="better"))


def people_first(
    meaning: Meaning, case: Case, alarm: Decision | None, kind: str | None
) -> Decision | None:
    """What is told of people is answered before anything of the birds; another danger, of that
    kind, stands behind it."""
    if not is_open(case):
        return None
    batch = asked_batch(case)
    story = story_of(case, batch)
    told = _told(meaning, case)
    lost = alarm is not None and any(line.key == "fumes_inside" for line in alarm.lines)
    if not told and alarm is not None and lost and _are_out(story):
        return _waiting(story, replace(alarm, lines=(), more=()))
    if not told:
        of_air = alarm is not None and alarm.why is not None and alarm.why.cause == "fumes"
        return None if alarm is None or of_air or not _waits(story) else _waiting(story, alarm)
    if told[0] not in GRAVE and (story.checks or (told[0] == WELL and only_sharp(story, meaning))):
        return None
    return _of_people(told, story, case, batch, alarm if kind else None)


def _told(meaning: Meaning, case: Case) -> tuple[str, ...]:
    """By words, else by the digit of our question."""
    if meaning.people:
        return meaning.people
    chosen = meaning.slots.answer
    return (chosen,) if answers(case, PEOPLE) and chosen in OPTIONS else ()


def _of_people(
    told: tuple[str, ...], story: Story, case: Case, batch: Batch | None, alarm: Decision | None
) -> Decision:
    """What helps them, and how they are now; who may still be in there is fetched first."""
    state = told[0]
    out = OUT in told or f"{PEOPLE_MARK}{OUT}" in story.asked
    lines: list[Line] = [say(f"people_{state}")] if state != INSIDE else []
    if state == INSIDE or (state == DOWN and not out):
        lines = [say("fumes_inside"), *lines]
    first, behind = lines[0], lines[1:]
    question = None if state == WELL or first.key == "fumes_inside" else how_are_they()
    ill_before = any(one in story.asked for one in (f"{PEOPLE_MARK}{it}" for it in GRAVE))
    marks = (state, *((OUT,) if OUT in told and state != OUT else ()))
    marked = story.marked(*(f"{PEOPLE_MARK}{one}" for one in marks))
    at = None if batch is None or batch.complaint is None else batch.complaint.check_at
    if at is None or at <= case.now:
        at = case.now + AIR_AGAIN
    writes: list[Write] = list(keep(batch, marked, cause="fumes", check_at=at))
    if state in GRAVE and not ill_before:
        seen: dict[str, object] = {"what": "fumes", "signs": [FUMES]}
        batch_id = batch.id if batch else None
        writes.append(TellAdviser("danger", "fumes: a person is ill of it", batch_id, seen))
    more: tuple[tuple[Line, ...], ...] = tuple((one,) for one in behind)
    if alarm is not None:
        writes = [*_taken_down(alarm), *writes]
        more = (*more, alarm.lines, *alarm.more)
    referred = state in GRAVE or alarm is not None
    return Decision((first,), tuple(writes), question, Why(cause="fumes"), referred, more)


def how_are_they() -> Question:
    """How are the people now?"""
    return menu(PEOPLE, "ask_people", OPTIONS)


def birds_wait(decision: Decision, meaning: Meaning, case: Case) -> Decision:
    """The same decision where no alarm of bad air is open, or it is of no bird; else that the birds
    wait, with what was told of them taken down."""
    story = story_of(case, asked_batch(case))
    facts = meaning.facts()
    keys = [line.key for line in decision.lines]
    fire = bool(set(keys).intersection(OF_SMOKE))  # these light the stoves again
    if case.phone.consent == "stopped" or not (_poisoned(story) and (fire or _waits(story))):
        return decision
    if not decision.lines and decision.question is None:
        return decision
    settled = decision.why is not None and decision.why.cause == SHARP
    settled = settled or listen(meaning, case.question).worked == "better"
    if settled or "fumes_inside" in keys or any(one.intent not in OF_BIRDS for one in facts):
        return decision
    return _waiting(story, replace(decision, lines=(), more=()))


def ill_by_a_fire(decision: Decision, meaning: Meaning, case: Case) -> Decision:
    """The same answer, with the word on whoever is ill where a fire burns: it may be its air."""
    batch = asked_batch(case)
    ill = {ILL, DOWN}.intersection(meaning.people)
    fire = set(circumstances_of(case, batch).heats).intersection(FIRES)
    if not ill or not fire or is_open(case):
        return decision
    return replace(decision, more=(*decision.more, (say("person_by_fire"),)))


def _waiting(story: Story, told: Decision) -> Decision:
    """People first, in a text of its own; a danger told of the birds stands behind it."""
    question = None if _are_well(story) else how_are_they()
    more = (told.lines, *told.more) if told.lines else ()
    why = Why(cause="fumes")
    return Decision((say("people_wait"),), _taken_down(told), question, why, told.referred, more)


def _taken_down(told: Decision) -> tuple[Write, ...]:
    return tuple(one for one in told.writes if isinstance(one, KEPT))


def _waits(story: Story) -> bool:
    """Nobody was asked yet whether the air is better, or the last that was told is an ill one."""
    return not story.checks or (_last(story) or "") in GRAVE


def _are_out(story: Story) -> bool:
    """Told that they are out, or well: a text that nobody understood is of no one in there."""
    return bool({f"{PEOPLE_MARK}{OUT}", f"{PEOPLE_MARK}{WELL}"}.intersection(story.asked))


def _are_well(story: Story) -> bool:
    return _last(story) == WELL


def _last(story: Story) -> str | None:
    said = [one.removeprefix(PEOPLE_MARK) for one in story.asked if one.startswith(PEOPLE_MARK)]
    return next((one for one in reversed(said) if one != OUT), None)


def only_sharp(story: Story, meaning: Meaning) -> bool:
    """Nobody is ill and nothing smokes, and the air stings over wet litter: ammonia."""
    facts = (meaning, *meaning.parts)
    told = {*story.signals, *(sign for one in facts for sign in one.signals)}
    denied = {*story.not_signals, *(sign for one in facts for sign in one.not_signals)}
    ill = any(f"{PEOPLE_MARK}{one}" in story.asked for one in GRAVE)
    fine = meaning.people[:1] == (WELL,) or bool({FUMES, SMOKE} & denied)
    return fine and not ill and bool(told.intersection((SMELL, OWN_EYES, *DIRTY_LITTER)))
