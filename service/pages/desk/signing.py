"""Signing in and out: the page, the wait after wrong tries, the cookie."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access import sessions
from service.access.guard import Acting, Form, Guard, cookie_for, posted
from service.access.passwords import Passwords
from service.access.signing_in import Wait, Welcome, Wrong, sign_in
from service.edge.deps import Deps
from service.pages.answer import PageRoute, go, show
from service.pages.served import served_shops
from service.storage.engine import writing


@dataclass(frozen=True, slots=True)
class SignInPage:
    """The sign-in. shops: to choose from, none when there is but one. error: stands beside the password."""

    login: str
    shop: str
    shops: tuple[str, ...]
    next: str
    error: str


def signing_router(deps: Deps, guard: Guard, passwords: Passwords) -> APIRouter:
    """``/sign-in`` and ``/sign-out``."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    anybody = Depends(guard.acting("see_days"))

    @router.get("/sign-in")
    def page(request: Request, next: str = "") -> Response:
        session = guard.who(request)
        if session is not None:
            return go(_home(session))
        return show("desk/templates/sign_in.html", _page(deps, next=_own(next)))

    @router.post("/sign-in")
    async def enter(request: Request, form: Annotated[Form, Depends(posted)]) -> Response:
        return await run_in_threadpool(_enter, deps, guard, passwords, request, form)

    @router.post("/sign-out")
    async def leave(request: Request, acting: Acting = anybody) -> Response:
        def end() -> None:
            with writing(deps.engine) as connection:
                sessions.end(connection, acting.session, deps.clock())

        await run_in_threadpool(end)
        answer = go("/sign-in")
        answer.headers.append("set-cookie", cookie_for(request, "", plain_http=guard.plain_http))
        return answer

    return router


def _enter(deps: Deps, guard: Guard, passwords: Passwords, request: Request, form: Form) -> Response:
    login, next_path = form.text("login", 64), _own(form.text("next", 200))
    shops = served_shops(deps)
    chosen = form.text("shop", 64)
    shop = chosen if chosen in shops else shops[0] if len(shops) == 1 else ""
    cookie_for(request, "x", plain_http=guard.plain_http)  # refuses before a password is looked at
    raw = form.fields.get("password")
    password = raw if isinstance(raw, str) else ""
    result = sign_in(deps.engine, passwords, shop=shop, login=login, password=password, now=deps.clock())
    if isinstance(result, Welcome):
        answer = go(next_path or "/sign-in")
        answer.headers.append("set-cookie", cookie_for(request, result.secret, plain_http=guard.plain_http))
        return answer
    status = 401 if isinstance(result, Wrong) else 429
    page = _page(deps, login=login, shop=shop, next=next_path, error=_words(result))
    return show("desk/templates/sign_in.html", page, status=status)


def _words(result: Wrong | Wait) -> str:
    if isinstance(result, Wrong):
        return "Login or password is not right."
    if result.seconds is None:
        return "This login is shut after too many wrong tries. Ask whoever runs the server for a new password."
    wait = f"{result.seconds} seconds" if result.seconds < 120 else f"{result.seconds // 60} minutes"
    return f"Too many wrong tries. Try again in {wait}."


def _page(deps: Deps, *, login: str = "", shop: str = "", next: str = "", error: str = "") -> SignInPage:
    shops = served_shops(deps)
    return SignInPage(login, shop, shops if len(shops) > 1 else (), next, error)


def _own(path: str) -> str:
    """*path* if it is a page of the desk, else nothing: the sign-in must not send anybody elsewhere."""
    return path if path.startswith("/desk") and "//" not in path and "\\" not in path else ""


def _home(session: sessions.SignedIn) -> str:
    return "/desk" if session.may("read_desk") else "/desk/day"
