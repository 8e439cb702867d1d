"""Learning from outcomes: the plan as it was shown, accepted weights, nights on which they were looked at"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("outcomes", schema=None) as batch_op:
        batch_op.add_column(sa.Column("forecast", sa.JSON(), nullable=True))
    op.create_table(
        "learned",
        sa.Column("shop", sa.String(length=64), nullable=False),
        sa.Column("appliance", sa.String(length=32), nullable=False),
        sa.Column("weights", sa.JSON(), nullable=False),
        sa.Column("evidence", sa.JSON(), nullable=False),
        sa.Column("frozen", sa.JSON(), nullable=False),
        sa.Column("since", sa.BigInteger(), nullable=True),
        sa.Column("jobs", sa.Float(), nullable=False),
        sa.Column("by", sa.String(length=64), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("shop", "appliance", name=op.f("pk_learned")),
    )
    op.create_table(
        "learning_nights",
        sa.Column("shop", sa.String(length=64), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("shop", "day", name=op.f("pk_learning_nights")),
    )


def downgrade() -> None:
    op.drop_table("learning_nights")
    op.drop_table("learned")
    with op.batch_alter_table("outcomes", schema=None) as batch_op:
        batch_op.drop_column("forecast")
