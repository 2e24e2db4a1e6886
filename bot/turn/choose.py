"""Which answer a meaning gets, in the order that safety asks for: STOP, danger, then limits, then
the open question, then what the text wants. Pure. Called by `turn.take`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

from bot.decide import (
    arrived,
    bad_air,
    contacts,
    deaths,
    entries,
    flock,
    intended,
    leave,
    overview,
    people,
    reasons,
    register,
    ruled,
    sales,
    setup,
    slips,
    steps,
    today,
    whose,
)
from bot.decide.ask import answer as ask
from bot.decide.box import IN_THE_BOX, in_the_box
from bot.decide.common import asked_batch, behaviour_menu, not_understood, say
from bot.decide.danger import LOOK, danger, danger_kind
from bot.decide.indoors import beside
from bot.decide.named import named, names_several
from bot.decide.observe.answer import hang_in_words, observe
from bot.decide.observe.asking import heat_of_the_day
from bot.decide.observe.cuts import LAST_SPOT_AGE
from bot.decide.observe.unheard import asks_for_help, in_trouble, not_heard, where_we_are
from bot.decide.observe.worry import told_of_a_worry
from bot.diagnosis.danger import FROM_THE_ROAD
from bot.diagnosis.question import SIGN
from bot.diagnosis.story import (
    BROWN_LOOK,
    CHECK,
    DEAD,
    FEED_LOOK,
    FIT,
    HANG,
    ILL_LOOK,
    LEGS,
    QUESTION,
    SNEEZE,
    SPOT,
    STALE,
    WAKE,
    WHAT,
    WORKED,
    listen,
)
from bot.facts.farm import WAYS_OUT, Case, Event, OpenQuestion
from bot.facts.talk import Decision, Intent, Line, Meaning, Push, Question, Slots
from bot.facts.writes import (
    AddBatch,
    AddEvent,
    ChangeBatch,
    CloseQuestion,
    KeepUnread,
    Mute,
    TellOwner,
    Write,
)
from bot.handbook.shapes import Handbook
from bot.say.ours import is_ours
from bot.understand.read import VET

Decide = Callable[[Meaning, Case, Handbook], Decision]

WANTS: dict[Intent, Decide] = {
    Intent.PLAN: register.register,
    Intent.REGISTER: register.register,
    Intent.ARRIVED: arrived.arrived,
    Intent.OBSERVE: observe,
    Intent.TEMPERATURE: observe,
    Intent.HUMIDITY: observe,
    Intent.DEATHS: deaths.deaths,
    Intent.CULLED: deaths.culled,
    Intent.FEED: entries.feed,
    Intent.WEIGHT: entries.weight,
    Intent.WATER: entries.water,
    Intent.TREATED: entries.treated,
    Intent.SOLD: sales.sold,
    Intent.TAKEN: flock.taken,
    Intent.COUNTED: flock.counted,
    Intent.CORRECT: slips.correct,
    Intent.EXPENSE: entries.expense,
    Intent.FUEL: entries.fuel,
    Intent.CROP_CHECK: entries.crop_check,
    Intent.STATUS: overview.status,
    Intent.UNDO: slips.undo,
    Intent.WHY: reasons.why,
    Intent.CANCELLED: arrived.cancelled,
    Intent.SETUP: setup.setup,
    Intent.CLOSE: flock.close,
    Intent.NEXT: ask.next_,
    Intent.ASK: ask.ask,
    Intent.START: people.start,
    Intent.HELP: people.help_,
    Intent.LANGUAGE: people.language,
    Intent.THANKS: people.thanks,
    Intent.CALL_ME: people.call_me,
    Intent.NOT_ME: people.not_me,
    Intent.TODAY: today.today,
    Intent.CARETAKER: contacts.caretaker,
    Intent.NAME: contacts.name,
    Intent.OWNER: contacts.owner,
    Intent.FORGET: contacts.forget_me,
    Intent.ABOUT_ME: contacts.about_me,
}
# Answers to questions that only their asker can read; all others are read by their intent.
ANSWERS: dict[str, Decide] = {
    **dict.fromkeys(register.QUESTIONS, register.answer_register),
    "arrived": arrived.answer_arrived,
    "more_or_all": deaths.answer_more_or_all,
    "withdrawal": entries.answer_withdrawal,
    entries.FUEL_KG: entries.answer_fuel_kg,
    "behind": entries.answer_behind,
    "done": steps.answer_done,
    "vet_reached": steps.answer_vet,
    "vet_said": steps.answer_vet_said,
    "feathers": steps.answer_feathers,
    "well": steps.answer_well,
    "nights": steps.answer_nights,
    "language": people.language,
    contacts.CARE: contacts.answer_care,
    contacts.JOIN: contacts.answer_join,
    contacts.FORGET: contacts.answer_forget,
    "deaths": deaths.deaths,
    "sold": sales.sold,
    "sale_money": sales.answer_money,
    "sale_kg": sales.answer_kg,
    "gap": flock.answer_gap,
    "too_many": flock.answer_too_many,
    whose.WHICH: whose.answer_which,
    "price": ask.answer_price,
    "birds": ask.answer_birds,
    "feed_left": ask.answer_feed_left,
}
# How a number is asked for again, by what it is of.
AGAIN = {
    "weight": "weight_again",
    "feed": "ask_feed",
    "water": "ask_water",
    "sale_money": "ask_sale_money",
    "sale_kg": "ask_sale_kg",
    entries.FUEL_KG: "ask_fuel_kg",
    "withdrawal": "withdrawal_unknown",
}
OBSERVING = (Intent.OBSERVE, Intent.TEMPERATURE, Intent.HUMIDITY)
# Questions for a look, with their words where these are not "ask_<name>".
AGAIN_LOOK = {
    "behaviour": "behaviour_menu",
    "litter": "ask_litter",
    DEAD: "ask_dead_look",
    LOOK: "ask_deaths_look",
    SPOT: "ask_cold_spot",
    WAKE: "ask_wake",
    FIT: "ask_fit",
    BROWN_LOOK: "ask_brown",
    SNEEZE: "ask_sneeze",
    LEGS: "ask_legs",
    FEED_LOOK: "ask_feed_look",
    WHAT: "ask_what",
    ILL_LOOK: "ask_ill_look",
}
DATA_RIGHTS = (Intent.FORGET, Intent.ABOUT_ME)
LONG_ENOUGH = 20  # letters of ours that nobody types by chance
UNSURE = "unsure"  # "I don't know": of use only where we look for what is wrong
TWO_QUESTIONS = timedelta(minutes=3)
MOST_FIGURES = 2
FULL_MISSES = 2  # texts running that were not understood: from then on the adviser is named
LEAST_C, MOST_C = 15, 45  # what a thermometer in a brooder may show; no batch is planned so small
NOT_KEPT_YET = 0  # the id of an entry that the same text makes
HANDS_FIRST = ("smother", "heap_apart")  # said before the dead are spoken of
UNCLEAR = (Intent.OTHER, Intent.OBSERVE)  # the reader found no figure that means something else
SURE = 0.5  # below this a meaning is a guess, and is asked about instead of acted on


def choose(meaning: Meaning, case: Case, handbook: Handbook, text: str) -> Decision:
    """The one decision for this text."""
    meaning = _figure_once(meaning)
    facts = meaning.facts()
    if any(one.intent is Intent.STOP for one in facts):
        return _stop(meaning, case, handbook)
    if is_ours(text, handbook.texts) or _repeats(text, case.recent.last_said):
        return _limits(meaning, case, text) or not_understood(case, text)
    meaning = whose.chosen_in_words(meaning, case, handbook, text)
    answers = _is_answer(meaning, case)
    open_which = not answers and whose.told_by(meaning, case, handbook, text) is None
    case = whose.focused(meaning, case, handbook, text, answers=answers)
    meaning = _dead_again(meaning, case, text)
    meaning, case = in_the_box(meaning, case)
    meaning = bad_air.as_better(meaning, case)
    seen = case if open_which else whose.alone(case)
    alarm = danger(slips.more_dead(meaning, case), seen, handbook)
    heard = listen(meaning, case.question)
    kind = danger_kind(alarm) if alarm is not None else None
    people_first = bad_air.people_first(meaning, case, alarm, kind)
    if people_first is not None:
        return people_first
    if alarm is not None:
        told = beside(_alarm(alarm, meaning, case, handbook), heard)
        told = intended.behind_alarm(told, meaning, case)
        told = leave.behind_alarm(told, meaning, case)
        return whose.asking_which(told, case) if open_which else whose.asking_at_last(told, case)
    if case.phone.consent == "stopped":
        return _stopped(meaning, case, handbook)
    if case.phone.consent == "invited":
        agreed = contacts.invited(meaning, case, text)
        if agreed is not None:
            return agreed
    held_back = _limits(meaning, case, text)
    if held_back is not None:
        return held_back
    if _two_questions(case, text):
        return _again(case)
    if names_several(text, case, handbook.texts) and whose.may_tell(meaning):
        return Decision((say("one_batch_a_text"),), (KeepUnread(text, None),))
    wanted = heat_of_the_day(_wanted(meaning, case, handbook, text), case)
    decision = beside(whose.about_this(told_of_a_worry(wanted, meaning, case), case), heard)
    decision = intended.before_all(decision, meaning, case)
    decision = leave.answered_first(decision, meaning, case)
    decision = ruled.before_all(decision, meaning, case, handbook)
    decision = bad_air.birds_wait(decision, meaning, case)
    decision = bad_air.ill_by_a_fire(decision, meaning, case)
    if _tells_nothing_known(meaning):  # we ask what they do, and the adviser reads it too
        kept = KeepUnread(text, meaning.intent.value)
        decision = replace(decision, writes=(*decision.writes, kept))
    if answers:
        decision = whose.asking_at_last(decision, case)
    if decision.question is None and (answers or _ends_asked(decision, case)):
        decision = replace(decision, writes=(*decision.writes, CloseQuestion()))
    if open_which:
        return whose.asking_which(decision, case)
    found = named(text, case, handbook.texts)
    if found is None or answers:
        return decision
    return whose.saying_whose(decision, case, found.batch)


def _figure_once(meaning: Meaning) -> Meaning:
    """ "8 fewer" is no flock of 8: a count that is the number of the dead is none."""
    dead = {one.slots.deaths for one in meaning.parts if one.intent is Intent.DEATHS}
    kept = tuple(
        one
        for one in meaning.parts
        if one.intent is not Intent.COUNTED or one.slots.count not in dead
    )
    return meaning if len(kept) == len(meaning.parts) else replace(meaning, parts=kept)


def _tells_nothing_known(meaning: Meaning) -> bool:
    """Something is told of the birds, by the sound of it, and no sign of ours is in it."""
    seen = meaning.signals or meaning.not_signals or meaning.slots.answer
    guessed = meaning.intent is Intent.OBSERVE and meaning.confidence <= SURE
    return guessed and not seen


def _ends_asked(decision: Decision, case: Case) -> bool:
    """Whether the batch that the open question is about ends with this decision."""
    ended = {
        one.batch_id
        for one in decision.writes
        if isinstance(one, ChangeBatch) and one.changes.get("state") == "closed"
    }
    return case.question is not None and case.question.batch_id in ended


def _dead_again(meaning: Meaning, case: Case, text: str) -> Meaning:
    """ "2 more so 5" to how the others look: two figures are dead birds and no digit of the menu.
    The larger is all of the day. "Sold 20 at 700" is no answer to it."""
    figures = [int(one) for one in re.findall(r"\d+", text)[:MOST_FIGURES]]
    asked = case.question is not None and case.question.name == LOOK
    batch = asked_batch(case)
    if not asked or batch is None or len(figures) < MOST_FIGURES or meaning.intent not in UNCLEAR:
        return meaning
    more = max(figures) - batch.total("deaths", case.today)
    return Meaning(Intent.DEATHS, Slots(deaths=more)) if more > 0 else meaning


def _stop(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Stopped; with danger in the same text the one confirmation carries the vet's number."""
    stopped = people.stop(meaning, case, handbook)
    alarm = danger(meaning, case, handbook)
    if alarm is None:
        return stopped
    writes = (*stopped.writes, *_records_only(alarm.writes))
    bad_air = danger_kind(alarm) == "fumes"
    line = say("stopped_fumes" if bad_air else "stopped_danger")
    return Decision((line,), writes, None, alarm.why, referred=True)


def _alarm(alarm: Decision, meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Danger is answered in its own turn; other facts in the text are taken down in silence."""
    if case.phone.consent == "stopped":
        return replace(alarm, writes=_records_only(alarm.writes), question=None)
    handled = (*OBSERVING, Intent.DEATHS, Intent.STOP)
    quiet: list[Write] = []
    for one in meaning.parts:
        if one.intent in WANTS and one.intent not in handled:
            quiet += _records_only(WANTS[one.intent](one, case, handbook).writes)
    done = (CloseQuestion(),) if alarm.question is None and _looks(case.question) else ()
    return _told_the_owner(replace(alarm, writes=(*alarm.writes, *quiet, *done)), case)


def _looks(question: OpenQuestion | None) -> bool:
    """Whether an alarm has answered what we asked: how they look, or one of their signs."""
    if question is None:
        return False
    asked = (LOOK, DEAD, WAKE, HANG, SPOT, FIT, BROWN_LOOK, SNEEZE, LEGS, FEED_LOOK, *QUESTION)
    return question.name in asked or question.name.startswith(SIGN)


def _told_the_owner(alarm: Decision, case: Case) -> Decision:
    """Danger at birds that another looks after is told to their owner as well, as often as the
    full text goes."""
    batch = asked_batch(case)
    holder = case.person.id if case.person else None
    if batch is None or batch.owner_id in (None, holder) or danger_kind(alarm) is None:
        return alarm
    told = Push((say("owner_danger", phone=case.phone.number),), klass="danger")
    return replace(alarm, writes=(*alarm.writes, TellOwner(batch.id)), push=told)


def _records_only(writes: tuple[Write, ...]) -> tuple[Write, ...]:
    """Writes that keep what was said and start no talk."""
    from_danger = tuple(one for one in writes if not isinstance(one, CloseQuestion | KeepUnread))
    return tuple(
        one
        for one in from_danger
        if isinstance(one, AddEvent | ChangeBatch) or type(one).__name__ == "TellAdviser"
    )


def _stopped(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """A stopped phone may start again or ask for help; anything else gets one hint a day."""
    if meaning.intent in (Intent.START, Intent.HELP, Intent.LANGUAGE, *DATA_RIGHTS):
        return WANTS[meaning.intent](meaning, case, handbook)
    return Decision((say("stopped_hint"),)) if case.recent.answers_day == 0 else Decision()


def _limits(meaning: Meaning, case: Case, text: str) -> Decision | None:
    """Silence towards robots and storms; what was said is kept all the same."""
    recent, limits = case.recent, case.limits
    kept = (KeepUnread(text, None),)
    if case.phone.muted(case.now):
        return None if meaning.intent is Intent.START else Decision(writes=kept)
    if not case.answered and meaning.intent is not Intent.HELP:
        return Decision(writes=kept)
    answers = _is_answer(meaning, case) or meaning.intent is Intent.UNDO  # one back, and one more
    robot = None if answers else _robot(meaning, case)
    if robot is not None:
        mute = Mute(case.now + timedelta(hours=limits.mute_hours), robot)
        return Decision(writes=(*kept, mute))
    aimless = meaning.intent is Intent.OTHER and not _is_answer(meaning, case)
    if case.person is None and recent.answers_day >= (1 if aimless else limits.stranger_day):
        return Decision(writes=kept)
    advances = case.question is not None and recent.misses == 0
    limit = limits.answers_talking if advances else limits.answers_hour
    if recent.answers_hour >= limit or recent.answers_day >= limits.answers_day:
        return Decision(writes=kept)
    return None


def _robot(meaning: Meaning, case: Case) -> str | None:
    """Why this phone is taken for a machine; None where it is not."""
    recent, limits = case.recent, case.limits
    if recent.same >= limits.same_texts - 1:
        return "the same text three times in ten minutes"
    if meaning.intent is Intent.OTHER and recent.misses_minute >= limits.aimless_minute - 1:
        return "five texts a minute that could not be understood"
    return None


def _repeats(text: str, last_said: str | None) -> bool:
    """Whether a text repeats our last one, alone or inside of a machine's own words."""
    if not last_said or len(text) <= 3:
        return False
    return text == last_said or (len(last_said) >= LONG_ENOUGH and last_said in text)


def _two_questions(case: Case, text: str) -> bool:
    """A digit right after a pushed question closed another: it may have been meant for that."""
    question = case.question
    if question is None or question.before is None or not question.pushed:
        return False
    soon = case.now - question.asked_at <= TWO_QUESTIONS
    digit = text.strip(" .()")
    return soon and digit.isdigit() and len(digit) == 1 and _fits(int(digit), question.before)


def _fits(digit: int, question: OpenQuestion) -> bool:
    if question.kind == "menu":
        return 1 <= digit <= len(question.options)
    return (question.low or 0) <= digit <= (question.high or 9)


def _again(case: Case) -> Decision:
    """Ask for words instead of the digit; the digit is not taken for anything."""
    assert case.question is not None
    return Decision((say("digit_for_which"),))


def _is_answer(meaning: Meaning, case: Case) -> bool:
    """Whether the text answers the open question (in a digit, a figure or words)."""
    question = case.question
    if question is None:
        return False
    if meaning.slots.answer is not None:
        return _is_among(meaning.slots.answer, question)
    if question.name == "nights" and meaning.slots.value_c is not None:
        return True  # "12C" tells how cold the nights are
    expected = {
        "count": Intent.REGISTER,
        "date": Intent.REGISTER,
        "heat": Intent.REGISTER,
        "house": Intent.REGISTER,
        "temperature": Intent.TEMPERATURE,
        "humidity": Intent.HUMIDITY,
        "deaths": Intent.DEATHS,
        "weight": Intent.WEIGHT,
        "feed": Intent.FEED,
        "water": Intent.WATER,
        "crop": Intent.CROP_CHECK,
        "behaviour": Intent.OBSERVE,
        "litter": Intent.OBSERVE,
        "worked": Intent.OBSERVE,
    }.get(question.prompt)
    return any(one.intent is expected for one in meaning.facts())


def _is_among(answer: str, question: OpenQuestion) -> bool:
    """Whether an answer is one of the open menu's; "better" is none of "1 yes 2 not yet"."""
    known = (*question.options, "yes", "no", UNSURE)
    return not question.options or all(one in known for one in answer.split("+"))


def _wanted(meaning: Meaning, case: Case, handbook: Handbook, text: str) -> Decision:
    """By the open question where only it can read the answer, else by intent."""
    if meaning.intent is Intent.MULTI:
        return _several(meaning, case, handbook, text)
    handler = ANSWERS.get(case.question.name) if case.question else None
    if handler and meaning.slots.answer == UNSURE:
        return _ask_again(case, text)
    if handler and _is_answer(meaning, case) and not _whole_registration(meaning):
        return handler(meaning, case, handbook)
    if meaning.slots.answer is not None and case.question is not None:
        return observe(meaning, case, handbook)
    if meaning.intent is Intent.THANKS and case.question and case.question.prompt == "worked":
        return _ask_again(case, text)  # "ok" does not say whether it is better
    if _reads_here(meaning, case):
        return observe(meaning, case, handbook)
    if meaning.intent is Intent.DEATHS and meaning.slots.deaths == 0 and meaning.signals:
        return observe(replace(meaning, intent=Intent.OBSERVE), case, handbook)
    if asks_for_help(meaning, case, text):
        return where_we_are(case, handbook)
    if meaning.slots.topic == VET and meaning.slots.answer:
        return steps.answer_vet(meaning, case, handbook)  # told, though nobody asked
    if meaning.slots.topic == CHECK and meaning.slots.answer and _has_advice(case):
        return observe(replace(meaning, intent=Intent.OBSERVE), case, handbook)
    if meaning.intent is Intent.OTHER or meaning.confidence < SURE:
        if _hangs_in_words(case, text):
            return hang_in_words(meaning, case, handbook)
        return _other(meaning, case, handbook, text)
    reading = _reading_asked_about(meaning, case)
    if reading is not None:
        return observe(reading, case, handbook)
    if meaning.slots.figure is not None:
        return ask.ask(meaning, case, handbook)
    return WANTS[meaning.intent](meaning, case, handbook)


def _reads_here(meaning: Meaning, case: Case) -> bool:
    """A figure that may be degrees, told as a reading where chicks are brooded, however it was
    worded."""
    value, batch = meaning.slots.value_c, case.batch
    age = batch.age(case.today) if batch is not None and batch.state == "running" else None
    told = meaning.intent is Intent.TEMPERATURE and value is not None
    return (
        told
        and value is not None
        and LEAST_C <= value <= MOST_C
        and age is not None
        and 0 <= age <= LAST_SPOT_AGE
    )


def _reading_asked_about(meaning: Meaning, case: Case) -> Meaning | None:
    """ "thermometer say 25 should i put more fire": where chicks are brooded, a figure that is a
    temperature and comes without a day is a reading, not a batch to plan for."""
    count, batch = meaning.slots.count, case.batch
    age = batch.age(case.today) if batch is not None and batch.state == "running" else None
    bare = meaning.intent is Intent.PLAN and meaning.slots.date_iso_offset is None
    if not bare or meaning.slots.house_m2 or count is None or age is None:
        return None
    if not 0 <= age <= LAST_SPOT_AGE or not LEAST_C <= count <= MOST_C:
        return None
    return Meaning(Intent.TEMPERATURE, Slots(value_c=float(count)), language=meaning.language)


def _hangs_in_words(case: Case, text: str) -> bool:
    """Words to "does it hang at chick height?" that are neither yes nor no: some other place."""
    asked = case.question is not None and case.question.name == HANG
    return asked and any(one.isalpha() for one in text)


def _whole_registration(meaning: Meaning) -> bool:
    """ "new batch 300 friday" is no answer to "how many stoves?"."""
    slots = meaning.slots
    return slots.count is not None and slots.date_iso_offset is not None


def _other(meaning: Meaning, case: Case, handbook: Handbook, text: str) -> Decision:
    """Not understood; a lone digit with nothing open brings the standing menu. In the days of
    weighing a figure is what the birds weigh together, where they can weigh so much."""
    lone = text.strip(" .()")
    here = any(one.state == "running" for one in case.batches)
    grams = entries.bare_weight(lone, case, handbook) if case.question is None else None
    if grams is not None:
        return entries.weight(Meaning(Intent.WEIGHT, Slots(avg_g=grams)), case, handbook)
    if here and lone.isdigit() and len(lone) == 1 and case.question is None:
        worked = _of_the_advice(int(lone), case)
        return observe(worked, case, handbook) if worked else Decision(question=behaviour_menu())
    heard_before = case.recent.misses < FULL_MISSES or in_trouble(case)
    if _asks_a_look(case.question) and heard_before and any(one.isalpha() for one in lone):
        return _look_again(meaning, case, handbook, text)
    if case.recent.misses in (1, 2) and in_trouble(case):
        return not_heard(case, handbook, text)
    if case.question is not None and case.recent.misses == 0 and lone:
        return _ask_again(case, text)
    guess = meaning.intent.value if meaning.intent is not Intent.OTHER else None
    return not_understood(case, text, guess)


def _asks_a_look(question: OpenQuestion | None) -> bool:
    """Whether we asked for something to be looked at, by digits."""
    return (question is not None and question.name in AGAIN_LOOK) or (
        question is not None and question.name.startswith(SIGN)
    )


def _look_again(meaning: Meaning, case: Case, handbook: Handbook, text: str) -> Decision:
    """Words about a look that we could not read: the same question in full; where they were not
    understood again, on with what else can be looked at. Never another menu in its place."""
    asked = case.question
    assert asked is not None
    kept = KeepUnread(text, asked.name)
    if case.recent.misses:
        unsure = replace(meaning, slots=replace(meaning.slots, answer=UNSURE))
        told = observe(unsure, case, handbook)
        return replace(told, writes=(*told.writes, kept))
    key = AGAIN_LOOK.get(asked.name) or f"ask_{asked.name.removeprefix(SIGN)}"
    again = Question(asked.name, "menu", asked.prompt, say(key), asked.options, about=asked.about)
    return Decision((say("sorry"),), (kept,), again)


def _of_the_advice(digit: int, case: Case) -> Meaning | None:
    """A digit sent before we ask, or late, while an advice is open: better, the same or worse."""
    if not 1 <= digit <= len(WORKED) or not _has_advice(case):
        return None
    return Meaning(Intent.OBSERVE, Slots(answer=WORKED[digit - 1]))


def _has_advice(case: Case) -> bool:
    """Whether something was begun against a trouble of late, and it is not over."""
    batch = asked_batch(case)
    complaint = batch.complaint if batch else None
    if complaint is None or complaint.state != "open" or not complaint.tried:
        return False
    return case.now - complaint.opened_at < STALE


def _ask_again(case: Case, text: str) -> Decision:
    """The open question stays open; say what would answer it."""
    assert case.question is not None
    if case.question.kind == "number":
        line = _number_again(case.question)
    elif case.question.options:
        line = say("digit_again", n=len(case.question.options))
    else:
        line = say("day_again")
    return Decision((line,), (KeepUnread(text, case.question.name),))


def _number_again(question: OpenQuestion) -> Line:
    """What is wanted: in words where they say more than the range."""
    key = AGAIN.get(question.name) or AGAIN.get(question.prompt)
    if key is None:
        return say("number_again", low=int(question.low or 0), high=int(question.high or 0))
    return say(key)


def _several(meaning: Meaning, case: Case, handbook: Handbook, text: str) -> Decision:
    """Several facts in one text: all kept, one reply, at most one question. What was asked beside
    them is answered in a text of its own: both in one would not fit in a part."""
    seen = [one for one in meaning.parts if one.intent in OBSERVING]
    asked = [one for one in meaning.parts if one.intent is Intent.ASK]
    lines: list[Line] = []
    writes: list[Write] = []
    wrong = any(one.signals for one in seen)
    decisions: list[Decision] = []
    left = case
    for part in meaning.parts:
        if part.intent in OBSERVING or part in asked or (wrong and _none_died(part)):
            continue
        decisions.append(_wanted(part, left, handbook, text))
        left = _fewer(left, decisions[-1])
    if seen and not _out_of_the_box(meaning):
        told_now = replace(_merged(seen), worried=meaning.worried)
        decisions.append(observe(_with_the_dead(told_now, meaning), case, handbook))
    question: Question | None = None
    for one in decisions:
        made = any(isinstance(write, AddBatch) for write in writes)
        lines += one.lines
        writes += [write for write in one.writes if not (made and isinstance(write, AddBatch))]
        question = one.question or question
    lines = _alive_once(lines)
    why = decisions[-1].why if decisions else None
    more = tuple(further for one in decisions for further in one.more)
    if _limp(meaning):
        more = ((say("arrival_limp"),), *more)
    if seen and decisions and _comes_first(decisions[-1], meaning):
        behind = tuple(lines[: -len(decisions[-1].lines)])
        lines, more = list(decisions[-1].lines), ((behind, *more) if behind else more)
    told = Decision(tuple(lines), tuple(writes), question, why,
                    any(one.referred for one in decisions), more)  # fmt: skip
    for part in asked:
        told = _and_answered(told, _wanted(part, case, handbook, text))
    return told


def _comes_first(told: Decision, meaning: Meaning) -> bool:
    """A heap is parted, and chicks that came cold are warmed, before anything else is spoken of."""
    came = any(one.intent is Intent.ARRIVED for one in meaning.parts)
    cold = told.why is not None and told.why.cause == "cold" and bool(told.lines)
    return (came and cold) or any(line.key in HANDS_FIRST for line in told.lines)


def _fewer(case: Case, told: Decision) -> Case:
    """The case once what was told of birds that are gone is taken down: what the text tells next is
    counted from those that are left."""
    batches = []
    for batch in case.batches:
        gone = tuple(
            Event(NOT_KEPT_YET, one.kind, one.on_date, case.now, one.values)
            for one in told.writes
            if isinstance(one, AddEvent) and one.batch_id == batch.id and one.kind in WAYS_OUT
        )
        batches.append(replace(batch, events=(*batch.events, *gone)) if gone else batch)
    return replace(case, batches=tuple(batches))


def _alive_once(lines: list[Line]) -> list[Line]:
    """How many are left is said once, behind everything that was taken down."""
    said = [at for at, one in enumerate(lines) if one.key == "alive_now"]
    return [one for at, one in enumerate(lines) if at not in said[:-1]]


def _none_died(part: Meaning) -> bool:
    """ "no carcass" beside what is wrong: nobody is told how good that is."""
    return part.intent is Intent.DEATHS and part.slots.deaths == 0


def _with_the_dead(seen: Meaning, told: Meaning) -> Meaning:
    """What was seen, with the deaths told beside it: they are taken down already, and want a look
    before anything is called well."""
    dead = sum(one.slots.deaths or 0 for one in told.parts if one.intent is Intent.DEATHS)
    return replace(seen, slots=replace(seen.slots, deaths=dead)) if dead else seen


def _out_of_the_box(meaning: Meaning) -> bool:
    """Dull from the road, told with the arrival: the arrival's own words answer it."""
    came = any(one.intent is Intent.ARRIVED for one in meaning.parts)
    return came and set(meaning.signals) <= {*FROM_THE_ROAD, IN_THE_BOX, "quiet_content"}


def _limp(meaning: Meaning) -> bool:
    """Told with the arrival that some can't hold up."""
    return _out_of_the_box(meaning) and bool(set(meaning.signals).intersection(FROM_THE_ROAD))


def _and_answered(told: Decision, answered: Decision) -> Decision:
    """What was said of the facts, and behind it the answer to a question."""
    writes = (*told.writes, *answered.writes)
    if not told.lines and told.question is None:
        return replace(answered, writes=writes, why=told.why)
    more = (*told.more, answered.lines) if answered.lines else told.more
    return replace(told, writes=writes, question=told.question or answered.question, more=more)


def _merged(seen: list[Meaning]) -> Meaning:
    """One observation out of several parts: signs added up, the reading kept."""
    reading = next((one for one in seen if one.slots.value_c is not None), seen[0])
    answers = next((one.slots.answer for one in seen if one.slots.answer), None)
    slots = replace(reading.slots, answer=answers) if answers else reading.slots
    return Meaning(
        intent=Intent.OBSERVE if any(one.signals for one in seen) else reading.intent,
        slots=slots or Slots(),
        signals=_all(seen, "signals"),
        not_signals=_all(seen, "not_signals"),
        many=_all(seen, "many"),
        confidence=min(one.confidence for one in seen),
        language=seen[0].language,
    )


def _all(seen: list[Meaning], name: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(code for one in seen for code in getattr(one, name)))
