"""All that can change a thread: texts, wakes, and what the office, the technician and the carrier do."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field


class Happening(BaseModel):
    """A frozen event; events are kept as JSON with the turn that took them."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Texted(Happening):
    """A text arrived (already masked). media: how many pictures came with it. id: the stored message's id."""

    type: Literal["texted"] = "texted"
    id: str
    text: str
    media: int = 0
    at: datetime


class Woke(Happening):
    """
    A wake is due. kind: silence, quiet_close, offer_expired, reminder, follow_up, danger_check. ticket, version: what it
    was set for; a wake whose ticket or visit has moved on is stale.
    """

    type: Literal["woke"] = "woke"
    kind: str
    ticket: str | None = None
    version: int | None = None
    at: datetime


class OfficeDid(Happening):
    """
    The office changed something. action: book, move, cancel, close, correct, note, hold, release, clear_danger,
    person_done, open (a phoned-in ticket), reopen, comes_back. What each needs stands in ``data``.
    """

    type: Literal["office"] = "office"
    action: Literal[
        "book", "move", "cancel", "close", "correct", "hold", "release", "clear_danger", "person_done", "open",
        "comes_back", "reopen",
    ]  # fmt: skip
    ticket: str | None = None
    data: dict[str, object] = {}
    by: str
    at: datetime


class TechnicianDid(Happening):
    """The technician recorded an outcome: found (cause id or ``something_else``), fixed, returning and why."""

    type: Literal["technician"] = "technician"
    ticket: str
    found: str
    fixed: bool
    returning: bool
    why: str = ""
    by: str
    at: datetime


class DeliveryFailed(Happening):
    """A reply could not be delivered for good. danger: it was a danger instruction."""

    type: Literal["undelivered"] = "undelivered"
    key: str
    danger: bool
    at: datetime


Event = Annotated[Texted | Woke | OfficeDid | TechnicianDid | DeliveryFailed, Field(discriminator="type")]
