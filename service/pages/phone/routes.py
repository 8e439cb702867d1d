"""A simulated customer phone, to try the line. There only for shops whose texts stay in the house (a local gateway)."""

from __future__ import annotations

import re
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.guard import Form, posted
from service.edge import exchange
from service.edge.deps import Deps
from service.edge.inbound import Inbound
from service.edge.numbers import one_spelling
from service.pages import words
from service.pages.answer import Lost, PageRoute, go, show
from service.pages.changes import changes
from service.pages.phone.page import Choice, PickPage, build_phone
from service.pages.served import served_shops
from service.storage import desk
from service.storage.engine import new_id, reading
from service.storage.phone import simulated_numbers, texts_of

TRY_NUMBER = re.compile(r"\+1\d{3}55501\d\d")
"""The range that belongs to nobody: a phone of the page can never be a person's."""
LONGEST = 1_600


def phone_router(deps: Deps) -> APIRouter:
    """``/phone`` and ``/phone/{shop}/{number}``."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)

    @router.get("/phone")
    def pick(shop: str = "", number: str = "") -> Response:
        return _pick(deps, shop, number)

    @router.get("/phone/{shop}/{number}")
    def phone(shop: str, number: str) -> Response:
        return _phone(deps, shop, number)

    @router.get("/phone/{shop}/{number}/changes")
    def phone_changes(request: Request, shop: str, number: str) -> Response:
        _refuse(deps, shop, number)
        with reading(deps.engine) as connection:
            thread = desk.talk_of_number(connection, shop, number)
        return changes(deps, request, shop, thread.id if thread else "none yet")

    @router.post("/phone/{shop}/{number}")
    async def text(shop: str, number: str, form: Annotated[Form, Depends(posted)]) -> Response:
        return await run_in_threadpool(_text, deps, shop, number, form)

    return router


def local_shops(deps: Deps) -> dict[str, str]:
    """Code to name of the shops whose gateway is inside the service."""
    found = {}
    for code in served_shops(deps):
        shop = deps.rulebook_of(code).shop
        gateway = deps.gateways.get(shop.gateway)
        if gateway is not None and gateway.local:
            found[code] = shop.name
    return found


def _pick(deps: Deps, shop: str, number: str) -> Response:
    shops = local_shops(deps)
    if not shops:
        raise Lost("No shop here keeps its texts in the house, so there is no phone to try.")
    chosen = shop if shop in shops else next(iter(shops))
    spelled = one_spelling(number) if number else ""
    if spelled and TRY_NUMBER.fullmatch(spelled):
        return go(f"/phone/{chosen}/{spelled}")
    error = "Use a number from (505) 555-0100 to (505) 555-0199; those belong to nobody." if number else ""
    with reading(deps.engine) as connection:
        gateway = deps.rulebook_of(chosen).shop.gateway
        used = [n for n in simulated_numbers(connection, chosen, gateway) if TRY_NUMBER.fullmatch(n)]
    choices = tuple(Choice(f"/phone/{chosen}/{n}", words.phone_words(n)) for n in used)
    page = PickPage("Try the line", tuple(shops.items()), number or "(505) 555-0150", error, choices)
    return show("phone/templates/pick.html", page, status=422 if error else 200)


def _refuse(deps: Deps, shop: str, number: str) -> None:
    if shop not in local_shops(deps) or not TRY_NUMBER.fullmatch(number):
        raise Lost("There is no such phone to try. Choose a number from 555-0100 to 555-0199.")


def _phone(deps: Deps, shop: str, number: str) -> Response:
    _refuse(deps, shop, number)
    with reading(deps.engine) as connection:
        thread = desk.talk_of_number(connection, shop, number)
        rows = texts_of(connection, shop, thread.id) if thread else ()
        marker = desk.change_marker(connection, shop, thread.id if thread else "none yet")
    page = build_phone(
        rows,
        deps.rulebook_of(shop).shop,
        number,
        deps.clock(),
        base=f"/phone/{shop}/{number}",
        marker=marker,
        once=new_id(),
    )
    return show("phone/templates/phone.html", page)


def _text(deps: Deps, shop: str, number: str, form: Form) -> Response:
    _refuse(deps, shop, number)
    rules = deps.rulebook_of(shop).shop
    text, picture = form.text("text", LONGEST), bool(form.text("picture"))
    if text or picture:
        exchange.receive(
            deps,
            Inbound(
                shop=shop,
                gateway=rules.gateway,
                sender=number,
                recipient=rules.number,
                text=text,
                media=("phone:picture",) if picture else (),
                carrier_id=f"phone-{form.text('once', 40) or new_id()}",
                carrier_at=deps.clock(),
            ),
        )
    return go(f"/phone/{shop}/{number}")
