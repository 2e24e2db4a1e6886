"""What was typed into a form of the desk when the session had ended, for an hour."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from bot.records.tables import Moment

revision = "0014"
down_revision = "0013"


def upgrade() -> None:
    op.create_table(
        "typed",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("staff_id", sa.Integer(), nullable=False),
        sa.Column("path", sa.String(length=80), nullable=False),
        sa.Column("fields", sa.JSON(), nullable=False),
        sa.Column("at", Moment(), nullable=False),
        sa.ForeignKeyConstraint(["staff_id"], ["staff.id"], name=op.f("fk_typed_staff_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_typed")),
    )
    op.create_index("ix_typed_staff_id", "typed", ["staff_id", "path"])


def downgrade() -> None:
    op.drop_table("typed")
