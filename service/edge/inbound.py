"""One text as a carrier handed it over, after a gateway's own shape has been taken off it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class PartOf:
    """
    Which piece of a long text this is. reference: the same for all its pieces. number: from 0 or 1. of: how many.

    wait_s: so long after it the others are waited for, seconds.
    """

    reference: str
    number: int
    of: int
    wait_s: int


@dataclass(frozen=True, slots=True)
class Inbound:
    """
    A received text, the same whichever gateway brought it.

    ``sender`` and ``recipient`` are E.164 where that could be made of them, else as received (short codes and named
    senders are no phone numbers). ``carrier_id`` is never empty: a profile without ids composes one. ``carrier_at`` is
    aware, or None when the gateway says no time. ``media`` holds links, in the gateway's order. ``part``: the text is a
    piece of a longer one, and ``carrier_id`` ends in its number, for some gateways give all pieces the same id.
    """

    shop: str
    gateway: str
    sender: str
    recipient: str
    text: str
    media: tuple[str, ...] = ()
    carrier_id: str = ""
    carrier_at: datetime | None = None
    part: PartOf | None = None

    @property
    def id_as_sent(self) -> str:
        """The gateway's own id, or what was composed."""
        return self.carrier_id.removesuffix(numbered("", self.part))

    def __post_init__(self) -> None:
        if not self.carrier_id:
            raise ValueError("an inbound text needs a carrier id: without one a repeat cannot be told from a new text")


def numbered(identity: str, part: PartOf | None) -> str:
    """*identity* with the piece's number behind it."""
    return identity if part is None else f"{identity}/{part.number}"
