"""Tells an open page that something it shows has changed; the page then fetches its part anew."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator

from fastapi import Request
from fastapi.sse import format_sse_event
from starlette.concurrency import run_in_threadpool
from starlette.responses import StreamingResponse

from service.access.guard import Guard
from service.edge.deps import Deps
from service.pages.answer import HEADERS
from service.storage.desk import change_marker
from service.storage.engine import reading

LOOK_EVERY_S = 0.7
KEEP_ALIVE_EVERY = 20  # looks
LONGEST_LOOKS = 400  # then the browser asks again, so that no stream outlives a restart or a proxy's patience


def changes(
    deps: Deps, request: Request, shop: str, thread: str | None = None, *, guard: Guard | None = None
) -> StreamingResponse:
    """
    A stream of ``changed`` events for *shop*, or for one thread of it.

    guard: the stream ends with the session of who asks; None for the simulated phone, where nobody signs in.
    """
    headers = {**HEADERS, "X-Accel-Buffering": "no"}
    watch = _watch(deps, guard, request, shop, thread)
    return StreamingResponse(watch, media_type="text/event-stream", headers=headers)


async def _watch(
    deps: Deps, guard: Guard | None, request: Request, shop: str, thread: str | None
) -> AsyncIterator[bytes]:
    def look() -> str | None:
        if guard is not None and guard.who(request) is None:
            return None
        with reading(deps.engine) as connection:
            return change_marker(connection, shop, thread)

    known = request.headers.get("last-event-id") or request.query_params.get("seen") or await run_in_threadpool(look)
    yield format_sse_event(comment="open", retry=2000)
    for count in range(LONGEST_LOOKS):
        marker = await run_in_threadpool(look)
        if marker != known:
            known = marker
            yield format_sse_event(event="changed", data_str="changed", id=marker or "ended")
        elif count % KEEP_ALIVE_EVERY == 0:
            yield format_sse_event(comment="here")
        if marker is None:
            return  # the part that the page fetches now leads to the sign-in
        await asyncio.sleep(LOOK_EVERY_S)
