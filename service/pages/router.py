"""All pages under one router, for the application to include."""

from __future__ import annotations

from fastapi import APIRouter

from service.access.guard import Guard
from service.access.passwords import Passwords
from service.edge.deps import Deps
from service.pages.desk.routes import desk_router
from service.pages.desk.signing import signing_router
from service.pages.files import files_router


def routes(deps: Deps, passwords: Passwords | None = None) -> APIRouter:
    """Every page. passwords: how they are hashed; tests hand in cheaper ones."""
    guard = Guard(deps.engine, deps.clock, plain_http=not getattr(deps.settings, "secure_cookies", True))
    router = APIRouter()
    router.include_router(files_router())
    router.include_router(signing_router(deps, guard, passwords or Passwords()))
    router.include_router(desk_router(deps, guard))
    return router
