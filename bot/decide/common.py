"""Small pieces that several answers share. Pure; called by the files beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from bot.diagnosis.story import DEAD, DEADS
from bot.errors import OutsideRange
from bot.facts.farm import Batch, Case, Complaint
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Value
from bot.facts.writes import AddEvent, ChangeBatch, CloseQuestion, KeepUnread, TellAdviser
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.losses import DeathsOfDay, are_unusual
from bot.ledger.ledger import ledger_of

DAY = timedelta(days=1)
HEATS = ("charcoal", "gas", "bulb", "kerosene", "wood")
UNPLACED = "unplaced"  # a question carries it: which batch it was is asked behind it
TROUBLE = timedelta(hours=12)  # so long a complaint is thought of in answers
ON_ARRIVAL_HOURS = 3  # dead this soon after arrival they came dead in the box; common practice
# What else was understood of what a farmer means or asks to do gives way: it was only its words.
GIVES_WAY = (
    *(Intent.ASK, Intent.OTHER, Intent.HELP, Intent.NEXT, Intent.THANKS, Intent.PLAN),
    *(Intent.REGISTER, Intent.FUEL, Intent.FEED, Intent.WATER),
)


def say(key: str, /, **values: Value) -> Line:
    """A line that must be said."""
    return Line(key, values)


def maybe(key: str, /, **values: Value) -> Line:
    """A line that is left out when it does not fit."""
    return Line(key, values, essential=False)


def answer(*lines: Line) -> Decision:
    """An answer that changes nothing."""
    return Decision(lines=lines)


def menu(
    name: str, key: str, options: tuple[str, ...], prompt: str = "yes_no", /, **values: Value
) -> Question:
    """A question answered by one digit."""
    return Question(name, "menu", prompt, Line(key, values), options)


def number(
    name: str, key: str, prompt: str, low: float, high: float, /, **values: Value
) -> Question:
    """A question answered by a figure in [low, high], taken literally."""
    return Question(name, "number", prompt, Line(key, values), low=low, high=high)


def about(question: Question, **values: str) -> Question:
    """The same question, carrying what its answer belongs to."""
    return replace(question, about={**question.about, **values})


def answers(case: Case, name: str) -> bool:
    """Whether the open question is the one named."""
    return case.question is not None and case.question.name == name


def asked_batch(case: Case) -> Batch | None:
    """The batch that the open question belongs to, else the one a text is about."""
    wanted = case.question.batch_id if case.question else None
    return next((one for one in case.batches if one.id == wanted), None) or case.batch


def told_first(decision: Decision, *texts: tuple[Line, ...]) -> Decision:
    """The decision with these texts before its own."""
    own = (decision.lines, *decision.more) if decision.lines else decision.more
    return replace(decision, lines=texts[0], more=(*texts[1:], *own))


def gives_way(one: Meaning) -> bool:
    """Told of nothing but what the farmer means or asks to do."""
    empty = one.intent is Intent.OBSERVE and not (one.signals or one.not_signals)
    return empty or one.intent in GIVES_WAY


def open_trouble(case: Case) -> Complaint | None:
    """The trouble at hand, while it is thought of."""
    complaint = case.batch.complaint if case.batch is not None else None
    if complaint is None or complaint.state != "open":
        return None
    return complaint if case.now - complaint.opened_at <= TROUBLE else None


def running(case: Case) -> Batch | None:
    """The batch with birds in it, youngest first."""
    found = [one for one in case.batches if one.state == "running"]
    return found[-1] if found else None


def day_of(case: Case, meaning: Meaning) -> date:
    """The local day that a fact belongs to: today unless another day was said."""
    return case.today + timedelta(days=min(0, meaning.slots.date_iso_offset or 0))


def on_arrival(case: Case, batch: Batch) -> bool:
    """Whether deaths told now are those of the boxes."""
    if answers(case, "dead_on_arrival"):
        return True
    if batch.arrived_at is None:
        return False
    return (case.now - batch.arrived_at).total_seconds() <= ON_ARRIVAL_HOURS * 3600


def deaths_kind(case: Case, batch: Batch) -> str:
    """The kind of event that deaths told now are."""
    return "dead_on_arrival" if on_arrival(case, batch) else "deaths"


def too_many(
    batch: Batch, kind: str, said: int, day: date, more: Mapping[str, object] | None = None
) -> Decision:
    """More birds than are alive: kept as said, not applied, and asked back. more: what else was
    told with the number."""
    kept = AddEvent(batch.id, "doubted", day, {"of": kind, "n": said, **(more or {})})
    prompt = "deaths" if kind == "deaths" else "count"
    asked = number("too_many", "ask_too_many", prompt, 0, 20_000, n=said, alive=batch.alive)
    return Decision((), (kept,), asked)


def missing(batch: Batch) -> int:
    """Birds of the record that the last count did not find."""
    return max(0, ledger_of(batch).birds.gap)


def closed_if_empty(decision: Decision, batch: Batch, left: int) -> Decision:
    """Where no bird is left the batch is closed, which is said; "undo" opens it again. Birds that
    the last count did not find are not left: they stay in sight as missing."""
    if left > missing(batch):
        return decision
    closing = ChangeBatch(batch.id, {"state": "closed"})
    closed = say("none_by_count", gap=left) if left > 0 else say("none_left")
    lines = (*decision.lines, closed)
    return replace(decision, lines=lines, writes=(*decision.writes, closing))


def tell_unusual(
    case: Case, batch: Batch, day: date, more: int, h: Husbandry
) -> tuple[TellAdviser, ...]:
    """The line on the adviser's list where these deaths make a day that chance hardly explains,
    once a day; () where they do not. day: the local day they belong to; more: dead in this text."""
    if not more or more > batch.alive or on_arrival(case, batch):
        return ()
    try:
        unusual = are_unusual(_deaths_of(batch, day, more), _deaths_of(batch, day - DAY), h)
        known = are_unusual(_deaths_of(batch, day), _deaths_of(batch, day - DAY), h)
    except OutsideRange:
        return ()
    if known or not unusual:
        return ()
    told = _deaths_of(batch, day, more)
    reason = f"{told.dead} dead of {told.alive} on day {told.age_days + 1}, more than chance brings"
    figures = {"dead": told.dead, "alive": told.alive, "day": told.age_days + 1}
    return (TellAdviser("deaths", reason, batch.id, figures),)


def _deaths_of(batch: Batch, day: date, more: int = 0) -> DeathsOfDay:
    dead = batch.total("deaths", day)
    age = batch.age(day)
    return DeathsOfDay(batch.alive + dead, -1 if age is None else age, dead + more)


def ask_heat_count(kind: str) -> Question:
    """How many stoves, bulbs or burners?"""
    return number("heat_count", "ask_heat_count", "count", 1, 40, heat=kind)


def no_batch(case: Case) -> Decision:
    """A fact came in, but no batch is known to write it to: say how to register, keep the text."""
    draft = case.batch
    if draft is not None and draft.state == "planned":
        return answer(say("not_here_yet"))
    return answer(say("register_first"))


def not_understood(case: Case, text: str, guess: str | None = None) -> Decision:
    """Say so, with one right example; keep the text for the adviser. After two misses a menu of
    what can be said, after three nothing but the adviser."""
    keep = KeepUnread(text, guess)
    if case.recent.misses >= 3:
        return Decision(writes=(keep,))
    here = running(case)
    in_danger = here is not None and here.open_alarm(case.today) is not None
    if case.recent.misses == 2 or in_danger:
        return Decision((say("adviser_reads"),), (keep,))
    if case.recent.misses == 1 and here is not None:
        return Decision((say("sorry"),), (keep,), behaviour_menu())
    coming = case.batch
    if coming is not None and coming.state == "planned" and coming.placed_on is not None:
        return Decision((say("not_understood_planned", date=coming.placed_on),), (keep,))
    key = "not_understood" if case.batches else "not_understood_new"
    return Decision((say(key),), (keep,))


# Told beside deaths: all is well with the others.
LIVELY = {"others_well", "gets_up", "spread_evenly", "quiet_content"}


def dead_question() -> Question:
    """How do the dead look? Asked where the others are lively, and behind an alarm on deaths."""
    return menu(DEAD, "ask_dead_look", DEADS)


BEHAVIOUR = (
    "spread_evenly",
    "piled_near_heat",
    "away_from_heat",
    "crowded_one_side",
    "at_edges_or_walls",
)


def behaviour_menu() -> Question:
    """The standing menu: where are the chicks? Its digits never change."""
    return menu("behaviour", "behaviour_menu", BEHAVIOUR, "behaviour")


def closing() -> CloseQuestion:
    return CloseQuestion()
