"""What the desk shows: the list, a ticket, a conversation, and the streams that keep them fresh."""

from __future__ import annotations

from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Request, Response
from sqlalchemy import Connection

from service.access.guard import Guard
from service.access.sessions import SignedIn
from service.edge.deps import Deps
from service.pages.answer import Lost, PageRoute, go, show
from service.pages.changes import changes
from service.pages.desk import rows
from service.pages.desk.list import build_list
from service.pages.desk.ticket import TicketRows, build_ticket
from service.pages.frame import Frame, frame_for
from service.pages.links import sheet_links
from service.storage import desk, shops
from service.storage.engine import new_id, reading

SHOWN = ("open", "closed", "all")


def views_router(deps: Deps, guard: Guard) -> APIRouter:
    """The pages of the desk that change nothing."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    reader = Depends(guard.page("read_desk"))
    watcher = Depends(guard.watching("read_desk"))

    @router.get("/")
    def home() -> Response:
        return go("/desk")

    @router.get("/desk")
    def tickets(session: SignedIn = reader, q: str = "", show: str = "open") -> Response:
        return _list(deps, session, q[:120], show if show in SHOWN else "open")

    @router.get("/desk/changes")
    def shop_changes(request: Request, session: SignedIn = watcher) -> Response:
        return changes(deps, request, session.shop, guard=guard)

    @router.get("/desk/tickets/{number}")
    def ticket(number: int, session: SignedIn = reader) -> Response:
        with reading(deps.engine) as connection:
            found = rows.ticket_rows(connection, session.shop, number, session.user.login)
            frame = frame_of(deps, connection, session, title=f"#{number}")
        return _ticket(deps, session, found, frame)

    @router.get("/desk/tickets/{number}/changes")
    def ticket_changes(request: Request, number: int, session: SignedIn = watcher) -> Response:
        with reading(deps.engine) as connection:
            row = desk.ticket_by_number(connection, session.shop, number)
        if row is None:
            raise Lost(f"There is no ticket #{number} in this shop.")
        return changes(deps, request, session.shop, row.thread, guard=guard)

    @router.get("/desk/threads/{thread}")
    def thread(thread: str, session: SignedIn = reader) -> Response:
        with reading(deps.engine) as connection:
            found = rows.thread_rows(connection, session.shop, thread, session.user.login)
            frame = frame_of(deps, connection, session, title="Conversation")
        return _ticket(deps, session, found, frame)

    @router.get("/desk/threads/{thread}/changes")
    def thread_changes(request: Request, thread: str, session: SignedIn = watcher) -> Response:
        return changes(deps, request, session.shop, thread, guard=guard)

    return router


def frame_of(deps: Deps, connection: Connection, session: SignedIn, *, title: str, here: str = "") -> Frame:
    """The frame of a page of *session*'s shop."""
    row = shops.shop_row(connection, session.shop)
    name = deps.rulebook_of(session.shop).shop.name
    return frame_for(session, title=title, shop=name, here=here, paused=row is not None and row.paused)


def frame_for_page(deps: Deps, session: SignedIn, *, title: str, here: str = "") -> Frame:
    """The same, for a page that reads nothing else."""
    with reading(deps.engine) as connection:
        return frame_of(deps, connection, session, title=title, here=here)


def _list(deps: Deps, session: SignedIn, search: str, shown: str) -> Response:
    now = deps.clock()
    with reading(deps.engine) as connection:
        found = rows.list_rows(connection, session.shop, now, search=search, shown=shown)
        frame = frame_of(deps, connection, session, title="Tickets", here="/desk")
    query = urlencode({"q": search, "show": shown})
    page = build_list(found, deps.rulebook_of(session.shop), frame, now, search=search, shown=shown, query=query)
    return show("desk/templates/list.html", page)


def _ticket(deps: Deps, session: SignedIn, found: TicketRows, frame: Frame) -> Response:
    page = build_ticket(
        found,
        deps.rulebook_of(session.shop),
        frame,
        deps.clock(),
        sheets=sheet_links(deps, session.shop, found.visits),
        me=session.user.login,
        can_act=session.may("act_desk"),
        once=new_id(),
    )
    return show("desk/templates/ticket.html", page)
