"""The spine: one message in, one answer out.

A message is heard at a door, understood, decided on, written down, and answered. Here is that
sentence as code. In: an Incoming and the Desk of things it needs. Out: what was said and why.
Called by the doors (SMS, terminal phone, rehearsals), all through this one function.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from sqlalchemy import Connection, or_, select
from sqlalchemy.exc import IntegrityError

from bot.cooperative.taught import heard
from bot.day.countdown import step_told
from bot.day.quiet import opens
from bot.decide import bad_air, register, whose
from bot.decide.common import HEATS
from bot.decide.danger import danger_kind
from bot.decide.named import named
from bot.decide.observe.advise import asked_if_all_work, looked_for
from bot.decide.observe.readings import thermometer_spoken_of
from bot.decide.observe.unheard import in_trouble
from bot.facts.farm import Case, OpenQuestion
from bot.facts.limits import House
from bot.facts.talk import Decision, Hearing, Incoming, Intent, Meaning, Push, Why
from bot.facts.writes import (
    CloseQuestion,
    Join,
    KeepUnread,
    SetConsent,
    SetLanguage,
    TellAdviser,
)
from bot.handbook.shapes import Handbook
from bot.records import tables as t
from bot.records.apply import Applying, apply, ask, ask_other, begin
from bot.records.case import Turn, case_of_number, with_ended, with_recent
from bot.records.forgetting import forget
from bot.records.marks import mark_of
from bot.records.outbox_rows import Text, add_texts
from bot.records.session import Database
from bot.records.spending import is_spent, spend
from bot.say.render import Voice, compose, compose_all
from bot.turn.caps import within_caps
from bot.turn.choose import choose
from bot.turn.close import with_closing
from bot.turn.ring import RING, rung
from bot.turn.wishes import wish_of
from bot.understand.read import Reader
from bot.understand.senders import is_served, may_be_answered

ANSWER_KEPT = timedelta(minutes=10)  # after that a repeat gets an empty answer
TWO_IDS = timedelta(seconds=60)  # within which one text may come under two ids
SAME_MISS = timedelta(hours=1)  # "not understood" is said once an hour in the same words
EVERYONE = House(countries=("all",))
STALE = timedelta(hours=6)  # an answer by SMS that could not be sent by then is of no use
PUSH_KEPT = timedelta(days=1)  # what another phone is told is stale afterwards
OF_THE_LAST = (Intent.UNDO, Intent.CORRECT, Intent.PLAN, Intent.REGISTER)
ORDERING = (Intent.PLAN, Intent.REGISTER, Intent.ARRIVED, Intent.STOP)
SHORTEST_TWICE = 13  # characters; a farmer may rightly answer 1 twice


@dataclass(frozen=True, slots=True)
class Said:
    """How an answer leaves: texts in the answer of the door, by_sms as texts of our own."""

    texts: tuple[str, ...]
    by_sms: tuple[str, ...] = ()


Wording = Callable[[Decision, Case, Handbook], Said]


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of one message. texts: the answer, one part each; () where nothing is said.
    repeated: the message had been taken before and got its stored answer."""

    texts: tuple[str, ...]
    meaning: Meaning
    decision: Decision
    repeated: bool = False


def take_turn(
    db: Database,
    handbook: Handbook,
    reader: Reader,
    incoming: Incoming,
    wording: Wording | None = None,
    house: House = EVERYONE,
) -> Taken:
    """Take one message: once, whatever happens, and whole or not at all. wording: how its answer
    leaves; with the answer of the door where none is given. house: the limits it keeps to.

    Where the same message, or another first one of the same phone, was quicker by a moment, or the
    message was taken days ago, the database refuses ours; taken again, it finds what the other
    wrote. NUL is left out: PostgreSQL stores none.
    """
    if "\x00" in incoming.text:
        incoming = replace(incoming, text=incoming.text.replace("\x00", ""))
    wording = as_ring if incoming.channel == "voice" else wording or as_answer
    try:
        with db.write() as connection:
            return take_within(connection, handbook, reader, incoming, wording, house)
    except IntegrityError:
        with db.write() as connection:
            stored = _stored(connection, incoming)
            return stored or take_within(connection, handbook, reader, incoming, wording, house)


def take_within(
    connection: Connection,
    handbook: Handbook,
    reader: Reader,
    incoming: Incoming,
    wording: Wording,
    house: House = EVERYONE,
) -> Taken:
    """Take one message inside a transaction that is under way. wording: how its answer leaves.
    house: the limits it keeps to."""
    mark = mark_of(incoming.sender, house.key)
    message = (incoming.account, incoming.message_id)
    case, turns, turn_id = case_of_number(connection, incoming.sender, incoming.at, mark, message)
    same = _same_id(turns, incoming)
    if same is not None:
        return same
    first = _under_another_id(connection, turns, incoming)
    if first is not None:
        return _as_the_first(connection, incoming, first)
    if not may_be_answered(incoming.sender, incoming.recipient):
        _remember(connection, incoming, {})
        return Taken((), Meaning(Intent.OTHER), Decision())
    open_before = case.question
    case = _on_screen(with_recent(case, turns, incoming.text), incoming)
    case = _kept_to(connection, case, incoming, house)
    if incoming.channel == "voice":
        meaning, decision = rung(case, *_rings(turns), handbook)
    else:
        case = whose.spoken_of(case, incoming.text, handbook)
        meaning = _read(reader, incoming, case, handbook)
        case, meaning = _of_a_step(reader, incoming, case, meaning, handbook)
        case, meaning = _heat_in_words(reader, incoming.text, case, meaning)
        case = _with_the_last_one(connection, case, meaning)
        case = _speaking(case, incoming.language or meaning.language)
        decision = choose(meaning, case, handbook, incoming.text)
    decision = with_closing(connection, case, decision, handbook)
    decision = _sparing(decision, case.question, open_before)
    decision = within_caps(connection, case, meaning, decision, incoming.text,
                           _served_from(case, incoming, house))  # fmt: skip
    said = _unlike_before(wording(decision, case, handbook), decision, turns, incoming)
    asks = decision.question is not None
    doing = begin(connection, case, decision.writes, incoming.message_id,
                  asks=asks, keeps=bool(said.by_sms))  # fmt: skip
    doing.channel, doing.how = incoming.channel, "gateway's field" if incoming.opt_out else ""
    doing.wording = _version(decision, case, handbook)
    outcome = _outcome(doing, decision, meaning, said)
    if turn_id is None:
        turn_id = _remember(connection, incoming, outcome)
    else:
        doing.rows.add(t.turn, {"id": turn_id, **_kept(incoming, outcome)})
    doing.turn_id = turn_id
    apply(doing, decision.writes)
    if decision.question is not None:
        ask(doing, decision.question, _batch_of(decision, doing))
    _keep_answer(doing, incoming, decision, said)
    if decision.push is not None:
        _push(doing, decision.push, handbook)
    doing.rows.write(connection)
    if doing.forgets:
        forget(connection, doing.phone_id, house.key, incoming.at)
    if said.texts and case.cooperative.budget is not None and incoming.channel == "sms":
        spend(connection, {case.cooperative.id: len(said.texts)}, incoming.at)
    return Taken(said.texts, meaning, decision)


def _version(decision: Decision, case: Case, handbook: Handbook) -> str:
    """Which text consent was given or taken back upon, with the version of its wording: the
    question that was open, else what is answered."""
    if not any(isinstance(one, SetConsent | Join) for one in decision.writes):
        return ""
    asked = {"join": "ask_join", "care": "ask_care", "forget": "ask_forget"}
    opened = asked.get(case.question.name) if case.question else None
    keys = [one.key for one in decision.lines]
    keys += [decision.question.line.key] if decision.question else []
    key = opened or (keys[0] if keys else "")
    if not key:
        return ""
    said = handbook.texts.speaker(key, case.language).wordings.get(key, "")
    return f"{key}@{hashlib.sha256(str(said).encode()).hexdigest()[:8]}"


def _kept_to(connection: Connection, case: Case, incoming: Incoming, house: House) -> Case:
    """The case with the house's limits, and whether ordinary answers are given now."""
    cooperative = case.cooperative
    known = case.person is not None or _served_from(case, incoming, house)(incoming.sender)
    spent = is_spent(connection, cooperative, incoming.at)
    return replace(
        case, limits=cooperative.within(house.limits), key=house.key, answered=known and not spent
    )


def _served_from(case: Case, incoming: Incoming, house: House) -> Callable[[str], bool]:
    """Whether a number lies where strangers are answered."""
    region = case.cooperative.region
    return lambda number: is_served(number, incoming.recipient, region, house.countries)


def _unlike_before(
    said: Said, decision: Decision, turns: Sequence[Turn], incoming: Incoming
) -> Said:
    """What is said; nothing where a text that was not understood would get the very answer that it
    got within the hour."""
    if not any(isinstance(one, KeepUnread) for one in decision.writes):
        return said
    if incoming.channel == "ussd":
        return said
    lately = [tuple(one.reply) for one in turns if one.reply and one.at > incoming.at - SAME_MISS]
    return Said(()) if said.texts in lately else said


def _rings(turns: Sequence[Turn]) -> tuple[int, bool]:
    """How often this phone rang in the last day, and whether one asked for a call already."""
    rang = [row for row in turns if row.body == RING]
    return len(rang), any(row.intent == Intent.CALL_ME for row in rang)


def _on_screen(case: Case, incoming: Incoming) -> Case:
    """At a screen the question that stands there is answered, and the same digit again is no
    robot's."""
    if incoming.channel != "ussd":
        return case
    recent = replace(case.recent, same=0, last_said=None)
    return replace(case, question=incoming.asked, recent=recent)


def _sparing(
    decision: Decision, asked: OpenQuestion | None, before: OpenQuestion | None
) -> Decision:
    """An answer at a screen, or to an earlier text, closes its own question, not another that is
    open on the phone."""
    if before is None or (asked is not None and asked.name == before.name):
        return decision
    if any(isinstance(one, SetConsent) for one in decision.writes):
        return decision
    kept = tuple(one for one in decision.writes if not isinstance(one, CloseQuestion))
    return replace(decision, writes=kept)


def _same_id(turns: Sequence[Turn], incoming: Incoming) -> Taken | None:
    """The answer that a repeated message had the first time, where that was lately."""
    ours = (incoming.account, incoming.message_id)
    for row in turns:
        if (row.account, row.message_id) == ours:
            return _answered(row.reply, row.intent, row.at, incoming)
    return None


def _stored(connection: Connection, incoming: Incoming) -> Taken | None:
    """The answer that a repeated message had the first time, whenever that was."""
    row = connection.execute(
        select(t.turn.c.reply, t.turn.c.intent, t.turn.c.at).where(
            t.turn.c.account == incoming.account, t.turn.c.message_id == incoming.message_id
        )
    ).first()
    return None if row is None else _answered(row.reply, row.intent, row.at, incoming)


def _answered(reply: list[str] | None, intent: str | None, at: datetime, now: Incoming) -> Taken:
    """A repeat's answer: the first one, or an empty one when that is long ago."""
    return _repeated(reply if now.at - at <= ANSWER_KEPT else None, intent)


def _repeated(reply: list[str] | None, intent: str | None) -> Taken:
    meaning = Meaning(Intent(intent) if intent else Intent.OTHER)
    return Taken(tuple(reply or ()), meaning, Decision(), repeated=True)


def _under_another_id(
    connection: Connection, turns: Sequence[Turn], incoming: Incoming
) -> Turn | None:
    """The turn of this very text where a gateway gave it two ids: the phone's last turn, within a
    minute, and nothing but its own answer was sent to the phone since. A third one is no such
    slip."""
    if len(incoming.text) < SHORTEST_TWICE or incoming.channel == "ussd":
        return None
    lately = [row for row in turns if row.at > incoming.at - TWO_IDS]
    said = (incoming.account, incoming.recipient, incoming.text)
    same = [one for one in lately
            if (one.account, one.recipient, one.body) == said]  # fmt: skip
    if len(same) != 1 or lately[-1] is not same[0] or same[0].at > incoming.at:
        return None
    return None if _was_sent_since(connection, same[0]) else same[0]


def _was_sent_since(connection: Connection, first: Turn) -> bool:
    """Whether anything but the answer to the turn `first` has gone to its phone since."""
    row = t.outbox.c
    others = or_(row.turn_id.is_(None), row.turn_id != first.id)
    gone = or_(row.sent_at >= first.at, row.lease_until.is_not(None))
    found = connection.execute(
        select(row.id).where(row.phone_id == first.phone_id, others, gone).limit(1)
    )
    return found.first() is not None


def _as_the_first(connection: Connection, incoming: Incoming, first: Turn) -> Taken:
    """Answer as the first time, and do nothing a second time."""
    alike = {name: getattr(first, name) for name in ("phone_id", "intent", "understood", "reply")}
    _remember(connection, incoming, alike)
    return _repeated(first.reply, first.intent)


def _remember(connection: Connection, incoming: Incoming, outcome: Mapping[str, object]) -> int:
    """Keep the message with what became of it; returns the turn's id."""
    made = connection.execute(_REMEMBER, _kept(incoming, outcome)).inserted_primary_key
    assert made is not None
    return int(made[0])


def _kept(incoming: Incoming, outcome: Mapping[str, object]) -> dict[str, object]:
    return {
        "account": incoming.account,
        "message_id": incoming.message_id,
        "sender": incoming.sender,
        "recipient": incoming.recipient,
        "channel": incoming.channel,
        "body": incoming.text,
        "at": incoming.at,
        **outcome,
    }


_REMEMBER = t.turn.insert()


def _read(reader: Reader, incoming: Incoming, case: Case, handbook: Handbook) -> Meaning:
    """Understand the text; where the gateway has dealt with a STOP or START itself, that holds, and
    so does what was chosen on a screen."""
    if incoming.meant is not None:
        return incoming.meant
    if incoming.opt_out in ("STOP", "START", "HELP"):
        return Meaning(Intent(incoming.opt_out.lower()))
    wished = wish_of(incoming.text, handbook.texts, case.cooperative.region)
    return wished or heard(
        lambda text: _read_of_one(reader, text, case, handbook), incoming.text, case, handbook
    )


def _of_a_step(
    reader: Reader, incoming: Incoming, case: Case, meaning: Meaning, handbook: Handbook
) -> tuple[Case, Meaning]:
    """ "1" or "done" that answers no open question is said of the step of the last morning. Beside
    young birds a lone digit keeps to the standing menu."""
    asked = case.question
    answers = asked is not None and meaning.slots.answer in asked.options
    empty = meaning.intent in (Intent.OTHER, Intent.THANKS)
    if incoming.channel != "sms" or not empty or answers:
        return case, meaning
    lone = incoming.text.strip(" .()").isdigit()
    step = step_told(case, handbook.calendar)
    if step is None or (lone and any(one.state == "running" for one in case.batches)):
        return case, meaning
    stepping = replace(case, question=step)
    found = reader.read(incoming.text, hearing(stepping, case.today))
    return (stepping, found) if found.slots.answer in step.options else (case, meaning)


def _with_the_last_one(connection: Connection, case: Case, meaning: Meaning) -> Case:
    """A slip may be in the batch that was closed last, and a new one may be kept as it was."""
    ordering = case.question is not None and case.question.name in register.QUESTIONS
    if ordering or any(one.intent in OF_THE_LAST for one in meaning.facts()):
        return with_ended(connection, case)
    return case


def _heat_in_words(reader: Reader, text: str, case: Case, meaning: Meaning) -> tuple[Case, Meaning]:
    """ "gas" to "heat as last time?": answered in words, as if the heat itself was asked."""
    asked = case.question
    if asked is None or asked.name != register.AGAIN or meaning.intent is not Intent.OTHER:
        return case, meaning
    heat = replace(case, question=replace(asked, prompt="heat", options=HEATS))
    found = reader.read(text, hearing(heat, case.today))
    said = found.slots.heat is not None and not meaning.slots.answer
    return (heat, found) if said else (case, meaning)


def _read_of_one(reader: Reader, text: str, case: Case, handbook: Handbook) -> Meaning:
    """The text without the name of the batch that it is about, unless that name told something by
    itself: chicks ordered as "a second batch", birds said to be small."""
    heard = hearing(case, case.today)
    whole = _or_of_the_awaited(reader, text, case, reader.read(text, heard))
    found = named(text, case, handbook.texts)
    if found is None or whole.intent in ORDERING:
        return whole
    bare = reader.read(found.rest, heard)
    lost = bare.intent is Intent.OTHER or set(whole.signals) - set(bare.signals)
    return whole if lost else bare


def _or_of_the_awaited(reader: Reader, text: str, case: Case, meaning: Meaning) -> Meaning:
    """Beside grown birds "they come on the 26th" is said of the chicks that are still to come."""
    if meaning.intent is not Intent.OTHER:
        return meaning
    coming = tuple(one for one in case.batches if one.state == "planned")
    if not coming or len(coming) == len(case.batches):
        return meaning
    waited = replace(case, batches=coming, question=None)
    found = reader.read(text, hearing(waited, case.today))
    return found if found.intent is Intent.REGISTER and found.slots.date_iso_offset else meaning


def hearing(case: Case, today: date) -> Hearing:
    """What the reader may know of the case."""
    batch = case.batch
    question = case.question
    return Hearing(
        today=today,
        language=case.person.language if case.person else None,
        has_batch=batch is not None,
        age_days=batch.age(today) if batch else None,
        count=batch.alive if batch and batch.count else None,
        prompt=question.prompt if question else None,
        options=question.options if question else (),
        asked=question.name if question else None,
        trouble=in_trouble(case),
        held=batch is not None and batch.held,
        hung=thermometer_spoken_of(case),
        looked=looked_for(case),
        works=asked_if_all_work(case),
        air=bad_air.is_open(case),
    )


def _speaking(case: Case, language: str | None) -> Case:
    """A stranger is answered in the language they chose, else in that of their text."""
    if case.person is None and language:
        return replace(case, language=language)
    return case


def _batch_of(decision: Decision, doing: Applying) -> int | None:
    if doing.new_batch is not None:
        return doing.new_batch
    about = decision.question.about.get("batch") if decision.question else None
    if about:
        return int(about)
    return doing.case.batch.id if doing.case.batch else None


def as_answer(decision: Decision, case: Case, handbook: Handbook) -> Said:
    """The texts of an answer, one part each; none where nothing is to be said."""
    if not decision.lines and decision.question is None:
        return Said(())
    voice = voice_of(decision, case)
    first = compose_all(decision.lines, decision.question, voice, handbook.texts)
    more = (compose_all(lines, None, voice, handbook.texts) for lines in decision.more)
    return Said((*first, *(text for texts in more for text in texts)))


def as_sms(decision: Decision, case: Case, handbook: Handbook) -> Said:
    """The same texts, sent as texts of our own; to a phone that has stopped, even now, only what is
    said to its own word of danger: nothing else is posted to it once the turn stands."""
    stops = any(isinstance(one, SetConsent) and one.state == "stopped" for one in decision.writes)
    if (stops or case.phone.consent == "stopped") and not decision.referred:
        return Said(())
    return Said((), as_answer(decision, case, handbook).texts)


def as_ring(decision: Decision, case: Case, handbook: Handbook) -> Said:
    """A missed call is answered by a text only where a call was asked for."""
    if not any(isinstance(one, TellAdviser) for one in decision.writes):
        return Said(())
    return as_sms(decision, case, handbook)


def voice_of(decision: Decision, case: Case) -> Voice:
    """How this answer speaks: in a language just chosen already."""
    chosen = next((one.language for one in decision.writes if isinstance(one, SetLanguage)), None)
    coop = case.cooperative
    return Voice(chosen or case.language, coop.name, coop.vet_number, case.today)


def _outcome(
    doing: Applying, decision: Decision, meaning: Meaning, said: Said
) -> dict[str, object]:
    """What the turn keeps of what was understood and said."""
    return {
        "phone_id": doing.phone_id or None,
        "intent": meaning.intent.value,
        "understood": not any(isinstance(one, KeepUnread) for one in decision.writes),
        "danger": danger_kind(decision),
        "reply": [*said.texts, *said.by_sms] or None,
        "why": _why(decision.why),
    }


def _keep_answer(doing: Applying, incoming: Incoming, decision: Decision, said: Said) -> None:
    """In the outbox the answer of a text stands as answered; what is to be kept waits to be sent. A
    screen is no text."""
    if not doing.phone_id:
        return
    answered = said.texts if incoming.channel not in ("ussd", "voice") else ()
    states = [
        *((text, "answered") for text in answered),
        *((one, "waiting") for one in said.by_sms),
    ]
    add_texts(
        doing.rows,
        *(
            Text(
                business_key=f"turn:{doing.turn_id}:{place}",
                phone_id=doing.phone_id,
                to_number=incoming.sender,
                klass="danger" if decision.referred else "reply",
                text=text,
                at=doing.now,
                state=state,
                expires_at=doing.now + STALE if state == "waiting" else None,
                turn_id=doing.turn_id,
            )
            for place, (text, state) in enumerate(states)
        ),
    )


def _push(doing: Applying, push: Push, handbook: Handbook) -> None:
    """To the other phones that the writes reached: what is said there, and asked."""
    cooperative = doing.case.cooperative
    for place, other in enumerate(doing.reached):
        voice = Voice(other.language, cooperative.name, cooperative.vet_number)
        add_texts(
            doing.rows,
            Text(
                business_key=f"turn:{doing.turn_id}:to:{place}",
                phone_id=other.phone_id,
                to_number=other.number,
                klass=push.klass,
                text=compose(push.lines, push.question, voice, handbook.texts, pushed=True),
                at=doing.now,
                turn_id=doing.turn_id,
                not_before=opens(cooperative, doing.now, push.klass),
                expires_at=doing.now + PUSH_KEPT,
            ),
        )
        if push.question is not None:
            ask_other(doing, push.question, other.phone_id)


def _why(why: Why | None) -> dict[str, object] | None:
    if why is None:
        return None
    return {
        "cause": why.cause,
        "ranked": [list(one) for one in why.ranked[:4]],
        "because": list(why.because),
        "would_change": list(why.would_change),
    }
