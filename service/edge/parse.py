"""A gateway's delivery into one ``Inbound`` or one ``Receipt``, as its profile says."""

from __future__ import annotations

import hashlib
import logging
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from service.edge.bodies import Malformed
from service.edge.codings import cleaned
from service.edge.delivery import Delivery
from service.edge.inbound import Inbound, PartOf, numbered
from service.edge.numbers import one_spelling
from service.edge.places import Shape, place_of
from service.edge.profile_receive import Composed, Parts, Receipts, Receive
from service.edge.times import time_of

log = logging.getLogger("plainfault.webhook")

LONGEST_TEXT = 10_000
"""Characters kept of one text. The longest a phone can send is 255 parts of 153, but nobody describes a fault in that."""

CLOCK_AHEAD = timedelta(minutes=10)
"""A carrier's time further in the future than this is a wrong clock, and would put the text behind all later ones."""

LONGEST_ID = 200
MOST_PARTS = 255
"""Of one text: the number of parts is a byte (3GPP TS 23.040, 9.2.3.24.1)."""
LONGEST_NUMBER = 40
MOST_MEDIA = 10


@dataclass(frozen=True, slots=True)
class Receipt:
    """What became of a text we sent. key: our own, or reference: the gateway's. arrived: None while on its way."""

    key: str | None
    reference: str | None
    arrived: bool | None


def meant(delivery: Delivery, shape: Shape, only: Mapping[str, tuple[str, ...]]) -> bool:
    """Whether something in a delivery is of the kind that *only* describes; other kinds are answered and left."""
    return all(not allowed.isdisjoint(values) for allowed, values in _said(delivery, shape, only))


def meant_alone(delivery: Delivery, shape: Shape, only: Mapping[str, tuple[str, ...]]) -> bool:
    """As ``meant``, and nothing else is in it: a place that crosses a list may find several kinds."""
    return all(values and allowed.issuperset(values) for allowed, values in _said(delivery, shape, only))


def _said(
    delivery: Delivery, shape: Shape, only: Mapping[str, tuple[str, ...]]
) -> Iterator[tuple[frozenset[str], tuple[str, ...]]]:
    return ((frozenset(allowed), delivery.values(source, shape)) for source, allowed in only.items())


def inbound_of(delivery: Delivery, receive: Receive, *, shop: str, gateway: str, number: str, now: datetime) -> Inbound:
    """
    The text of *delivery*. number: the shop's, where the gateway does not say whom it was sent to.

    Raises Malformed when sender or id cannot be read, or the text field is missing. An empty text is a text: a
    picture may have come alone.
    """
    shape = receive.body
    sender = one_spelling(_needed(delivery, receive.sender, shape, "sender"), receive.region)
    if len(sender) > LONGEST_NUMBER:
        raise Malformed("the sender is longer than any number")
    text = delivery.text(receive.text, shape, receive.charset)
    media = tuple(m for source in receive.media for m in delivery.values(source, shape) if m)[:MOST_MEDIA]
    if text is None and not media:
        raise Malformed(f"the text is missing at {receive.text}")
    told = _Told({"shop": shop, "gateway": gateway})
    recipient = delivery.value(receive.recipient, shape) if receive.recipient else None
    written = (delivery.value(receive.time.at, shape) or "").strip() if receive.time else ""
    at = time_of(written, receive.time.written, receive.time.zone) if receive.time else None
    if at is not None and at - now > CLOCK_AHEAD:
        at = None
    fields = {
        "sender": sender,
        "recipient": one_spelling(recipient, receive.region) if recipient else number,
        "text": _cut(cleaned(text or ""), told),
        "time": at.isoformat() if at else written,
        "media": " ".join(media),
    }
    part = _part(delivery, receive.parts, shape, told) if receive.parts else None
    if isinstance(receive.id, Composed):
        identity = _composed(delivery, receive.id, shape, fields, now, told)
    else:
        identity = _needed(delivery, receive.id, shape, "id")
    return Inbound(
        shop=shop, gateway=gateway, sender=sender, recipient=fields["recipient"], text=fields["text"], media=media,
        carrier_id=_short(numbered(identity, part)), carrier_at=at, part=part,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Told:
    """Says in the log what was odd about a text that is taken all the same, and never what it says."""

    where: Mapping[str, str]

    def log(self, words: str, **more: object) -> None:
        log.warning(words, extra={**self.where, **more})


def _cut(text: str, told: _Told) -> str:
    if len(text) > LONGEST_TEXT:
        told.log("a text is longer than any is kept, and its end was cut off", length=len(text), kept=LONGEST_TEXT)
    return text[:LONGEST_TEXT]


def _part(delivery: Delivery, rule: Parts, shape: Shape, told: _Told) -> PartOf | None:
    """Which piece of a longer text this is; None for a whole one, and for one whose numbers make no sense."""
    values = [cleaned(delivery.value(at, shape) or "").strip() for at in (rule.reference, rule.number, rule.of)]
    reference, number, of = values
    if not any(values) or of in ("0", "1"):
        return None
    counted = all(re.fullmatch(r"[0-9]{1,3}", one) for one in (number, of))
    if reference and counted and int(number) <= int(of) <= MOST_PARTS:
        return PartOf(_short(reference), int(number), int(of), rule.wait_s)
    told.log("the numbers of a part make no sense; it is taken as a text of its own", at=f"{rule.number}, {rule.of}")
    return None


def receipt_of(delivery: Delivery, receipts: Receipts) -> Receipt:
    """What *delivery* reports. Raises Malformed when it names no text or no state."""
    shape = receipts.body
    key = delivery.value(receipts.key, shape) if receipts.key else None
    reference = delivery.value(receipts.reference, shape) if receipts.reference else None
    if not key and not reference:
        raise Malformed("the receipt does not say which text it is about")
    state = _needed(delivery, receipts.state, shape, "state")
    arrived = True if state in receipts.delivered else False if state in receipts.failed else None
    named = cleaned(reference)[:LONGEST_ID] if reference else None  # as it is kept of what we sent
    return Receipt(cleaned(key) if key else None, named, arrived)


def _needed(delivery: Delivery, source: str, shape: Shape, what: str) -> str:
    found = cleaned(delivery.value(source, shape) or "").strip()
    if not found:
        raise Malformed(f"the {what} is missing at {source}")
    return found


def _short(identity: str) -> str:
    """*identity*, or if it is longer than is kept, what stands for it."""
    return identity if len(identity) <= LONGEST_ID else "long-" + hashlib.sha256(identity.encode()).hexdigest()


def _composed(
    delivery: Delivery, rule: Composed, shape: Shape, fields: Mapping[str, str], now: datetime, told: _Told
) -> str:
    """
    The id that *rule* makes of the delivery.

    What is missing must not make two texts one: where nothing else tells them apart, the moment of arrival does, and a
    repeat of that delivery is then taken for a text of its own.
    """
    also = [_one_of(delivery, written, shape) for written in rule.also]
    made_of = [*(fields[name] for name in rule.of), *also]
    timed = "time" in rule.of
    lacks = not fields["time"] if timed else "" in also and not any(also)
    if rule.repeat_within_s:
        made_of.append(str(int(now.timestamp()) // rule.repeat_within_s))
    elif lacks:
        told.log(
            "a part of the id is missing; the moment of arrival stands for it", missing="time" if timed else "also"
        )
        made_of.append(now.isoformat())
    return "made-" + hashlib.sha256("\x1f".join(made_of).encode()).hexdigest()


def _one_of(delivery: Delivery, written: str, shape: Shape) -> str:
    source, may_be_missing = place_of(written)
    if not may_be_missing:
        return _needed(delivery, source, shape, "id")
    return cleaned(delivery.value(source, shape) or "").strip()
