"""Builds the web application and its surroundings: the only place that knows every room."""

from __future__ import annotations

import gc
import logging
import random
from collections.abc import AsyncIterator, Callable, Iterator, Mapping
from contextlib import asynccontextmanager, contextmanager
from datetime import UTC, datetime

from fastapi import FastAPI
from sqlalchemy import Engine
from sqlalchemy.exc import DBAPIError
from starlette.responses import JSONResponse, Response

from service import __version__
from service.edge import exchange
from service.edge.deps import Deps
from service.edge.editions import Editions
from service.edge.gateways import Gateway, load_gateways
from service.edge.problems import install_problem_documents, problem
from service.edge.readiness import look_over
from service.edge.shares import Shares
from service.edge.webhook import hooks
from service.edge.worker import Worker
from service.pages.desk.routes import desk_router
from service.pages.phone.routes import phone_router
from service.pages.sheet.routes import sheet_router
from service.pages.static_files import static_router
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.settings import Settings
from service.storage.engine import open_engine, writing

log = logging.getLogger("plainfault.start")


def now_utc() -> datetime:
    """The machine's clock, the only place where it is read."""
    return datetime.now(UTC)


def build_deps(
    settings: Settings,
    *,
    engine: Engine | None = None,
    clock: Callable[[], datetime] = now_utc,
    randomness: random.Random | None = None,
) -> Deps:
    """
    Engine, clock, rules and gateways for *settings*; every shop's rules are loaded, checked and made its current edition.

    Raises RulesMistaken or a gateway's own error when a file cannot be used: a service does not start on broken rules.
    """
    opened = engine or open_engine(settings.database)
    books: dict[str, Rulebook] = {shop: load_rulebook(settings.rules, shop) for shop in settings.shops}
    gateways = load_gateways(settings.gateways, settings.gateway_secret)
    for words in about_gateways(gateways, books, settings):
        log.warning("a gateway is not ready", extra={"why": words})
    editions = Editions(opened, clock, books)
    with writing(opened) as connection:
        current = {shop: editions.install(connection, shop, clock()) for shop in books}
    for shop, edition in current.items():
        editions.use(shop, edition)
    return Deps(
        engine=opened,
        clock=clock,
        rulebook_of=editions,
        editions=editions,
        random=randomness or random.Random(),  # noqa: S311 - jitter of retries, no secret
        gateways=gateways,
        settings=settings,
        shares=Shares(settings.shop_share),
    )


def about_gateways(
    gateways: Mapping[str, Gateway], books: Mapping[str, Rulebook], settings: Settings
) -> tuple[str, ...]:
    """
    What to tell whoever starts the line of gateways half set up. Raises GatewaysNotReady for one that a shop needs.
    """
    uses = {shop: book.shop.gateway for shop, book in books.items()}
    return look_over(gateways, uses, settings.gateway_secrets)


@contextmanager
def rules_left_alone() -> Iterator[None]:
    """
    Spare the garbage collector what stands already: the rules are some hundred thousand objects that stay, and would be
    looked through again and again. Nothing is done where they are spared already. What is no longer used is not looked for
    first: that takes a second, and finds next to nothing at a start.
    """
    if gc.get_freeze_count():
        yield
        return
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


def create_app(deps: Deps, *, sender: bool = True) -> FastAPI:
    """
    The web application: webhooks, desk, visit sheets, the phone page.

    sender: run the outbox, wakes and escalation beside it, in threads that end with the application.
    """

    @asynccontextmanager
    async def lifespan(_app: FastAPI) -> AsyncIterator[None]:
        worker = Worker(deps) if sender else None
        with rules_left_alone():
            if worker:
                worker.start()
            yield
            if worker:
                worker.stop()

    app = FastAPI(
        title="Plainfault",
        version=__version__,
        lifespan=lifespan,
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        telemetry={"tracing": False, "metrics": False, "logs": False},
    )
    install_problem_documents(app)
    app.router.routes.extend(hooks(deps, exchange.receive))
    app.include_router(static_router())
    app.include_router(desk_router(deps))
    app.include_router(sheet_router(deps))
    app.include_router(phone_router(deps))

    @app.get("/health", include_in_schema=False)
    def health() -> Response:
        """Whether the process answers and the database can be read; 503 while it cannot."""
        try:
            with deps.engine.connect() as connection:
                connection.exec_driver_sql("SELECT 1")
        except DBAPIError:
            return problem(503, "The database cannot be reached.", headers={"Retry-After": "30"})
        return JSONResponse({"status": "ok", "version": __version__})

    return app
