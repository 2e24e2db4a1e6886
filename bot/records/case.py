"""Reads all we know of a phone: the Case. In: a connection and phone ids or a number. Out: Case.

Called by `turn.take` (one phone) and `turn.tick` (a chunk of phones at once): the number of
statements does not depend on how many phones are asked for.
"""

from __future__ import annotations

import json
from collections import defaultdict, namedtuple
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, datetime, time, timedelta
from functools import lru_cache
from operator import itemgetter
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    FromClause,
    Label,
    Result,
    Row,
    Select,
    SelectLabelStyle,
    String,
    Text,
    and_,
    bindparam,
    cast,
    exists,
    false,
    func,
    null,
    or_,
    select,
    update,
)
from sqlalchemy import case as case_when

from bot.facts.farm import (
    Batch,
    Case,
    Complaint,
    Contact,
    Cooperative,
    Event,
    OpenQuestion,
    Person,
    Phone,
    Recent,
    Said,
    TaughtWord,
    VaccineDay,
)
from bot.facts.limits import MOST_ANSWERS
from bot.facts.told import Told
from bot.ledger.settle import settled
from bot.records import tables as t
from bot.records.dialects import Ids, json_row, json_rows, moment_of, one_of

QUESTION_OPEN = timedelta(hours=24)
LATELY = timedelta(hours=25)  # the longest local day
# So many of a number's turns of the day are read, beside MOST_ANSWERS of those that were answered:
# who texts without end costs no more than that.
MOST_TURNS = 100
SAME_TEXT = timedelta(minutes=10)
# The whole row as one text: what is the same text is the same cooperative.
COOPERATIVE: Label[Any] = cast(json_row(*t.cooperative.c), Text).label("cooperative")
_COOPERATIVE = tuple(t.cooperative.c.keys())


def case_of_number(
    connection: Connection,
    number: str,
    now: datetime,
    mark: str = "",
    message: tuple[str, str] = ("", ""),
) -> tuple[Case, Sequence[Turn], int | None]:
    """The case of one number from which a text has just arrived; its turns of the last day, oldest
    first; and the id of the turn that begins, where the database gives one beforehand (PostgreSQL,
    of a phone that is known). A number that never joined gets a case without a person; the first
    cooperative answers it. The phone was heard now, unless `message` (account, id) was taken
    before; saying so also locks its row on PostgreSQL, so that two texts of one phone are taken in
    turn, whichever worker has them."""
    account, message_id = message
    heard = {"its_number": number, "mark": mark, "heard_at": now}
    heard |= {"its_account": account, "its_message": message_id}
    found = connection.execute(_HEARD[connection.dialect.name], heard).first()
    if found is None:
        return *_stranger(connection, number, now), None
    phone_id, turn_id = found
    bound = {"its_id": phone_id, "since": now - QUESTION_OPEN, "lately": now - LATELY}
    rows = connection.execute(_KNOWN_OF_ONE, bound).all()
    row = rows[-1]
    case = _case(rows, now, cooperative_from(row.cooperative), planning=False)
    case = replace(
        case,
        phone=replace(case.phone, number=number),
        recent=Recent(last_said=row.last_said),
        ended=None if case.batches else _ended(connection, phone_id),
        contacts=_contacts(rows),
    )
    return case, _turns(row), turn_id


def _contacts(rows: Sequence[Row[Any]]) -> tuple[Contact, ...]:
    found = {one.contact_id: one for one in rows if one.contact_id is not None}
    return tuple(
        Contact(one.contact_id, one.contact_person_id, one.contact_role, one.contact_state)
        for one in found.values()
    )


_HEARING = (
    update(t.phone)
    .where(t.phone.c.number.in_((bindparam("its_number"), bindparam("mark"))))
    .values(
        heard_at=case_when(
            (
                exists().where(
                    t.turn.c.account == bindparam("its_account"),
                    t.turn.c.message_id == bindparam("its_message"),
                ),
                t.phone.c.heard_at,
            ),
            else_=bindparam("heard_at", type_=t.Moment()),
        )
    )
    .returning(t.phone.c.id)
)
_HEARD = {
    "postgresql": _HEARING.returning(func.nextval("turn_id_seq")),
    "sqlite": _HEARING.returning(null()),
}


@dataclass(frozen=True, slots=True)
class Turn:
    """A message that came in the last day, with what became of it."""

    id: int
    account: str
    message_id: str
    recipient: str
    body: str
    at: datetime
    phone_id: int | None
    intent: str | None
    understood: bool | None
    danger: str | None
    reply: list[str] | None


_TURN = [t.turn.c[one.name] for one in fields(Turn)]


def _lately(sender: ColumnElement[str]) -> tuple[Label[Any], Label[Any]]:
    """The turns of a number since a moment: the newest, and the newest that were answered."""
    turn = t.turn.c
    newest = select(*_TURN).where(
        turn.sender == sender, turn.at > bindparam("lately", type_=t.Moment())
    )
    answered = newest.where(turn.reply.is_not(None))
    return _newest(newest, MOST_TURNS, "turns"), _newest(answered, MOST_ANSWERS, "answered")


def _newest(turns: Select[Any], most: int, name: str) -> Label[Any]:
    found = turns.order_by(t.turn.c.at.desc()).limit(most).correlate(t.phone).subquery()
    return select(json_rows(*found.c)).scalar_subquery().label(name)


_OF_STRANGER = (
    select(COOPERATIVE, *_lately(bindparam("number", type_=String)))
    .order_by(t.cooperative.c.id)
    .limit(1)
)


def _turns(row: Any) -> list[Turn]:
    """Turns out of JSON, each once, oldest first."""
    found = []
    told = {values[0]: values for values in (*(row.turns or ()), *(row.answered or ()))}
    for _, values in sorted(told.items()):
        turn = dict(zip(_TURN_NAMES, values, strict=True))
        understood = None if turn["understood"] is None else bool(turn["understood"])
        found.append(Turn(**turn | {"at": moment_of(turn["at"]), "understood": understood}))
    return found


_TURN_NAMES = tuple(one.name for one in fields(Turn))


def cases_of_phones(
    connection: Connection, phone_ids: Sequence[int], now: datetime, *, planning: bool = False
) -> dict[int, Case]:
    """The cases of many phones, by phone id. planning: what the calendar needs: closed batches
    whose house is still empty as well, of the open question only which it is.
    Two statements, however many phones: one of them for the cooperatives."""
    bound = {"ids": list(phone_ids), "since": now - QUESTION_OPEN}
    phones: dict[int, list[Any]] = {}
    for row in _plain(connection.execute(_KNOWN[planning], bound)):
        phones.setdefault(row.phone_id, []).append(row)
    cooperatives = _cooperatives(connection, {rows[0].phone_cooperative_id
                                              for rows in phones.values()})  # fmt: skip
    return {
        phone_id: _case(rows, now, cooperatives[rows[0].phone_cooperative_id], planning)
        for phone_id, rows in phones.items()
    }


def _plain(found: Result[Any]) -> list[Any]:
    """The rows as plain named tuples, whose fields are read ten times as fast: a chunk of thousands
    of farms reads more than forty of each."""
    known: Any = namedtuple("known", found.keys())  # type: ignore[misc]  # named by the statement
    return [known._make(row) for row in found]


_NEEDED: Mapping[str, str] = {
    "phone": "id cooperative_id number consent muted_until suspended heard_at",
    "person": "id language name",
    "batch": "id state count placed_on arrived_at placement_version heat heat_count thermometer "
    "house nights feathered moved_on held name said person_id phone_id",
    "complaint": "id state cause opened_at signals not_signals asked tried check_at checks",
}
_AMONG = one_of(t.phone.c.id, bindparam("ids", type_=Ids))
_GLANCE = "id name asked_at pushed"  # of a question, where only the calendar asks
_QUESTION = "id name kind prompt asked_at options low high about batch_id pushed".split()


def _known(*, planning: bool, of_one: bool = False) -> Select[Any]:
    """Everything of a phone but its cooperative: a row for each batch that is not closed, with its
    entries and its open complaint, beside the newest open question and the one that this one
    closed. Of several open complaints the last row holds the newest. The question is looked up
    phone by phone: a morning opens thousands before PostgreSQL has counted them, and a plain join
    then holds every farm against every question. of_one: its cooperative, its turns of the last
    day and our last text to it as well, so that one phone takes one statement; and the batches that
    the phone serves though their texts go to another. Its id is bound by itself: a list, however
    short, is planned anew each time by PostgreSQL, which takes longer than to carry it out."""
    earlier, owner = t.question.alias("earlier"), t.person.alias("owner")
    asked = t.question.alias("asked")
    newest = select(func.max(asked.c.id)).where(
        asked.c.phone_id == t.phone.c.id,
        asked.c.closed_at.is_(None),
        asked.c.asked_at > bindparam("since", type_=t.Moment()),
    )
    is_open = t.question.c.id == newest.scalar_subquery()
    spoken_of = t.batch.c.state != "closed"
    if planning:
        spoken_of = or_(spoken_of, t.batch.c.next_due.is_not(None))
    complaining = and_(t.complaint.c.batch_id == t.batch.c.id, t.complaint.c.state == "open")
    joined = t.phone.outerjoin(t.person, t.person.c.id == t.phone.c.person_id)
    served = t.batch.c.phone_id == t.phone.c.id
    if of_one:
        serving = and_(t.contact.c.phone_id == t.phone.c.id, t.contact.c.state != "ended")
        joined = joined.outerjoin(t.contact, serving)
        served = or_(
            served,
            t.batch.c.person_id == t.phone.c.person_id,
            and_(t.batch.c.person_id == t.contact.c.person_id, t.contact.c.state == "active"),
        )
    joined = (
        joined.outerjoin(t.batch, and_(served, spoken_of))
        .outerjoin(owner, owner.c.id == t.batch.c.person_id)
        .outerjoin(t.complaint, complaining)
        .outerjoin(t.question, is_open)
    )
    columns: list[ColumnElement[Any]]
    columns = [t.metadata.tables[table].c[name]
               for table, names in _NEEDED.items() for name in names.split()]  # fmt: skip
    columns += [owner.c.name, _ENTRIES]
    if planning:
        columns += [t.question.c[name] for name in _GLANCE.split()]
    else:
        columns += [_whole(t.question, "question"), _whole(earlier, "earlier")]
        joined = joined.outerjoin(earlier, earlier.c.id == t.question.c.before_id)
    if of_one:
        columns += (t.contact.c[name] for name in ("id", "person_id", "role", "state"))
        columns += [COOPERATIVE, *_lately(t.phone.c.number), _last_said()]
        joined = joined.join(t.cooperative, t.cooperative.c.id == t.phone.c.cooperative_id)
    return (
        select(*columns)
        .set_label_style(SelectLabelStyle.LABEL_STYLE_TABLENAME_PLUS_COL)
        .select_from(joined)
        .where(t.phone.c.id == bindparam("its_id") if of_one else _AMONG)
        .order_by(t.batch.c.id, t.complaint.c.id)
    )


def _whole(question: FromClause, name: str) -> Label[Any]:
    return json_row(*(question.c[one] for one in _QUESTION)).label(name)


_ENTRIES = (
    select(json_rows(*(t.event.c[name] for name in "id kind on_date at data turn_id".split()),
                     t.event.c.undone_at.is_not(None)))
    .where(t.event.c.batch_id == t.batch.c.id)
    .scalar_subquery()
    .label("entries")
)  # fmt: skip


def _last_said() -> ColumnElement[Any]:
    return (
        select(t.outbox.c.text)
        .where(t.outbox.c.phone_id == t.phone.c.id)
        .order_by(t.outbox.c.id.desc())
        .limit(1)
        .scalar_subquery()
        .label("last_said")
    )


_KNOWN_OF_ONE = _known(planning=False, of_one=True)
_KNOWN = {planning: _known(planning=planning) for planning in (True, False)}


_WHOLE: Select[Any] = (
    select(*(t.metadata.tables[table].c[name] for table in ("batch", "complaint")
             for name in _NEEDED[table].split()), t.person.c.name.label("owner_name"), _ENTRIES)
    .set_label_style(SelectLabelStyle.LABEL_STYLE_TABLENAME_PLUS_COL)
    .select_from(t.batch.outerjoin(t.complaint, and_(t.complaint.c.batch_id == t.batch.c.id,
                                                     t.complaint.c.state == "open"))
                 .outerjoin(t.person, t.person.c.id == t.batch.c.person_id))
)  # fmt: skip
_ENDED = (
    _WHOLE.where(t.batch.c.phone_id == bindparam("phone"), t.batch.c.state == "closed")
    .order_by(t.batch.c.id.desc())
    .limit(1)
)


def with_ended(connection: Connection, case: Case) -> Case:
    """The case with the batch that was closed last, where others are beside it."""
    if case.ended is not None or not case.batches or not case.phone.id:
        return case
    return replace(case, ended=_ended(connection, case.phone.id))


def _ended(connection: Connection, phone_id: int) -> Batch | None:
    """The batch of a phone that was closed last."""
    row = connection.execute(_ENDED, {"phone": phone_id}).first()
    return None if row is None else _batch(row, ())


def _case(
    rows: Sequence[Row[Any]],
    now: datetime,
    cooperative: Cooperative,
    planning: bool,
) -> Case:
    row = rows[-1]
    question = _glance(row) if planning else _open_question(row)
    person = None
    if row.person_id is not None:
        person = Person(row.person_id, row.person_language, row.person_name)
    phone = Phone(
        row.phone_id,
        row.phone_number,
        row.phone_consent,
        row.phone_muted_until,
        row.phone_suspended,
        row.phone_heard_at,
    )
    newest = {one.batch_id: one for one in rows if one.batch_id is not None}
    batches = tuple(
        _batch(one, Told(one.batch_said) if one.batch_said else ()) for one in newest.values()
    )
    language = person.language if person else cooperative.language
    return Case(now, cooperative, phone, person, language, batches, question)


def whole_batch(connection: Connection, cooperative_id: int, batch_id: int) -> Batch | None:
    """One batch of a cooperative in any state, with its entries, its open complaint and what was
    said; None where the cooperative has none of that number. One statement."""
    phones = select(t.phone.c.id).where(t.phone.c.cooperative_id == cooperative_id)
    found = _WHOLE.where(t.batch.c.id == batch_id, t.batch.c.phone_id.in_(phones))
    row = connection.execute(found.order_by(t.complaint.c.id.desc()).limit(1)).first()
    if row is None:
        return None
    return _batch(row, Told(row.batch_said) if row.batch_said else ())


def cooperative_of(connection: Connection, cooperative_id: int) -> Cooperative:
    """One cooperative by its id."""
    return _cooperatives(connection, [cooperative_id])[cooperative_id]


def cooperative_held(connection: Connection, cooperative_id: int) -> Cooperative:
    """The same, and nobody else changes it before this transaction ends. Rows that only point to it
    may still be put: a tick that holds batches must never wait for whoever waits for batches."""
    query = select(COOPERATIVE).where(t.cooperative.c.id == cooperative_id)
    return cooperative_from(connection.execute(query.with_for_update(key_share=True)).scalar_one())


def _cooperatives(connection: Connection, ids: Collection[int]) -> dict[int, Cooperative]:
    rows = connection.execute(
        select(t.cooperative.c.id, COOPERATIVE).where(t.cooperative.c.id.in_(ids))
    )
    return {row.id: cooperative_from(row.cooperative) for row in rows}


def ended_batches(connection: Connection, cooperative_id: int, most: int) -> tuple[Batch, ...]:
    """The batches of a cooperative that were closed last, so many at most."""
    mine = t.batch.c.phone_id.in_(
        select(t.phone.c.id).where(t.phone.c.cooperative_id == cooperative_id)
    )
    rows = connection.execute(_ALL_ENDED.where(mine).limit(most))
    return tuple(_batch(row, ()) for row in rows)


_ALL_ENDED: Select[Any] = (
    select(
        *(t.metadata.tables[table].c[name]
          for table in ("batch", "complaint") for name in _NEEDED[table].split()),
        t.person.c.name.label("owner_name"),
        _ENTRIES,
    )
    .set_label_style(SelectLabelStyle.LABEL_STYLE_TABLENAME_PLUS_COL)
    .select_from(t.batch.outerjoin(t.complaint, false())
                 .outerjoin(t.person, t.person.c.id == t.batch.c.person_id))
    .where(t.batch.c.state == "closed")
    .order_by(t.batch.c.id.desc())
)  # fmt: skip


def _stranger(connection: Connection, number: str, now: datetime) -> tuple[Case, Sequence[Turn]]:
    """The case of a number that never joined, and its turns of the last day."""
    row = connection.execute(_OF_STRANGER, {"number": number, "lately": now - LATELY}).one()
    cooperative = cooperative_from(row.cooperative)
    phone = Phone(0, number, "unknown")
    return Case(now, cooperative, phone, None, cooperative.language), _turns(row)


@lru_cache(maxsize=256)
def cooperative_from(said: str) -> Cooperative:
    """The cooperative that was read as COOPERATIVE."""
    row = dict(zip(_COOPERATIVE, json.loads(said), strict=True))
    return Cooperative(
        id=row["id"],
        name=row["name"],
        timezone=row["timezone"],
        region=row["region"],
        language=row["language"],
        vet_number=row["vet_number"],
        routine_at=time.fromisoformat(row["routine_at"]),
        night_at=time.fromisoformat(row["night_at"]),
        allowed_from=time.fromisoformat(row["allowed_from"]),
        allowed_to=time.fromisoformat(row["allowed_to"]),
        water_mix=bool(row["water_mix"]),
        normals=tuple((high, low) for high, low in row["normals"]),
        forecast={date.fromisoformat(day): (high, low)
                  for day, (high, low) in row["forecast"].items()},
        prices=row["prices"],
        quiet=tuple(row["quiet"]),
        budget=row["budget"],
        taught=tuple(TaughtWord(*one) for one in row["taught"]),
        authority_number=row["authority_number"],
        programme=tuple(VaccineDay(age, words, by, date.fromisoformat(on))
                        for age, words, by, on in row["programme"]),
        second_from=row["second_from"],
        limits=row["limits"],
    )  # fmt: skip


def _batch(row: Any, said: Sequence[Said]) -> Batch:
    return Batch(
        id=row.batch_id,
        state=row.batch_state,
        count=row.batch_count,
        placed_on=row.batch_placed_on,
        arrived_at=row.batch_arrived_at,
        placement_version=row.batch_placement_version,
        heat=tuple(row.batch_heat.split("+")) if row.batch_heat else (),
        heat_count=row.batch_heat_count,
        thermometer=row.batch_thermometer,
        house=row.batch_house,
        nights=row.batch_nights,
        feathered=row.batch_feathered,
        moved_on=row.batch_moved_on,
        held=row.batch_held,
        name=row.batch_name,
        events=settled(_entries(row.entries)) if row.entries else (),
        complaint=_complaint(row),
        said=said,
        owner_id=row.batch_person_id,
        owner=row.owner_name,
        phone_id=row.batch_phone_id,
    )


def _entries(rows: list[list[Any]]) -> list[Event]:
    """The entries of a batch out of JSON, oldest first."""
    return [
        Event(own, kind, date.fromisoformat(day), moment_of(at), data, turn_id, bool(undone))
        for own, kind, day, at, data, turn_id, undone in sorted(rows, key=itemgetter(0))
    ]


def _complaint(row: Row[Any]) -> Complaint | None:
    if row.complaint_id is None:
        return None
    return Complaint(
        id=row.complaint_id,
        batch_id=row.batch_id,
        cause=row.complaint_cause,
        opened_at=row.complaint_opened_at,
        signals=tuple(row.complaint_signals),
        not_signals=tuple(row.complaint_not_signals),
        asked=tuple(row.complaint_asked),
        tried=tuple(row.complaint_tried),
        check_at=row.complaint_check_at,
        checks=row.complaint_checks,
        state=row.complaint_state,
    )


def _open_question(row: Any) -> OpenQuestion | None:
    """The one open question of a phone, with the one that it closed when it was pushed."""
    if row.question is None:
        return None
    before = None if row.earlier is None else _question(row.earlier, None)
    return _question(row.question, before)


def _glance(row: Row[Any]) -> OpenQuestion | None:
    if row.question_id is None:
        return None
    name, asked_at = row.question_name, row.question_asked_at
    return OpenQuestion(row.question_id, name, "", "", asked_at, pushed=row.question_pushed)


def _question(values: Sequence[Any], before: OpenQuestion | None) -> OpenQuestion:
    own, name, kind, prompt, asked_at, options, low, high, about, batch_id, pushed = values
    return OpenQuestion(
        id=own,
        name=name,
        kind=kind,
        prompt=prompt,
        asked_at=moment_of(asked_at),
        options=tuple(options),
        low=low,
        high=high,
        about=about,
        batch_id=batch_id,
        pushed=bool(pushed),
        before=before,
    )


def with_recent(case: Case, turns: Sequence[Turn], text: str) -> Case:
    """The same case with what came lately from this number, now that `text` has come. turns: as
    `case_of_number` gives them."""
    midnight = datetime.combine(case.today, time.min, case.cooperative.zone)
    hour, day = case.now - timedelta(hours=1), case.now - timedelta(days=1)
    minute = case.now - timedelta(minutes=1)
    danger: dict[str, int] = defaultdict(int)
    for row in turns:
        if row.danger and row.at >= midnight:
            danger[row.danger] += 1
    recent = replace(
        case.recent,
        answers_hour=sum(1 for row in turns if row.reply and row.at > hour),
        answers_day=sum(1 for row in turns if row.reply and row.at > day),
        misses=_misses([row for row in turns if row.at > min(day, midnight)]),
        same=sum(1 for row in turns if row.body == text and row.at > case.now - SAME_TEXT),
        danger_today=dict(danger),
        misses_minute=sum(1 for row in turns if row.understood is False and row.at > minute),
    )
    return replace(case, recent=recent)


def _misses(rows: Sequence[Turn]) -> int:
    count = 0
    for row in reversed(rows):
        if row.understood is not False:
            break
        count += 1
    return count


def next_due_of_all(connection: Connection) -> datetime | None:
    """The earliest moment at which any batch may need a text; None when none does."""
    found: datetime | None = connection.execute(select(func.min(t.batch.c.next_due))).scalar()
    return found
