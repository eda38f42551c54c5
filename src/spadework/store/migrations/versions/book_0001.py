"""The book: entries that are only ever added, and a few facts about the store itself."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

# Both engines must sort keys and times the same way, whatever the server's language.
Words = sa.Text().with_variant(sa.Text(collation="C"), "postgresql")


def upgrade() -> None:
    """Take the step."""
    op.create_table(
        "entries",
        sa.Column("arrived", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), primary_key=True),
        sa.Column("key", Words, nullable=False, unique=True),
        sa.Column("recorded_at", Words, nullable=False),
        sa.Column("happened_on", Words, nullable=False),
        sa.Column("author", Words, nullable=False),
        sa.Column("kind", Words, nullable=False),
        sa.Column("bed", Words, nullable=False),
        sa.Column("planting", Words, nullable=False),
        sa.Column("batch", Words, nullable=False),
        sa.Column("replaces", Words, nullable=False),
        sa.Column("withdraws", Words, nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("check_sum", sa.BigInteger(), nullable=False),
    )
    op.create_index("entries_by_bed", "entries", ["bed"])
    op.create_index("entries_by_planting", "entries", ["planting"])
    op.create_index("entries_by_kind", "entries", ["kind"])
    op.create_table(
        "meta",
        sa.Column("name", Words, primary_key=True),
        sa.Column("value", sa.Text(), nullable=False),
    )
    only_added("entries")


def only_added(table: str) -> None:
    """Have the database itself refuse to change or drop a row."""
    if op.get_bind().dialect.name == "sqlite":
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                "BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END"
            )
        return
    op.execute(
        "CREATE FUNCTION only_added() RETURNS trigger LANGUAGE plpgsql AS "
        "'BEGIN RAISE EXCEPTION ''rows are only ever added''; END'"
    )
    op.execute(
        f"CREATE TRIGGER {table}_only_added BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
        "FOR EACH STATEMENT EXECUTE FUNCTION only_added()"
    )


def downgrade() -> None:
    """Refuse."""
    raise NotImplementedError("a book is never taken back to an older schema; restore a backup instead")
