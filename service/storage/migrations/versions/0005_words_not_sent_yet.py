"""What somebody at the desk typed and has not sent yet"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "unsent",
        sa.Column("shop", sa.String(length=64), nullable=False),
        sa.Column("thread", sa.String(length=32), nullable=False),
        sa.Column("login", sa.String(length=64), nullable=False),
        sa.Column("about", sa.String(length=80), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("shop", "thread", "login", "about", name=op.f("pk_unsent")),
    )


def downgrade() -> None:
    op.drop_table("unsent")
