"""Whether a turn may come to offer or book windows, and so needs the technicians' days loaded."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime

from service.conversation.events import Event, Texted
from service.conversation.state import State
from service.rulebook.model import Rulebook

_ZIP = re.compile(r"(?<!\d)\d{5}(?!\d)")


def needs_diary(state: State, events: Sequence[Event], rulebook: Rulebook, now: datetime) -> bool:  # noqa: ARG001 - others call it by this signature
    """
    True when *events* may lead to windows.

    Nothing is offered before a ZIP code of the shop's area is known, so a text without one in a thread without one needs no
    diary; neither does a wake, nor the office, whose windows are its own.
    """
    texts = [e for e in events if isinstance(e, Texted)]
    if not texts or state.consent == "out":
        return bool(texts) and _opts_in(texts, state)
    told = [z for t in texts for z in _ZIP.findall(t.text)]
    if state.contact.postal_code is not None:
        told.append(state.contact.postal_code)
    return any(z in rulebook.shop.area for z in told)


def _opts_in(texts: Sequence[Texted], state: State) -> bool:
    """Somebody who opted out may start again and go on in one breath."""
    return len(texts) > 1 and state.contact.postal_code is not None
