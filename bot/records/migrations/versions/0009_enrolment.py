"""A farmer has the cooperative's member number and a place; a list that was tried waits for its
confirmation; a cooperative teaches the reader words of its own."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from bot.records.tables import Moment

revision = "0009"
down_revision = "0008"


def upgrade() -> None:
    taught = sa.Column("taught", sa.JSON(), nullable=False, server_default="[]")
    op.add_column("cooperative", taught)
    op.add_column("person", sa.Column("member_number", sa.String(length=20), nullable=True))
    op.add_column("person", sa.Column("place", sa.String(length=40), nullable=True))
    op.create_index(
        "ix_person_member_number", "person", ["cooperative_id", "member_number"], unique=True
    )
    op.create_table(
        "enrolment",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("outcomes", sa.JSON(), nullable=False),
        sa.Column("unused", sa.String(length=200), nullable=False),
        sa.Column("made_at", Moment(), nullable=False),
        sa.Column("done_at", Moment(), nullable=True),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_enrolment_cooperative_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_enrolment")),
    )


def downgrade() -> None:
    op.drop_table("enrolment")
    op.drop_index("ix_person_member_number", table_name="person")
    op.drop_column("person", "place")
    op.drop_column("person", "member_number")
    op.drop_column("cooperative", "taught")
