"""The desk's addresses, all under one router: signing in, what is shown, what is done."""

from __future__ import annotations

from fastapi import APIRouter

from service.access.guard import Guard
from service.access.passwords import Passwords
from service.edge.deps import Deps
from service.pages.desk.actions import actions_router
from service.pages.desk.correcting import correct_router
from service.pages.desk.days import days_router
from service.pages.desk.opening import opening_router
from service.pages.desk.pictures import pictures_router
from service.pages.desk.planning import planning_router
from service.pages.desk.signing import signing_router
from service.pages.desk.switches import switches_router
from service.pages.desk.views import views_router
from service.pages.learning.routes import learning_router
from service.pages.reports.routes import reports_router
from service.pages.rules.routes import rules_router


def desk_router(deps: Deps, passwords: Passwords | None = None) -> APIRouter:
    """Everything of the desk. passwords: how they are hashed; tests hand in cheaper ones."""
    guard = Guard(deps.engine, deps.clock, plain_http=not getattr(deps.settings, "secure_cookies", True))
    router = APIRouter()
    router.include_router(signing_router(deps, guard, passwords or Passwords()))
    router.include_router(opening_router(deps, guard))
    for part in (
        views_router,
        correct_router,
        planning_router,
        days_router,
        pictures_router,
        switches_router,
        reports_router,
        learning_router,
        rules_router,
    ):
        router.include_router(part(deps, guard))
    router.include_router(actions_router(deps, guard))  # last: its {deed} would take the others' names
    return router
