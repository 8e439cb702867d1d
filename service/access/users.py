"""Making users and changing who may sign in. Every change is in the audit trail and ends the sessions it must end."""

from __future__ import annotations

import re
from datetime import datetime

from sqlalchemy import Connection, Engine

from service.access.passwords import Passwords, refuse_weak
from service.access.roles import ROLES
from service.storage import audit, users
from service.storage.engine import reading
from service.storage.users import UserRow


class UserRefused(ValueError):
    """The user cannot be made as asked; the message says what to do instead."""


def create_user(
    connection: Connection,
    passwords: Passwords,
    *,
    shop: str,
    login: str,
    name: str,
    password: str,
    role: str,
    now: datetime,
    technician: str | None = None,
    by: str = "command line",
) -> UserRow:
    """
    Make a user of *shop*. Raises UserRefused (login, role, technician) or PasswordRefused (a ValueError as well).

    technician: the id in the shop's file; a user of that role needs one.
    """
    login = login.strip().casefold()
    if not re.fullmatch(r"[a-z0-9][a-z0-9._@-]{1,62}", login):
        raise UserRefused("A login is 2 to 63 letters, digits or . _ @ - and begins with a letter or digit.")
    if login in {"customer", "line"}:  # these mark whose words a message is
        raise UserRefused(f"The login {login} is taken by the line itself. Choose another one.")
    if role not in ROLES:
        raise UserRefused(f"{role} is not a role. The roles are {', '.join(ROLES)}.")
    if role == "technician" and not technician:
        raise UserRefused("A technician's login needs the technician's id of the shop's file.")
    refuse_weak(password, login, name, shop)
    row = users.insert_user(
        connection, shop=shop, login=login, name=name.strip() or login, password=passwords.hash(password), role=role,
        technician=technician, now=now,
    )  # fmt: skip
    if row is None:
        raise UserRefused(f"{login} already has a login at {shop}. Choose another one, or set a new password.")
    audit.record(connection, shop=shop, at=now, who=by, did="user_made", subject=f"user:{login}", detail={"role": role})
    return row


def new_password(
    connection: Connection, passwords: Passwords, user: UserRow, password: str, *, now: datetime, by: str
) -> None:
    """Give *user* another password and end all sessions of theirs. Raises PasswordRefused."""
    refuse_weak(password, user.login, user.name, user.shop)
    users.set_password(connection, user.id, passwords.hash(password))
    users.end_sessions_of(connection, user.id, now)
    users.clear_failures(connection, user.shop, user.login)
    audit.record(connection, shop=user.shop, at=now, who=by, did="password_set", subject=f"user:{user.login}")


def switch(connection: Connection, user: UserRow, active: bool, *, now: datetime, by: str) -> None:
    """Let *user* sign in, or no longer; switching off ends their sessions at once (source X5)."""
    users.set_active(connection, user.id, active)
    if not active:
        users.end_sessions_of(connection, user.id, now)
    did = "user_on" if active else "user_off"
    audit.record(connection, shop=user.shop, at=now, who=by, did=did, subject=f"user:{user.login}")


def installed_shops(engine: Engine) -> tuple[str, ...]:
    """The shops somebody may sign in to; with one, nobody is asked which."""
    with reading(engine) as connection:
        return users.shop_codes(connection)
