"""The pace of a number's texts with its thread; turns kept in one piece on PostgreSQL"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("threads", schema=None) as batch_op:
        batch_op.add_column(sa.Column("paced_to", sa.BigInteger(), nullable=True))
    op.execute("DELETE FROM buckets WHERE name LIKE 'from:%'")
    if op.get_bind().dialect.name == "postgresql":
        # A turn has about 6 kB: compressed and put aside it takes half as long again to write, and is seldom read.
        op.execute("ALTER TABLE turns SET (toast_tuple_target = 8160)")


def downgrade() -> None:
    if op.get_bind().dialect.name == "postgresql":
        op.execute("ALTER TABLE turns RESET (toast_tuple_target)")
    with op.batch_alter_table("threads", schema=None) as batch_op:
        batch_op.drop_column("paced_to")
