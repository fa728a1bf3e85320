"""Changes, records, files beside them."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "change",
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("who", sa.Text, nullable=False),
        sa.Column("at", sa.Text),
        sa.Column("note", sa.Text, nullable=False),
    )
    op.create_table(
        "record",
        sa.Column("change", sa.Integer, sa.ForeignKey("change.number"), primary_key=True),
        sa.Column("position", sa.Integer, primary_key=True),
        sa.Column("what", sa.Text, nullable=False),
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("body", sa.Text, nullable=False),
    )
    op.create_table(
        "beside",
        sa.Column("name", sa.Text, primary_key=True),
        sa.Column("data", sa.LargeBinary, nullable=False),
        sa.Column("change", sa.Integer, sa.ForeignKey("change.number"), nullable=False),
    )
