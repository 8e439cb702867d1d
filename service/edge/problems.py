"""Errors over HTTP as problem documents (RFC 9457, source A9): what is wrong, never how we are built."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from http import HTTPStatus
from pathlib import Path
from traceback import walk_tb

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException as StarletteHTTPException
from starlette.responses import JSONResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

log = logging.getLogger("plainfault.web")

MEDIA_TYPE = "application/problem+json"


def problem(status: int, detail: str = "", *, headers: Mapping[str, str] | None = None, **more: object) -> JSONResponse:
    """
    A problem document with that *status*; ``type`` is left out, so the title is the status phrase (RFC 9457, 4.2.1).

    *detail*: one sentence for whoever runs the other side; it must not hold what a customer wrote. *more*: further
    members.
    """
    try:
        title = HTTPStatus(status).phrase
    except ValueError:
        title = "Error"
    document: dict[str, object] = {"title": title, "status": status}
    if detail:
        document["detail"] = detail
    return JSONResponse(document | more, status_code=status, media_type=MEDIA_TYPE, headers=dict(headers or {}))


def install_problem_documents(app: FastAPI) -> None:
    """
    Every HTTP error of *app* becomes a problem document, whatever raised it; redirects raised as errors stay redirects.

    An error nobody expected is answered 500 and logged by its place in the code alone, never by its words.
    """
    app.add_exception_handler(StarletteHTTPException, _http_error)
    app.add_exception_handler(RequestValidationError, _not_valid)
    app.add_middleware(_Unexpected)


async def _http_error(_request: Request, wrong: Exception) -> Response:
    if not isinstance(wrong, StarletteHTTPException):
        return problem(500)
    if wrong.status_code < 400:
        return Response(status_code=wrong.status_code, headers=wrong.headers)
    said = wrong.detail if isinstance(wrong.detail, str) else ""
    try:
        phrase = HTTPStatus(wrong.status_code).phrase
    except ValueError:
        phrase = ""
    return problem(wrong.status_code, "" if said == phrase else said, headers=wrong.headers)


async def _not_valid(_request: Request, wrong: Exception) -> Response:
    errors = wrong.errors() if isinstance(wrong, RequestValidationError) else ()
    # The values themselves are left out: they are what somebody typed.
    fields = [{"where": ".".join(str(part) for part in one["loc"]), "what": one["msg"]} for one in errors]
    return problem(422, "Some of what was sent cannot be used.", errors=fields)


class _Unexpected:
    """Answers what nothing else did; the web server would log its words, which may be a customer's."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        begun = False

        async def noting(message: Message) -> None:
            nonlocal begun
            begun = begun or message["type"] == "http.response.start"
            await send(message)

        try:
            await self._app(scope, receive, noting)
        except Exception as wrong:
            log.error("a request failed", extra={"why": type(wrong).__name__, "where": whereabouts(wrong)})
            if scope["type"] == "http" and not begun:
                await problem(500)(scope, receive, send)


def whereabouts(wrong: BaseException) -> str:
    """
    Where in the code *wrong* was raised, innermost first, for a log.

    Never its message: that may quote what a customer wrote, or the parameters of a statement.
    """
    frames = [(frame.f_code.co_filename, line, frame.f_code.co_name) for frame, line in walk_tb(wrong.__traceback__)]
    return " < ".join(f"{Path(file).name}:{line} {name}" for file, line, name in reversed(frames[-6:]))
