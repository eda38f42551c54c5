"""Predictions as they were shown, so that they can be scored when the day has come."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

Words = sa.Text().with_variant(sa.Text(collation="C"), "postgresql")


def upgrade() -> None:
    """Take the step."""
    op.create_table(
        "predictions",
        sa.Column("arrived", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), primary_key=True),
        sa.Column("key", Words, nullable=False, unique=True),
        sa.Column("kept_at", Words, nullable=False),
        sa.Column("made_on", Words, nullable=False),
        sa.Column("kind", Words, nullable=False),
        sa.Column("crop", Words, nullable=False),
        sa.Column("inputs", Words, nullable=False),
        sa.Column("program", Words, nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("check_sum", sa.BigInteger(), nullable=False),
    )
    op.create_index("predictions_by_day", "predictions", ["made_on"])


def downgrade() -> None:
    """Refuse."""
    raise NotImplementedError("a book is never taken back to an older schema; restore a backup instead")
