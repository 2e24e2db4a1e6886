"""What things cost and birds bring where a cooperative is: its own setting, by name."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    column = sa.Column("prices", sa.JSON(), nullable=False, server_default="{}")
    op.add_column("cooperative", column)


def downgrade() -> None:
    op.drop_column("cooperative", "prices")
