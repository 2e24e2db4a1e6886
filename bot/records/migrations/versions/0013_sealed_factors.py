"""Second factors of staff are kept sealed with a key made of the service's secret, no longer in
plain. Whoever had one keeps it."""

from __future__ import annotations

from collections.abc import Callable

import sqlalchemy as sa
from alembic import context, op

from bot.cooperative.sealed import seal, unseal

revision = "0013"
down_revision = "0012"

staff = sa.table("staff", *map(sa.column, ("id", "second_secret", "second_sealed")))


def upgrade() -> None:
    op.add_column("staff", sa.Column("second_sealed", sa.String(length=160), nullable=True))
    _change(staff.c.second_secret, staff.c.second_sealed, seal)
    op.drop_column("staff", "second_secret")


def downgrade() -> None:
    """What can't be opened is left out: whoever owns has it set up anew."""
    op.add_column("staff", sa.Column("second_secret", sa.String(length=64), nullable=True))
    _change(staff.c.second_sealed, staff.c.second_secret, unseal)
    op.drop_column("staff", "second_sealed")


def _change(
    before: sa.ColumnClause[str],
    after: sa.ColumnClause[str],
    change: Callable[[bytes, int, str], str | None],
) -> None:
    secret: bytes = context.config.attributes["secret"]
    connection = op.get_bind()
    for row in connection.execute(sa.select(staff.c.id, before).where(before.is_not(None))).all():
        whose, kept = row
        changed = {after.name: change(secret, whose, kept)}
        connection.execute(sa.update(staff).where(staff.c.id == whose).values(changed))
