"""
The door of the pages: who is asking, may they, and did the request come from our own page.

Every unsafe request must come from our own origin (``Sec-Fetch-Site``, else ``Origin``) and, where a cookie speaks for
somebody, carry the session's token. Webhooks are signed and do not pass here. Source X7.
"""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from datetime import datetime
from urllib.parse import urlsplit

from fastapi import Request
from sqlalchemy import Engine
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData

from service.access import sessions
from service.access.roles import Permission
from service.access.sessions import SignedIn
from service.storage.engine import reading, writing

COOKIE_SECURE = "__Host-plainfault"
COOKIE_LOCAL = "plainfault"
_LOCAL = frozenset({"127.0.0.1", "localhost", "::1"})
_FORM_BYTES = 200_000


class NotSignedIn(Exception):
    """Nobody is signed in, or no longer."""


class Refused(Exception):
    """Not allowed. The message is for the person: what was refused and what to do."""


@dataclass(frozen=True, slots=True)
class Form:
    """What was posted, as text; a field that is not there is empty. Spaces around are cut, line ends made one kind."""

    fields: FormData

    def text(self, name: str, longest: int = 2_000) -> str:
        """The field's text, at most *longest* characters."""
        value = self.fields.get(name)
        return value.replace("\r\n", "\n").strip()[:longest] if isinstance(value, str) else ""

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the fields that were posted, empty ones too."""
        return tuple(self.fields)

    def all(self, name: str) -> tuple[str, ...]:
        """Every value of a field that may be there many times."""
        return tuple(v.strip() for v in self.fields.getlist(name) if isinstance(v, str) and v.strip())


@dataclass(frozen=True, slots=True)
class Acting:
    """Somebody who may, with what they posted from our own page."""

    session: SignedIn
    form: Form


@dataclass(frozen=True, slots=True)
class SignedOut:
    """
    What was posted from our own page by somebody whose session was over. was: whose it was, if the form proves it; they may
    do nothing before they sign in again. path: where it was posted to.
    """

    was: SignedIn | None
    form: Form
    path: str


@dataclass(frozen=True, slots=True)
class Guard:
    """Makes the dependencies of the routes. plain_http: the shop lets its people sign in without https, as it set."""

    engine: Engine
    clock: Callable[[], datetime]
    plain_http: bool = False

    def page(self, permission: Permission) -> Callable[[Request], SignedIn]:
        """
        A page somebody opened: they are signed in, may see it, and the idle time begins anew.

        What an open page fetches by itself (htmx marks it) must not keep an abandoned session alive.
        """

        def check(request: Request) -> SignedIn:
            return self._session(request, permission, touch="hx-request" not in request.headers)

        return check

    def watching(self, permission: Permission) -> Callable[[Request], SignedIn]:
        """A stream that a page holds open: nobody did anything."""

        def check(request: Request) -> SignedIn:
            return self._session(request, permission, touch=False)

        return check

    def acting(self, permission: Permission) -> Callable[[Request], Awaitable[Acting]]:
        """A posted form: from our own page, with the session's token."""

        async def check(request: Request) -> Acting:
            refuse_foreign(request)
            session = await run_in_threadpool(self._session, request, permission, touch=True)
            form = await read_form(request)
            if not hmac.compare_digest(form.text("csrf").encode(), session.csrf.encode()):
                raise Refused("This form was not made by your own session. Open the page anew and try again.")
            return Acting(session, form)

        return check

    def acting_or_out(self, permission: Permission) -> Callable[[Request], Awaitable[Acting | SignedOut]]:
        """As ``acting``; of one whose session is over, what they posted, so that their words can be kept for them."""
        check = self.acting(permission)

        async def either(request: Request) -> Acting | SignedOut:
            try:
                return await check(request)
            except NotSignedIn:
                form = await read_form(request)
                was = await run_in_threadpool(self._was, request, permission, form)
                return SignedOut(was, form, request.url.path)

        return either

    def _was(self, request: Request, permission: Permission, form: Form) -> SignedIn | None:
        with reading(self.engine) as connection:
            was = sessions.find_over(connection, cookie_of(request))
        if was is None or not was.may(permission):
            return None
        return was if hmac.compare_digest(form.text("csrf").encode(), was.csrf.encode()) else None

    def who(self, request: Request) -> SignedIn | None:
        """Who is signed in, if anybody."""
        with reading(self.engine) as connection:
            return sessions.find(connection, cookie_of(request), self.clock())

    def _session(self, request: Request, permission: Permission, *, touch: bool) -> SignedIn:
        now = self.clock()
        with reading(self.engine) as connection:
            session = sessions.find(connection, cookie_of(request), now)
            stale = session is not None and touch and sessions.needs_touch(connection, session, now)
        if session is None:
            raise NotSignedIn
        if not session.may(permission):
            raise Refused(f"Your login ({session.user.role}) may not open this page. Ask the office.")
        if stale:
            with writing(self.engine) as connection:
                sessions.used(connection, session, now)
        return session


async def posted(request: Request) -> Form:
    """A form that no cookie speaks for (sign-in, a signed link, the simulated phone): from our own page."""
    refuse_foreign(request)
    return await read_form(request)


async def read_form(request: Request) -> Form:
    """The posted fields; too many bytes are refused unread."""
    if int(request.headers.get("content-length") or 0) > _FORM_BYTES:
        raise Refused("That is more than one form can hold. Shorten it and send it again.")
    return Form(await request.form(max_files=0, max_fields=500))


def refuse_foreign(request: Request) -> None:
    """Raise Refused for an unsafe request that another site's page made."""
    site = request.headers.get("sec-fetch-site")
    origin = request.headers.get("origin")
    if site is not None:
        own = site in ("same-origin", "none")
    else:
        own = origin is None or urlsplit(origin).netloc == request.headers.get("host")
    if not own:
        raise Refused("This request came from another site's page, so nothing was done.")


def cookie_of(request: Request) -> str | None:
    """The session's secret from the cookie that fits how the page was reached."""
    return request.cookies.get(COOKIE_SECURE if request.url.scheme == "https" else COOKIE_LOCAL)


def cookie_for(request: Request, secret: str, *, plain_http: bool = False) -> str:
    """
    The ``Set-Cookie`` value. Over https: ``__Host-``, Secure. Plain http is for this very machine, where some browsers refuse a
    Secure cookie; from elsewhere it would show the session to the network: Refused, unless *plain_http* was set.
    """
    flags = "Path=/; HttpOnly; SameSite=Lax"
    age = f"; Max-Age={0 if not secret else int(sessions.REMEMBERED.total_seconds())}"
    if request.url.scheme == "https":
        return f"{COOKIE_SECURE}={secret}; {flags}; Secure{age}"
    if request.url.hostname not in _LOCAL and not plain_http:
        raise Refused("Signing in needs https. Open this page by its https address, or on the machine itself.")
    return f"{COOKIE_LOCAL}={secret}; {flags}{age}"
