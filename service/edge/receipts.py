"""Delivery receipts: what the carrier says became of a text it took."""

from __future__ import annotations

import logging

from service.edge.deps import Deps
from service.edge.parse import Receipt
from service.edge.undelivered import tell_conversation, tell_people
from service.storage import leases
from service.storage.engine import writing

log = logging.getLogger("plainfault.sender")


def settle(deps: Deps, shop: str, gateway: str, receipt: Receipt) -> None:
    """
    Keep what a receipt says. A step on the way changes nothing; a receipt of a text that is not ours is left.

    An undelivered text is dealt with as one that could not be sent.
    """
    if receipt.arrived is None:
        return
    lost = None
    with writing(deps.engine) as connection:
        identity = leases.find(connection, shop, gateway, receipt.key, receipt.reference)
        if identity is None:
            log.warning("a receipt is about no text of ours", extra={"shop": shop, "gateway": gateway})
        elif receipt.arrived:
            leases.mark_delivered(connection, shop, identity, deps.clock())
        else:
            lost = leases.mark_undelivered(connection, shop, identity, "the carrier could not deliver it")
            if lost is not None:
                tell_people(connection, lost, deps)
    if lost is not None:
        tell_conversation(deps, lost)
