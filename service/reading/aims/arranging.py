"""What a time that is wanted, or left open, says of a visit: that somebody is to come, or at another time."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.aims.wanting import Wanted
from service.reading.model import Asked, Reading
from service.reading.times.visit_named import MOVING
from service.reading.words.normalising import Normal, Word

_ABOUT_WHEN = frozenset(("book", "reschedule", "cancel", "ask_status", "talk_to_person", "wrong_number", "spam"))
"""With one of these heard, a time that is wanted belongs to it."""

_MOVED = "reschedule"
_STANDING = MOVING | {
    "appt", "appointment", "appointments", "visit", "cita", "visita", "instead", "sooner", "scheduled", "booked", "coming",
    "later", "earlier", "agendada", "agendado", "slot", "tech", "technician", "tecnico", "muchacho", "venian", "vienen", "wait",
    "cancel", "guy",
}  # fmt: skip
"""Without one of these a complaint speaks of no visit that stands and could be moved."""

_CHANCE = r"(?:chance|minute|time|tiempo|espacio|lugar)"
_OPEN = re.compile(
    r"(?:^|[.,;!?\n]\s*|\bso )(?:(?:no|not in a|not in any) (?:rush|hurry),? )?"
    r"(?:so |just |or |pues |y |que |come (?:(?:on|by|out|over) )?|vengan |venga |pasen |pase )*"
    rf"(?:when ?ever|when (?:you|u|ya|yall)(?: guys)? (?:can|(?:get|have) (?:a )?{_CHANCE})|any ?time|any ?day|"
    rf"(?:a la hora|el dia|cuando) (?:que )?(?:pued[ae]n?|gusten?|quieran?|tengan? {_CHANCE}))"
    r"(?: (?:you|u|yall|ustedes|uds|can|is|it|its|fine|ok|okay|good|by|with|for|me|us|works|please|pls|thanks|thank|porfa|"
    r"por|favor|gracias|esta|bien))*\s*(?:[.,;!?\n]|$)"
    r"|[.,;!\n]\s*(?:ya |pues |por favor |porfa |please |que )*(?:vengan|venganse|manden a alguien|manden alguien)"
    r"(?: (?:ya|por favor|porfa|please|pronto|rapido|porfis|urge))*\s*[.!]*$"
)
"""“whenever you can.”, “…, cuando puedan”: beside a complaint it asks for a visit at any time."""
_IN_OPEN = ("when", "any", "cuando", "hora", "dia ", "vengan", "manden")


def with_the_time(wanted: Wanted, draft: Reading, normal: Normal, asked: Asked | None) -> tuple[str, ...]:
    """
    What is *wanted*, and what a day or a time wanted in the *draft*, or left to the shop beside a complaint, says where nothing
    was *asked*: that somebody is to come then; without a complaint, and with a day told that does not suit, that a visit is to
    be another time.
    """
    wish, complains = draft.wish, bool(draft.symptoms or draft.hazards)
    heard = wanted.intents
    if complains and asked is None and _MOVED in heard and not _speaks_of_a_visit(normal.words):
        heard = tuple(code for code in heard if code != _MOVED)
    if asked is not None or _ABOUT_WHEN & set(heard):
        return heard
    if wish is None or "wish" not in draft.facts:
        return (*heard, "book") if complains and _leaves_open(normal.folded) else heard
    dated = wish.days_in or wish.days_out or wish.dates or wish.week or set(wish.relative) - {0} or wish.relative_out
    if not (dated or wish.soonest or complains):
        return heard
    unsuited = bool(wish.days_out or wish.relative_out) and bool(
        wish.days_in or wish.relative or wish.dates or wish.week
    )
    return (*heard, _MOVED if unsuited and not complains else "book")


def _speaks_of_a_visit(words: Sequence[Word]) -> bool:
    """Whether a visit that stands may be spoken of."""
    return not _STANDING.isdisjoint(word.form for word in words)


def _leaves_open(folded: str) -> bool:
    """Whether a statement of its own leaves the time to the shop."""
    return any(sign in folded for sign in _IN_OPEN) and _OPEN.search(folded) is not None
