"""The air outside: a cooperative's monthly normals, and the weather foretold for it by day."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    for name, empty in (("normals", "[]"), ("forecast", "{}")):
        op.add_column(
            "cooperative", sa.Column(name, sa.JSON(), nullable=False, server_default=empty)
        )


def downgrade() -> None:
    op.drop_column("cooperative", "forecast")
    op.drop_column("cooperative", "normals")
