"""The commands: run the line, try it, read texts in bulk, mind the shop, keep the rules."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from typing import IO

import click
from sqlalchemy import Engine

from service import __version__
from service.app import about_gateways, build_deps, create_app, now_utc, rules_left_alone
from service.chat import converse
from service.edge.deps import Deps
from service.edge.roll_call import roll_call
from service.logs import set_up_logs
from service.reading.bulk import read_line
from service.reading.readers import reader_for
from service.rulebook.loading import load_rulebook
from service.settings import Settings, load_settings
from service.staff import user
from service.storage import privacy, shops
from service.storage.engine import await_database, open_engine, reading, writing
from service.storage.migrate import upgrade
from service.storage.one_process import only_process
from service.workshop.commands import workshop
from service.workshop.terminal import RULES, SHOP, friendly, stop

NOT_NEEDED = {"PLAINFAULT_DATABASE": "sqlite://", "PLAINFAULT_SECRET": "-" * 32}
"""Settings in place of those that a look at the gateways does without."""

PATIENCE_S = 60.0
"""So long a service that starts waits for its database."""


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__)
def main() -> None:
    """Plainfault: a repair shop's text line."""


@main.command()
def serve() -> None:
    """Run the line: webhooks, desk, visit sheets, and (always on SQLite) the sender."""
    import uvicorn

    with _settings() as settings, only_process(settings.database):
        set_up_logs(settings.log_level)
        engine = _engine(settings)
        if settings.on_sqlite:
            upgrade(engine)
        deps = _deps(settings, engine)
        # Before the pages are put together: that makes enough to have the rules looked through.
        with rules_left_alone():
            app = create_app(deps, sender=settings.sender or settings.on_sqlite)
            click.echo(
                f"Plainfault {__version__}: desk at {settings.base_url}/desk, phone at {settings.base_url}/phone"
            )
            uvicorn.run(
                app,
                host=settings.host,
                port=settings.port,
                log_config=None,
                access_log=False,
                server_header=False,
                timeout_graceful_shutdown=3,
            )


@main.command()
def send() -> None:
    """Run a sender of its own beside web processes (PostgreSQL only)."""
    import signal

    from service.edge.worker import Worker

    with _settings() as settings:
        if settings.on_sqlite:
            stop(
                "On SQLite the web process sends by itself. Use `plainfault serve`, or PostgreSQL for several processes."
            )
        set_up_logs(settings.log_level)
        worker = Worker(_deps(settings, _engine(settings)))
        with rules_left_alone():
            worker.start()
            signal.sigwait({signal.SIGINT, signal.SIGTERM})
            worker.stop()


@main.command()
def gateways() -> None:
    """
    Say how each gateway stands with the settings there are: ready, without which secrets, or mistaken and where.

    Exit code 1 if the line would not start on them. Needs neither database nor PLAINFAULT_SECRET.
    """
    with friendly():
        settings = load_settings({**NOT_NEEDED, **os.environ})
        shops = {shop: load_rulebook(settings.rules, shop).shop.gateway for shop in settings.shops}
        words, starts = roll_call(settings.gateways, shops, settings.gateway_secret, settings.gateway_secrets)
    click.echo(words)
    sys.exit(0 if starts else 1)


@main.command()
def migrate() -> None:
    """Bring the database to the newest tables."""
    with _settings() as settings, only_process(settings.database):
        upgrade(open_engine(settings.database))
        click.echo("The database has the newest tables.")


@main.command()
@SHOP
def pause(shop: str) -> None:
    """Let nothing out of SHOP but danger and consent."""
    _set_paused(shop, True)


@main.command()
@SHOP
def resume(shop: str) -> None:
    """Let SHOP's texts out again."""
    _set_paused(shop, False)


@main.command()
@click.argument("number")
@SHOP
def export(number: str, shop: str) -> None:
    """Print everything kept of a customer's NUMBER, as JSON."""
    with _settings() as settings, reading(open_engine(settings.database)) as connection:
        click.echo(json.dumps(privacy.export_customer(connection, shop, number), indent=1, default=str))


@main.command()
@click.argument("number")
@SHOP
@click.confirmation_option(prompt="Erase every text, ticket and address of this number?")
def erase(number: str, shop: str) -> None:
    """Erase a customer's NUMBER. The proof of an opt-out stays."""
    with _settings() as settings, writing(open_engine(settings.database)) as connection:
        gone = privacy.erase_customer(connection, shop, number, now_utc())
        click.echo(", ".join(f"{count} {table}" for table, count in gone.items() if count) or "Nothing was kept.")


@main.command()
@SHOP
def purge(shop: str) -> None:
    """Delete what is older than the shop's retention_days."""
    with _settings() as settings:
        book = load_rulebook(settings.rules, shop)
        before = now_utc() - timedelta(days=book.shop.policies.retention_days)
        with writing(open_engine(settings.database)) as connection:
            gone = privacy.purge(connection, shop, before)
        click.echo(", ".join(f"{count} {table}" for table, count in gone.items() if count) or "Nothing is that old.")


@main.command()
@RULES
@SHOP
@click.option("--number", default="+15055550142", show_default=True, help="The customer's number, one of 555-01xx.")
@click.option("--why", is_flag=True, help="After each reply, say why the line answered so.")
def chat(rules: Path, shop: str, number: str, why: bool) -> None:
    """Text the line from this terminal, on a database that is gone afterwards."""
    with friendly():
        converse(rules, shop, number, why=why)


@main.command()
@RULES
@SHOP
@click.argument("source", type=click.File("r", encoding="utf-8"), default="-")
def read(rules: Path, shop: str, source: IO[str]) -> None:
    """Read texts in bulk: JSON Lines in (a file or standard input), JSON Lines out. No database, no network."""
    with friendly():
        reader = reader_for(load_rulebook(rules, shop))
    failed, this_year = False, now_utc().year
    for place, line in enumerate(source, start=1):
        if not line.strip():
            continue
        try:
            answer = read_line(reader, json.loads(line), this_year=this_year)
        except ValueError as wrong:
            click.echo(f"{source.name}, line {place}: {wrong}", err=True)
            failed = True
            continue
        click.echo(json.dumps(answer, ensure_ascii=False))
    sys.exit(1 if failed else 0)


def _set_paused(shop: str, paused: bool) -> None:
    with _settings() as settings, writing(open_engine(settings.database)) as connection:
        if shops.shop_row(connection, shop) is None:
            stop(f"There is no shop {shop!r} in this database. Start the service once with it in PLAINFAULT_SHOPS.")
        shops.set_paused(connection, shop, paused)
        click.echo(f"{shop} is paused: only danger and consent go out." if paused else f"{shop} sends again.")


def _deps(settings: Settings, engine: Engine) -> Deps:
    """The surroundings of a service that starts; what is half set up is said where somebody reads it."""
    deps = build_deps(settings, engine=engine)
    books = {shop: deps.rulebook_of(shop) for shop in settings.shops}
    for words in about_gateways(deps.gateways, books, settings):
        click.echo(words, err=True)
    return deps


def _engine(settings: Settings) -> Engine:
    """The database of a service that starts, waited for if need be."""
    engine = open_engine(settings.database)
    await_database(engine, PATIENCE_S, lambda words: click.echo(words, err=True))
    return engine


@contextmanager
def _settings() -> Iterator[Settings]:
    with friendly():
        yield load_settings()


main.add_command(workshop)
main.add_command(user)

if __name__ == "__main__":
    main()
