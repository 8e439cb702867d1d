"""A turn as it was once taken, from the database or from an exported file."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from typing import Any

from pydantic import BaseModel, ConfigDict, ValidationError

from service.conversation.events import Event
from service.conversation.step import Step
from service.storage import turns

FORM = 1
"""The form of an exported line; it rises when a change needs old files to be read differently."""


class PastTurn(BaseModel):
    """
    All that a turn saw and decided.

    step: None where it failed then, or cannot be read any more. held: a person held the thread, as far as the turn shows
    it. redacted: names, numbers and addresses were replaced.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    form: int = FORM
    id: str
    thread: str
    number: int
    at: datetime
    state_before: dict[str, Any]
    events: tuple[Event, ...]
    edition: str
    autonomy: str
    code_version: str
    diary: dict[str, Any] | None = None
    step: Step | None = None
    held: bool = False
    redacted: bool = False


class NotATurn(ValueError):
    """A line of a file is not an exported turn; the message says which and what is wrong."""


HELD_WORDS = "A person holds the thread"
"""How a turn's reasons begin when somebody held the thread; the row itself does not say it."""


def stored(row: Mapping[str, Any]) -> PastTurn:
    """The turn in a *row* of the table."""
    step = _step(row["step"])
    return PastTurn(
        id=row["id"],
        thread=row["thread"],
        number=row["number"],
        at=row["at"],
        state_before=row["state_before"],
        events=turns.read_events(row["events"]),
        edition=row["edition"],
        autonomy=row["autonomy"],
        code_version=row["code_version"],
        diary=row["diary"],
        step=step,
        held=step is not None and any(reason.words.startswith(HELD_WORDS) for reason in step.reasons),
    )


def _step(kept: Mapping[str, Any]) -> Step | None:
    """The step as it was kept; None where the turn failed, or where a step of old no longer reads as one."""
    try:
        return None if kept.get("failed") else Step.model_validate(kept)
    except ValidationError:
        return None


def as_lines(past: Iterable[PastTurn]) -> Iterator[str]:
    """Each turn as a line of JSON."""
    for turn in past:
        yield turn.model_dump_json(exclude_defaults=False)


def from_lines(lines: Iterable[str], file: str) -> Iterator[PastTurn]:
    """The turns in *lines* of the file called *file*; empty lines are passed over. Raises NotATurn."""
    for place, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        try:
            found = PastTurn.model_validate(json.loads(line))
        except json.JSONDecodeError as wrong:
            raise NotATurn(f"{file}, line {place}: this is not JSON ({wrong.msg}). Export the turns again.") from wrong
        except ValidationError as wrong:
            where = " > ".join(map(str, wrong.errors()[0]["loc"]))
            said = wrong.errors()[0]["msg"]
            raise NotATurn(f"{file}, line {place}, {where}: {said}. Export the turns again.") from wrong
        if found.form != FORM:
            raise NotATurn(f"{file}, line {place}: form {found.form} is not known here. Export the turns again.")
        yield found
