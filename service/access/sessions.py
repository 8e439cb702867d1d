"""Sessions: a random token in the cookie, its hash in the table, ended by idling, by age, by leaving. Sources X4, X5."""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Connection

from service.access.roles import Permission, may
from service.storage import users
from service.storage.users import UserRow

IDLE = timedelta(minutes=30)
LONGEST = timedelta(hours=8)
REMEMBERED = LONGEST + timedelta(hours=16)
"""How long the browser keeps the cookie: past the session's end it opens nothing, and says whose unsent words these are."""
_TOUCH_EVERY = timedelta(minutes=1)  # a page view should rarely have to write


@dataclass(frozen=True, slots=True)
class SignedIn:
    """Who is at the other end. csrf: what each of their forms must carry. token: the hash, the session's key."""

    user: UserRow
    csrf: str
    token: str

    @property
    def shop(self) -> str:
        """The shop they work for."""
        return self.user.shop

    def may(self, permission: Permission) -> bool:
        """True if their role has *permission*."""
        return may(self.user.role, permission)


def open_session(connection: Connection, user: UserRow, now: datetime) -> str:
    """Open a session; what to put into the cookie: 256 random bits, kept nowhere else."""
    secret = secrets.token_urlsafe(32)
    users.insert_session(connection, token=_hashed(secret), user=user, csrf=secrets.token_urlsafe(32), now=now)
    return secret


def find(connection: Connection, secret: str | None, now: datetime) -> SignedIn | None:
    """Whose session *secret* is, or None: unknown, ended, idle for 30 minutes, older than 8 hours, or switched off."""
    if not secret:
        return None
    row = users.find_session(connection, _hashed(secret))
    if row is None or not row.user.active or now - row.seen_at >= IDLE or now - row.created_at >= LONGEST:
        return None
    return SignedIn(row.user, row.csrf, _hashed(secret))


def find_over(connection: Connection, secret: str | None) -> SignedIn | None:
    """Whose session *secret* is, or was until it idled or aged out; None: unknown, signed out, switched off. Opens nothing."""
    row = users.find_session(connection, _hashed(secret)) if secret else None
    return SignedIn(row.user, row.csrf, _hashed(secret or "")) if row is not None and row.user.active else None


def used(connection: Connection, session: SignedIn, now: datetime) -> None:
    """A person did something: the idle time begins anew. What a page fetches by itself must not call this."""
    users.touch_session(connection, session.token, now)


def needs_touch(connection: Connection, session: SignedIn, now: datetime) -> bool:
    """True if the idle time on record is a minute old, so that most page views write nothing."""
    row = users.find_session(connection, session.token)
    return row is not None and now - row.seen_at >= _TOUCH_EVERY


def end(connection: Connection, session: SignedIn, now: datetime) -> None:
    """Sign out, on the server too."""
    users.end_session(connection, session.token, now)


def _hashed(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
