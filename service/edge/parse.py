"""A gateway's delivery into one ``Inbound`` or one ``Receipt``, as its profile says."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from service.edge.bodies import Malformed
from service.edge.codings import cleaned
from service.edge.delivery import Delivery
from service.edge.inbound import Inbound
from service.edge.numbers import one_spelling
from service.edge.places import Shape
from service.edge.profile_receive import Composed, Receipts, Receive
from service.edge.times import time_of

LONGEST_TEXT = 10_000
"""Characters kept of one text. The longest a phone can send is 255 parts of 153, but nobody describes a fault in that."""

CLOCK_AHEAD = timedelta(minutes=10)
"""A carrier's time further in the future than this is a wrong clock, and would put the text behind all later ones."""

LONGEST_ID = 200
LONGEST_NUMBER = 40
MOST_MEDIA = 10


@dataclass(frozen=True, slots=True)
class Receipt:
    """What became of a text we sent. key: our own, or reference: the gateway's. arrived: None while on its way."""

    key: str | None
    reference: str | None
    arrived: bool | None


def meant(delivery: Delivery, shape: Shape, only: Mapping[str, tuple[str, ...]]) -> bool:
    """Whether a delivery is of the kind that *only* describes; other kinds are answered and left."""
    return all(delivery.value(source, shape) in allowed for source, allowed in only.items())


def inbound_of(delivery: Delivery, receive: Receive, *, shop: str, gateway: str, number: str, now: datetime) -> Inbound:
    """
    The text of *delivery*. number: the shop's, where the gateway does not say whom it was sent to.

    Raises Malformed when sender, id or time cannot be read, or the text field is missing. An empty text is a text: a
    picture may have come alone.
    """
    shape = receive.body
    sender = one_spelling(_needed(delivery, receive.sender, shape, "sender"), receive.region)
    text = delivery.text(receive.text, shape, receive.charset)
    media = tuple(m for source in receive.media for m in delivery.values(source, shape) if m)[:MOST_MEDIA]
    if text is None and not media:
        raise Malformed(f"the text is missing at {receive.text}")
    recipient = delivery.value(receive.recipient, shape) if receive.recipient else None
    written = (delivery.value(receive.time.at, shape) or "").strip() if receive.time else ""
    at = time_of(written, receive.time.written, receive.time.zone) if receive.time else None
    if at is not None and at - now > CLOCK_AHEAD:
        at = None
    parts = {
        "sender": sender,
        "recipient": one_spelling(recipient, receive.region) if recipient else number,
        "text": cleaned(text or "")[:LONGEST_TEXT],
        "time": at.isoformat() if at else written,
        "media": " ".join(media),
    }
    if len(sender) > LONGEST_NUMBER:
        raise Malformed("the sender is longer than any number")
    if isinstance(receive.id, Composed):
        identity = _composed(receive.id, parts, [_needed(delivery, at, shape, "id") for at in receive.id.also], now)
    else:
        identity = _id(delivery, receive.id, shape)
    return Inbound(
        shop=shop, gateway=gateway, sender=sender, recipient=parts["recipient"], text=parts["text"], media=media,
        carrier_id=identity, carrier_at=at,
    )  # fmt: skip


def receipt_of(delivery: Delivery, receipts: Receipts) -> Receipt:
    """What *delivery* reports. Raises Malformed when it names no text or no state."""
    shape = receipts.body
    key = delivery.value(receipts.key, shape) if receipts.key else None
    reference = delivery.value(receipts.reference, shape) if receipts.reference else None
    if not key and not reference:
        raise Malformed("the receipt does not say which text it is about")
    state = _needed(delivery, receipts.state, shape, "state")
    arrived = True if state in receipts.delivered else False if state in receipts.failed else None
    return Receipt(cleaned(key) if key else None, cleaned(reference) if reference else None, arrived)


def _needed(delivery: Delivery, source: str, shape: Shape, what: str) -> str:
    found = cleaned(delivery.value(source, shape) or "").strip()
    if not found:
        raise Malformed(f"the {what} is missing at {source}")
    return found


def _id(delivery: Delivery, source: str, shape: Shape) -> str:
    identity = _needed(delivery, source, shape, "id")
    if len(identity) <= LONGEST_ID:
        return identity
    return "long-" + hashlib.sha256(identity.encode()).hexdigest()


def _composed(rule: Composed, parts: Mapping[str, str], also: Sequence[str], now: datetime) -> str:
    told = "\x1f".join([*(parts[name] for name in rule.of), *also])
    if rule.repeat_within_s:
        told += f"\x1f{int(now.timestamp()) // rule.repeat_within_s}"
    return "made-" + hashlib.sha256(told.encode()).hexdigest()
