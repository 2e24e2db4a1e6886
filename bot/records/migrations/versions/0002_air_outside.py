"""The air outside: a cooperative's monthly normals, and the weather foretold for it by day."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    for name, empty in (("normals", "[]"), ("forecast", "{}")):
        with op.batch_alter_table("cooperative") as table:
            table.add_column(sa.Column(name, sa.JSON(), nullable=False, server_default=empty))
            table.alter_column(name, server_default=None)


def downgrade() -> None:
    with op.batch_alter_table("cooperative") as table:
        table.drop_column("forecast")
        table.drop_column("normals")
