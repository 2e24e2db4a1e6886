"""Danger first: looked for in every text before anything but STOP.

In: any meaning. Out: the answer that sends to the vet, or asks about doubtful deaths; None where
nothing is dangerous. Called by `turn.choose`. The rules stand in `diagnosis.danger`.

The full text goes three times a day a phone for one kind of danger, then one line. Its key is
"danger_<kind>": by it the turn counts.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.decide.box import IN_THE_BOX
from bot.decide.common import (
    LIVELY,
    UNPLACED,
    about,
    answers,
    asked_batch,
    day_of,
    dead_question,
    deaths_kind,
    menu,
    on_arrival,
    say,
    tell_unusual,
)
from bot.decide.indoors import indoors
from bot.diagnosis.action import Advice, advise
from bot.diagnosis.danger import (
    AIR_AGAIN,
    BREATH,
    EXPLAINED,
    FIRES,
    FROM_THE_ROAD,
    HEAPS,
    HEAT_SIGNS,
    ILLNESS,
    OF_THE_AIR,
    PILING,
    SMELL,
    SMOKE,
    TO_LOOK,
    Danger,
    Verdict,
    by_heat,
    find_danger,
    judge_deaths,
    screaming_heap,
)
from bot.diagnosis.explain import because, explain
from bot.diagnosis.keep import keep
from bot.diagnosis.question import SIGN, YES_NO
from bot.diagnosis.story import (
    DULL,
    LEGS,
    LEGS_ON,
    POISONED,
    RATS,
    WAKE,
    WAKES,
    Heard,
    circumstances_of,
    listen,
    story_of,
    with_heard,
)
from bot.diagnosis.weigh import Circumstances, Evidence, weigh
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Why
from bot.facts.writes import AddEvent, ChangeBatch, TellAdviser, Write
from bot.handbook.shapes import Handbook

FULL_TEXTS = 3
INSIDE = "person_inside"
FEED_SIGNS = ("not_eating", "feed_mouldy", "feed_new")
FEED_CHANGED = ("drinking_more", "feed_new")  # salt, or a mix that they are not used to
THIRST_SIGNS = ("not_drinking", "no_water")
BLOOD = "bloody_droppings"
STILL = {"sleepy_all_birds", "lethargic", "lies_still"}  # alone: one look may take them back
NOTED = "danger_noted"
FULL, LOOK_AFTER, NO_FIRE = "danger_", "_look", "_no_fire"
DULL_SIGN, CALM_NOW = "lethargic", ("spread_evenly", "lies_still", "wings_spread", "panting")
HEAT_DEATHS = "hot_open"  # told in the alarm's second text; what follows says more
SOON = timedelta(minutes=30)  # what was done against a deadly heat or cold is asked about again
CHILLED = (*HEAPS, "stove_out", "litter_cold")
MANY_DEAD = "sudden_many_deaths"
AIR = f"{SIGN}{SMOKE}"
SMOKING = {"gas": "fumes_gas", "kerosene": "fumes_wick"}  # what is done about a burner that smokes
LAME, SPLAY_AGE = "limping_or_down", 7  # legs spread on a slippery floor; common practice
# Alarms whose first text says what to look at, and when to call the vet: by the look behind them.
OF_LOOKS = {AIR: "_look", f"{SIGN}{SMELL}": "_air", LEGS: "_legs"}
HOT = "hot"
LOOK = "deaths_look"
LOOKS = ("lively", "heap", "few_dull", "many_dull")


def danger(meaning: Meaning, case: Case, handbook: Handbook) -> Decision | None:
    """The danger answer, or the one question about doubtful deaths, or None."""
    batch = asked_batch(case)
    heard = _heard(meaning, case)
    dead = _deaths(meaning, case)
    verdict: Verdict = "quiet" if dead is None else _judge(case, dead, meaning)
    tells = _unusual(meaning, case, handbook, batch, dead or 0)
    if verdict == "quiet" and tells:
        verdict = "doubt"
    inside = _someone_inside(meaning, case, batch)
    if inside is not None and INSIDE in heard.signals:
        return inside
    if answers(case, LOOK) and set(heard.signals).intersection(PILING) and verdict == "quiet":
        return Decision((say("look_heap"),), (), None, Why(cause="cold"))
    hot = by_heat(story_of(case, batch).signals) and set(heard.signals) <= {DULL_SIGN, *CALM_NOW}
    seen = (*heard.signals, *(("panting",) if hot else ()))
    found = find_danger(seen, heard.many, circumstances_of(case, batch), verdict)
    if found is None and hot and DULL_SIGN in heard.many:
        return _dull_by_heat(case, batch, heard)
    if found is not None:
        return _alarm(found, meaning, case, handbook, heard, dead)
    noted = () if case.phone.consent == "stopped" else _death_events(meaning, case, batch)
    people = indoors(meaning, heard, story_of(case, batch), noted)
    if people is not None:
        return people
    if answers(case, LOOK) and meaning.slots.answer in LOOKS:
        return _looked(meaning, case)
    if verdict == "doubt" and dead is not None:
        return _doubt(meaning, case, handbook, batch, dead, tells)
    return inside


def _someone_inside(meaning: Meaning, case: Case, batch: Batch | None) -> Decision | None:
    """Told of a person in there after bad air, or not understood right behind it: how to get them
    out without a second one falling."""
    story = story_of(case, batch)
    air = story.cause == "fumes" and POISONED in story.asked
    told = INSIDE in meaning.signals
    lost = meaning.intent is Intent.OTHER and not meaning.slots.answer and not story.checks
    if not air or not (told or lost):
        return None
    return Decision((say("fumes_inside"),), (), None, Why(cause="fumes"), referred=True)


def _heard(meaning: Meaning, case: Case) -> Heard:
    """The signs of the text; "4 many dull or ill" counts as one said of many."""
    heard = listen(meaning, case.question)
    if IN_THE_BOX in heard.signals or any(one.intent is Intent.ARRIVED for one in meaning.facts()):
        many = tuple(one for one in heard.many if one not in FROM_THE_ROAD)
        heard = replace(heard, many=many)
    if answers(case, "dead_on_arrival") or _came_now(meaning, case):
        heard = replace(heard, signals=tuple(one for one in heard.signals if one != MANY_DEAD))
    if answers(case, LOOK) and meaning.slots.answer == "many_dull":
        return replace(
            heard, signals=(*heard.signals, "lethargic"), many=(*heard.many, "lethargic")
        )
    return heard


def _came_now(meaning: Meaning, case: Case) -> bool:
    """Told with the arrival of this day: the dead are those of the box, a claim and no danger."""
    batch = case.batch
    came = any(one.intent is Intent.ARRIVED for one in meaning.facts())
    return came and batch is not None and batch.age(case.today) in (None, 0)


# Deaths


def _deaths(meaning: Meaning, case: Case) -> int | None:
    """The deaths that a text tells of today or an earlier day; None where it tells of none, or
    where they came dead in the box."""
    told = [one.slots for one in meaning.facts() if one.intent is Intent.DEATHS]
    said = [one.deaths + round(one.was or 0) for one in told if one.deaths is not None]
    batch = case.batch
    if not said or answers(case, "dead_on_arrival") or _came_now(meaning, case):
        return None
    if batch is not None and on_arrival(case, batch):
        return None
    return sum(said)


def _day(meaning: Meaning, case: Case) -> date:
    """The day that the deaths belong to."""
    told = next((one for one in meaning.facts() if one.intent is Intent.DEATHS), meaning)
    return day_of(case, told)


def _judge(case: Case, dead: int, meaning: Meaning) -> Verdict:
    """By the rule for one day; with several batches and none named, on the smaller."""
    running = [one for one in case.batches if one.state == "running" and one.count]
    if not running:
        return judge_deaths(dead, None)
    day = _day(meaning, case)
    order: tuple[Verdict, ...] = ("danger", "doubt", "quiet")
    verdicts = [_of_batch(one, dead, one.total("deaths", day)) for one in running]
    return min(verdicts, key=order.index)


def _of_batch(batch: Batch, dead: int, before: int) -> Verdict:
    """Deaths of one day add up; the birds alive are those of that morning."""
    if dead > batch.alive:
        return "quiet"  # more than there are: a slip, asked about where deaths are counted
    if not dead:
        return "quiet"
    return judge_deaths(dead + before, batch.alive + before)


def _unusual(
    meaning: Meaning, case: Case, handbook: Handbook, batch: Batch | None, dead: int
) -> tuple[Write, ...]:
    """The adviser's line on deaths that chance hardly explains."""
    if batch is None or batch.state != "running":
        return ()
    return tell_unusual(case, batch, _day(meaning, case), dead, handbook.husbandry)


def _doubt(
    meaning: Meaning,
    case: Case,
    handbook: Handbook,
    batch: Batch | None,
    dead: int,
    tells: tuple[Write, ...],
) -> Decision | None:
    """Neither danger nor quiet: taken down, and one question. A second number of the day, a phone
    that is stopped and a text of several facts are dealt with where deaths are counted."""
    day = _day(meaning, case)
    earlier = batch.total("deaths", day) if batch else 0
    two = any(one.slots.was for one in meaning.facts() if one.intent is Intent.DEATHS)
    if earlier or two or not _only_of_the_dead(meaning) or case.phone.consent == "stopped":
        return None
    writes = (*_death_events(meaning, case, batch), *tells)
    noted = say(NOTED, n=dead)
    story = story_of(case, batch)
    failed = any(one.startswith("worked:") for one in story.asked)
    if story.cause == HOT and failed and by_heat(story.signals):
        why = Why(cause=HOT, because=story.signals)  # they die of it though they were cooled
        vet = ((say("all_tried_hot"),),)
        return Decision((noted, say("dead_out")), writes, None, why, referred=True, more=vet)
    told = {*meaning.signals, *(one for part in meaning.parts for one in part.signals)}
    denied = {*meaning.not_signals, *(one for part in meaning.parts for one in part.not_signals)}
    lively = told.intersection(LIVELY) or denied.intersection(DULL)
    question = dead_question() if lively and _is_alone(case) else look_question(dead)
    here = circumstances_of(case, batch)
    found = Danger("deaths", False, False, ())
    more = _what_goes_on(found, told, here, handbook)
    return Decision(
        (*_heap_first(found, told), noted), writes, question, Why(cause="unclear"), more=more
    )


def _only_of_the_dead(meaning: Meaning) -> bool:
    """Whether the text tells of nothing else than deaths and culls, and that the others are well:
    culls are taken down in silence."""
    counted = (Intent.DEATHS, Intent.CULLED)
    others = [one for one in meaning.parts if one.intent not in counted]
    return all(one.intent is Intent.OBSERVE and set(one.signals) <= LIVELY for one in others)


def look_question(dead: int) -> Question:
    """The one question about doubtful deaths: how do the others look, where did they lie?"""
    return about(menu(LOOK, "ask_deaths_look", LOOKS), dead=str(dead))


def _looked(meaning: Meaning, case: Case) -> Decision:
    """The answer, where it is no danger: the others are lively, so how do the dead look? They lay
    in a heap, or a few are dull."""
    chosen = meaning.slots.answer
    if chosen == "lively" and case.question is not None and UNPLACED in case.question.about:
        return Decision((say("look_lively"),), (), None, Why())
    if chosen == "lively":
        return Decision((), (), dead_question(), Why())
    if chosen == "heap":
        return Decision((say("look_heap"),), (), None, Why(cause="cold"))
    return Decision((say("sick"),), (), None, Why(cause="sick", because=("lethargic",)))


def _death_events(meaning: Meaning, case: Case, batch: Batch | None) -> tuple[Write, ...]:
    """More than are alive may be a slip: it is kept as said, the birds are not taken off."""
    if batch is None or batch.state != "running":
        return ()
    kind = deaths_kind(case, batch)
    return tuple(
        AddEvent(batch.id, kind, day_of(case, one), {"n": dead})
        if dead <= batch.alive
        else AddEvent(batch.id, "doubted", day_of(case, one), {"of": kind, "n": dead})
        for one in meaning.facts()
        if one.intent is Intent.DEATHS
        for dead in (round(one.slots.was or 0), one.slots.deaths)  # "2 at dawn, now 5": both hold
        if dead
    )


def _dull_by_heat(case: Case, batch: Batch | None, heard: Heard) -> Decision:
    """Many are dull in a flock that was told to pant: the vet, and cooled before all else."""
    writes: list[Write] = []
    if batch is not None:
        seen = {"signals": list(heard.signals), "not_signals": list(heard.not_signals)}
        writes.append(AddEvent(batch.id, "observed", case.today, seen))
    told: dict[str, object] = {"what": "ill", "signs": [DULL_SIGN, "panting"]}
    writes.append(TellAdviser("danger", "ill: dull in the heat", batch.id if batch else None, told))
    big = circumstances_of(case, batch).band == "big"
    why = Why(cause="hot", because=heard.signals)
    return Decision((say("hot_vet" if big else "hot_vet_chicks"),), tuple(writes), None, why, True)


# The alarm


def _alarm(
    found: Danger,
    meaning: Meaning,
    case: Case,
    handbook: Handbook,
    heard: Heard,
    dead: int | None,
) -> Decision:
    batch = asked_batch(case)
    told = set(with_heard(story_of(case, batch), heard, handbook.causes).signals)
    doubt = _doubt_line(batch, dead)
    alone = bool(doubt) or batch is None or not _is_talked_with(case) or _told_today(found, case)
    question = None if alone else _look_behind(found, told, case, handbook)
    if dead and question is not None and question.name == WAKE:
        question = None  # birds died: dull ones are no sleepers
    writes: list[Write] = []
    if batch is not None and heard.signals:
        seen: dict[str, object] = {
            "signals": list(heard.signals),
            "not_signals": list(heard.not_signals),
        }
        air = {POISONED: True} if found.because != (SMOKE,) and found.kind == "fumes" else {}
        writes.append(AddEvent(batch.id, "observed", case.today, {**seen, **air}))
    writes += _death_events(meaning, case, batch)
    if batch is not None and found.notifiable and not batch.held:
        writes.append(ChangeBatch(batch.id, {"held": True}))
    if batch is not None and batch.state == "running":
        writes += _follow_up(found, meaning, case, handbook, batch, question)
    writes.append(_tell(found, dead, batch))
    line = _line(found, case)
    if dead and _a_few_more(found, case, dead):
        line = say("still_danger")
    why = _why(found, case, handbook, heard, batch)
    office = _office(line, case)
    if dead and line.key == "still_danger":
        more = (
            *office,
            *_what_goes_on(found, told, circumstances_of(case, batch), handbook),
            *doubt,
        )
        return Decision((say(NOTED, n=dead), line), tuple(writes), None, why, True, more)
    if alone:
        more = (*office, *doubt)
        return Decision((line,), tuple(writes), None, why, referred=True, more=more)
    assert batch is not None
    if question is not None and question.name == WAKE:
        line = _clap_first(case, batch)
    if question is not None and question.name in OF_LOOKS and line.key == f"{FULL}ill":
        line = say(f"{FULL}ill{OF_LOOKS[question.name]}")
    more = (*office, *_what_goes_on(found, told, circumstances_of(case, batch), handbook))
    lines = (*_heap_first(found, told), line)
    return Decision(lines, tuple(writes), question, why, referred=True, more=more)


def _office(line: Line, case: Case) -> tuple[tuple[Line, ...], ...]:
    """Behind the full text on a disease that must be reported: the office to report it to, where
    the cooperative has set its number."""
    number = case.cooperative.authority_number
    if number is None or line.key != f"{FULL}notifiable":
        return ()
    return ((say("call_office", phone=number),),)


def _heap_first(found: Danger, told: set[str]) -> tuple[Line, ...]:
    """That a heap is parted, where there is one."""
    return (say("heap_apart"),) if _is_heap(found, told) else ()


def _is_heap(found: Danger, told: set[str]) -> bool:
    """In a heap those below die while somebody calls: it is parted before all else, but for bad air
    and a disease that hands may carry."""
    heap = bool(told.intersection(HEAPS)) or screaming_heap(told)
    side = found.kind in ("deaths", "dull") and bool(told.intersection(PILING))
    return side or (heap and found.kind == "ill")


def _clap_first(case: Case, batch: Batch) -> Line:
    """Birds that only lie still may sleep: people out of a fire's air first, then one look, and the
    vet where they do not get up."""
    fire = set(circumstances_of(case, batch).heats).intersection(FIRES)
    return say(f"{FULL}dull{LOOK_AFTER}" if fire else f"{FULL}dull{LOOK_AFTER}{NO_FIRE}")


def _look_behind(found: Danger, told: set[str], case: Case, handbook: Handbook) -> Question | None:
    """The look that follows the alarm, in a text of its own: do birds that lie still get up? Have
    the dead bites, or was it the feed? Does the air sting their eyes? None where it is plain, or
    of which batch is not."""
    if not _is_alone(case) or found.kind == "fumes":
        return None
    gape = "panting" in told  # what sneezes with an open beak is ill
    of_air = found.kind == "ill" and set(found.because) <= set(OF_THE_AIR) and not gape
    here = circumstances_of(case, case.batch)
    if of_air and set(here.heats).intersection(FIRES) and SMOKE not in _known(case, told):
        return menu(AIR, "ask_air_people", YES_NO)
    if of_air and SMELL not in told:
        return menu(f"{SIGN}{SMELL}", f"ask_{SMELL}", YES_NO)
    if found.because == (LAME,) and (here.age or 0) <= SPLAY_AGE and told <= {LAME}:
        return menu(LEGS, "ask_legs", LEGS_ON)
    calm = {one for one in told if one in handbook.causes.signs and handbook.causes.signs[one].calm}
    still = set(found.because) <= STILL and told - calm <= STILL
    dead = case.batch.total("deaths", case.today) if case.batch else 0
    if still and not dead and not answers(case, WAKE):
        return menu(WAKE, "ask_wake", WAKES)
    known = (*EXPLAINED, *ILLNESS, *HEAT_SIGNS, *FEED_SIGNS, BLOOD)
    if found.kind != "deaths" or told.intersection(known):
        return None
    return dead_question()


def _known(case: Case, told: set[str]) -> set[str]:
    """What was told, or denied in the trouble at hand."""
    return told.union(story_of(case, case.batch).not_signals)


def _is_alone(case: Case) -> bool:
    """Whether one batch runs: of two, which is asked first."""
    return sum(one.state == "running" for one in case.batches) == 1


def _what_goes_on(
    found: Danger, told: set[str], here: Circumstances, handbook: Handbook
) -> tuple[tuple[Line, ...], ...]:
    """Behind an alarm, what the farmer can do while the vet comes: gas is shut, heat is let out;
    where many died those that live are warmed, holes are shut, water is given, the feed that they
    left is taken away."""
    if found.kind == "fumes" and INSIDE in told:
        return ((say("fumes_inside"),),)
    if found.kind == "fumes" and SMOKE in found.because:
        return tuple((say(key),) for heat, key in SMOKING.items() if heat in here.heats)
    warm = _warm_now(found, told, here, handbook)
    if warm is not None:
        return ((say(warm.key),),)
    if found.kind in ("fumes", "notifiable") or _is_heap(found, told):
        return ()
    if (
        by_heat(told)
        and not (here.night and told.intersection(BREATH))
        and found.kind in ("deaths", "dull", "ill")
    ):
        return ((say("cool_now" if here.band == "big" else "cool_now_chicks"),),)
    if found.kind != "deaths":
        return ()
    if RATS in told:
        return ((say("predator"),),)
    if told.intersection(THIRST_SIGNS):
        return ((say("thirst_open" if here.open_house else "thirst"),),)
    if told.intersection(FEED_CHANGED):
        return ((say("feed_doubt"),),)
    return ((say("feed_away"),),) if told.intersection(FEED_SIGNS) else ()


def _warm_now(
    found: Danger, told: set[str], here: Circumstances, handbook: Handbook
) -> Advice | None:
    """How those that live are warmed, where many died of a heap or without heat."""
    chilled = told.intersection(CHILLED) and not by_heat(told)
    if found.kind not in ("deaths", "dull") or not chilled:
        return None
    return advise("cold", told, here, (), handbook.causes)


def _told_today(found: Danger, case: Case) -> bool:
    return case.recent.danger_today.get(found.kind, 0) > 0


def _a_few_more(found: Danger, case: Case, dead: int) -> bool:
    """Deaths behind an alarm of deaths that went today, too few to be a danger by themselves: it is
    no worse, so they are added and the one line goes."""
    batch = asked_batch(case)
    if batch is None or found.kind != "deaths" or not _told_today(found, case):
        return False
    return judge_deaths(dead, batch.alive) != "danger"


def _is_talked_with(case: Case) -> bool:
    """A phone that stopped, is muted or has spent its answers gets the alarm alone."""
    return case.phone.consent == "active" and case.answered and not case.phone.muted(case.now)


def _doubt_line(batch: Batch | None, dead: int | None) -> tuple[tuple[Line, ...], ...]:
    """Behind the alarm: more dead than were alive can't be counted, and are asked back; where all
    are dead, what is to be done before others come."""
    if batch is None or batch.state != "running" or not dead or dead < batch.alive:
        return ()
    if dead == batch.alive:
        return ((say("died_out"),),)
    return ((say("too_many_dead", n=dead, alive=batch.alive),),)


def _follow_up(
    found: Danger,
    meaning: Meaning,
    case: Case,
    handbook: Handbook,
    batch: Batch,
    question: Question | None,
) -> tuple[Write, ...]:
    """What we come back to: after bad air the air itself, soon; else whether a vet was reached."""
    heard = listen(meaning, case.question)
    story = with_heard(story_of(case, batch), heard, handbook.causes)
    if found.kind == "fumes":
        return keep(batch, story.marked(POISONED), cause="fumes", check_at=case.now + AIR_AGAIN)
    if question is not None and question.name in OF_LOOKS:
        looked = AddEvent(batch.id, "alarm", case.today, {"kind": TO_LOOK})
        return (looked, *keep(batch, story.marked(question.name), cause=None))
    alarm = AddEvent(batch.id, "alarm", case.today, {"kind": found.kind})
    here = circumstances_of(case, batch)
    warm = _warm_now(found, set(story.signals), here, handbook)
    if warm is not None:
        at = case.now + SOON
        return (alarm, *keep(batch, story, cause="cold", actions=(warm.key,), check_at=at))
    if found.kind != "deaths" or not by_heat(set(story.signals)):
        return (alarm,)
    at = case.now + SOON
    return (alarm, *keep(batch, story, cause="hot", actions=(HEAT_DEATHS,), check_at=at))


def _line(found: Danger, case: Case) -> Line:
    """The full text, three times a day for one kind; after that the one line."""
    # People in bad air are told in full each time: it may be others who faint now.
    often = case.recent.danger_today.get(found.kind, 0) >= FULL_TEXTS
    if often and not found.people_first:
        return say("still_danger")
    if found.kind == "dull" and not found.people_first:
        return say(f"{FULL}{found.kind}{NO_FIRE}")
    return say(f"{FULL}{found.kind}")


def danger_kind(decision: Decision) -> str | None:
    """The kind of danger told in full, for counting; None where none was."""
    keys = [one.key for one in decision.lines if one.key.startswith(FULL) and one.key != NOTED]
    if not decision.referred or not keys:
        return None
    return keys[0].removeprefix(FULL).removesuffix(NO_FIRE).split("_")[0]


def _tell(found: Danger, dead: int | None, batch: Batch | None) -> TellAdviser:
    """The line on the adviser's list, in plain words and figures, and as codes."""
    told: dict[str, object] = {"what": found.kind, "signs": list(found.because)}
    if dead is not None:
        alive = batch.alive if batch and batch.count else None
        told |= {"dead": dead, "alive": alive}
    reason = _reason(found, dead, batch)
    return TellAdviser("danger", reason, batch.id if batch else None, told)


def _reason(found: Danger, dead: int | None, batch: Batch | None) -> str:
    """One line in plain words and figures."""
    said = ", ".join(one.replace("_", " ") for one in found.because)
    if dead is not None:
        alive = f" of {batch.alive}" if batch and batch.count else ""
        said = f"{dead} dead{alive}" + ("" if found.kind == "deaths" else f", {said}")
    return f"{found.kind}: {said}"


def _why(found: Danger, case: Case, handbook: Handbook, heard: Heard, batch: Batch | None) -> Why:
    """Fumes are fumes; all else is what the signs say, illness where they say nothing else."""
    signals = tuple(dict.fromkeys((*heard.signals, *found.because)))
    evidence = Evidence(signals, heard.not_signals, circumstances_of(case, batch))
    weighed = weigh(evidence, handbook.causes)
    cause = _cause(found, weighed.top, heard)
    told = explain(evidence, weighed, handbook.causes, cause)
    return replace(told, because=because(evidence, cause, handbook.causes))


def _cause(found: Danger, top: str, heard: Heard) -> str:
    if found.kind == "fumes":
        return "fumes"
    if found.kind == "deaths" and heard.signals and top not in ("comfortable",):
        return top
    return "sick"
