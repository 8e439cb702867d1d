"""A conversation as the desk shows it: their texts, ours with state, cost and reasons, and turns that said nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from zoneinfo import ZoneInfo

from service.edge.parts import joined
from service.pages import words
from service.storage.desk import HeardRow, TurnRow
from service.storage.outbox import Standing
from service.storage.parts import HELD


@dataclass(frozen=True, slots=True)
class Why:
    """One reason of the line. what: heard, believed, asked... rule: where in the rules it comes from, may be empty."""

    what: str
    words: str
    rule: str


@dataclass(frozen=True, slots=True)
class Entry:
    """
    One thing in the conversation.

    kind: theirs, ours, person or quiet (a turn that sent nothing). can: what the office may do with it (``draft``: send,
    edit, discard; ``again``: send again; or nothing). cost: segments in words. pictures: where each can be seen. turn: of
    the reasons.
    """

    kind: str
    id: str
    who: str
    text: str
    at: str
    moment: str
    status: str
    trouble: bool
    cost: str
    can: str
    pictures: tuple[str, ...]
    turn: str
    why: tuple[Why, ...]


@dataclass(frozen=True, slots=True)
class Talk:
    """The conversation, oldest first. segments: what all our texts cost together."""

    entries: tuple[Entry, ...]
    segments: int
    resting: bool


def build_talk(
    heard: Sequence[HeardRow],
    replies: Sequence[Standing],
    turns: Mapping[str, TurnRow],
    turn_of: Mapping[str, str | None],
    *,
    customer: str,
    now: datetime,
    zone: ZoneInfo,
) -> Talk:
    """The talk of one thread. turn_of: outbox row id to the turn that wrote it. customer: how to call the other side."""
    entries: list[tuple[datetime, int, Entry]] = []
    told: set[str] = set()
    for row in wholes(heard):
        entries.append((row.at, 0, _theirs(row, customer, now, zone)))
    for place, reply in enumerate(replies, start=1):
        turn = turn_of.get(reply.id) or ""
        reasons = _why(turns.get(turn)) if turn not in told else ()
        told.add(turn)
        entries.append((reply.created_at, place, _ours(reply, turns.get(turn), reasons, now, zone)))
    for turn_row in turns.values():
        if turn_row.id not in told and (turn_row.reasons or turn_row.failed):
            entries.append((turn_row.at, 9_999, _quiet(turn_row, now, zone)))
    entries.sort(key=lambda entry: entry[:2])
    paid = sum(reply.segments for reply in replies if reply.status in ("sent", "delivered", "unsure"))
    return Talk(tuple(entry for _, _, entry in entries), paid, any(row.turn is None for row in heard))


def wholes(heard: Sequence[HeardRow]) -> list[HeardRow]:
    """*heard* with the pieces of a long text that were read together made one, as they were read; part: how many."""
    read: dict[tuple[str, str | None], list[HeardRow]] = {}
    for row in heard:
        alone = row.whole is None or bool(row.media)  # pictures are shown with the text they came with
        read.setdefault((row.id if alone else row.whole or "", row.turn), []).append(row)
    return [_whole(rows) for rows in read.values()]


def _whole(rows: Sequence[HeardRow]) -> HeardRow:
    first = rows[0]
    if first.whole is None:
        return first
    return replace(first, text=joined((row.part or 0, row.text) for row in rows), part=len(rows))


def _status(row: HeardRow) -> str:
    if row.turn is None:
        return "rests a moment before it is read"
    here = f"{row.part} of {row.parts} parts" if row.whole and row.part != row.parts else ""
    return f"{here}; waits for the rest of it" if row.turn == HELD else here


def _theirs(row: HeardRow, customer: str, now: datetime, zone: ZoneInfo) -> Entry:
    return Entry(
        kind="theirs", id=f"in-{row.id}", who=customer, text=row.text, at=words.when_words(row.at, now, zone),
        moment=row.at.isoformat(), status=_status(row), trouble=False, cost="", can="", turn="", why=(),
        pictures=tuple(f"/desk/pictures/{row.id}/{place}" for place in range(1, len(row.media or ()) + 1)),
    )  # fmt: skip


def _ours(reply: Standing, turn: TurnRow | None, why: tuple[Why, ...], now: datetime, zone: ZoneInfo) -> Entry:
    moment = reply.sent_at or reply.created_at
    status = words.REPLIES.get(reply.status, reply.status) + (f": {reply.reason}" if reply.reason else "")
    can = "draft" if reply.status == "draft" else "again" if reply.status in ("failed", "unsure") else ""
    who = "The line" if reply.author == "line" else reply.author
    if reply.kind == "on_call":
        who = f"To on call, {words.phone_words(reply.number)}"
    return Entry(
        kind="ours" if reply.author == "line" else "person", id=reply.id, who=who, text=reply.text,
        at=words.when_words(moment, now, zone), moment=moment.isoformat(), status=status,
        trouble=reply.status in ("failed", "unsure"), cost=segment_words(reply.segments), can=can, pictures=(),
        turn=f"turn {turn.number}" if turn else "", why=why,
    )  # fmt: skip


def _quiet(turn: TurnRow, now: datetime, zone: ZoneInfo) -> Entry:
    text = "This turn failed; a person was asked for." if turn.failed else "Nothing was sent."
    return Entry(
        kind="quiet", id=f"turn-{turn.number}", who="The line", text=text, at=words.when_words(turn.at, now, zone),
        moment=turn.at.isoformat(), status="", trouble=bool(turn.failed), cost="", can="", pictures=(),
        turn=f"turn {turn.number}", why=_why(turn),
    )  # fmt: skip


def _why(turn: TurnRow | None) -> tuple[Why, ...]:
    if turn is None:
        return ()
    return tuple(
        Why(words.code_words(str(reason.get("what", ""))), str(reason.get("words", "")), str(reason.get("rule") or ""))
        for reason in turn.reasons
    )


def segment_words(segments: int) -> str:
    """``1 segment``, ``2 segments``: what the carrier will bill."""
    return f"{segments} segment" if segments == 1 else f"{segments} segments"
