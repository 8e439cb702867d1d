"""What two steps of the same turn decide differently, as rows of what was and what would be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.conversation.state import TicketState
from service.conversation.step import Step

Kind = str
REPLY, TICKET, LEVEL, DIARY, ALARM = "reply", "ticket", "level", "visit", "alarm"
KINDS: dict[Kind, str] = {
    REPLY: "other replies",
    TICKET: "tickets otherwise",
    LEVEL: "another triage level",
    DIARY: "visits otherwise",
    ALARM: "other alarms",
}
"""What may differ, and how a count of it is said."""

_FIELDS = ("appliance", "stage", "closed", "symptoms", "one_of", "observations", "checks", "hazards", "urgency", "facts",
           "theories", "stop_use", "needs_person", "just_send", "cause_found")  # fmt: skip
_NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Difference:
    """One row: of which kind, what it is about, what was decided then and what would be now."""

    kind: Kind
    about: str
    was: str
    now: str


def differences(was: Step, now: Step) -> Iterator[Difference]:
    """Replies, tickets, levels, visits and alarms that *now* decides otherwise than *was*."""
    yield from _replies(was, now)
    before = {ticket.key: ticket for ticket in was.state.tickets}
    after = {ticket.key: ticket for ticket in now.state.tickets}
    for key in dict.fromkeys([*before, *after]):
        yield from _ticket(key, before.get(key), after.get(key))
    yield from _listed(DIARY, "visit", [_change(one) for one in was.diary], [_change(one) for one in now.diary])
    yield from _listed(
        ALARM, "alarm", [f"{a.kind}: {a.text}" for a in was.alarms], [f"{a.kind}: {a.text}" for a in now.alarms]
    )


def _replies(was: Step, now: Step) -> Iterator[Difference]:
    before = [(reply.kind, reply.text) for reply in was.replies]
    after = [(reply.kind, reply.text) for reply in now.replies]
    if before != after:
        for place in range(max(len(before), len(after))):
            one, other = (replies[place] if place < len(replies) else None for replies in (before, after))
            if one != other:
                yield Difference(REPLY, f"reply {place + 1}", _reply(one), _reply(other))


def _reply(reply: tuple[str, str] | None) -> str:
    if reply is None:
        return _NOTHING
    return reply[1] if reply[0] in ("answer", "started") else f"[{reply[0]}] {reply[1]}"


def _ticket(key: str, was: TicketState | None, now: TicketState | None) -> Iterator[Difference]:
    if was is None or now is None:
        yield Difference(TICKET, key, _opened(was), _opened(now))
        return
    for field in _FIELDS:
        before, after = getattr(was, field), getattr(now, field)
        if before != after:
            yield Difference(TICKET, f"{key} {field.replace('_', ' ')}", _said(before), _said(after))
    if was.level != now.level:
        yield Difference(LEVEL, key, was.level, now.level)


def _opened(ticket: TicketState | None) -> str:
    if ticket is None:
        return "no ticket"
    return f"{ticket.appliance}: {_said(ticket.symptoms)} ({ticket.level})"


def _said(value: object) -> str:
    if isinstance(value, dict):
        return ", ".join(_held(key, said) for key, said in value.items()) or _NOTHING
    if isinstance(value, tuple):
        return ", ".join(_said(item) for item in value) or _NOTHING
    return _NOTHING if value is None else str(value)


def _held(key: str, said: object) -> str:
    if isinstance(said, bool):
        return key if said else f"not {key}"
    return f"{key}={_said(said)}"


def _change(change: object) -> str:
    fields = change.model_dump(mode="json") if hasattr(change, "model_dump") else {}
    kept = ("type", "technician", "start", "end", "tentative", "why")
    return ", ".join(f"{name} {fields[name]}" for name in kept if fields.get(name) not in (None, "", False))


def _listed(kind: Kind, about: str, was: list[str], now: list[str]) -> Iterator[Difference]:
    if was != now:
        yield Difference(kind, about, "; ".join(was) or _NOTHING, "; ".join(now) or _NOTHING)
