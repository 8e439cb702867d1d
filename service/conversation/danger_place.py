"""While a danger is not cleared: where the machine stands, for the office that arranges the visit."""

from __future__ import annotations

from service.conversation.ask import again, pose
from service.conversation.fit import say_not_ours
from service.conversation.people import reads_when
from service.conversation.state import DangerHeld
from service.conversation.underway import Turn
from service.rulebook.schema.danger import Danger

ASKED_MOST = 2
"""As often as the ZIP code or the street is asked for while a danger stands."""


def ask_where(turn: Turn, held: DangerHeld, rule: Danger | None) -> None:
    """
    Where the machine stands, for the office that arranges the visit: one question a text, each put twice at most.

    Only for a danger that a visit ends, or one that whoever may has found safe; no window is offered before a person
    has read it.
    """
    held = turn.state.danger or held
    ticket = turn.the(held.ticket)
    if rule is None or not (rule.visit or held.checked) or ticket.visit is not None or not ticket.open:
        return
    if say_not_ours(turn, ticket):
        turn.put(asked=None)
        return
    contact = turn.state.contact
    missing = "postal_code" if not contact.postal_code else "address" if not contact.address else None
    asked = turn.state.asked
    if missing is None and {"postal_code", "address"} & turn.learned:
        _all_known(turn)
    if missing is None or (asked is not None and asked.kind != missing):
        return
    times = sum(1 for mark in ticket.told if mark == f"danger:{missing}")
    if times >= ASKED_MOST:
        turn.put(asked=None)
        return
    turn.change(ticket.key, told=(*ticket.told, f"danger:{missing}"))
    if asked is None or not again(turn):
        pose(turn, missing, ticket=ticket.key)


def _all_known(turn: Turn) -> None:
    """Nothing more is needed: the office sets the time."""
    if all(p.id != "danger.office_has" for p in turn.pieces):
        turn.tell("danger.office_has", when=reads_when(turn))
