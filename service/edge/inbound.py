"""One text as a carrier handed it over, after a gateway's own shape has been taken off it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Inbound:
    """
    A received text, the same whichever gateway brought it.

    ``sender`` and ``recipient`` are E.164 where that could be made of them, else as received (short codes and named
    senders are no phone numbers). ``carrier_id`` is never empty: a profile without ids composes one. ``carrier_at`` is
    aware, or None when the gateway says no time. ``media`` holds links, in the gateway's order.
    """

    shop: str
    gateway: str
    sender: str
    recipient: str
    text: str
    media: tuple[str, ...] = ()
    carrier_id: str = ""
    carrier_at: datetime | None = None

    def __post_init__(self) -> None:
        if not self.carrier_id:
            raise ValueError("an inbound text needs a carrier id: without one a repeat cannot be told from a new text")
