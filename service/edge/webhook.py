"""Where gateways deliver: ``/hooks/SHOP/GATEWAY`` for texts, ``.../receipts`` for what became of ours."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable
from urllib.parse import quote, unquote

from fastapi import Request
from sqlalchemy.exc import DBAPIError
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response
from starlette.routing import Route

from service.edge.answers import answer
from service.edge.bodies import Malformed
from service.edge.delivery import Delivery
from service.edge.deps import Deps
from service.edge.gateways import Gateway, SecretMissing
from service.edge.problems import problem, whereabouts
from service.edge.profile_checks import segments
from service.edge.profile_receive import Answer, Charset, Receive
from service.edge.taking import REPORTED, Hook, Receive_, SomeNotTaken, take_reports, take_texts
from service.edge.verify import NotProven, SecretUnusable, verify

log = logging.getLogger("plainfault.webhook")

BODY_S = 20.0
"""How long a body may take to arrive, seconds; after that the connection is worth more to somebody else."""

OWN_OF_TEXTS = 2
"""Segments of the address behind ``/hooks`` that the hook of the texts has: the shop and the gateway."""

AGAIN_S = "30"
"""What a gateway is told to wait when we cannot take a text now."""


def hooks(deps: Deps, receive: Receive_) -> list[Route]:
    """
    The hooks of all shops and gateways. Texts are parsed to ``Inbound`` and given to *receive*.

    Answers: 200 for a text taken, also a repeat; 401 not proven or stale; 404 no such shop or gateway; 405; 408; 413;
    422 malformed; 503 with Retry-After when it could not be kept. Errors are problem documents.
    """

    async def text_arrives(request: Request) -> Response:
        return await _handle(deps, request, OWN_OF_TEXTS, lambda hook, it: take_texts(deps, receive, hook, it))

    async def receipt_arrives(request: Request) -> Response:
        return await _handle(deps, request, 3, lambda hook, it: _take_receipt(deps, hook, it))

    # Plain routes: there is nothing here that the framework could read or check, and its own ways cost every text.
    return [
        Route("/hooks/{shop}/{gateway}" + path + more, arrives, methods=["GET", "POST", "PUT"], include_in_schema=False)
        for path, arrives in (("/receipts", receipt_arrives), ("", text_arrives))
        for more in ("", "/{more:path}")
    ]


async def _handle(deps: Deps, request: Request, own: int, take: Callable[[Hook, Delivery], Response]) -> Response:
    """*own*: how many segments of the address behind ``/hooks`` are the hook's."""
    shop, path = request.path_params["shop"], _further(request, own)
    gateway = deps.gateways.get(request.path_params["gateway"])
    if gateway is None or gateway.profile.receive is None or (path and len(path) > segments(gateway.profile)):
        return _unknown()
    most, said_by = _longest_body(deps, gateway)
    try:
        async with asyncio.timeout(BODY_S):
            body = await _body(request, most)
    except TimeoutError:
        return problem(408, f"The body took longer than {BODY_S:g} seconds.")
    if body is None:
        where = {"shop": shop, "gateway": gateway.name, "limit": said_by}
        log.warning("a delivery is larger than is taken", extra=where)
        return problem(413, f"The body is larger than {most} bytes; the limit is {said_by}.")
    came = _delivery(deps, request, body, path, gateway.profile.receive.charset)
    receipts = gateway.profile.receipts
    plain = gateway.profile.receive.answer if own == OWN_OF_TEXTS else (receipts and receipts.answer) or REPORTED
    return await run_in_threadpool(_answered, deps, take, shop, gateway, gateway.profile.receive, came, plain)


def _longest_body(deps: Deps, gateway: Gateway) -> tuple[int, str]:
    """How many bytes of a body are taken, and what says so."""
    own = gateway.profile.limits.max_body_bytes
    if own is not None:
        return own, f"limits > max_body_bytes of the profile {gateway.name}"
    return deps.settings.max_body_bytes, "the setting PLAINFAULT_MAX_BODY_BYTES"


def _unknown() -> Response:
    return problem(404, "No such shop or gateway.")


def _further(request: Request, own: int) -> tuple[str, ...]:
    """What the address has after ``/hooks`` and the hook's *own* segments, each read by itself: a coded slash parts nothing."""
    segments = _as_addressed(request).removeprefix(request.scope.get("root_path", "")).split("/")[2 + own :]
    return tuple(unquote(segment) for segment in segments if segment)


def _as_addressed(request: Request) -> str:
    """The path as it was sent, still coded."""
    written: bytes = request.scope.get("raw_path") or quote(request.url.path).encode()
    return written.partition(b"?")[0].decode("latin-1")


async def _body(request: Request, most: int) -> bytes | None:
    """The body, or None as soon as it is known to be larger than *most* bytes."""
    said = request.headers.get("content-length", "")
    if said.isdigit() and int(said) > most:
        return None
    body = bytearray()
    async for piece in request.stream():
        body += piece
        if len(body) > most:
            return None
    return bytes(body)


def _delivery(deps: Deps, request: Request, body: bytes, path: tuple[str, ...], charset: Charset) -> Delivery:
    query: bytes = request.scope.get("query_string", b"")
    # As the gateway addressed it, not as a proxy passed it on: some gateways sign the address.
    url = deps.settings.base_url.rstrip("/") + _as_addressed(request)
    if query:
        url += "?" + query.decode("latin-1")
    client = request.client.host if request.client else None
    headers = {name.lower(): value for name, value in request.headers.items()}
    return Delivery(request.method, url, query, headers, body, client, path, charset=charset)


def _answered(
    deps: Deps, take: Callable[[Hook, Delivery], Response], shop: str, gateway: Gateway, rule: Receive, came: Delivery,
    plain: Answer,
) -> Response:  # fmt: skip
    """
    What *take* says, or the problem document of what went wrong; no failure shows how we are built.

    plain: how what was taken is answered, and what is malformed too where the profile does not want to show it.
    """
    where = {"shop": shop, "gateway": gateway.name}
    try:
        number = _number(deps, shop)
        return _unknown() if number is None else take(Hook(shop, number, gateway, rule), came)
    except NotProven as wrong:
        return problem(401, f"{wrong}.", headers={"WWW-Authenticate": _scheme(rule)})
    except Malformed as wrong:
        status = rule.answer.malformed_status
        # Where the answer says that all is well the gateway will not repeat it, and this line is all that is left of it.
        level = logging.WARNING if status >= 400 else logging.ERROR
        log.log(level, "a delivery is malformed", extra=where | {"why": str(wrong), "answered": status})
        return problem(status, f"{wrong}.") if status >= 400 else answer(_plainly(plain, status), came, rule.body)
    except (SecretMissing, SecretUnusable) as wrong:
        log.error("a gateway cannot be verified", extra=where | {"why": str(wrong)})
        return problem(503, "This gateway is not set up yet.", headers={"Retry-After": AGAIN_S})
    except SomeNotTaken as wrong:
        return problem(500, f"{wrong}; deliver it again.", headers={"Retry-After": AGAIN_S})
    except DBAPIError as wrong:
        log.error("a text could not be kept", extra=where | {"why": type(wrong.orig).__name__})
        return problem(503, "The text could not be kept; deliver it again.", headers={"Retry-After": AGAIN_S})
    except Exception as wrong:
        log.error("a delivery failed", extra=where | {"why": type(wrong).__name__, "where": whereabouts(wrong)})
        return problem(500, "The text could not be taken; deliver it again.", headers={"Retry-After": AGAIN_S})


def _plainly(rule: Answer, status: int) -> Answer:
    """*rule* for a delivery of which nothing could be taken, with that status."""
    return rule.model_copy(update={"status": status, "nothing_status": status})


def _number(deps: Deps, shop: str) -> str | None:
    """The shop's number, None for a shop not served; it may ask the database which rules are in force."""
    try:
        return deps.rulebook_of(shop).shop.number
    except KeyError:
        return None


def _scheme(rule: Receive) -> str:
    names = {"basic": "Basic", "bearer": "Bearer"}
    return next((names[way.kind] for way in rule.auth if way.kind in names), "Signature")


def _take_receipt(deps: Deps, hook: Hook, came: Delivery) -> Response:
    receipts = hook.gateway.profile.receipts
    if receipts is None:
        return problem(404, "This gateway's profile has no receipts.")
    if came.method != receipts.method:
        return problem(405, f"Report by {receipts.method}.", headers={"Allow": receipts.method})
    ways = receipts.auth or hook.receive.auth
    verify(came, receipts.body, ways, lambda name: hook.gateway.secret(hook.shop, name), deps.clock())
    return take_reports(deps, hook, receipts, came)
