"""A working day that a text tells, and the hours around it that are left: “i work 8 to 4, anything after?”."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import time

from service.reading.model import Wish
from service.reading.times.clock import Hours, hours_between, may_be_hour
from service.reading.times.day_words import form_at
from service.reading.times.days import DAYS
from service.reading.times.wish_draft import Draft
from service.reading.words.letters import has_any
from service.reading.words.normalising import Word

_DAY = rf"(?:{'|'.join(sorted(DAYS, key=len, reverse=True))})s?"
_AT_WORK = re.compile(
    r"(?:\b(?:i|we|he|she|i'?ll|my (?:wife|husband))\s+(?:(?:usually|always|only|also|normally|do|have to|gotta)\s+)*works?|"
    r"^work|\b(?:i'?m|am|we'?re|are|be|been|i|we)\s+(?:working|teaching)|"
    r"\b(?:at|have|got|on)\s+(?:work|shift|class|school)|\b(?:in|have)\s+(?:class|classes|school)|"
    r"\bmy\s+(?:shift|hours|schedule|work)(?:\s+(?:hours|day))?(?:\s*(?:'?s|is|are))?|"
    r"\b(?:trabajo|trabajamos|trabajando|turno|horario|jale|escuela|clases?)(?:\s+(?:es|son))?)"
    rf"(?:[\s,]+(?:from|on|de|desde|the|el|los|las|to|a|al|thru|through|and|y|{_DAY}|weekdays|every|day|everyday|today|"
    r"tomorrow|hoy|manana|like|about|usually|entre|semana|todos|dias|is|es))*\s*$"
)
"""What leads up to the hours somebody works: “i work mon to fri”, “mi turno es de”."""
_WORKED = re.compile(
    r"\s*,?\s*(?:i work|we work|(?:i'?m|i am) (?:at work|working|on shift)|trabajo|trabajamos|"
    r"(?:ando|estoy) (?:trabajando|en el (?:trabajo|jale)))\b(?!\s+(?:for|from|on))"
)
"""The same behind the hours: “8 to 4 im at work”."""
_SIGNS = (
    "work",
    "teach",
    "shift",
    "class",
    "school",
    "hours",
    "sched",
    "trabaj",
    "turno",
    "horario",
    "jale",
    "escuela",
    "clase",
)
"""Without one of these no text tells of work: looked for first."""
_AFTER_IT = frozenset(("after", "afterwards", "afterward", "despues", "luego"))
_BEFORE_IT = frozenset(("before", "beforehand", "antes"))
_LATER = frozenset(("later", "tarde"))
_SOMETHING = frozenset(("anything", "something", "any", "algo", "mas", "or", "bit"))
_SMALL = frozenset(("de", "the", "el", "la", "las"))
_NOON = time(12)


def working_hours(folded: str) -> Hours | None:
    """The hours in *folded* that somebody is at work; None where no hours are told as such."""
    span = hours_between(folded) if has_any(folded, _SIGNS) else None
    if span is None or not (_AT_WORK.search(folded[: span.first]) or _WORKED.match(folded, span.last)):
        return None
    start = span.start
    if start >= span.end and start > _NOON:  # "i work 6 to 2" begins in the morning
        start = start.replace(hour=start.hour - 12)
    return Hours(start, span.end, span.first, span.last)


def is_around_work(wish: Wish, folded: str) -> bool:
    """Whether *wish* is for the hours around those worked: of a visit, whatever was asked."""
    busy = working_hours(folded)
    return busy is not None and busy.start < busy.end and (wish.start == busy.end or wish.end == busy.start)


def around_work(draft: Draft, words: Sequence[Word], busy: Hours, *, framed: bool) -> None:
    """
    Have the hours before or behind those worked be of the wish: the side that is asked for, else both.

    framed: a time is sought, so that working hours alone say when not. What the text names by itself counts.
    """
    if draft.start or draft.end or draft.part or busy.start >= busy.end:
        return
    behind = [at for at, word in enumerate(words) if word.start >= busy.last]
    after = [at for at in behind if _is_bare(words, at, _AFTER_IT) or _is_later(words, at)]
    before = [at for at in behind if _is_bare(words, at, _BEFORE_IT)]
    if not (after or before or framed):
        return
    draft.from_then = True
    if after and not before:
        draft.start = busy.end
    else:
        draft.end = busy.start
        draft.also = [] if before and not after else [(busy.end, None)]
    draft.requested = draft.requested or bool(after or before)
    draft.saw_signs(busy.first, max([busy.last, *(words[at].end for at in (*after, *before))]))


def _is_bare(words: Sequence[Word], at: int, bounds: frozenset[str]) -> bool:
    """Whether the bound at *at* has no hour and no day of its own: “anything after?”, “después del trabajo”."""
    if words[at].form not in bounds:
        return False
    ahead = at + 1
    while form_at(words, ahead) in _SMALL and not words[ahead].brk:
        ahead += 1
    if ahead >= len(words) or words[ahead].brk:
        return True
    return not (may_be_hour(words[ahead].form) or words[ahead].form in DAYS)


def _is_later(words: Sequence[Word], at: int) -> bool:
    return words[at].form in _LATER and form_at(words, at - 1) in _SOMETHING
