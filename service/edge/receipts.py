"""Delivery receipts: what the carrier says became of a text it took."""

from __future__ import annotations

import logging

from sqlalchemy import Connection

from service.edge.deps import Deps
from service.edge.parse import Receipt
from service.edge.undelivered import tell_conversation, tell_people
from service.storage import arrivals, early
from service.storage.early import EarlyReceipt
from service.storage.engine import reading, writing
from service.storage.leases import Leased

log = logging.getLogger("plainfault.sender")


def settle(deps: Deps, shop: str, gateway: str, receipt: Receipt) -> None:
    """
    Keep what a receipt says. A step on the way changes nothing; a receipt of a text that is not ours is left.

    An undelivered text is dealt with as one that could not be sent. A receipt may overtake the answer that tells us the
    gateway's reference; it waits then, and counts once the reference is known.
    """
    if receipt.arrived is None:
        return
    lost = None
    with writing(deps.engine) as connection:
        # In this order: a text that is marked as sent between the two looks is found by the second.
        may_come = receipt.reference is not None and early.in_hand(connection, shop, gateway)
        identity = arrivals.find(connection, shop, gateway, receipt.key, receipt.reference)
        if identity is not None:
            lost = _mark(connection, deps, shop, identity, arrived=receipt.arrived)
        elif may_come and receipt.reference is not None and not receipt.key:
            early.keep(connection, EarlyReceipt(shop, gateway, receipt.reference, receipt.arrived), deps.clock())
        else:
            _tell_strange(shop, gateway)
    if lost is not None:
        tell_conversation(deps, lost)


def settle_early(deps: Deps) -> int:
    """Let the receipts that came too soon count, where their texts have a reference now; how many did."""
    with reading(deps.engine) as connection:  # nearly always there is none, and a look holds up nobody
        due, some_old = early.due(connection, deps.clock())
    for receipt in due:
        lost = None
        with writing(deps.engine) as connection:
            identity = arrivals.find(connection, receipt.shop, receipt.gateway, None, receipt.reference)
            if identity is not None and early.take(connection, receipt):
                lost = _mark(connection, deps, receipt.shop, identity, arrived=receipt.arrived)
        if lost is not None:
            tell_conversation(deps, lost)
    if some_old:
        with writing(deps.engine) as connection:
            for receipt in early.forget_old(connection, deps.clock()):
                _tell_strange(receipt.shop, receipt.gateway)
    return len(due)


def _mark(connection: Connection, deps: Deps, shop: str, identity: str, *, arrived: bool) -> Leased | None:
    """Keep what became of the text; it, if it is lost and that was not known."""
    if arrived:
        arrivals.mark_delivered(connection, shop, identity, deps.clock())
        return None
    lost = arrivals.mark_undelivered(connection, shop, identity, "the carrier could not deliver it")
    if lost is not None:
        tell_people(connection, lost, deps)
    return lost


def _tell_strange(shop: str, gateway: str) -> None:
    log.warning("a receipt is about no text of ours", extra={"shop": shop, "gateway": gateway})
