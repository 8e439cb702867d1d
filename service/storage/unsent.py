"""What somebody at the desk typed and has not sent yet: theirs alone, and never sent by itself."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, delete, select

from service.storage.ledgers import unsent
from service.storage.upsert import insert_or_update

_KEY = ("shop", "thread", "login", "about")


def keep(connection: Connection, *, shop: str, thread: str, login: str, about: str, text: str, now: datetime) -> None:
    """
    Keep *text* in place of what *login* had typed there before; with an empty text nothing is kept.

    about: the reply box of a page as the audit trail names its subject, or the id of a draft that was changed.
    """
    if not text:
        forget(connection, shop=shop, thread=thread, login=login, about=about)
        return
    row = {"shop": shop, "thread": thread, "login": login, "about": about, "text": text, "at": now}
    insert_or_update(connection, unsent, [row], _KEY, ("text", "at"))


def forget(connection: Connection, *, shop: str, thread: str, login: str, about: str) -> None:
    """It was sent, discarded or taken back."""
    which = {"shop": shop, "thread": thread, "login": login, "about": about}
    connection.execute(delete(unsent).where(*(unsent.c[name] == value for name, value in which.items())))


def typed_by(connection: Connection, shop: str, thread: str, login: str) -> dict[str, str]:
    """What *login* typed on the thread and did not send, by what it is about."""
    query = select(unsent.c.about, unsent.c.text)
    query = query.where(unsent.c.shop == shop, unsent.c.thread == thread, unsent.c.login == login)
    return {row.about: row.text for row in connection.execute(query)}
