"""The tables. Used by records.* and outbox.*; the migrations are held equal to them by a test.

All moments are stored in UTC and come back aware. Nothing derived is stored, but for
`batch.next_due`, the index that finds what may be due.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    Boolean,
    Column,
    Connection,
    Date,
    DateTime,
    Dialect,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    Time,
    TypeDecorator,
    UniqueConstraint,
    text,
)
from sqlalchemy import event as events

from bot.facts.farm import SECOND_FROM

metadata = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    }
)


class Moment(TypeDecorator[datetime]):
    """An aware moment: bound as UTC, given back as UTC, on databases with and without zones."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a moment without a time zone")
        utc = value.astimezone(UTC)
        return utc.replace(tzinfo=None) if dialect.name == "sqlite" else utc

    def result_processor(self, dialect: Dialect, coltype: object) -> Any:  # noqa: ARG002
        """SQLite holds text; PostgreSQL gives back aware moments in UTC by itself (session.py)."""
        return _from_text if dialect.name == "sqlite" else None


def _from_text(value: str | None) -> datetime | None:
    return None if value is None else datetime.fromisoformat(value).replace(tzinfo=UTC)


def _id() -> Column[int]:
    return Column("id", Integer, primary_key=True)


def _link(name: str, target: str, *, empty: bool = False) -> Column[int]:
    return Column(name, Integer, ForeignKey(f"{target}.id"), nullable=empty)


cooperative = Table(
    "cooperative",
    metadata,
    _id(),
    Column("name", String(12), nullable=False),
    Column("timezone", String(64), nullable=False),
    Column("region", String(2), nullable=False),
    Column("language", String(8), nullable=False),
    Column("vet_number", String(20)),
    Column("routine_at", Time, nullable=False),
    Column("night_at", Time, nullable=False),
    Column("allowed_from", Time, nullable=False),
    Column("allowed_to", Time, nullable=False),
    Column("water_mix", Boolean, nullable=False),
    Column("normals", JSON, nullable=False, default=list),
    Column("forecast", JSON, nullable=False, default=dict),
    Column("prices", JSON, nullable=False, default=dict),
    Column("quiet", JSON, nullable=False, default=list),
    Column("taught", JSON, nullable=False, default=list),  # words: cooperative.taught
    Column("budget", Integer),
    Column("authority_number", String(20)),
    Column("programme", JSON, nullable=False, default=list),  # facts.farm.VaccineDay
    Column("second_from", Integer, nullable=False, default=SECOND_FROM),
    Column("limits", JSON, nullable=False, default=dict),  # by name: facts.limits.OWN_LIMITS
)

person = Table(
    "person",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    Column("language", String(8), nullable=False),
    Column("name", String(40)),
    Column("member_number", String(20)),  # the cooperative's own, in capitals
    Column("place", String(40)),
    Column("created_at", Moment, nullable=False),
    Index("ix_person_member_number", "cooperative_id", "member_number", unique=True),
)

phone = Table(
    "phone",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    _link("person_id", "person", empty=True),
    Column("number", String(20), nullable=False, unique=True),
    Column("consent", String(10), nullable=False),
    Column("muted_until", Moment),
    Column("heard_at", Moment),
    Column("failures", Integer, nullable=False, default=0),
    Column("suspended", Boolean, nullable=False, default=False),
    Column("invited_at", Moment),
    Column("reminded_at", Moment),
    Column("created_at", Moment, nullable=False),
    Index("ix_phone_person_id", "person_id"),
    Index("ix_phone_invited_at", "invited_at"),
)

# Beside the person who holds it, a phone may serve others' birds: person_id is whose.
contact = Table(
    "contact",
    metadata,
    _id(),
    _link("person_id", "person"),
    _link("phone_id", "phone"),
    Column("role", String(10), nullable=False),
    Column("state", String(10), nullable=False),
    Column("at", Moment, nullable=False),
    UniqueConstraint("person_id", "phone_id"),
    Index("ix_contact_phone_id", "phone_id"),
)

consent_record = Table(
    "consent_record",
    metadata,
    _id(),
    _link("phone_id", "phone"),
    Column("state", String(10), nullable=False),
    Column("how", String(40), nullable=False),
    Column("language", String(8), nullable=False),
    Column("message_id", String(64)),
    Column("wording", String(40), nullable=False, default=""),
    Column("channel", String(8), nullable=False, default=""),
    Column("at", Moment, nullable=False),
)

batch = Table(
    "batch",
    metadata,
    _id(),
    _link("phone_id", "phone"),  # where its texts go
    _link("person_id", "person", empty=True),  # whose birds they are
    Column("state", String(10), nullable=False),
    Column("count", Integer),
    Column("placed_on", Date),
    Column("arrived_at", Moment),
    Column("placement_version", Integer, nullable=False, default=1),
    Column("heat", String(40), nullable=False, default=""),
    Column("heat_count", Integer),
    Column("thermometer", Boolean),
    Column("house", String(10), nullable=False, default="brooder"),
    Column("nights", String(10)),
    Column("feathered", Boolean),
    Column("moved_on", Date),
    Column("held", Boolean, nullable=False, default=False),
    Column("name", String(20)),
    Column("said", Text, nullable=False, default=""),  # a line a text: facts.told
    Column("next_due", Moment),
    Column("created_at", Moment, nullable=False),
    Index("ix_batch_next_due", "next_due"),
    Index("ix_batch_phone_id", "phone_id"),
    Index("ix_batch_person_id", "person_id"),
)

ANSWERED = text("reply IS NOT NULL")  # of a turn
turn = Table(
    "turn",
    metadata,
    _id(),
    Column("account", String(64), nullable=False),
    Column("message_id", String(64), nullable=False),
    Column("sender", String(40), nullable=False),
    Column("recipient", String(40), nullable=False),
    Column("channel", String(8), nullable=False),
    Column("body", Text, nullable=False),
    Column("at", Moment, nullable=False),
    _link("phone_id", "phone", empty=True),
    Column("intent", String(20)),
    Column("understood", Boolean),
    Column("danger", String(40)),
    Column("reply", JSON(none_as_null=True)),
    Column("why", JSON),
    UniqueConstraint("account", "message_id"),
    Index("ix_turn_sender_at", "sender", "at"),
    Index("ix_turn_answered", "sender", "at",
          sqlite_where=ANSWERED, postgresql_where=ANSWERED),
)  # fmt: skip

event = Table(
    "event",
    metadata,
    _id(),
    _link("batch_id", "batch"),
    _link("turn_id", "turn", empty=True),
    Column("kind", String(20), nullable=False),
    Column("on_date", Date, nullable=False),
    Column("at", Moment, nullable=False),
    Column("data", JSON, nullable=False),
    Column("undone_at", Moment),
    Index("ix_event_batch_id", "batch_id"),
)

complaint = Table(
    "complaint",
    metadata,
    _id(),
    _link("batch_id", "batch"),
    Column("state", String(10), nullable=False),
    Column("cause", String(20)),
    Column("opened_at", Moment, nullable=False),
    Column("signals", JSON, nullable=False),
    Column("not_signals", JSON, nullable=False),
    Column("asked", JSON, nullable=False),
    Column("tried", JSON, nullable=False),
    Column("check_at", Moment),
    Column("checks", Integer, nullable=False, default=0),
    Column("closed_at", Moment),
    Index("ix_complaint_batch_id", "batch_id"),
)

question = Table(
    "question",
    metadata,
    _id(),
    _link("phone_id", "phone"),
    _link("batch_id", "batch", empty=True),
    Column("name", String(40), nullable=False),
    Column("kind", String(8), nullable=False),
    Column("prompt", String(20), nullable=False),
    Column("options", JSON, nullable=False),
    Column("low", Float),
    Column("high", Float),
    Column("about", JSON, nullable=False),
    Column("asked_at", Moment, nullable=False),
    Column("pushed", Boolean, nullable=False),
    Column("closed_at", Moment),
    Column("before_id", Integer),
    Index("ix_question_phone_id", "phone_id", "closed_at"),
)

outbox = Table(
    "outbox",
    metadata,
    _id(),
    Column("business_key", String(80), nullable=False, unique=True),
    _link("phone_id", "phone"),
    _link("batch_id", "batch", empty=True),
    _link("turn_id", "turn", empty=True),
    Column("to_number", String(20), nullable=False),
    Column("klass", String(12), nullable=False),
    Column("text", Text, nullable=False),
    Column("parts", Integer, nullable=False),
    Column("encoding", String(8), nullable=False),
    Column("state", String(12), nullable=False),
    Column("attempt", Integer, nullable=False, default=0),
    Column("lease_until", Moment),
    Column("lease_by", String(40)),
    Column("not_before", Moment, nullable=False),
    Column("expires_at", Moment),
    Column("created_at", Moment, nullable=False),
    Column("sent_at", Moment),
    Column("gateway_sid", String(64)),
    Column("error_code", Integer),
    Index("ix_outbox_next", "state", "klass", "not_before", "id"),
    Index("ix_outbox_phone_id_state", "phone_id", "state"),
    Index("ix_outbox_phone_id", "phone_id", "id"),
    Index("ix_outbox_gateway_sid", "gateway_sid"),
)

ussd_session = Table(
    "ussd_session",
    metadata,
    _id(),
    Column("session", String(64), nullable=False),
    Column("number", String(40), nullable=False),
    Column("at", Moment, nullable=False),
    Column("typed", Text, nullable=False, default=""),
    Column("place", JSON(none_as_null=True)),
    Column("screens", JSON, nullable=False, default=dict),  # what each callback was answered
    UniqueConstraint("session", "number"),
    Index("ix_ussd_session_number", "number"),
    Index("ix_ussd_session_at", "at"),
)

unread = Table(
    "unread",
    metadata,
    _id(),
    _link("turn_id", "turn"),
    Column("text", Text, nullable=False),
    Column("guess", String(40)),
    Column("at", Moment, nullable=False),
    Column("done_at", Moment),
)

adviser = Table(
    "adviser",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    _link("phone_id", "phone", empty=True),
    _link("batch_id", "batch", empty=True),
    _link("turn_id", "turn", empty=True),  # the text with which it came
    Column("kind", String(20), nullable=False),
    Column("reason", String(200), nullable=False),
    Column("told", JSON, nullable=False, default=dict),  # the reason as codes and figures
    Column("at", Moment, nullable=False),
    Column("done_at", Moment),
    Index("ix_adviser_cooperative_id", "cooperative_id", "done_at", "at"),
)

# Somebody of the staff was at a farm, or called it. how: "there" or "called". note: what they saw.
visit = Table(
    "visit",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    _link("person_id", "person"),
    _link("batch_id", "batch", empty=True),
    _link("staff_id", "staff"),
    Column("how", String(8), nullable=False),
    Column("note", Text, nullable=False),
    Column("on_date", Date, nullable=False),
    Column("at", Moment, nullable=False),
    Index("ix_visit_person_id", "person_id"),
)

heartbeat = Table(
    "heartbeat",
    metadata,
    Column("name", String(20), primary_key=True),
    Column("at", Moment, nullable=False),
)

# What is counted by the day or the month: answers to strangers, parts sent.
tally = Table(
    "tally",
    metadata,
    Column("name", String(40), primary_key=True),
    Column("period", String(10), primary_key=True),
    Column("n", Integer, nullable=False),
)

# A list of farms that was tried, for a day; done_at: when it was confirmed and carried out.
enrolment = Table(
    "enrolment",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    Column("digest", String(64), nullable=False),  # of the file
    Column("outcomes", JSON, nullable=False),  # cooperative.enrol.as_json
    Column("unused", String(200), nullable=False),
    Column("made_at", Moment, nullable=False),
    Column("done_at", Moment),
)

# Who works at the desk of a cooperative. password: an argon2 hash. fresh: it was given out and must
# be changed. second_sealed: the secret of the second factor (cooperative/sealed.py); second_since:
# when it was first proved;
# second_step: the last step used, so that no code counts twice.
staff = Table(
    "staff",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    Column("name", String(40), nullable=False),
    Column("sign_in", String(40), nullable=False, unique=True),
    Column("password", String(200), nullable=False),
    Column("fresh", Boolean, nullable=False, default=True),
    Column("role", String(10), nullable=False),
    Column("language", String(8), nullable=False),
    Column("second_sealed", String(160)),
    Column("second_since", Moment),
    Column("second_step", Integer, nullable=False, default=0),
    Column("disabled", Boolean, nullable=False, default=False),
    Column("created_at", Moment, nullable=False),
    Index("ix_staff_cooperative_id", "cooperative_id"),
)

# token_hash: of what the browser holds, which stands nowhere. proved: the second factor too.
staff_session = Table(
    "staff_session",
    metadata,
    _id(),
    Column("token_hash", String(64), nullable=False, unique=True),
    _link("staff_id", "staff"),
    Column("proved", Boolean, nullable=False, default=False),
    Column("made_at", Moment, nullable=False),
    Column("seen_at", Moment, nullable=False),
    Column("ends_at", Moment, nullable=False),
    Index("ix_staff_session_staff_id", "staff_id"),
)

# What somebody typed into a form when their session had ended (records/desk_again.py). path: of the
# page that the form stands on.
typed = Table(
    "typed",
    metadata,
    _id(),
    _link("staff_id", "staff"),
    Column("path", String(80), nullable=False),
    Column("fields", JSON, nullable=False),
    Column("at", Moment, nullable=False),
    Index("ix_typed_staff_id", "staff_id", "path"),
)

# What was done at the desk. No row is ever changed or deleted: a trigger refuses it. about: ids
# such as "batch 7", never a name or a number, so that who is forgotten stands nowhere.
audit = Table(
    "audit",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    _link("staff_id", "staff", empty=True),  # empty: from the command line
    Column("at", Moment, nullable=False),
    Column("what", String(40), nullable=False),
    Column("about", String(120), nullable=False, default=""),
    Index("ix_audit_cooperative_id", "cooperative_id", "id"),
)

# What the desk says to many. state: "waits" (for a second person), "goes", "stopped". people,
# parts: of the text, as they were shown before.
circular = Table(
    "circular",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    _link("staff_id", "staff"),
    Column("agreed_by", Integer, ForeignKey("staff.id"), nullable=True),
    Column("text", Text, nullable=False),
    Column("parts", Integer, nullable=False),
    Column("people", Integer, nullable=False),
    Column("state", String(10), nullable=False),
    Column("made_at", Moment, nullable=False),
    Column("sent_at", Moment),
    Index("ix_circular_cooperative_id", "cooperative_id", "id"),
)

# To whom; business_key: of the row in the outbox.
addressee = Table(
    "addressee",
    metadata,
    Column("business_key", String(80), primary_key=True),
    _link("circular_id", "circular"),
    _link("phone_id", "phone"),
    Index("ix_addressee_circular_id", "circular_id"),
)

# A version of a group of a cooperative's rules (cooperative.rules). data: its values. state:
# "draft", "live" (the columns of the cooperative say the same), "past", "dropped". staff_id: who
# drafted it; empty: as it was before anybody changed the group. agreed_by: who approved it.
rules = Table(
    "rules",
    metadata,
    _id(),
    _link("cooperative_id", "cooperative"),
    Column("part", String(10), nullable=False),
    Column("data", JSON, nullable=False),
    Column("state", String(8), nullable=False),
    _link("staff_id", "staff", empty=True),
    Column("agreed_by", Integer, ForeignKey("staff.id"), nullable=True),
    Column("made_at", Moment, nullable=False),
    Column("agreed_at", Moment),
    Index("ix_rules_cooperative_id", "cooperative_id", "part", "id"),
)

APPEND_ONLY = {
    "sqlite": tuple(
        f"CREATE TRIGGER audit_keeps_{deed} BEFORE {deed} ON audit "
        "BEGIN SELECT RAISE(ABORT, 'the audit is append-only'); END"
        for deed in ("update", "delete")
    ),
    "postgresql": (
        "CREATE OR REPLACE FUNCTION audit_keeps() RETURNS trigger LANGUAGE plpgsql AS "
        "$$ BEGIN RAISE EXCEPTION 'the audit is append-only'; END $$",
        "CREATE TRIGGER audit_keeps BEFORE UPDATE OR DELETE ON audit "
        "FOR EACH ROW EXECUTE FUNCTION audit_keeps()",
    ),
}


@events.listens_for(audit, "after_create")
def _keep_audit(_table: Table, connection: Connection, **_: object) -> None:
    for statement in APPEND_ONLY[connection.dialect.name]:
        connection.exec_driver_sql(statement)
