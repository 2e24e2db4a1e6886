"""The answered turns of a number are found without a look at those that were not answered: who
texts without end is answered at most so many times a day."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"

ANSWERED = sa.text("reply IS NOT NULL")


def upgrade() -> None:
    op.create_index(
        "ix_turn_answered",
        "turn",
        ["sender", "at"],
        sqlite_where=ANSWERED,
        postgresql_where=ANSWERED,
    )


def downgrade() -> None:
    op.drop_index("ix_turn_answered", "turn")
