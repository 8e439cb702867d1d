"""Shops and the editions of their rules, as the database knows them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, bindparam, select, update

from service.rulebook.model import Rulebook
from service.storage import ready
from service.storage.tables import editions, shops
from service.storage.upsert import insert_once


@dataclass(frozen=True, slots=True)
class ShopRow:
    """What the office can change without the rules: how much the line may do alone, and whether it is paused."""

    shop: str
    number: str
    edition: str
    autonomy: str
    paused: bool


_ROW = select(shops.c.shop, shops.c.number, shops.c.edition, shops.c.autonomy, shops.c.paused).where(
    shops.c.shop == bindparam("of_shop")
)
_TAKE_NUMBER = (
    update(shops)
    .where(shops.c.shop == bindparam("of_shop"))
    .values(next_ticket=shops.c.next_ticket + 1)
    .returning(shops.c.next_ticket)
)


def install(connection: Connection, rulebook: Rulebook, now: datetime) -> None:
    """Make *rulebook* the shop's current edition; a new shop takes its autonomy from its file, an old one keeps its own."""
    shop = rulebook.shop
    insert_once(
        connection,
        editions,
        {"shop": shop.shop, "fingerprint": rulebook.fingerprint, "source": rulebook.source, "created_at": now},
        ("shop", "fingerprint"),
    )
    row = {
        "shop": shop.shop,
        "number": shop.number,
        "edition": rulebook.fingerprint,
        "autonomy": shop.policies.autonomy,
        "paused": False,
        "next_ticket": 1001,
        "created_at": now,
    }
    if not insert_once(connection, shops, row, ("shop",)):
        connection.execute(
            update(shops).where(shops.c.shop == shop.shop).values(edition=rulebook.fingerprint, number=shop.number)
        )


def shop_row(connection: Connection, shop: str) -> ShopRow | None:
    """The shop's row, or None if it was never installed."""
    row = connection.execute(_ROW, {"of_shop": shop}).one_or_none()
    return ShopRow(*row) if row else None


def set_autonomy(connection: Connection, shop: str, autonomy: str) -> None:
    """Let the line do more or less alone: draft, hold or automatic."""
    connection.execute(update(shops).where(shops.c.shop == shop).values(autonomy=autonomy))


def set_paused(connection: Connection, shop: str, paused: bool) -> None:
    """Pause a shop: nothing goes out but danger and consent."""
    connection.execute(update(shops).where(shops.c.shop == shop).values(paused=paused))


def edition_source(connection: Connection, shop: str, fingerprint: str) -> str | None:
    """The stored rules of an edition, or None."""
    query = select(editions.c.source).where(editions.c.shop == shop, editions.c.fingerprint == fingerprint)
    return connection.execute(query).scalar_one_or_none()


def take_ticket_number(connection: Connection, shop: str) -> int:
    """The next ticket number of the shop; the row stays locked until the transaction ends, so numbers have no gaps."""
    return int(ready.row(connection, _TAKE_NUMBER, {"of_shop": shop}).next_ticket) - 1
