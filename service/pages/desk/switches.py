"""The shop's switches: how much the line may do alone, and the pause."""

from __future__ import annotations

from dataclasses import dataclass
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Depends, Response
from sqlalchemy import Connection
from starlette.concurrency import run_in_threadpool

from service.access.guard import Acting, Form, Guard
from service.access.sessions import SignedIn
from service.edge.deps import Deps
from service.pages import words
from service.pages.answer import PageRoute, go, notice, show
from service.pages.desk.reading import Fact
from service.pages.desk.views import frame_of
from service.pages.frame import Frame
from service.storage import audit, shops, users
from service.storage.engine import reading, writing

AUTONOMY = (
    ("draft", "Draft", "The office sends each reply. Danger and consent texts go by themselves."),
    ("hold", "Hold", "The line talks by itself; the office confirms each booking."),
    ("automatic", "Automatic", "The line talks and books by itself."),
)


@dataclass(frozen=True, slots=True)
class SwitchesPage:
    """The switches, who may sign in, and what the rules say of the shop."""

    frame: Frame
    autonomy: str
    choices: tuple[tuple[str, str, str], ...]
    paused: bool
    people: tuple[Fact, ...]
    facts: tuple[Fact, ...]
    trail: tuple[Fact, ...]


def switches_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/shop``."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    owner = Depends(guard.page("switch_shop"))
    acting_owner = Depends(guard.acting("switch_shop"))

    @router.get("/desk/shop")
    def page(session: SignedIn = owner) -> Response:
        with reading(deps.engine) as connection:
            return show("desk/templates/switches.html", _page(deps, connection, session))

    @router.post("/desk/shop/autonomy")
    async def autonomy(acting: Acting = acting_owner) -> Response:
        return await run_in_threadpool(_set_autonomy, deps, acting.session, acting.form)

    @router.post("/desk/shop/pause")
    async def pause(acting: Acting = acting_owner) -> Response:
        return await run_in_threadpool(_set_paused, deps, acting.session, acting.form)

    return router


def _page(deps: Deps, connection: Connection, session: SignedIn) -> SwitchesPage:
    shop = deps.rulebook_of(session.shop).shop
    row = shops.shop_row(connection, session.shop)
    zone, now = ZoneInfo(shop.timezone), deps.clock()
    people = tuple(
        Fact(f"{user.name} ({user.login})", user.role + ("" if user.active else ", switched off"))
        for user in users.list_users(connection, session.shop)
    )
    facts = (
        Fact("Text number", words.phone_words(shop.number)),
        Fact("Office phone", words.phone_words(shop.office_phone)),
        Fact("Gateway", shop.gateway),
        Fact("Visit fee", words.money(shop.fees.visit_cents)),
        Fact("On call", ", ".join(person.name for person in shop.on_call) or "nobody"),
        Fact("Rules in use", (row.edition[:12] if row else "")),
    )
    trail = tuple(
        Fact(
            f"{deed.who}, {words.when_words(deed.at, now, zone)}",
            f"{words.code_words(deed.did)} {deed.detail.get('to', '')}",
        )
        for deed in audit.of_subject(connection, session.shop, "shop", limit=10)
    )
    frame = frame_of(deps, connection, session, title="Shop", here="/desk/shop")
    return SwitchesPage(
        frame, row.autonomy if row else "draft", AUTONOMY, bool(row and row.paused), people, facts, trail
    )


def _set_autonomy(deps: Deps, session: SignedIn, form: Form) -> Response:
    chosen = form.text("autonomy")
    if chosen not in {code for code, _, _ in AUTONOMY}:
        return notice(422, "Not changed", "Choose draft, hold or automatic.", "/desk/shop", "Back")
    with writing(deps.engine) as connection:
        shops.set_autonomy(connection, session.shop, chosen)
        _note(deps, connection, session, "autonomy", chosen)
    return go("/desk/shop")


def _set_paused(deps: Deps, session: SignedIn, form: Form) -> Response:
    paused = form.text("paused") == "yes"
    with writing(deps.engine) as connection:
        shops.set_paused(connection, session.shop, paused)
        _note(deps, connection, session, "pause", "on" if paused else "off")
    return go("/desk/shop")


def _note(deps: Deps, connection: Connection, session: SignedIn, did: str, to: str) -> None:
    audit.record(
        connection, shop=session.shop, at=deps.clock(), who=session.user.login, did=did, subject="shop", detail={"to": to}
    )  # fmt: skip
