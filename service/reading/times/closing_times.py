"""Times that a crowded text closes with, or that whoever opens the door is there: “so mornings”, “thursday late”."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.times.day_words import form_at
from service.reading.times.days import DAYS
from service.reading.words.normalising import Word

_WANTED_BEHIND = frozenset((
    ("whatever", "you"), ("whichever", "you"), ("whenever", "you"), ("whatever", "works"), ("whichever", "works"),
    ("whatever", "u"), ("so", "anytime"), ("so", "after"), ("lo", "que"), ("ya", "despues"), ("anytime", "after"),
    ("if", "at"),
))  # fmt: skip
_ANY = frozenset(("anytime", "cualquier", "despues", "after", "any"))
_ANY_WITHIN = 8
_PLURALS = frozenset((
    "mornings", "afternoons", "evenings", "weekends", "weekdays", "mananas", "tardes", "lunes", "martes", "miercoles",
    "jueves", "viernes", "sabados", "domingos",
)) | {day + "s" for day in DAYS if day.endswith("day")}  # fmt: skip
_SO = frozenset(("so", "entonces", "que", "then"))
_BOUNDS = frozenset(("after", "before", "past"))
_BECAUSE = frozenset(("so", "if", "because", "cuz", "since", "thanks", "thank"))
_LATE = frozenset(("late", "early", "morning", "afternoon", "evening", "am", "pm", "temprano", "tarde", "anytime"))
_TOLD_SINCE = frozenset(
    ("since", "desde", "ago", "hace", "yesterday", "ayer", "anoche", "months", "weeks", "semanas", "meses")
)
"""Where the text has told when it began, the day it ends with is another one."""
_VERBS_WITHIN = 4
_LONG = 15
_NOT_BEFORE = frozenset((
    "on", "el", "last", "till", "til", "until", "since", "desde", "hasta", "every", "each", "cada", "the", "by", "this",
    "pasado", "happened", "again", "was", "is", "it", "started", "quit", "died", "del", "los",
))  # fmt: skip


def closes_with_it(words: Sequence[Word], at: int, first: int) -> bool:
    """Whether the time at *at*, in the statement that begins at *first*, is what the text says last or leaves open."""
    after, then = form_at(words, at + 1), form_at(words, at + 2)
    if (after, then) in _WANTED_BEHIND or _before_then(words, at) or _lets_in(words, at) or _suits_well(words, at):
        return True
    if form_at(words, at - 1) in _SO and words[at].form in _PLURALS and _is_last(words, at):
        return True
    if form_at(words, at - 1) in _BOUNDS and form_at(words, at - 2) == "so" and _is_last(words, at):
        return True
    if after == "please" and then in _BECAUSE and not words[at + 1].brk:
        return True
    return _is_let_out(words, at, first) or _is_the_end(words, at)


def _before_then(words: Sequence[Word], at: int) -> bool:
    """“i cook for church on sunday so before then please”."""
    behind = [word.form for word in words[at + 1 : at + 9]]
    return bool({("before", "then"), ("so", "before"), ("so", "after")} & {*pairwise(behind)}) or behind[:3] in (
        ["asi", "que", "antes"],
        ["so", "before", "that"],
    )


def _lets_in(words: Sequence[Word], at: int) -> bool:
    """“my mother is at the house all day tomorrow she can let you in”."""
    behind = [word.form for word in words[at + 1 : at + 9]]
    return "let" in behind and "in" in behind and not {"you", "u", "yall", "him", "them"}.isdisjoint(behind)


def _suits_well(words: Sequence[Word], at: int) -> bool:
    """“viernes en la tarde esta bien”, at the end of what is said."""
    day = any(form_at(words, near) in DAYS for near in range(at - 3, at + 1))
    here = at
    while form_at(words, here + 1) in ("en", "por", "la", "tarde", "manana", "noche"):
        here += 1
    well = form_at(words, here + 1) in ("esta", "estaria", "seria") and form_at(words, here + 2) in (
        "bien",
        "perfecto",
        "bueno",
    )
    return day and well and _is_last(words, here + 2)


def _is_let_out(words: Sequence[Word], at: int, first: int) -> bool:
    """“i get off at two so anytime after that”, “salgo a las 3, ya despues cualquier dia”, “off work after 330”."""
    told = [word.form for word in words[max(0, at - 5) : at]]
    off = not {("get", "off"), ("off", "work")}.isdisjoint(pairwise(told))
    if not (off or "salgo" in told or "salimos" in told):
        return False
    if form_at(words, at - 1) in ("after", "by") and first <= at:
        return True
    return not _ANY.isdisjoint(word.form for word in words[at + 1 : at + 1 + _ANY_WITHIN])


def _is_last(words: Sequence[Word], at: int) -> bool:
    return at + 1 >= len(words) or words[at + 1].brk > 0


def _is_the_end(words: Sequence[Word], at: int) -> bool:
    """“… so knock dont ring thursday late”: a day at the very end, where it was told before since when it fails."""
    if words[at].form not in DAYS or len(words) < _LONG or len(words) - at > 2 or form_at(words, at - 1) in _NOT_BEFORE:
        return False
    if at + 1 < len(words) and words[at + 1].form not in _LATE:
        return False
    near = [word.form for word in words[max(0, at - _VERBS_WITHIN) : at]]
    told = any(word.form in _TOLD_SINCE for word in words[: at - 1])
    return told and not any(form.endswith("ed") or form in _NOT_BEFORE for form in near[-2:])
