"""What the desk's pages read, each in one consistent view of the database."""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy import Connection

from service.pages.answer import Lost
from service.pages.desk.list import ListRows
from service.pages.desk.ticket import TicketRows
from service.storage import alarms, audit, comebacks, desk, outbox, unsent, visits_view
from service.storage.desk import TalkRow, TicketRow

QUIET_AFTER = timedelta(days=2)
"""A conversation without a ticket leaves the list this long after the last text, unless something of it waits."""


def list_rows(connection: Connection, shop: str, now: datetime, *, search: str, shown: str) -> ListRows:
    """The list's rows: open tickets, closed ones or all that *search* finds."""
    closed = {"open": False, "closed": True}.get(shown)
    found = desk.list_tickets(connection, shop, closed=closed, search=search)
    talks = desk.talks_without_ticket(connection, shop, now - QUIET_AFTER, search=search)
    threads = {row.thread for row in found} | {talk.id for talk in talks}
    return ListRows(
        tickets=found,
        talks=talks,
        visits=visits_view.standing_visits(connection, shop),
        waiting=desk.replies_waiting(connection, shop),
        alarms=alarms.open_alarms(connection, shop),
        last=desk.last_heard(connection, shop, sorted(threads)),
        marker=desk.change_marker(connection, shop),
    )


def ticket_rows(connection: Connection, shop: str, number: int, login: str) -> TicketRows:
    """Everything of a ticket, as *login* sees it. Raises Lost."""
    ticket = desk.ticket_by_number(connection, shop, number)
    thread = desk.talk(connection, shop, ticket.thread) if ticket else None
    if ticket is None or thread is None:
        raise Lost(f"There is no ticket #{number} in this shop.")
    return _rows(connection, shop, thread, ticket, login)


def thread_rows(connection: Connection, shop: str, identity: str, login: str) -> TicketRows:
    """Everything of a conversation, whatever tickets it has, as *login* sees it. Raises Lost."""
    thread = desk.talk(connection, shop, identity)
    if thread is None:
        raise Lost("There is no such conversation in this shop.")
    return _rows(connection, shop, thread, None, login)


def _rows(connection: Connection, shop: str, thread: TalkRow, ticket: TicketRow | None, login: str) -> TicketRows:
    own = [ticket.id] if ticket else []
    subject = f"ticket:{ticket.number}" if ticket else f"thread:{thread.id}"
    return TicketRows(
        ticket=ticket,
        thread=thread,
        heard=desk.heard(connection, shop, thread.id),
        replies=outbox.of_thread(connection, shop, thread.id),
        turns=desk.turns_of(connection, shop, thread.id),
        turn_of=desk.turn_of_replies(connection, shop, thread.id),
        alarms=tuple(alarm for alarm in alarms.open_alarms(connection, shop) if alarm.thread == thread.id),
        siblings=desk.tickets_of_thread(connection, shop, thread.id),
        visits=visits_view.visits_of_tickets(connection, shop, own),
        outcomes=visits_view.outcomes_of_tickets(connection, shop, own),
        earlier=comebacks.possible(connection, shop, ticket) if ticket else (),
        later=comebacks.confirmed_later(connection, shop, ticket.number) if ticket else (),
        trail=audit.of_subject(connection, shop, subject, limit=30),
        typed=unsent.typed_by(connection, shop, thread.id, login),
        marker=desk.change_marker(connection, shop, thread.id),
    )
