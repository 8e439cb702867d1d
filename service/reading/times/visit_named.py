"""The time of the visit that stands already: “my thursday appt”, “la cita de hoy”, “from friday to monday”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.times.day_words import form_at
from service.reading.times.days import DAYS
from service.reading.words.normalising import Word

MOVING = frozenset((
    "move", "moving", "change", "changing", "switch", "switching", "push", "bump", "reschedule", "swap", "postpone", "cambiar",
    "cambie", "cambien", "cambiarla", "cambiamos", "mover", "mueva", "muevan", "movemos", "pasar", "pasamos", "pasen",
    "recorrer", "recorran", "recorremos", "reagendar", "pushing", "bumping", "muevala", "muevanla", "muevalo", "moverla",
    "pasarla", "recorrerla", "recorrala", "recorranla", "cambiela", "cambienla", "pasela", "pasenla",
))  # fmt: skip
"""With these a first day and a second are from one to the other, and no stretch of days."""
_VISIT = frozenset((
    "appt", "appts", "appointment", "appointments", "apt", "appoint", "visit", "visits", "slot", "cita", "sita", "visita",
    "turno",
))  # fmt: skip
_OURS = frozenset(("my", "our", "the", "this", "that", "mi", "nuestra", "la", "esa", "esta", "lo"))
_MINE = frozenset(("my", "our", "mi", "nuestra"))
_OFFERED = "slot"
"""“the thurs 8 slot” is one that is offered, unless it is to be moved."""
_NO_VISIT_YET = frozenset(("a", "an", "any", "una", "alguna", "another", "otra", "need", "want", "get", "book"))
_STANDS = frozenset(("is", "was", "s", "es", "era", "esta", "tengo", "tenia", "tenemos", "que", "had", "have"))
_LINKS = _STANDS | {"for", "on", "el", "para", "set", "scheduled", "booked", "the", "del", "de", "of"}
_TO = frozenset(("to", "a", "al", "pa", "pal", "para", "por", "for", "til", "till", "until", "hasta", "into"))
_SOME_DAY = DAYS.keys() | {
    "today", "tomorrow", "hoy", "manana", "next", "this", "another", "other", "later", "week", "proxima", "otro", "el", "la",
    "lunes", "the", "either", "some",
}  # fmt: skip
_SMALL = frozenset(("the", "my", "our", "this", "el", "la", "mi", "lo", "del", "de"))
_INSIDE = 3
"""Words that may stand between a day and the visit it belongs to: “my friday 2 pm appt”, “appointment is set for friday”."""


def is_of_the_visit(words: Sequence[Word], at: int) -> bool:
    """Whether the day at *at* is that of the visit made already."""
    return _day_first(words, at) or _visit_first(words, at) or _moved_from(words, at)


def is_hour_of_the_visit(words: Sequence[Word], at: int) -> bool:
    """“my 10am visit”, “wednesday's 2 pm appt”: no hour asked for."""
    behind = at + 2 if form_at(words, at + 1) in ("am", "pm") else at + 1
    if form_at(words, behind) not in _VISIT or words[behind].brk:
        return False
    before = form_at(words, at - 1)
    return before in ("my", "our", "mi") or (before in DAYS and is_of_the_visit(words, at - 1))


def _day_first(words: Sequence[Word], at: int) -> bool:
    """“my thurs appt”, “wednesday's 9 am visit”."""
    before = form_at(words, at - 1)
    possessive = words[at].end - words[at].start > len(words[at].form)
    if not (before in _OURS or before in MOVING or possessive):
        return False
    for near in range(at + 1, min(len(words), at + 1 + _INSIDE)):
        if words[near].brk:
            return False
        form = words[near].form
        if form in _VISIT:
            return form != _OFFERED or before not in _OURS or before in _MINE or _is_to_move(words)
        if not (form[0].isdigit() or form in ("am", "pm", "morning", "afternoon", "evening")):
            return False
    return False


def _is_to_move(words: Sequence[Word]) -> bool:
    return any(word.form in MOVING for word in words)


def _visit_first(words: Sequence[Word], at: int) -> bool:
    """“la cita del jueves”, “appointment of friday”, “appointment's for fri”, “la cita que tenía el jueves”."""
    near = at - 1
    linked: list[str] = []
    while near >= 0 and words[near].form in _LINKS and len(linked) <= _INSIDE and not words[near + 1].brk:
        linked.append(words[near].form)
        near -= 1
    if near < 0 or words[near].form not in _VISIT or words[near + 1].brk or form_at(words, near - 1) in _NO_VISIT_YET:
        return False
    of = linked[-1:] in (["of"], ["del"], ["de"]) or (linked == ["on"] and _goes_to(words, at + 1))
    stands = bool(_STANDS & set(linked)) or words[near].end - words[near].start > len(words[near].form)
    return of or stands


def _moved_from(words: Sequence[Word], at: int) -> bool:
    """“move it from friday to monday”, “push thursday to next week”."""
    if not _goes_to(words, at + 1):
        return False
    back = at - 1
    while back >= 0 and words[back].form in _SMALL:
        back -= 1
    if form_at(words, back) in MOVING:
        return form_at(words, back) not in ("pasar", "pasen") or form_at(words, at + 2) not in ("la", "las")
    led = "from" if form_at(words, back) == "from" else form_at(words, at - 1)
    return led in ("from", "del", "de") and any(word.form in MOVING for word in words[:at])


def _goes_to(words: Sequence[Word], at: int) -> bool:
    """Whether “to” and some day stand at *at*, an hour or a visit's name before them left aside."""
    while at < len(words) and (
        words[at].form[0].isdigit() or words[at].form in ("am", "pm") or words[at].form in _VISIT
    ):
        at += 1
    return form_at(words, at) in _TO and form_at(words, at + 1) in _SOME_DAY and form_at(words, at + 1) != "las"


_AT_THE_HOUR = frozenset(
    ("it", "that", "us", "me", "this", "back", "till", "til", "until", "to", "a", "para", "las", "la", "hasta")
)


def is_moved_to(words: Sequence[Word], at: int) -> bool:
    """“can u push to 3”, “push it back to 3”, “muévala a las 3”: the hour to which the visit is to be moved."""
    if form_at(words, at - 1) not in ("to", "till", "til", "until", "las", "la"):
        return False
    back = at - 1
    while back >= 0 and words[back].form in _AT_THE_HOUR and not words[back + 1].brk:
        back -= 1
    return form_at(words, back) in MOVING and not (back + 1 < len(words) and words[back + 1].brk)
