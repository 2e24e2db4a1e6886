"""The versions of a cooperative's own rules: who set what, who approved it; and what of it had no
place yet: the animal health office, the vet's vaccine days, limits of its own."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from bot.records.tables import Moment

revision = "0012"
down_revision = "0011"


def upgrade() -> None:
    op.create_table(
        "rules",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("part", sa.String(length=10), nullable=False),
        sa.Column("data", sa.JSON(), nullable=False),
        sa.Column("state", sa.String(length=8), nullable=False),
        sa.Column("staff_id", sa.Integer(), nullable=True),
        sa.Column("agreed_by", sa.Integer(), nullable=True),
        sa.Column("made_at", Moment(), nullable=False),
        sa.Column("agreed_at", Moment(), nullable=True),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_rules_cooperative_id")
        ),
        sa.ForeignKeyConstraint(["staff_id"], ["staff.id"], name=op.f("fk_rules_staff_id")),
        sa.ForeignKeyConstraint(["agreed_by"], ["staff.id"], name=op.f("fk_rules_agreed_by")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_rules")),
    )
    op.create_index("ix_rules_cooperative_id", "rules", ["cooperative_id", "part", "id"])
    for column in (
        sa.Column("authority_number", sa.String(length=20), nullable=True),
        sa.Column("programme", sa.JSON(), nullable=False, server_default="[]"),
        sa.Column("second_from", sa.Integer(), nullable=False, server_default="50"),
        sa.Column("limits", sa.JSON(), nullable=False, server_default="{}"),
    ):
        op.add_column("cooperative", column)


def downgrade() -> None:
    for name in ("limits", "second_from", "programme", "authority_number"):
        op.drop_column("cooperative", name)
    op.drop_table("rules")
