"""What all tables are made of: their names' pattern, moments, and the shop that every row carries."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import (
    BigInteger,
    Column,
    Dialect,
    MetaData,
    String,
    TypeDecorator,
)

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}
metadata = MetaData(naming_convention=NAMES)
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


class Moment(TypeDecorator[datetime]):
    """An aware moment, kept as microseconds since 1970 UTC: the same order and meaning on every database."""

    impl = BigInteger
    cache_ok = True

    def process_bind_param(self, value: datetime | None, _dialect: Dialect) -> int | None:
        """Refuses a time without zone: ValueError."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"a moment needs a zone: {value!r}")
        delta = value - EPOCH
        return (delta.days * 86_400 + delta.seconds) * 1_000_000 + delta.microseconds

    def process_result_value(self, value: Any, _dialect: Dialect) -> datetime | None:
        """Gives UTC."""
        if value is None:
            return None
        return EPOCH + timedelta(microseconds=int(value))


def shop_column() -> Column[str]:
    """The column that says whose row it is."""
    return Column("shop", String(64), nullable=False)
