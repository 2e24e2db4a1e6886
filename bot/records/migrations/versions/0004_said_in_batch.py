"""What was said to a batch lies with the batch, one line a text: a million farms' mornings read and
write one row a farm, not four."""

from __future__ import annotations

from collections import defaultdict
from datetime import date

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"

_SAID = sa.table(
    "said",
    sa.column("id", sa.Integer),
    sa.column("batch_id", sa.Integer),
    sa.column("placement_version", sa.Integer),
    sa.column("row", sa.String),
    sa.column("on_date", sa.Date),
    sa.column("slot", sa.String),
)
_BATCH = sa.table(
    "batch",
    sa.column("id", sa.Integer),
    sa.column("placement_version", sa.Integer),
    sa.column("said", sa.Text),
)


def upgrade() -> None:
    op.add_column("batch", sa.Column("said", sa.Text(), nullable=False, server_default=""))
    lines = _lines()
    if lines:
        op.get_bind().execute(
            sa.update(_BATCH).where(_BATCH.c.id == sa.bindparam("one")),
            [
                {"one": batch_id, "said": "\n".join(found) + "\n"}
                for batch_id, found in lines.items()
            ],
        )
    op.drop_table("said")


def _lines() -> dict[int, list[str]]:
    """A line a text: local day, slot, and the rows of the calendar that it said."""
    texts: dict[tuple[int, str], list[str]] = defaultdict(list)
    for one in op.get_bind().execute(
        sa.select(_SAID)
        .join(_BATCH, _BATCH.c.id == _SAID.c.batch_id)
        .where(_BATCH.c.placement_version == _SAID.c.placement_version)
        .order_by(_SAID.c.on_date, _SAID.c.id)
    ):
        texts[one.batch_id, f"{one.on_date.isoformat()} {one.slot}"].append(one.row)
    lines: dict[int, list[str]] = defaultdict(list)
    for (batch_id, head), rows in texts.items():
        lines[batch_id].append(" ".join((head, *rows)))
    return lines


def downgrade() -> None:
    op.create_table(
        "said",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=False),
        sa.Column("placement_version", sa.Integer(), nullable=False),
        sa.Column("row", sa.String(length=60), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("slot", sa.String(length=20), nullable=False),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_said_batch_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_said")),
        sa.UniqueConstraint(
            "batch_id",
            "placement_version",
            "row",
            "on_date",
            "slot",
            name=op.f("uq_said_batch_id_placement_version_row_on_date_slot"),
        ),
    )
    connection = op.get_bind()
    for batch in connection.execute(sa.select(_BATCH).where(_BATCH.c.said != "")):
        for line in batch.said.splitlines():
            on_date, slot, *rows = line.split(" ")
            connection.execute(
                sa.insert(_SAID),
                [
                    {
                        "batch_id": batch.id,
                        "placement_version": batch.placement_version,
                        "row": row,
                        "on_date": date.fromisoformat(on_date),
                        "slot": slot,
                    }
                    for row in rows
                ],
            )
    op.drop_column("batch", "said")
