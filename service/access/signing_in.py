"""Signing in: right or wrong, and how long to wait after wrong ones. Sources X5, X6."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Engine

from service.access import sessions
from service.access.passwords import Passwords
from service.storage import audit, users
from service.storage.engine import writing

FREE_TRIES = 4
"""Wrong passwords that cost no waiting: people mistype."""
MOST_TRIES = 100
"""In a row; then the login stays shut until somebody sets a new password. Source X6."""
LONGEST_WAIT = timedelta(minutes=15)


@dataclass(frozen=True, slots=True)
class Welcome:
    """It worked. secret: for the cookie."""

    secret: str


@dataclass(frozen=True, slots=True)
class Wrong:
    """Login or password is not right; which one is not said."""


@dataclass(frozen=True, slots=True)
class Wait:
    """Too many wrong tries: try again in ``seconds``, or never (None) until the login is opened again."""

    seconds: int | None


def wait_after(failures: int) -> timedelta:
    """How long a login rests after *failures* wrong tries in a row: nothing, then 2, 4, 8... seconds, at most 15 minutes."""
    over = failures - FREE_TRIES
    return timedelta(0) if over < 1 else min(LONGEST_WAIT, timedelta(seconds=2 ** min(over, 12)))


def sign_in(
    engine: Engine, passwords: Passwords, *, shop: str, login: str, password: str, now: datetime
) -> Welcome | Wrong | Wait:
    """Try to sign in. A wrong try is counted before its password is compared, so that a volley of tries is not free."""
    login = login.strip().casefold()[:64]
    with writing(engine) as connection:
        failures, last = users.failures(connection, shop, login)
        if failures >= MOST_TRIES:
            return Wait(None)
        rest = wait_after(failures) - (now - last) if last else timedelta(0)
        if rest > timedelta(0):
            return Wait(max(1, round(rest.total_seconds())))
        users.note_failure(connection, shop, login, now)
        found = users.find_user(connection, shop, login)
    if not passwords.matches(password, found[1] if found else None) or found is None or not found[0].active:
        return Wrong()
    with writing(engine) as connection:
        users.clear_failures(connection, shop, login)
        secret = sessions.open_session(connection, found[0], now)
        audit.record(connection, shop=shop, at=now, who=login, did="signed_in", subject=f"user:{login}")
    return Welcome(secret)
