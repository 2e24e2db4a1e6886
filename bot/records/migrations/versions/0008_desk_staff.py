"""The desk: who works there, in which role, their sessions, and what was done, which nobody can
change afterwards."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from bot.records.tables import Moment

revision = "0008"
down_revision = "0007"

APPEND_ONLY = {
    "sqlite": tuple(
        f"CREATE TRIGGER audit_keeps_{deed} BEFORE {deed} ON audit "
        "BEGIN SELECT RAISE(ABORT, 'the audit is append-only'); END"
        for deed in ("update", "delete")
    ),
    "postgresql": (
        "CREATE OR REPLACE FUNCTION audit_keeps() RETURNS trigger LANGUAGE plpgsql AS "
        "$$ BEGIN RAISE EXCEPTION 'the audit is append-only'; END $$",
        "CREATE TRIGGER audit_keeps BEFORE UPDATE OR DELETE ON audit "
        "FOR EACH ROW EXECUTE FUNCTION audit_keeps()",
    ),
}


def upgrade() -> None:
    op.create_table(
        "staff",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=40), nullable=False),
        sa.Column("sign_in", sa.String(length=40), nullable=False),
        sa.Column("password", sa.String(length=200), nullable=False),
        sa.Column("fresh", sa.Boolean(), nullable=False),
        sa.Column("role", sa.String(length=10), nullable=False),
        sa.Column("language", sa.String(length=8), nullable=False),
        sa.Column("second_secret", sa.String(length=64), nullable=True),
        sa.Column("second_since", Moment(), nullable=True),
        sa.Column("second_step", sa.Integer(), nullable=False),
        sa.Column("disabled", sa.Boolean(), nullable=False),
        sa.Column("created_at", Moment(), nullable=False),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_staff_cooperative_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_staff")),
        sa.UniqueConstraint("sign_in", name=op.f("uq_staff_sign_in")),
    )
    op.create_index("ix_staff_cooperative_id", "staff", ["cooperative_id"])
    op.create_table(
        "staff_session",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("staff_id", sa.Integer(), nullable=False),
        sa.Column("proved", sa.Boolean(), nullable=False),
        sa.Column("made_at", Moment(), nullable=False),
        sa.Column("seen_at", Moment(), nullable=False),
        sa.Column("ends_at", Moment(), nullable=False),
        sa.ForeignKeyConstraint(["staff_id"], ["staff.id"], name=op.f("fk_staff_session_staff_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_staff_session")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_staff_session_token_hash")),
    )
    op.create_index("ix_staff_session_staff_id", "staff_session", ["staff_id"])
    op.create_table(
        "audit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cooperative_id", sa.Integer(), nullable=False),
        sa.Column("staff_id", sa.Integer(), nullable=True),
        sa.Column("at", Moment(), nullable=False),
        sa.Column("what", sa.String(length=40), nullable=False),
        sa.Column("about", sa.String(length=120), nullable=False),
        sa.ForeignKeyConstraint(
            ["cooperative_id"], ["cooperative.id"], name=op.f("fk_audit_cooperative_id")
        ),
        sa.ForeignKeyConstraint(["staff_id"], ["staff.id"], name=op.f("fk_audit_staff_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_audit")),
    )
    op.create_index("ix_audit_cooperative_id", "audit", ["cooperative_id", "id"])
    for statement in APPEND_ONLY[op.get_bind().dialect.name]:
        op.execute(statement)


def downgrade() -> None:
    op.drop_table("audit")
    if op.get_bind().dialect.name == "postgresql":
        op.execute("DROP FUNCTION audit_keeps()")
    op.drop_table("staff_session")
    op.drop_table("staff")
