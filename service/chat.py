"""The line in a terminal: a phone of one's own, on a database that is gone afterwards."""

from __future__ import annotations

import secrets
import tempfile
from pathlib import Path
from typing import Any

import click
from sqlalchemy import select

from service.app import build_deps
from service.edge.deps import Deps
from service.edge.exchange import receive, rest_over
from service.edge.inbound import Inbound
from service.edge.worker import tick
from service.settings import Settings
from service.storage.engine import open_engine, reading
from service.storage.migrate import upgrade
from service.storage.tables import messages, turns
from service.wording.segments import count


def converse(rules: Path, shop: str, number: str, *, why: bool) -> None:
    """
    Read texts from the terminal until it ends, and print what the line answers, with its segments.

    Texts do not rest here: each is answered at once. *why* prints the reasons of each turn after it. Raises RulesMistaken.
    """
    with tempfile.TemporaryDirectory(prefix="plainfault-") as folder:
        settings = Settings(
            database=f"sqlite:///{Path(folder) / 'chat.sqlite3'}",
            secret=secrets.token_hex(32),
            rules=rules,
            shops=(shop,),
        )
        engine = open_engine(settings.database)
        upgrade(engine)
        deps = build_deps(settings, engine=engine)
        name = deps.rulebook_of(shop).shop.name
        click.echo(f"{name}. You are {number}. Type a text and press Enter; Ctrl-D ends.\n")
        seen: set[str] = set()
        while True:
            try:
                text = click.prompt("you", prompt_suffix="> ", default="", show_default=False)
            except click.Abort:
                click.echo("")
                return
            _send(deps, shop, number, text)
            _show(deps, shop, seen, why=why)


def _send(deps: Deps, shop: str, number: str, text: str) -> None:
    now = deps.clock()
    recipient = deps.rulebook_of(shop).shop.number
    inbound = Inbound(shop, "loopback", number, recipient, text, (), f"terminal-{now.timestamp()}", now)
    received = receive(deps, inbound)
    rest_over(deps, shop, received.thread)  # texts do not rest here
    tick(deps)


def _show(deps: Deps, shop: str, seen: set[str], *, why: bool) -> None:
    with reading(deps.engine) as connection:
        out = select(messages.c.id, messages.c.text).where(messages.c.shop == shop, messages.c.direction == "out")
        for row in connection.execute(out.order_by(messages.c.at, messages.c.id)):
            if row.id not in seen:
                seen.add(row.id)
                click.echo(f"line> {row.text}\n      [{len(count(row.text).parts)} segment(s)]")
        if why:
            last = select(turns.c.step, turns.c.at).where(turns.c.shop == shop).order_by(turns.c.at.desc()).limit(1)
            _explain(connection.execute(last).one_or_none())


def _explain(row: Any) -> None:
    for reason in row.step.get("reasons", ()) if row else ():
        click.echo(click.style(f"      why: {reason['words']}", dim=True))
