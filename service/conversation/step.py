"""What a turn decides: new state, replies, diary changes, wakes, alarms, and the reasons, all as data."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from service.conversation.state import State

ReplyKind = Literal["danger", "consent", "answer", "started"]
"""danger and consent always go; ``answer`` answers a text; ``started`` is begun by us and waits for quiet hours."""


class Decided(BaseModel):
    """A frozen piece of a step."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Reply(Decided):
    """
    One text to the customer. wording: ids of the sentences it was made of. needs_visit: (id, version) it depends on. by: the
    login of the person who had it sent; None for the line's own.
    """

    kind: ReplyKind
    text: str
    wording: tuple[str, ...] = ()
    ticket: str | None = None
    not_after: datetime | None = None
    needs_visit: tuple[str, int] | None = None
    by: str | None = None


class Book(Decided):
    """Put a visit in the diary. The id is the turn's own (thread id, ticket key and a count), so a retake books the same."""

    type: Literal["book"] = "book"
    visit: str
    tickets: tuple[str, ...]
    technician: str
    start: datetime
    end: datetime
    minutes: int
    address: str
    postal_code: str
    tentative: bool = Field(default=False, description="the office must confirm it (autonomy: hold)")


class Move(Decided):
    """Give a visit another window."""

    type: Literal["move"] = "move"
    visit: str
    technician: str
    start: datetime
    end: datetime


class CancelVisit(Decided):
    """Take a visit out of the diary."""

    type: Literal["cancel"] = "cancel"
    visit: str
    why: str


DiaryChange = Annotated[Book | Move | CancelVisit, Field(discriminator="type")]


class SetWake(Decided):
    """Wake this thread at *due*. key is unique within the thread: setting it again moves it."""

    kind: str
    key: str
    due: datetime
    ticket: str | None = None
    version: int | None = None


class Alarm(Decided):
    """Tell people: the office's desk always; ``on_call`` phones after hours when it is a danger. text: English."""

    kind: Literal["danger", "person", "undelivered", "trouble"]
    ticket: str | None = None
    text: str
    on_call: bool = False


class Reason(Decided):
    """
    Why the line did something, for the desk. what: heard, believed, asked, offered, told, booked, ruled_out, held. words:
    one English sentence. rule: the rule, question, check or cause id. data: figures behind it (shares, values, spans).
    """

    what: str
    words: str
    rule: str | None = None
    data: dict[str, object] = {}


class Step(Decided):
    """Everything one turn decided. clear_wakes: wake keys (or prefixes ending in ``*``) that no longer apply."""

    state: State
    replies: tuple[Reply, ...] = ()
    diary: tuple[DiaryChange, ...] = ()
    wakes: tuple[SetWake, ...] = ()
    clear_wakes: tuple[str, ...] = ()
    alarms: tuple[Alarm, ...] = ()
    reasons: tuple[Reason, ...] = ()
