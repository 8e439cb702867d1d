"""The commands about who may sign in: let somebody in, list them, give a new password, shut somebody out and let back in."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import IO

import click
from sqlalchemy import Connection

from service.access.passwords import Passwords
from service.access.roles import ROLES
from service.access.users import create_user, new_password, switch
from service.app import now_utc
from service.settings import load_settings
from service.storage.engine import open_engine, writing
from service.storage.users import UserRow, find_user, list_users
from service.workshop.terminal import SHOP, friendly, stop

PASSWORD = click.option(
    "--password-file", type=click.File("r"), default="-", help="Where to read the password (default: standard input)."
)
BY = "command line"


@click.group()
def user() -> None:
    """Who may sign in."""


@user.command("add")
@click.argument("login")
@click.option("--name", required=True, help="As the desk shows it.")
@click.option("--role", type=click.Choice(list(ROLES)), default="office", show_default=True)
@click.option("--technician", help="For a technician: the id in the shop's file.")
@PASSWORD
@SHOP
def add(login: str, name: str, role: str, technician: str | None, password_file: IO[str], shop: str) -> None:
    """Let LOGIN sign in; the password is read from standard input."""
    with _writing() as connection:
        create_user(
            connection, Passwords(), shop=shop, login=login, name=name, password=_line(password_file), role=role,
            technician=technician, now=now_utc(), by=BY,
        )  # fmt: skip
        click.echo(f"{login} may sign in to {shop} as {role}.")


@user.command("list")
@SHOP
def show(shop: str) -> None:
    """Everybody who has a login, and who is shut out."""
    with _writing() as connection:
        found = list_users(connection, shop)
    for one in found:
        click.echo(f"{one.login:<24} {one.role:<11} {'may sign in' if one.active else 'shut out':<12} {one.name}")
    if not found:
        click.echo(f"Nobody has a login at {shop}. `plainfault user add` makes one.")


@user.command("password")
@click.argument("login")
@PASSWORD
@SHOP
def password(login: str, password_file: IO[str], shop: str) -> None:
    """Give LOGIN another password, read from standard input; ends all their sessions."""
    with _writing() as connection:
        new_password(
            connection, Passwords(), _found(connection, shop, login), _line(password_file), now=now_utc(), by=BY
        )
        click.echo(f"{login} has a new password and must sign in again.")


@user.command("off")
@click.argument("login")
@SHOP
def off(login: str, shop: str) -> None:
    """Shut LOGIN out at once, wherever signed in. What they did stays on record."""
    with _writing() as connection:
        switch(connection, _found(connection, shop, login), False, now=now_utc(), by=BY)
        click.echo(f"{login} is shut out of {shop}.")


@user.command("on")
@click.argument("login")
@SHOP
def on(login: str, shop: str) -> None:
    """Let LOGIN sign in again."""
    with _writing() as connection:
        switch(connection, _found(connection, shop, login), True, now=now_utc(), by=BY)
        click.echo(f"{login} may sign in to {shop} again.")


@contextmanager
def _writing() -> Iterator[Connection]:
    """One transaction; what a person mistook is told in a sentence and changes nothing."""
    with friendly():
        settings = load_settings()
    try:
        with writing(open_engine(settings.database)) as connection:
            yield connection
    except ValueError as wrong:
        stop(str(wrong))


def _found(connection: Connection, shop: str, login: str) -> UserRow:
    found = find_user(connection, shop, login.strip().casefold())
    if found is None:
        known = ", ".join(one.login for one in list_users(connection, shop)) or "nobody"
        raise ValueError(f"There is no login {login} at {shop}. Logins there: {known}.")
    return found[0]


def _line(source: IO[str]) -> str:
    return source.readline().rstrip("\n")
