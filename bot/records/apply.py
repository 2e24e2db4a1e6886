"""Carries out the writes of one decision, inside the transaction it is given.

In: a connection, the case they were decided on, the writes, the turn they came with (None when the
clock decided). Out: the phone and batch they touched, and rows that are still to be written.
Called by `turn.take` and `turn.tick`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, Table, bindparam, insert, update
from sqlalchemy import case as sql_case

from bot.facts import writes as w
from bot.facts.farm import Case
from bot.facts.talk import Question
from bot.records import people
from bot.records import tables as t
from bot.records.rows import Rows

Values = dict[str, Any]


@dataclass
class Applying:
    """One application under way: what is known, what was made, and what is still to be written.
    joined: the person who was made just now, with the phone. asks: a question follows, which closes
    whatever is open. reached: other phones that the writes speak to. channel, wording, how: what a
    consent record tells of this turn (how: empty, then the write says it). forgets: the person is
    to be forgotten once the answer stands."""

    connection: Connection
    case: Case
    phone_id: int
    message_id: str | None = None
    turn_id: int | None = None
    new_batch: int | None = None
    joined: int = 0
    asks: bool = False
    phone: Values = field(default_factory=dict)
    batches: dict[int, Values] = field(default_factory=lambda: defaultdict(dict))
    rows: Rows = field(default_factory=Rows)
    reached: list[people.Reached] = field(default_factory=list)
    channel: str = ""
    wording: str = ""
    how: str = ""
    forgets: bool = False

    @property
    def now(self) -> datetime:
        return self.case.now

    def batch(self, batch_id: int | None) -> int:
        """The batch a write is about; it is looked at by the next tick."""
        found = batch_id if batch_id is not None else self.new_batch
        if found is None:
            raise ValueError("a write for a new batch before AddBatch")
        if found != self.new_batch:
            self.batches[found]["next_due"] = self.now
        return found


def begin(
    connection: Connection,
    case: Case,
    changes: Iterable[w.Write] = (),
    message_id: str | None = None,
    *,
    asks: bool = False,
    keeps: bool = False,
) -> Applying:
    """Begin to apply: a stranger who joins, stops, is asked something or sent an answer (keeps)
    gets a phone, so that the turn and the answer find it."""
    doing = Applying(connection, case, case.phone.id, message_id, asks=asks)
    if doing.phone_id:
        return doing
    state = next((one.state for one in changes if isinstance(one, w.SetConsent)), None)
    join = next((one for one in changes if isinstance(one, w.Join)), None)
    if join is not None:
        doing.joined = _person(doing, join)
        _keep_phone(doing, state or "active", doing.joined)
    elif state is not None or asks or keeps:
        _keep_phone(doing, state or "unknown")
    return doing


def apply(doing: Applying, changes: Iterable[w.Write]) -> None:
    """Carry out the writes, but for rows that they add: those are gathered in `doing.rows`. Every
    batch touched is looked at by the next tick."""
    for change in changes:
        _HOW[type(change)](doing, change)
    for batch_id, values in doing.batches.items():
        if values.keys() == {"next_due"}:
            doing.rows.due(batch_id, doing.now)
        else:
            _change(doing, t.batch, batch_id, values)
    if doing.phone:
        _change(doing, t.phone, doing.phone_id, doing.phone)


# Made once: wording a statement anew for each turn would cost as much as carrying it out.
_CHANGE = {
    table: update(table).where(table.c.id == bindparam("its_id"))
    for table in (t.batch, t.phone, t.person, t.complaint)
}


def _change(doing: Applying, table: Table, own: int, values: Values) -> None:
    """Set columns of one row; a value may be an expression of SQL."""
    worded = {name: one for name, one in values.items() if isinstance(one, ColumnElement)}
    bound = {name: one for name, one in values.items() if name not in worded}
    change = _CHANGE[table].values(worded) if worded else _CHANGE[table]
    doing.connection.execute(change, {"its_id": own, **bound})


def ask(doing: Applying, question: Question, batch_id: int | None) -> None:
    """Open a question on the phone. The one open before gives way to it: the newest counts."""
    _open(doing, question, doing.phone_id, batch_id, pushed=False)


def ask_other(doing: Applying, question: Question, phone_id: int) -> None:
    """Open a question on another phone, which did not ask for it."""
    _open(doing, question, phone_id, None, pushed=True)


def _open(
    doing: Applying, question: Question, phone_id: int, batch_id: int | None, *, pushed: bool
) -> None:
    doing.rows.add(
        t.question,
        {
            "phone_id": phone_id,
            "batch_id": batch_id,
            "name": question.name,
            "kind": question.kind,
            "prompt": question.prompt,
            "options": list(question.options),
            "low": question.low,
            "high": question.high,
            "about": dict(question.about),
            "asked_at": doing.now,
            "pushed": pushed,
        },
    )


def _person(doing: Applying, change: w.Join) -> int:
    cooperative = doing.case.cooperative.id
    return people.add_person(doing.connection, cooperative, change.language, None, doing.now)


def _keep_phone(doing: Applying, consent: str, person_id: int | None = None) -> None:
    """A phone that was never heard of gets its row."""
    doing.phone_id = _made(
        doing,
        insert(t.phone).values(
            cooperative_id=doing.case.cooperative.id,
            number=doing.case.phone.number,
            person_id=person_id,
            consent=consent,
            heard_at=doing.now,
            created_at=doing.now,
        ),
    )


def _join(doing: Applying, change: w.Join) -> None:
    if not doing.joined:
        doing.joined = _person(doing, change)
        doing.phone |= {"person_id": doing.joined, "consent": "active"}
    _consent(doing, "active", "own text", change.language)


def _set_language(doing: Applying, change: w.SetLanguage) -> None:
    if doing.case.person is not None:
        _change(doing, t.person, doing.case.person.id, {"language": change.language})


def _set_consent(doing: Applying, change: w.SetConsent) -> None:
    doing.phone["consent"] = change.state
    if change.state == "active":
        doing.phone["number"] = doing.case.phone.number  # a forgotten one is known again
    if change.state == "stopped" and doing.case.phone.id:
        people.hand_back(doing.connection, doing.phone_id, doing.now)
        if doing.case.contacts:
            people.end_contacts(doing.connection, doing.phone_id, doing.now)
    _consent(doing, change.state, change.how, doing.case.language)


def _consent(doing: Applying, state: str, how: str, language: str) -> None:
    doing.connection.execute(
        insert(t.consent_record).values(
            phone_id=doing.phone_id,
            state=state,
            how=(doing.how or how)[:40],
            language=language,
            channel=doing.channel,
            wording=doing.wording[:40],
            message_id=doing.message_id,
            at=doing.now,
        )
    )


def _add_batch(doing: Applying, change: w.AddBatch) -> None:
    person = doing.case.person
    owner = person.id if person else doing.joined or None
    values = {"state": "draft", "next_due": doing.now, "person_id": owner,
              **_columns(change.changes)}  # fmt: skip
    doing.new_batch = _made(
        doing,
        insert(t.batch).values(phone_id=doing.phone_id, created_at=doing.now, **values),
    )


def _change_batch(doing: Applying, change: w.ChangeBatch) -> None:
    values = _columns(change.changes)
    if "placed_on" in values:
        moved = t.batch.c.placed_on.is_distinct_from(values["placed_on"])
        values["placement_version"] = t.batch.c.placement_version + sql_case((moved, 1), else_=0)
        kept = values.get("said", "")  # what was said holds for the new day only where so told
        values["said"] = sql_case((moved, kept), else_=t.batch.c.said)
    doing.batches[doing.batch(change.batch_id)] |= values


def _columns(changes: Mapping[str, object]) -> dict[str, Any]:
    values: dict[str, Any] = dict(changes)
    if "heat" in values:
        values["heat"] = "+".join(values["heat"])
    return values


def _add_event(doing: Applying, change: w.AddEvent) -> None:
    doing.rows.add(
        t.event,
        {
            "batch_id": doing.batch(change.batch_id),
            "turn_id": doing.turn_id,
            "kind": change.kind,
            "on_date": change.on_date,
            "at": doing.now,
            "data": dict(change.values),
        },
    )


def _undo(doing: Applying, change: w.UndoEvents) -> None:
    doing.connection.execute(
        update(t.event).where(t.event.c.id.in_(change.event_ids)).values(undone_at=doing.now)
    )


def _open_complaint(doing: Applying, change: w.OpenComplaint) -> None:
    doing.rows.add(
        t.complaint,
        {
            "batch_id": doing.batch(change.batch_id),
            "state": "open",
            "cause": change.cause,
            "opened_at": doing.now,
            "signals": list(change.signals),
            "not_signals": list(change.not_signals),
            "asked": list(change.asked),
            "tried": list(change.actions),
            "check_at": change.check_at,
            "checks": 0,
        },
    )


def _change_complaint(doing: Applying, change: w.ChangeComplaint) -> None:
    values: dict[str, Any] = {
        name: list(value) if isinstance(value, tuple) else value
        for name, value in change.changes.items()
    }
    if values.get("state") == "closed":
        values["closed_at"] = doing.now
    _change(doing, t.complaint, change.complaint_id, values)
    for batch in doing.case.batches:
        if batch.complaint and batch.complaint.id == change.complaint_id:
            doing.batch(batch.id)


def _keep_unread(doing: Applying, change: w.KeepUnread) -> None:
    unread = {"turn_id": doing.turn_id, "text": change.text, "guess": change.guess}
    doing.rows.add(t.unread, {**unread, "at": doing.now})


def _tell_adviser(doing: Applying, change: w.TellAdviser) -> None:
    doing.rows.add(
        t.adviser,
        {
            "cooperative_id": doing.case.cooperative.id,
            "phone_id": doing.phone_id or None,
            "batch_id": change.batch_id,
            "turn_id": doing.turn_id,
            "kind": change.kind,
            "reason": change.reason[:200],
            "told": dict(change.told),
            "at": doing.now,
        },
    )


def _cancel_waiting(doing: Applying, _change: w.CancelWaiting) -> None:
    doing.connection.execute(
        update(t.outbox)
        .where(t.outbox.c.phone_id == doing.phone_id, t.outbox.c.state.in_(("waiting", "leased")))
        .values(state="cancelled")
    )


def _close_question(doing: Applying, _change: w.CloseQuestion) -> None:
    """Whatever is open on the phone; what has run out by itself is left as it is."""
    if doing.case.question is None or doing.asks:
        return
    doing.connection.execute(_CLOSE, {"its_phone": doing.phone_id, "closed_at": doing.now})


_CLOSE = update(t.question).where(
    t.question.c.phone_id == bindparam("its_phone"), t.question.c.closed_at.is_(None)
)


def _ask_caretaker(doing: Applying, change: w.AskCaretaker) -> None:
    asked = people.ask_caretaker(doing.connection, doing.case, change.number, change.name)
    if asked is not None:
        doing.reached.append(asked)


def _care_here(doing: Applying, _change: w.CareHere) -> None:
    if doing.case.person is not None:
        people.care_here(doing.connection, doing.case.person.id, doing.phone_id, doing.now)


def _answer_care(doing: Applying, change: w.AnswerCare) -> None:
    doing.reached += people.answer_care(
        doing.connection, change.contact_id, doing.now, agreed=change.agreed
    )


def _end_care(doing: Applying, _change: w.EndCare) -> None:
    if doing.case.person is not None:
        people.end_care(doing.connection, doing.case.person.id, doing.phone_id, doing.now)


def _set_name(doing: Applying, change: w.SetName) -> None:
    if doing.case.person is not None:
        _change(doing, t.person, doing.case.person.id, {"name": change.name})


def _set_owner(doing: Applying, change: w.SetOwner) -> None:
    people.set_owner(doing.connection, doing.case, change.batch_id, change.name)


def _tell_owner(doing: Applying, change: w.TellOwner) -> None:
    found = people.owner_phones(doing.connection, [change.batch_id]).get(change.batch_id, ())
    doing.reached += [
        people.Reached(one.phone_id, one.number, one.language)
        for one in found
        if one.phone_id != doing.phone_id
    ]


def _leave_number(doing: Applying, _change: w.LeaveNumber) -> None:
    number = doing.case.phone.number
    doing.phone["number"] = people.leave_number(doing.connection, doing.phone_id, number, doing.now)


def _forget(doing: Applying, _change: w.Forget) -> None:
    doing.forgets = True


def _mute(doing: Applying, change: w.Mute) -> None:
    if doing.phone_id:
        doing.phone["muted_until"] = change.until
    _tell_adviser(doing, w.TellAdviser("robot", change.reason))


def _made(doing: Applying, statement: Any) -> int:
    made = doing.connection.execute(statement).inserted_primary_key
    if made is None:
        raise ValueError("an insert that gave no key")
    return int(made[0])


_HOW: dict[type[Any], Callable[[Applying, Any], None]] = {
    w.Join: _join,
    w.SetLanguage: _set_language,
    w.SetConsent: _set_consent,
    w.AddBatch: _add_batch,
    w.ChangeBatch: _change_batch,
    w.AddEvent: _add_event,
    w.UndoEvents: _undo,
    w.OpenComplaint: _open_complaint,
    w.ChangeComplaint: _change_complaint,
    w.KeepUnread: _keep_unread,
    w.TellAdviser: _tell_adviser,
    w.CancelWaiting: _cancel_waiting,
    w.AskCaretaker: _ask_caretaker,
    w.CareHere: _care_here,
    w.AnswerCare: _answer_care,
    w.EndCare: _end_care,
    w.SetName: _set_name,
    w.SetOwner: _set_owner,
    w.TellOwner: _tell_owner,
    w.LeaveNumber: _leave_number,
    w.Forget: _forget,
    w.CloseQuestion: _close_question,
    w.Mute: _mute,
}
