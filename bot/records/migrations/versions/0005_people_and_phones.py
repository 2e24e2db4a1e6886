"""A batch has an owner and, beside its phone, may be served by others: the caretaker's, one
that two farmers share. Consent keeps its wording and channel; invitations, quiet times,
budgets and daily counts have a place."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from bot.records.tables import Moment

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    op.create_table(
        "contact",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("phone_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(length=10), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("at", Moment(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_contact_person_id")),
        sa.ForeignKeyConstraint(["phone_id"], ["phone.id"], name=op.f("fk_contact_phone_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_contact")),
        sa.UniqueConstraint("person_id", "phone_id", name=op.f("uq_contact_person_id_phone_id")),
    )
    op.create_index("ix_contact_phone_id", "contact", ["phone_id"])
    op.create_table(
        "tally",
        sa.Column("name", sa.String(length=40), nullable=False),
        sa.Column("period", sa.String(length=10), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("name", "period", name=op.f("pk_tally")),
    )
    for name, length in (("wording", 40), ("channel", 8)):
        column = sa.Column(name, sa.String(length=length), nullable=False, server_default="")
        op.add_column("consent_record", column)
    for name in ("invited_at", "reminded_at"):
        op.add_column("phone", sa.Column(name, Moment(), nullable=True))
    op.create_index("ix_phone_person_id", "phone", ["person_id"])
    op.create_index("ix_phone_invited_at", "phone", ["invited_at"])
    op.add_column("cooperative", sa.Column("quiet", sa.JSON(), nullable=False, server_default="[]"))
    op.add_column("cooperative", sa.Column("budget", sa.Integer(), nullable=True))
    op.execute(
        "ALTER TABLE batch ADD COLUMN person_id INTEGER "
        "CONSTRAINT fk_batch_person_id REFERENCES person (id)"
    )
    op.create_index("ix_batch_person_id", "batch", ["person_id"])
    op.execute(
        "UPDATE batch SET person_id = "
        "(SELECT phone.person_id FROM phone WHERE phone.id = batch.phone_id)"
    )


def downgrade() -> None:
    op.drop_index("ix_batch_person_id", table_name="batch")
    op.drop_column("batch", "person_id")
    for name in ("budget", "quiet"):
        op.drop_column("cooperative", name)
    op.drop_index("ix_phone_invited_at", table_name="phone")
    op.drop_index("ix_phone_person_id", table_name="phone")
    for name in ("reminded_at", "invited_at"):
        op.drop_column("phone", name)
    for name in ("channel", "wording"):
        op.drop_column("consent_record", name)
    op.drop_table("tally")
    op.drop_index("ix_contact_phone_id", table_name="contact")
    op.drop_table("contact")
