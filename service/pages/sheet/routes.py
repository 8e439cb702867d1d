"""The visit sheet at its signed link: read it, print it, record the outcome. Whoever holds the link may."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.guard import Form, posted
from service.edge.deps import Deps
from service.pages.answer import HEADERS, Lost, PageRoute, go, notice, show
from service.pages.calendar import calendar_of
from service.pages.links import open_link, public
from service.pages.sheet.outcome import Outcome, causes_of, early_words, forms_of, read_outcome, record
from service.pages.sheet.page import SheetRows, build_sheet
from service.pages.sheet.rows import sheet_rows
from service.pages.sheet.typed import forget_typed, keep_typed, typed_of
from service.pages.static_files import FOLDER
from service.rulebook.model import Rulebook
from service.storage import visits_view
from service.storage.desk import TicketRow
from service.storage.engine import reading


def sheet_router(deps: Deps) -> APIRouter:
    """``/visit/{token}`` and what belongs to it."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    worker = (FOLDER / "sheet-worker.js").read_text(encoding="utf-8")

    @router.get("/visit/worker.js")
    def offline() -> Response:
        headers = {
            "Cache-Control": "no-cache",
            "X-Content-Type-Options": "nosniff",
            "Content-Security-Policy": "default-src 'self'",
        }
        return Response(worker, media_type="text/javascript; charset=utf-8", headers=headers)

    @router.get("/visit/{token}")
    def sheet(request: Request, token: str, saved: str = "", again: str = "") -> Response:
        return _show(deps, token, saved=bool(saved), typed=typed_of(request) if again else None)

    @router.get("/visit/{token}/calendar.ics")
    def calendar(token: str) -> Response:
        link = open_link(deps, "sheet", token)
        with reading(deps.engine) as connection:
            visit = visits_view.visit_by_id(connection, link.shop, link.subject)
            if visit is None:
                raise Lost("This visit is not in the diary any more. Ask the office.")
            body = calendar_of(deps, connection, link.shop, (visit,))
        headers = {**HEADERS, "Content-Disposition": 'attachment; filename="visit.ics"'}
        return Response(body, media_type="text/calendar; charset=utf-8", headers=headers)

    @router.post("/visit/{token}/outcome")
    async def outcome(token: str, form: Annotated[Form, Depends(posted)]) -> Response:
        return await run_in_threadpool(_outcome, deps, token, form)

    return router


def _show(deps: Deps, token: str, *, saved: bool = False, typed: Form | None = None) -> Response:
    """The sheet. typed: a form that lacked something; it is shown again with what was typed and what is missing."""
    link = open_link(deps, "sheet", token)
    rulebook = deps.rulebook_of(link.shop)
    with reading(deps.engine) as connection:
        rows = sheet_rows(connection, link.shop, link.subject, rulebook)
    now = deps.clock()
    filled = typed.text("ticket", 12) if typed else ""
    row = next((ticket for ticket in rows.tickets if ticket.key == filled), None)
    errors = _read(typed, rows, row, rulebook, now)[1] if typed and row else {}
    forms = forms_of(rows, rulebook, now, filled=filled, form=typed, errors=errors)
    page = build_sheet(rows, rulebook, now, path=f"/visit/{token}", forms=forms, saved=saved)
    return show("sheet/templates/sheet.html", page)


def _read(
    form: Form, rows: SheetRows, row: TicketRow, rulebook: Rulebook, now: datetime
) -> tuple[Outcome | None, dict[str, str]]:
    early = bool(early_words(rows, rulebook, now))
    return read_outcome(form, dict(causes_of(row, rows, rulebook)), early)


def _outcome(deps: Deps, token: str, form: Form) -> Response:
    link = open_link(deps, "sheet", token)
    rulebook = deps.rulebook_of(link.shop)
    with reading(deps.engine) as connection:
        rows = sheet_rows(connection, link.shop, link.subject, rulebook)
    row = next((ticket for ticket in rows.tickets if ticket.key == form.text("ticket", 12)), None)
    if row is None:
        raise Lost("This outcome names no ticket of the visit. Open the sheet again.")
    outcome, _ = _read(form, rows, row, rulebook, deps.clock())
    if outcome is None:
        again = go(f"/visit/{token}?again={row.key}#missing")
        return keep_typed(again, form, f"/visit/{token}", secure=public(deps, "").startswith("https:"))
    if not record(deps, link.shop, rows, row, outcome):
        words = "The outcome could not be taken in. The office sees an alarm; call them so that it is not lost."
        return notice(409, "Not recorded", words, f"/visit/{token}", "Back to the sheet")
    return forget_typed(go(f"/visit/{token}?saved=1#recorded"), f"/visit/{token}")
