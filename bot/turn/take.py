"""The spine: one message in, one answer out.

A message is heard at a door, understood, decided on, written down, and answered. Here is that
sentence as code. In: an Incoming and the Desk of things it needs. Out: what was said and why.
Called by the doors (SMS, terminal phone, rehearsals), all through this one function.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Row, or_, select
from sqlalchemy.exc import IntegrityError

from bot.day.quiet import opens
from bot.decide.danger import danger_kind
from bot.facts.farm import Case
from bot.facts.limits import House
from bot.facts.talk import Decision, Hearing, Incoming, Intent, Meaning, Push, Why
from bot.facts.writes import Join, KeepUnread, SetConsent, SetLanguage
from bot.handbook.shapes import Handbook
from bot.records import tables as t
from bot.records.apply import Applying, apply, ask, ask_other, begin
from bot.records.case import case_of_number, with_recent
from bot.records.forgetting import forget
from bot.records.marks import mark_of
from bot.records.outbox_rows import Text, put
from bot.records.session import Database
from bot.records.spending import is_spent, spend
from bot.say.render import Voice, compose, compose_all
from bot.turn.caps import within_caps
from bot.turn.choose import choose
from bot.turn.close import with_closing
from bot.turn.wishes import wish_of
from bot.understand.read import Reader
from bot.understand.senders import is_served, may_be_answered

ANSWER_KEPT = timedelta(minutes=10)  # after that a repeat gets an empty answer
TWO_IDS = timedelta(seconds=60)  # within which one text may come under two ids
SAME_MISS = timedelta(hours=1)  # "not understood" is said once an hour in the same words
EVERYONE = House(countries=("all",))
PUSH_KEPT = timedelta(days=1)  # what another phone is told is stale afterwards
SHORTEST_TWICE = 13  # characters; a farmer may rightly answer 1 twice


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
    house: House = EVERYONE,
) -> Taken:
    """Take one message: once, whatever happens, and whole or not at all.

    Where the same message, or another first one of the same phone, was quicker by a moment, or the
    message was taken days ago, the database refuses ours; taken again, it finds what the other
    wrote. NUL is left out: PostgreSQL stores none.
    """
    incoming = replace(incoming, text=incoming.text.replace("\x00", ""))
    try:
        with db.write() as connection:
            return _take(connection, handbook, reader, incoming, house)
    except IntegrityError:
        with db.write() as connection:
            stored = _stored(connection, incoming)
            return stored or _take(connection, handbook, reader, incoming, house)


def _take(
    connection: Connection,
    handbook: Handbook,
    reader: Reader,
    incoming: Incoming,
    house: House,
) -> Taken:
    case, turns = _case_of(connection, incoming, house)
    same = _same_id(turns, incoming)
    if same is not None:
        return same
    first = _under_another_id(connection, turns, incoming)
    if first is not None:
        return _as_the_first(connection, incoming, first)
    if not may_be_answered(incoming.sender, incoming.recipient):
        _remember(connection, incoming, {})
        return Taken((), Meaning(Intent.OTHER), Decision())
    case = _kept_to(connection, with_recent(case, turns, incoming.text), incoming, house)
    meaning = _read(reader, incoming, case, handbook)
    case = _speaking(case, meaning)
    decision = choose(meaning, case, handbook, incoming.text)
    decision = with_closing(connection, case, decision, handbook)
    decision = within_caps(connection, case, meaning, decision, incoming.text)
    texts = _unlike_before(_say(decision, case, handbook), decision, turns, incoming.at)
    asks = decision.question is not None
    doing = begin(connection, case, decision.writes, incoming.message_id, asks=asks)
    doing.channel, doing.wording = incoming.channel, _wording(decision, case, handbook)
    doing.how = "gateway's OptOutType" if incoming.opt_out else ""
    doing.turn_id = _remember(connection, incoming, _outcome(doing, decision, meaning, texts))
    apply(doing, decision.writes)
    if decision.question is not None:
        ask(doing, decision.question, _batch_of(decision, doing))
    _keep_answer(doing, incoming, decision, texts)
    if decision.push is not None:
        _push(doing, decision.push, handbook)
    if doing.forgets:
        forget(connection, doing.phone_id, house.key, incoming.at)
    if texts and case.cooperative.budget is not None:
        spend(connection, {case.cooperative.id: len(texts)}, incoming.at)
    return Taken(texts, meaning, decision)


def _case_of(
    connection: Connection, incoming: Incoming, house: House
) -> tuple[Case, Sequence[Row[Any]]]:
    """The case of the number that texted; a forgotten one is found by its mark, and speaks."""
    case, turns = case_of_number(connection, incoming.sender, incoming.at)
    if case.phone.id:
        return case, turns
    mark = mark_of(incoming.sender, house.key)
    suppressed, _ = case_of_number(connection, mark, incoming.at)
    if not suppressed.phone.id:
        return case, turns
    return replace(suppressed, phone=replace(suppressed.phone, number=incoming.sender)), turns


def _wording(decision: Decision, case: Case, handbook: Handbook) -> str:
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
    budget, cooperative = case.cooperative.budget, case.cooperative
    known = case.person is not None or is_served(incoming.sender, incoming.recipient,
                                                 cooperative.region, house.countries)  # fmt: skip
    spent = budget is not None and is_spent(connection, cooperative.id, budget, incoming.at)
    return replace(case, limits=house.limits, key=house.key, answered=known and not spent)


def _unlike_before(
    texts: tuple[str, ...], decision: Decision, turns: Sequence[Row[Any]], now: datetime
) -> tuple[str, ...]:
    """The texts; nothing where a text that was not understood would get the very answer that it
    got within the hour."""
    if not any(isinstance(one, KeepUnread) for one in decision.writes):
        return texts
    lately = [tuple(one.turn_reply) for one in turns
              if one.turn_reply and one.turn_at > now - SAME_MISS]  # fmt: skip
    return () if texts in lately else texts


def _same_id(turns: Sequence[Row[Any]], incoming: Incoming) -> Taken | None:
    """The answer that a repeated message had the first time, where that was lately."""
    ours = (incoming.account, incoming.message_id)
    for row in turns:
        if (row.turn_account, row.turn_message_id) == ours:
            return _answered(row.turn_reply, row.turn_intent, row.turn_at, incoming)
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
    connection: Connection, turns: Sequence[Row[Any]], incoming: Incoming
) -> Row[Any] | None:
    """The turn of this very text where a gateway gave it two ids: the phone's last turn, within a
    minute, and nothing but its own answer was sent to the phone since. A third one is no such
    slip."""
    if len(incoming.text) < SHORTEST_TWICE:
        return None
    lately = [row for row in turns if row.turn_at > incoming.at - TWO_IDS]
    said = (incoming.account, incoming.recipient, incoming.text)
    same = [one for one in lately
            if (one.turn_account, one.turn_recipient, one.turn_body) == said]  # fmt: skip
    if len(same) != 1 or lately[-1] is not same[0] or same[0].turn_at > incoming.at:
        return None
    return None if _was_sent_since(connection, same[0]) else same[0]


def _was_sent_since(connection: Connection, first: Row[Any]) -> bool:
    """Whether anything but the answer to the turn `first` has gone to its phone since."""
    row = t.outbox.c
    others = or_(row.turn_id.is_(None), row.turn_id != first.turn_id)
    gone = or_(row.sent_at >= first.turn_at, row.lease_until.is_not(None))
    found = connection.execute(
        select(row.id).where(row.phone_id == first.turn_phone_id, others, gone).limit(1)
    )
    return found.first() is not None


def _as_the_first(connection: Connection, incoming: Incoming, first: Row[Any]) -> Taken:
    """Answer as the first time, and do nothing a second time."""
    alike = {name: first._mapping[f"turn_{name}"]
             for name in ("phone_id", "intent", "understood", "reply")}  # fmt: skip
    _remember(connection, incoming, alike)
    return _repeated(first.turn_reply, first.turn_intent)


def _remember(connection: Connection, incoming: Incoming, outcome: Mapping[str, object]) -> int:
    """Keep the message with what became of it; returns the turn's id."""
    made = connection.execute(
        t.turn.insert(),
        {
            "account": incoming.account,
            "message_id": incoming.message_id,
            "sender": incoming.sender,
            "recipient": incoming.recipient,
            "channel": incoming.channel,
            "body": incoming.text,
            "at": incoming.at,
            **outcome,
        },
    ).inserted_primary_key
    assert made is not None
    return int(made[0])


def _read(reader: Reader, incoming: Incoming, case: Case, handbook: Handbook) -> Meaning:
    """Understand the text; where the gateway has dealt with a STOP or START itself, that holds."""
    if incoming.opt_out in ("STOP", "START", "HELP"):
        return Meaning(Intent(incoming.opt_out.lower()))
    wished = wish_of(incoming.text, handbook.texts, case.cooperative.region)
    return wished or reader.read(incoming.text, hearing(case, case.today))


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
    )


def _speaking(case: Case, meaning: Meaning) -> Case:
    """A stranger is answered in the language of their text."""
    if case.person is None and meaning.language:
        return replace(case, language=meaning.language)
    return case


def _batch_of(decision: Decision, doing: Applying) -> int | None:
    if doing.new_batch is not None:
        return doing.new_batch
    about = decision.question.about.get("batch") if decision.question else None
    if about:
        return int(about)
    return doing.case.batch.id if doing.case.batch else None


def _say(decision: Decision, case: Case, handbook: Handbook) -> tuple[str, ...]:
    if not decision.lines and decision.question is None:
        return ()
    chosen = next((one.language for one in decision.writes if isinstance(one, SetLanguage)), None)
    voice = Voice(chosen or case.language, case.cooperative.name, case.cooperative.vet_number)
    first = compose_all(decision.lines, decision.question, voice, handbook.texts)
    more = (compose(lines, None, voice, handbook.texts, pushed=False) for lines in decision.more)
    return (*first, *more)


def _outcome(
    doing: Applying, decision: Decision, meaning: Meaning, texts: tuple[str, ...]
) -> dict[str, object]:
    """What the turn keeps of what was understood and said."""
    return {
        "phone_id": doing.phone_id or None,
        "intent": meaning.intent.value,
        "understood": not any(isinstance(one, KeepUnread) for one in decision.writes),
        "danger": danger_kind(decision),
        "reply": list(texts) or None,
        "why": _why(decision.why),
    }


def _keep_answer(
    doing: Applying, incoming: Incoming, decision: Decision, texts: tuple[str, ...]
) -> None:
    """In the outbox the answer stands as answered."""
    if not doing.phone_id:
        return
    put(
        doing.connection,
        *(
            Text(
                business_key=f"turn:{doing.turn_id}:{place}",
                phone_id=doing.phone_id,
                to_number=incoming.sender,
                klass="danger" if decision.referred else "reply",
                text=text,
                at=doing.now,
                state="answered",
                turn_id=doing.turn_id,
            )
            for place, text in enumerate(texts)
        ),
    )


def _push(doing: Applying, push: Push, handbook: Handbook) -> None:
    """To the other phones that the writes reached: what is said there, and asked."""
    cooperative = doing.case.cooperative
    for place, other in enumerate(doing.reached):
        voice = Voice(other.language, cooperative.name, cooperative.vet_number)
        put(
            doing.connection,
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
