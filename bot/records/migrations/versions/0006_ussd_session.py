"""Sessions of the phone's own menu (USSD): where each stands and what it was answered."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    op.create_table(
        "ussd_session",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("session", sa.String(length=64), nullable=False),
        sa.Column("number", sa.String(length=40), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("place", sa.JSON(none_as_null=True)),
        sa.Column("screens", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_ussd_session")),
        sa.UniqueConstraint("session", "number", name=op.f("uq_ussd_session_session_number")),
    )
    op.create_index("ix_ussd_session_number", "ussd_session", ["number"])
    op.create_index("ix_ussd_session_at", "ussd_session", ["at"])


def downgrade() -> None:
    op.drop_table("ussd_session")
