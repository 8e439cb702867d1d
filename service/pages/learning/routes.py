"""``/desk/learning``: the office reads what outcomes propose; the author accepts it, holds parts of it fast, or resets it."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from fastapi import APIRouter, Depends, Response
from starlette.concurrency import run_in_threadpool

from service.access.guard import Acting, Guard
from service.access.sessions import SignedIn
from service.edge import learning
from service.edge.deps import Deps
from service.pages.answer import PageRoute, go, notice, show
from service.pages.desk.views import frame_of
from service.pages.learning.page import LearningPage, paper_of
from service.storage import outcomes
from service.storage.engine import reading
from service.storage.learned import learned_of

SAID = {
    "accepted": "Accepted: the line and the visit sheets work by it from the next text on.",
    "same": "Nothing would change: nothing was accepted.",
    "frozen": "Held fast: it stays as it is until you let it move again.",
    "free": "It may move again with the next proposal.",
    "reset": "Reset: the rules are as written, and outcomes until now are not counted again.",
}


def learning_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/learning`` and what the author decides there."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    reader, author = Depends(guard.page("read_desk")), Depends(guard.acting("write_rules"))

    @router.get("/desk/learning")
    def page(session: SignedIn = reader, said: str = "") -> Response:
        return _page(deps, session, SAID.get(said, ""))

    @router.post("/desk/learning/{appliance}/{deed}")
    async def decide(appliance: str, deed: str, acting: Acting = author) -> Response:
        return await run_in_threadpool(_decide, deps, acting, appliance, deed)

    return router


def _page(deps: Deps, session: SignedIn, said: str) -> Response:
    shop, editions = session.shop, deps.editions_in_force
    current, book = deps.rulebook_of(shop), editions.book(shop)
    with reading(deps.engine) as connection:
        frame = frame_of(deps, connection, session, title="Learning", here="/desk/learning")
        rows, unlisted = learned_of(connection, shop), outcomes.unlisted(connection, shop)
        studies = [
            learning.study(connection, shop, appliance, rows.get(code)) for code, appliance in book.appliances.items()
        ]
    now, zone = deps.clock(), ZoneInfo(current.shop.timezone)
    papers = tuple(
        paper_of(
            one, current.appliances.get(one.book.code, one.book), now, zone, unlisted,
            can_accept=learning.would_change(one),
        )
        for one in studies
    )  # fmt: skip
    nightly = current.shop.policies.learning == "nightly"
    can_act = session.may("write_rules")
    return show("learning/templates/learning.html", LearningPage(frame, nightly, can_act, said, papers))


def _decide(deps: Deps, acting: Acting, appliance: str, deed: str) -> Response:
    shop, by, code = acting.session.shop, acting.session.user.login, acting.form.text("code", 64)
    rules = deps.editions_in_force.book(shop).appliances.get(appliance)
    if rules is None:
        return notice(404, "Not here", "This shop has no rules for that machine.", "/desk/learning", "Back")
    known = {*rules.causes, *rules.symptoms, *rules.observations, "something_else"}
    if deed == "accept":
        done = learning.accept(deps, shop, appliance, by)
        return _back(appliance, "accepted" if done else "same")
    if deed == "reset":
        learning.reset(deps, shop, appliance, by)
        return _back(appliance, "reset")
    if deed in ("freeze", "unfreeze") and code in known:
        learning.freeze(deps, shop, appliance, code, by, frozen=deed == "freeze")
        return _back(appliance, "frozen" if deed == "freeze" else "free")
    return notice(422, "Not done", "Choose what to hold fast from the list.", "/desk/learning", "Back")


def _back(appliance: str, said: str) -> Response:
    return go(f"/desk/learning?said={said}#{appliance}")
