"""Pieces of long texts, and receipts that come before the gateway has said what they are about"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("messages", schema=None) as batch_op:
        batch_op.add_column(sa.Column("whole", sa.String(length=64), nullable=True))
        batch_op.add_column(sa.Column("part", sa.Integer(), nullable=True))
        batch_op.add_column(sa.Column("parts", sa.Integer(), nullable=True))
    op.create_table(
        "early_receipts",
        sa.Column("shop", sa.String(length=64), nullable=False),
        sa.Column("gateway", sa.String(length=64), nullable=False),
        sa.Column("reference", sa.String(length=200), nullable=False),
        sa.Column("arrived", sa.Boolean(), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("shop", "gateway", "reference", name=op.f("pk_early_receipts")),
    )


def downgrade() -> None:
    op.drop_table("early_receipts")
    with op.batch_alter_table("messages", schema=None) as batch_op:
        batch_op.drop_column("parts")
        batch_op.drop_column("part")
        batch_op.drop_column("whole")
