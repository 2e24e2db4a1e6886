"""The ground: cooperatives, phones, people, batches, their record, the outbox."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from bot.records.tables import Moment

revision = "0001"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "cooperative",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=12), nullable=False),
        sa.Column("timezone", sa.String(length=64), nullable=False),
        sa.Column("region", sa.String(length=2), nullable=False),
        sa.Column("language", sa.String(length=8), nullable=False),
        sa.Column("vet_number", sa.String(length=20), nullable=True),
        sa.Column("routine_at", sa.Time(), nullable=False),
        sa.Column("night_at", sa.Time(), nullable=False),
        sa.Column("allowed_from", sa.Time(), nullable=False),
        sa.Column("allowed_to", sa.Time(), nullable=False),
        sa.Column("water_mix", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_cooperative")),
    )
    op.create_table(
        "heartbeat",
        sa.Column("name", sa.String(length=20), nullable=False),
        sa.Column("at", Moment(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_heartbeat")),
    )
    op.create_table(
        "person",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("language", sa.String(length=8), nullable=False),
        sa.Column("name", sa.String(length=40), nullable=True),
        sa.Column("created_at", Moment(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_person_cooperative_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
    )
    op.create_table(
        "phone",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("number", sa.String(length=20), nullable=False),
        sa.Column("consent", sa.String(length=10), nullable=False),
        sa.Column("muted_until", Moment(timezone=True), nullable=True),
        sa.Column("heard_at", Moment(timezone=True), nullable=True),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.Column("suspended", sa.Boolean(), nullable=False),
        sa.Column("created_at", Moment(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_phone_cooperative_id")
        ),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_phone_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_phone")),
        sa.UniqueConstraint("number", name=op.f("uq_phone_number")),
    )
    op.create_table(
        "batch",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("phone_id", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("count", sa.Integer(), nullable=True),
        sa.Column("placed_on", sa.Date(), nullable=True),
        sa.Column("arrived_at", Moment(timezone=True), nullable=True),
        sa.Column("placement_version", sa.Integer(), nullable=False),
        sa.Column("heat", sa.String(length=40), nullable=False),
        sa.Column("heat_count", sa.Integer(), nullable=True),
        sa.Column("thermometer", sa.Boolean(), nullable=True),
        sa.Column("house", sa.String(length=10), nullable=False),
        sa.Column("nights", sa.String(length=10), nullable=True),
        sa.Column("feathered", sa.Boolean(), nullable=True),
        sa.Column("moved_on", sa.Date(), nullable=True),
        sa.Column("held", sa.Boolean(), nullable=False),
        sa.Column("name", sa.String(length=20), nullable=True),
        sa.Column("next_due", Moment(timezone=True), nullable=True),
        sa.Column("created_at", Moment(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["phone_id"], ["phone.id"], name=op.f("fk_batch_phone_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_batch")),
    )
    op.create_index("ix_batch_next_due", "batch", ["next_due"], unique=False)
    op.create_index("ix_batch_phone_id", "batch", ["phone_id"], unique=False)
    op.create_table(
        "consent_record",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("phone_id", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("how", sa.String(length=40), nullable=False),
        sa.Column("language", sa.String(length=8), nullable=False),
        sa.Column("message_id", sa.String(length=64), nullable=True),
        sa.Column("at", Moment(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["phone_id"], ["phone.id"], name=op.f("fk_consent_record_phone_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_consent_record")),
    )
    op.create_table(
        "turn",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("account", sa.String(length=64), nullable=False),
        sa.Column("message_id", sa.String(length=64), nullable=False),
        sa.Column("sender", sa.String(length=40), nullable=False),
        sa.Column("recipient", sa.String(length=40), nullable=False),
        sa.Column("channel", sa.String(length=8), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("at", Moment(timezone=True), nullable=False),
        sa.Column("phone_id", sa.Integer(), nullable=True),
        sa.Column("intent", sa.String(length=20), nullable=True),
        sa.Column("understood", sa.Boolean(), nullable=True),
        sa.Column("danger", sa.String(length=40), nullable=True),
        sa.Column("reply", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("why", sa.JSON(), nullable=True),
        sa.ForeignKeyConstraint(["phone_id"], ["phone.id"], name=op.f("fk_turn_phone_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_turn")),
        sa.UniqueConstraint("account", "message_id", name=op.f("uq_turn_account_message_id")),
    )
    op.create_index("ix_turn_sender_at", "turn", ["sender", "at"], unique=False)
    op.create_table(
        "adviser",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("phone_id", sa.Integer(), nullable=True),
        sa.Column("batch_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("reason", sa.String(length=200), nullable=False),
        sa.Column("at", Moment(timezone=True), nullable=False),
        sa.Column("done_at", Moment(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_adviser_batch_id")),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_adviser_cooperative_id")
        ),
        sa.ForeignKeyConstraint(["phone_id"], ["phone.id"], name=op.f("fk_adviser_phone_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_adviser")),
    )
    op.create_table(
        "complaint",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("cause", sa.String(length=20), nullable=True),
        sa.Column("opened_at", Moment(timezone=True), nullable=False),
        sa.Column("signals", sa.JSON(), nullable=False),
        sa.Column("not_signals", sa.JSON(), nullable=False),
        sa.Column("asked", sa.JSON(), nullable=False),
        sa.Column("tried", sa.JSON(), nullable=False),
        sa.Column("check_at", Moment(timezone=True), nullable=True),
        sa.Column("checks", sa.Integer(), nullable=False),
        sa.Column("closed_at", Moment(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_complaint_batch_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_complaint")),
    )
    op.create_index("ix_complaint_batch_id", "complaint", ["batch_id"], unique=False)
    op.create_table(
        "event",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=False),
        sa.Column("turn_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("at", Moment(timezone=True), nullable=False),
        sa.Column("data", sa.JSON(), nullable=False),
        sa.Column("undone_at", Moment(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_event_batch_id")),
        sa.ForeignKeyConstraint(["turn_id"], ["turn.id"], name=op.f("fk_event_turn_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_event")),
    )
    op.create_index("ix_event_batch_id", "event", ["batch_id"], unique=False)
    op.create_table(
        "outbox",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("business_key", sa.String(length=80), nullable=False),
        sa.Column("phone_id", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=True),
        sa.Column("turn_id", sa.Integer(), nullable=True),
        sa.Column("to_number", sa.String(length=20), nullable=False),
        sa.Column("klass", sa.String(length=12), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("parts", sa.Integer(), nullable=False),
        sa.Column("encoding", sa.String(length=8), nullable=False),
        sa.Column("state", sa.String(length=12), nullable=False),
        sa.Column("attempt", sa.Integer(), nullable=False),
        sa.Column("lease_until", Moment(timezone=True), nullable=True),
        sa.Column("lease_by", sa.String(length=40), nullable=True),
        sa.Column("not_before", Moment(timezone=True), nullable=False),
        sa.Column("expires_at", Moment(timezone=True), nullable=True),
        sa.Column("created_at", Moment(timezone=True), nullable=False),
        sa.Column("sent_at", Moment(timezone=True), nullable=True),
        sa.Column("gateway_sid", sa.String(length=64), nullable=True),
        sa.Column("error_code", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_outbox_batch_id")),
        sa.ForeignKeyConstraint(["phone_id"], ["phone.id"], name=op.f("fk_outbox_phone_id")),
        sa.ForeignKeyConstraint(["turn_id"], ["turn.id"], name=op.f("fk_outbox_turn_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
        sa.UniqueConstraint("business_key", name=op.f("uq_outbox_business_key")),
    )
    op.create_index("ix_outbox_gateway_sid", "outbox", ["gateway_sid"], unique=False)
    op.create_index("ix_outbox_phone_id", "outbox", ["phone_id", "id"], unique=False)
    op.create_index("ix_outbox_phone_id_state", "outbox", ["phone_id", "state"], unique=False)
    op.create_index(
        "ix_outbox_next", "outbox", ["state", "klass", "not_before", "id"], unique=False
    )
    op.create_table(
        "question",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("phone_id", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=True),
        sa.Column("name", sa.String(length=40), nullable=False),
        sa.Column("kind", sa.String(length=8), nullable=False),
        sa.Column("prompt", sa.String(length=20), nullable=False),
        sa.Column("options", sa.JSON(), nullable=False),
        sa.Column("low", sa.Float(), nullable=True),
        sa.Column("high", sa.Float(), nullable=True),
        sa.Column("about", sa.JSON(), nullable=False),
        sa.Column("asked_at", Moment(timezone=True), nullable=False),
        sa.Column("pushed", sa.Boolean(), nullable=False),
        sa.Column("closed_at", Moment(timezone=True), nullable=True),
        sa.Column("before_id", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_question_batch_id")),
        sa.ForeignKeyConstraint(["phone_id"], ["phone.id"], name=op.f("fk_question_phone_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_question")),
    )
    op.create_index("ix_question_phone_id", "question", ["phone_id", "closed_at"], unique=False)
    op.create_table(
        "said",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=False),
        sa.Column("placement_version", sa.Integer(), nullable=False),
        sa.Column("row", sa.String(length=60), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("slot", sa.String(length=20), nullable=False),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_said_batch_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_said")),
        sa.UniqueConstraint(
            "batch_id",
            "placement_version",
            "row",
            "on_date",
            "slot",
            name=op.f("uq_said_batch_id_placement_version_row_on_date_slot"),
        ),
    )
    op.create_table(
        "unread",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("turn_id", sa.Integer(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("guess", sa.String(length=40), nullable=True),
        sa.Column("at", Moment(timezone=True), nullable=False),
        sa.Column("done_at", Moment(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["turn_id"], ["turn.id"], name=op.f("fk_unread_turn_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_unread")),
    )


def downgrade() -> None:
    op.drop_table("unread")
    op.drop_table("said")
    op.drop_index("ix_question_phone_id", table_name="question")
    op.drop_table("question")
    op.drop_index("ix_outbox_next", table_name="outbox")
    op.drop_index("ix_outbox_phone_id_state", table_name="outbox")
    op.drop_index("ix_outbox_phone_id", table_name="outbox")
    op.drop_index("ix_outbox_gateway_sid", table_name="outbox")
    op.drop_table("outbox")
    op.drop_index("ix_event_batch_id", table_name="event")
    op.drop_table("event")
    op.drop_index("ix_complaint_batch_id", table_name="complaint")
    op.drop_table("complaint")
    op.drop_table("adviser")
    op.drop_index("ix_turn_sender_at", table_name="turn")
    op.drop_table("turn")
    op.drop_table("consent_record")
    op.drop_index("ix_batch_phone_id", table_name="batch")
    op.drop_index("ix_batch_next_due", table_name="batch")
    op.drop_table("batch")
    op.drop_table("phone")
    op.drop_table("person")
    op.drop_table("heartbeat")
    op.drop_table("cooperative")
