"""What things cost and birds bring where a cooperative is: its own setting, by name."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    with op.batch_alter_table("cooperative") as table:
        table.add_column(sa.Column("prices", sa.JSON(), nullable=False, server_default="{}"))
        table.alter_column("prices", server_default=None)


def downgrade() -> None:
    with op.batch_alter_table("cooperative") as table:
        table.drop_column("prices")
