"""From a page's values to the answer: templates, security headers, and what somebody sees who may not or is lost."""

from __future__ import annotations

from collections.abc import Callable, Coroutine
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote, urlsplit

from fastapi import Request, Response
from fastapi.routing import APIRoute
from fastapi.sse import format_sse_event
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.responses import HTMLResponse, RedirectResponse

from service.access.guard import NotSignedIn, Refused

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

PAGES = Path(__file__).parent

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; manifest-src 'self'; "
    "worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
"""Nothing from elsewhere, nothing inline: words of customers are on these pages."""

HEADERS = {
    "Content-Security-Policy": POLICY,
    "Cache-Control": "no-store",
    "Referrer-Policy": "same-origin",  # a signed link must not leave in a Referer
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=()",
}

templates = Environment(
    loader=FileSystemLoader(PAGES), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
)


class Lost(Exception):
    """What was asked for is not there. The message says what, for the person who looked for it."""


@dataclass(frozen=True, slots=True)
class Notice:
    """A page that only says something: what happened, and where to go on. typed: words of theirs to be copied."""

    title: str
    words: str
    href: str
    link: str
    typed: str = ""


def show(
    template: str, page: DataclassInstance, *, status: int = 200, headers: dict[str, str] | None = None
) -> HTMLResponse:
    """*page*, a dataclass, printed by *template* (a path below ``service/pages``). The template sees its fields only."""
    values = {field.name: getattr(page, field.name) for field in fields(page)}
    html = templates.get_template(template).render(values)
    return HTMLResponse(html, status_code=status, headers={**HEADERS, **(headers or {})})


def go(path: str) -> RedirectResponse:
    """After a posted form: see the page at *path*, so that a reload does not post again."""
    return RedirectResponse(path, status_code=303, headers=HEADERS)


def notice(
    status: int, title: str, words: str, href: str = "/desk", link: str = "Go to the desk", *, typed: str = ""
) -> HTMLResponse:
    """A page that only says *words*, and gives back what was *typed*."""
    return show("frame/notice.html", Notice(title, words, href, link, typed), status=status)


class PageRoute(APIRoute):
    """A route whose refusals are pages for people."""

    def get_route_handler(self) -> Callable[[Request], Coroutine[Any, Any, Response]]:
        """The handler, with refusals turned into pages."""
        inner = super().get_route_handler()

        async def handle(request: Request) -> Response:
            try:
                return await inner(request)
            except NotSignedIn:
                return _to_sign_in(request)
            except Refused as refused:
                return notice(403, "Not allowed", str(refused))
            except Lost as lost:
                return notice(404, "Not here", str(lost))

        return handle


def _to_sign_in(request: Request) -> Response:
    if request.headers.get("hx-request"):  # a fragment: the whole page must go to the sign-in
        page = quote(urlsplit(request.headers.get("hx-current-url", "")).path, safe="/")
        return Response(
            status_code=200, headers={**HEADERS, "HX-Redirect": f"/sign-in?next={page}" if page else "/sign-in"}
        )
    # Refused, a stream is not asked for again, and the page would stand there for ever.
    if "text/event-stream" in request.headers.get("accept", ""):
        ended = format_sse_event(event="changed", data_str="changed", id="ended")
        return Response(ended, media_type="text/event-stream", headers=HEADERS)
    if request.method != "GET":
        return notice(
            403, "Signed out", "You were signed out, so nothing was done. Sign in and try again.", "/sign-in", "Sign in"
        )
    return go("/sign-in?next=" + quote(request.url.path, safe="/"))
