"""What the desk says to many at once: the text, to whom, who agreed, who stopped it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from bot.records.tables import Moment

revision = "0011"
down_revision = "0010"


def upgrade() -> None:
    op.create_table(
        "circular",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("staff_id", sa.Integer(), nullable=False),
        sa.Column("agreed_by", sa.Integer(), nullable=True),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("parts", sa.Integer(), nullable=False),
        sa.Column("people", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("made_at", Moment(), nullable=False),
        sa.Column("sent_at", Moment(), nullable=True),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_circular_cooperative_id")
        ),
        sa.ForeignKeyConstraint(["staff_id"], ["staff.id"], name=op.f("fk_circular_staff_id")),
        sa.ForeignKeyConstraint(["agreed_by"], ["staff.id"], name=op.f("fk_circular_agreed_by")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_circular")),
    )
    op.create_index("ix_circular_cooperative_id", "circular", ["cooperative_id", "id"])
    op.create_table(
        "addressee",
        sa.Column("business_key", sa.String(length=80), nullable=False),
        sa.Column("circular_id", sa.Integer(), nullable=False),
        sa.Column("phone_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["circular_id"], ["circular.id"], name=op.f("fk_addressee_circular_id")
        ),
        sa.ForeignKeyConstraint(["phone_id"], ["phone.id"], name=op.f("fk_addressee_phone_id")),
        sa.PrimaryKeyConstraint("business_key", name=op.f("pk_addressee")),
    )
    op.create_index("ix_addressee_circular_id", "addressee", ["circular_id"])


def downgrade() -> None:
    op.drop_table("addressee")
    op.drop_table("circular")
