"""Visits of farms with a note; the adviser's list knows its reasons as codes and figures, and the
text with which each came."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from bot.records.tables import Moment

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    told = sa.Column("told", sa.JSON(), nullable=False, server_default="{}")
    with op.batch_alter_table("adviser") as adviser:
        adviser.add_column(told)
        adviser.add_column(sa.Column("turn_id", sa.Integer(), nullable=True))
        adviser.create_foreign_key(op.f("fk_adviser_turn_id"), "turn", ["turn_id"], ["id"])
    columns = ["cooperative_id", "done_at", "at"]
    op.create_index("ix_adviser_cooperative_id", "adviser", columns)
    op.create_table(
        "visit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=True),
        sa.Column("staff_id", sa.Integer(), nullable=False),
        sa.Column("how", sa.String(length=8), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("at", Moment(), nullable=False),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_visit_cooperative_id")
        ),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_visit_person_id")),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_visit_batch_id")),
        sa.ForeignKeyConstraint(["staff_id"], ["staff.id"], name=op.f("fk_visit_staff_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_visit")),
    )
    op.create_index("ix_visit_person_id", "visit", ["person_id"])


def downgrade() -> None:
    op.drop_table("visit")
    op.drop_index("ix_adviser_cooperative_id", table_name="adviser")
    with op.batch_alter_table("adviser") as adviser:
        adviser.drop_constraint(op.f("fk_adviser_turn_id"), type_="foreignkey")
        adviser.drop_column("turn_id")
        adviser.drop_column("told")
