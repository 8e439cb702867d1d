"""A customer's picture at the desk: fetched when somebody looks, by the service and never by the browser."""

from __future__ import annotations

from fastapi import APIRouter, Depends, Response
from starlette.concurrency import run_in_threadpool

from service.access.guard import Guard
from service.access.sessions import SignedIn
from service.edge.deps import Deps
from service.edge.media import NotFetched, fetch
from service.pages.answer import HEADERS, Lost, PageRoute, notice
from service.storage.engine import reading
from service.storage.messages import media_of


def pictures_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/pictures/{message}/{place}``; place counts from 1."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    office = Depends(guard.page("read_desk"))

    @router.get("/desk/pictures/{message}/{place}")
    async def picture(message: str, place: int, session: SignedIn = office) -> Response:
        return await run_in_threadpool(_picture, deps, session.shop, message, place)

    return router


def _picture(deps: Deps, shop: str, message: str, place: int) -> Response:
    with reading(deps.engine) as connection:
        links = media_of(connection, shop, message)
    if not 1 <= place <= len(links):
        raise Lost("There is no such picture in this shop.")
    try:
        found = fetch(links[place - 1])
    except NotFetched as why:
        return notice(502, "No picture", f"The picture could not be had: {why}. Ask for it again by text.")
    headers = {**HEADERS, "Content-Security-Policy": "default-src 'none'; sandbox"}
    return Response(found.content, media_type=found.kind, headers=headers)
