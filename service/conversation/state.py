"""The thread's state: one bounded JSON document. What was heard and asked, never belief or transcript."""

from __future__ import annotations

from datetime import datetime, time
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

SHAPE = 1
"""The shape number of this document; a change of shape adds a pure upgrader and a golden file."""

Stage = Literal[
    "listening", "narrowing", "trying", "arranging", "arranged", "visited", "deciding", "parts", "closed"
]  # fmt: skip
ClosedReason = Literal[
    "settled_by_owner", "repaired", "declined", "not_worth_repair", "no_part", "no_access", "left_unsafe", "referred",
    "out_of_area", "not_ours", "withdrawn", "gone_quiet",
]  # fmt: skip


class Part(BaseModel):
    """A frozen piece of the state; unknown fields are refused so that a wrong shape is noticed."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Asked(Part):
    """The open question, as it was sent: what, about what, the choices or offers, when, by which edition, how often."""

    kind: str
    ticket: str | None = None
    code: str | None = None
    choices: tuple[tuple[str, str], ...] = ()
    at: datetime
    edition: str
    tries: int = 1


class Offered(Part):
    """A window that was offered; offers hold nothing and expire."""

    technician: str
    start: datetime
    end: datetime
    minutes: int
    say: str


class Wished(Part):
    """When they would like us, kept until offers are made: ``reading.model.Wish`` with stated days made calendar dates."""

    days_in: tuple[str, ...] = ()
    days_out: tuple[str, ...] = ()
    dates: tuple[tuple[int, int], ...] = ()
    week: Literal["this", "next"] | None = None
    start: time | None = None
    end: time | None = None
    part: Literal["morning", "afternoon", "evening"] | None = None
    soonest: bool = False
    words: str = ""
    point: bool = False
    dates_out: tuple[tuple[int, int], ...] = ()
    also: tuple[tuple[time | None, time | None], ...] = ()
    apart: tuple[Wished, ...] = ()


class VisitHeld(Part):
    """
    The visit that stands for a ticket. id is the storage's visit id; version rises with each move.

    tentative: the office has not confirmed it yet.
    """

    id: str
    technician: str
    start: datetime
    end: datetime
    minutes: int
    version: int = 0
    tentative: bool = False


class TicketState(Part):
    """
    One complaint about one machine.

    key: local to the thread (``t1``, ``t2``...). symptoms: code to said or denied. one_of: groups of which one is true.
    observations, checks, facts: as ``diagnosis.model.Evidence``. check_chances: how likely each was to settle it when it was
    offered. asked: ids already asked. words: the customer's own sentences that matter, oldest first, at most eight, 300
    characters each. questions_cap: no question beyond this many ("just send someone"). ready: nothing more to ask, a
    visit can be arranged. told: ids of what was said once and is not said again. photos: pictures that came with the
    texts.
    """

    key: str
    appliance: str
    stage: Stage = "listening"
    closed: ClosedReason | None = None
    opened_at: datetime
    symptoms: dict[str, bool] = {}
    one_of: tuple[tuple[str, ...], ...] = ()
    observations: dict[str, str] = {}
    hedged: tuple[str, ...] = ()
    checks: dict[str, Literal["offered", "fixed", "not_fixed", "declined", "unable"]] = {}
    check_chances: dict[str, float] = {}
    facts: dict[str, str | float | tuple[str, ...]] = {}
    theories: tuple[str, ...] = ()
    theory_words: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    hazards_cleared: bool = False
    urgency: tuple[str, ...] = ()
    stop_use: str | None = None
    asked: tuple[str, ...] = ()
    declined: tuple[str, ...] = ()
    questions: int = 0
    just_send: bool = False
    level: Literal["now", "today", "soon", "routine"] = "routine"
    level_why: tuple[str, ...] = ()
    needs_person: str | None = None
    offers: tuple[Offered, ...] = ()
    wish: Wished | None = None
    visit: VisitHeld | None = None
    words: tuple[str, ...] = ()
    earlier: str | None = Field(default=None, description="ticket key or number this comes back from")
    cause_found: str | None = None
    questions_cap: int | None = None
    ready: bool = False
    told: tuple[str, ...] = ()
    photos: int = 0

    @property
    def open(self) -> bool:
        """Whether the complaint still stands."""
        return self.stage != "closed"

    @property
    def unsafe(self) -> bool:
        """Whether a danger is held that no person has cleared, or a fault that must not be run: owner checks are off."""
        return self.stop_use is not None or (bool(self.hazards) and not self.hazards_cleared)


class Contact(Part):
    """Who writes and where the machine stands. Told back only within a year of the number's last text."""

    name: str | None = None
    address: str | None = None
    postal_code: str | None = None
    phone: str | None = None
    email: str | None = None
    payer: str | None = None
    access: tuple[str, ...] = ()


class DangerHeld(Part):
    """
    A danger that was told to them and is not cleared by a person yet.

    at: when it was last told. answered: they wrote after it. asked_after: the one question that follows was sent.
    handed_over: the desk has their answer, and they were told that a person takes it from here. reminded: how often the
    core of the instruction was said again. safe: they said that it is done (out and called, off). checked: whoever may
    say so has found it safe, by their words.
    """

    codes: tuple[str, ...]
    at: datetime
    ticket: str
    asked_after: bool = False
    answered: bool = False
    handed_over: bool = False
    reminded: int = 0
    safe: bool = False
    checked: bool = False


class State(Part):
    """
    One thread, whole. language: of the last clear text. introduced: who-we-are was sent. focus: ticket key in focus.
    consent: ``in`` or ``out`` (opted out). misread: texts in a row nothing could be made of. person_asked: the customer
    asked for a person. last_reply, repeats: what was sent last, and how often in a row. last_heard, heard_again: the same
    of what they wrote: two machines that answer each other repeat themselves. nudged: the open question was asked again
    after silence. abused: how often they wrote abuse since they last told anything.
    """

    shape: int = SHAPE
    language: Literal["en", "es"] = "en"
    introduced: bool = False
    consent: Literal["in", "out"] = "in"
    tickets: tuple[TicketState, ...] = ()
    focus: str | None = None
    next_ticket: int = 1
    contact: Contact = Contact()
    asked: Asked | None = None
    danger: DangerHeld | None = None
    misread: int = 0
    person_asked: bool = False
    last_in: datetime | None = None
    last_reply: str | None = None
    repeats: int = 0
    last_heard: str | None = None
    heard_again: int = 0
    nudged: bool = False
    abused: int = 0

    def ticket(self, key: str | None) -> TicketState | None:
        """The ticket with *key*, or None."""
        return next((t for t in self.tickets if t.key == key), None)

    @property
    def in_focus(self) -> TicketState | None:
        """The ticket in focus, or None."""
        return self.ticket(self.focus)
