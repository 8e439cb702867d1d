"""Turns: the record of what was decided, from what, when and why. A bug report is a row of this table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from pydantic import TypeAdapter
from sqlalchemy import Connection, insert, select

from service import __version__
from service.conversation.events import Event
from service.conversation.step import Step
from service.scheduling.model import Diary
from service.storage import ready
from service.storage.tables import turns
from service.storage.threads import ThreadRow

_EVENTS: TypeAdapter[tuple[Event, ...]] = TypeAdapter(tuple[Event, ...])
_DIARY: TypeAdapter[Diary] = TypeAdapter(Diary)
_INSERT = insert(turns)


def turn_id(thread: str, number: int) -> str:
    """The id of a thread's turn: the thread's id and the count of its turns."""
    return f"{thread}.{number}"


def document_of(step: Step | None, failed: str | None) -> dict[str, Any]:
    """What is kept of a step; of a turn that could not be taken and has none, the type of the error that *failed* it."""
    return {"failed": failed} if step is None else step.model_dump(mode="json")


def write_turn(
    connection: Connection,
    row: ThreadRow,
    *,
    events: Sequence[Event],
    edition: str,
    autonomy: str,
    diary: Diary | None,
    document: Mapping[str, Any],
    now: datetime,
) -> None:
    """Keep a turn and the *document* of what it decided."""
    identity = turn_id(row.id, row.turns + 1)
    values = {
        "id": identity, "shop": row.shop, "thread": row.id, "number": row.turns + 1, "at": now, "state_before": row.state,
        "events": _EVENTS.dump_python(tuple(events), mode="json"), "edition": edition, "autonomy": autonomy,
        "code_version": __version__, "diary": None if diary is None else _DIARY.dump_python(diary, mode="json"),
        "step": document,
    }  # fmt: skip
    ready.change(connection, _INSERT, values)


def read_diary(stored: Any) -> Diary | None:
    """The diary as a past turn saw it."""
    return None if stored is None else _DIARY.validate_python(stored)


def read_events(stored: Any) -> tuple[Event, ...]:
    """The events of a past turn."""
    return _EVENTS.validate_python(stored)


def last_turns(connection: Connection, shop: str, most: int) -> list[dict[str, Any]]:
    """The last *most* turns of *shop* as they are kept, oldest first."""
    query = select(turns).where(turns.c.shop == shop).order_by(turns.c.at.desc(), turns.c.id.desc()).limit(most)
    return [dict(row) for row in reversed(connection.execute(query).mappings().all())]
