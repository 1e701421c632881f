"""Where stock lies and of which heat it is, trials that are left out, what was built, and a count of changes."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """From the first tables; what was there stays, with nothing said of its place and heat."""
    for name in ("place", "heat"):
        op.add_column("stock", sa.Column(name, sa.String(400), nullable=False, server_default=""))
    op.add_column("trials", sa.Column("left_out", sa.Boolean, nullable=False, server_default=sa.false()))
    op.create_table(
        "built",
        sa.Column("id", sa.Integer, primary_key=True, autoincrement=True),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("day", sa.Date, nullable=False),
        sa.Column("job", sa.String(400), nullable=False),
        sa.Column("taken", sa.Integer, nullable=False),
        sa.Column("put", sa.Integer, nullable=False),
        sa.Column("note", sa.String(400), nullable=False),
        sqlite_autoincrement=True,
    )
    changes = op.create_table(
        "changes", sa.Column("id", sa.Integer, primary_key=True), sa.Column("count", sa.Integer, nullable=False)
    )
    op.bulk_insert(changes, [{"id": 1, "count": 0}])
