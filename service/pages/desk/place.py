"""Which ticket or conversation a posted form is about, and how a page asks the exchange to change it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from fastapi import Response
from sqlalchemy import Connection

from service.access.sessions import SignedIn
from service.conversation.events import OfficeDid
from service.conversation.state import Contact, TicketState
from service.conversation.step import Step
from service.edge import exchange
from service.edge.deps import Deps
from service.pages.answer import Lost, go, notice
from service.rulebook.model import Rulebook
from service.storage import alarms, audit, desk
from service.storage.desk import TalkRow, TicketRow
from service.storage.engine import reading, writing

Action = Literal[
    "book", "move", "cancel", "close", "correct", "hold", "release", "clear_danger", "person_done", "open", "comes_back",
    "reopen",
]  # fmt: skip
Also = Callable[[Connection, Step | None], None]


@dataclass(frozen=True, slots=True)
class Where:
    """A ticket with its thread, or a thread alone. base: the path of its page."""

    deps: Deps
    session: SignedIn
    base: str
    thread: TalkRow
    row: TicketRow | None

    @property
    def subject(self) -> str:
        """As the audit trail names it."""
        return f"ticket:{self.row.number}" if self.row else f"thread:{self.thread.id}"

    @property
    def rulebook(self) -> Rulebook:
        """The shop's rules."""
        return self.deps.rulebook_of(self.session.shop)

    @property
    def ticket(self) -> TicketState:
        """The ticket as the thread's state holds it. Raises Lost for a thread alone."""
        if self.row is None:
            raise Lost("This conversation has no ticket yet.")
        return TicketState.model_validate(self.row.state)

    @property
    def holder(self) -> str | None:
        """Who has a text of the line sent while a person holds the thread: it is their word then. None if nobody holds it."""
        return self.session.user.login if self.thread.held_by else None

    @property
    def danger_stands(self) -> bool:
        """Whether a danger was named on the ticket (or the thread alone) that no person has cleared."""
        if self.row is None:
            return isinstance(self.thread.state.get("danger"), dict)
        return bool(self.ticket.hazards) and not self.ticket.hazards_cleared

    @property
    def contact(self) -> Contact:
        """Who writes on the thread, and where they live."""
        return Contact.model_validate(self.thread.state.get("contact") or {})

    def note(self, connection: Connection, did: str, **detail: object) -> None:
        """Add to the audit trail in the same transaction."""
        audit.record(
            connection, shop=self.session.shop, at=self.deps.clock(), who=self.session.user.login, did=did,
            subject=self.subject, detail=detail,
        )  # fmt: skip

    def act(
        self, action: Action, data: dict[str, object] | None = None, *, also: Also | None = None, **noted: object
    ) -> bool:
        """
        Let the conversation take what the office did, with the audit row and *also* in the same transaction.

        False if the turn failed: nothing was changed and an alarm stands.
        """
        event = OfficeDid(
            action=action, ticket=self.row.key if self.row else None, data=data or {}, by=self.session.user.login,
            at=self.deps.clock(),
        )  # fmt: skip

        def rows(connection: Connection, step: Step | None) -> None:
            if step is not None:
                self.note(connection, action, **noted)
                if also:
                    also(connection, step)

        return exchange.act(self.deps, self.session.shop, self.thread.id, event, also=rows) is not None

    def only_rows(self, did: str, change: Callable[[Connection], bool], **noted: object) -> bool:
        """Change rows that no turn decides on (alarms, the outbox), with the audit row; False if nothing changed."""
        with writing(self.deps.engine) as connection:
            if not change(connection):
                return False
            self.note(connection, did, **noted)
        return True

    def quiet_alarms(self, connection: Connection, *kinds: str) -> None:
        """A person is at it: the thread's alarms of these kinds need no other."""
        for alarm in alarms.open_alarms(connection, self.session.shop):
            if alarm.thread == self.thread.id and alarm.kind in kinds:
                alarms.acknowledge(
                    connection, shop=self.session.shop, identity=alarm.id, by=self.session.user.login,
                    now=self.deps.clock(),
                )  # fmt: skip


def back(where: Where, done: bool, why_not: str = "") -> Response:
    """To the page again, or a page that says why nothing was done."""
    if done:
        return go(where.base)
    words_ = why_not or "The line could not take this in. Nothing was changed, and an alarm is on the desk."
    return notice(409, "Not done", words_, where.base, "Back")


def at_ticket(deps: Deps, session: SignedIn, number: int) -> Where:
    """The ticket with that number. Raises Lost."""
    with reading(deps.engine) as connection:
        row = desk.ticket_by_number(connection, session.shop, number)
        thread = desk.talk(connection, session.shop, row.thread) if row else None
    if row is None or thread is None:
        raise Lost(f"There is no ticket #{number} in this shop.")
    return Where(deps, session, f"/desk/tickets/{number}", thread, row)


def at_thread(deps: Deps, session: SignedIn, identity: str) -> Where:
    """The conversation with that id. Raises Lost."""
    with reading(deps.engine) as connection:
        thread = desk.talk(connection, session.shop, identity)
    if thread is None:
        raise Lost("There is no such conversation in this shop.")
    return Where(deps, session, f"/desk/threads/{identity}", thread, None)
