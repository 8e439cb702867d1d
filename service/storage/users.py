"""Users of a shop, their sessions, and how often a sign-in has failed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, delete, select, update

from service.storage.engine import new_id
from service.storage.ledgers import sessions, sign_ins, users
from service.storage.tables import shops
from service.storage.upsert import insert_once


@dataclass(frozen=True, slots=True)
class UserRow:
    """Somebody who may sign in. role: office, technician or author. technician: their id in the shop's file, if any."""

    id: str
    shop: str
    login: str
    name: str
    role: str
    technician: str | None
    active: bool


@dataclass(frozen=True, slots=True)
class SessionRow:
    """An open session and whose it is. csrf: the token its forms carry."""

    csrf: str
    created_at: datetime
    seen_at: datetime
    user: UserRow


_USER = (users.c.id, users.c.shop, users.c.login, users.c.name, users.c.role, users.c.technician, users.c.active)


def insert_user(
    connection: Connection,
    *,
    shop: str,
    login: str,
    name: str,
    password: str,
    role: str,
    technician: str | None,
    now: datetime,
) -> UserRow | None:
    """Keep a new user; *password* is already hashed. None if the shop has that login."""
    row = {
        "id": new_id(), "shop": shop, "login": login, "name": name, "password": password, "role": role,
        "technician": technician, "active": True, "created_at": now,
    }  # fmt: skip
    if not insert_once(connection, users, row, ("shop", "login")):
        return None
    return UserRow(str(row["id"]), shop, login, name, role, technician, True)


def find_user(connection: Connection, shop: str, login: str) -> tuple[UserRow, str] | None:
    """The user with that login and the stored hash of the password, or None."""
    query = select(*_USER, users.c.password).where(users.c.shop == shop, users.c.login == login)
    row = connection.execute(query).one_or_none()
    return (UserRow(*row[:-1]), str(row[-1])) if row else None


def list_users(connection: Connection, shop: str) -> tuple[UserRow, ...]:
    """Everybody of the shop, by login."""
    query = select(*_USER).where(users.c.shop == shop).order_by(users.c.login)
    return tuple(UserRow(*row) for row in connection.execute(query))


def set_password(connection: Connection, user: str, password: str) -> None:
    """Keep a new hash."""
    connection.execute(update(users).where(users.c.id == user).values(password=password))


def set_active(connection: Connection, user: str, active: bool) -> None:
    """Let somebody sign in, or no longer."""
    connection.execute(update(users).where(users.c.id == user).values(active=active))


def shop_codes(connection: Connection) -> tuple[str, ...]:
    """Every installed shop, by code."""
    return tuple(connection.execute(select(shops.c.shop).order_by(shops.c.shop)).scalars())


def _user(row: Any) -> UserRow:
    return UserRow(row.id, row.shop, row.login, row.name, row.role, row.technician, row.active)


def insert_session(connection: Connection, *, token: str, user: UserRow, csrf: str, now: datetime) -> None:
    """Open a session; *token* is the hash of what the cookie holds."""
    connection.execute(
        sessions.insert().values(token=token, shop=user.shop, user=user.id, csrf=csrf, created_at=now, seen_at=now)
    )


def find_session(connection: Connection, token: str) -> SessionRow | None:
    """The session that was not ended, with its user, or None."""
    query = (
        select(sessions.c.csrf, sessions.c.created_at, sessions.c.seen_at, *_USER)
        .join(users, users.c.id == sessions.c.user)
        .where(sessions.c.token == token, sessions.c.ended_at.is_(None))
    )
    row = connection.execute(query).one_or_none()
    return SessionRow(row.csrf, row.created_at, row.seen_at, _user(row)) if row else None


def touch_session(connection: Connection, token: str, now: datetime) -> None:
    """Somebody used it now."""
    connection.execute(update(sessions).where(sessions.c.token == token).values(seen_at=now))


def end_session(connection: Connection, token: str, now: datetime) -> None:
    """Nobody can use it any more."""
    connection.execute(
        update(sessions).where(sessions.c.token == token, sessions.c.ended_at.is_(None)).values(ended_at=now)
    )


def end_sessions_of(connection: Connection, user: str, now: datetime) -> None:
    """End every session of a user, as when they are switched off or have a new password."""
    connection.execute(
        update(sessions).where(sessions.c.user == user, sessions.c.ended_at.is_(None)).values(ended_at=now)
    )


def failures(connection: Connection, shop: str, login: str) -> tuple[int, datetime | None]:
    """How often signing in has failed since it last worked, and when it last did."""
    query = select(sign_ins.c.failures, sign_ins.c.last_at).where(sign_ins.c.shop == shop, sign_ins.c.login == login)
    row = connection.execute(query).one_or_none()
    return (int(row.failures), row.last_at) if row else (0, None)


def note_failure(connection: Connection, shop: str, login: str, now: datetime) -> None:
    """One more failed try."""
    row = {"shop": shop, "login": login, "failures": 1, "last_at": now}
    if not insert_once(connection, sign_ins, row, ("shop", "login")):
        connection.execute(
            update(sign_ins)
            .where(sign_ins.c.shop == shop, sign_ins.c.login == login)
            .values(failures=sign_ins.c.failures + 1, last_at=now)
        )


def clear_failures(connection: Connection, shop: str, login: str) -> None:
    """Signing in worked, or somebody unlocked it."""
    connection.execute(delete(sign_ins).where(sign_ins.c.shop == shop, sign_ins.c.login == login))
