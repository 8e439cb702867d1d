"""The parts of a day in a wish: morning, afternoon, evening; no greeting, no "am I" and no day of the story."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.model import Part
from service.reading.times.clock import is_clock
from service.reading.times.day_words import form_at, is_gone_by, is_tomorrow
from service.reading.times.days import DAYS
from service.reading.times.occasions import is_occasion
from service.reading.times.ruled_out import other_part
from service.reading.times.wish_draft import Draft
from service.reading.words.normalising import Word

_PART_WORDS: dict[Part, str] = {
    "morning": "morning mornings am mananas mananita mananitas early temprano tempranito",
    "afternoon": "afternoon afternoons lunch tarde tardes tardecita tardecitas",
    "evening": "evening evenings tonight noche nochecita",
}
PARTS = {word: part for part, words in _PART_WORDS.items() for word in words.split()}
_AM_BEFORE = frozenset(("what", "where", "how", "who", "why", "when", "and", "so", "if", "that"))
"""Behind these "am" is no morning: “what am I paying for”."""


_EARLY = frozenset(("early", "temprano", "tempranito"))
_BESIDE_EARLY = DAYS.keys() | {"tomorrow", "tmrw", "manana", "today", "hoy", "please", "porfa", "pls"}


def _is_early(words: Sequence[Word], at: int) -> bool:
    """“miércoles temprano”, “early thursday”, “bien temprano porfa”, not “early next week” nor “went off early”."""
    before = form_at(words, at - 1)
    back = at - 2 if before in ("bien", "muy", "mas", "real", "super") else at - 1
    after = at + 2 if form_at(words, at + 1) in ("on", "el", "del") else at + 1
    if form_at(words, at + 1) in ("afternoon", "evening", "tarde") or before in ("too", "so", "less"):
        return False
    return form_at(words, back) in _BESIDE_EARLY or form_at(words, after) in _BESIDE_EARLY


_SEND = frozenset(
    ("send", "come", "free", "available", "openings", "opening", "anybody", "anyone", "somebody", "someone")
)
_PLEA = frozenset(
    ("can", "could", "please", "pls", "any", "anybody", "anyone", "somebody", "someone", "available", "free")
)
_PLEA_WITHIN = 6


def _is_asked_for_today(words: Sequence[Word], at: int) -> bool:
    """“can you send somebody this afternoon”: asked for, and not when it began."""
    told = {word.form for word in words[max(0, at - _PLEA_WITHIN) : at]}
    return not (_SEND.isdisjoint(told) or _PLEA.isdisjoint(told))


def part_of_day(draft: Draft, words: Sequence[Word], at: int) -> None:
    """Have the part of the day named at *at* be of the wish."""
    form, before = words[at].form, form_at(words, at - 1)
    if form == "manana" and not is_tomorrow(words, at):
        form = "mananas"
    part = PARTS.get(form)
    if (
        part is None
        or before in ("good", "buenas", "buenos", "last", "yesterday", "i", "mas", "most")
        or (before == "this" and not _is_asked_for_today(words, at))
        or is_clock(before)
        or (form == "am" and (before in _AM_BEFORE or form_at(words, at + 1) in ("i", "not")))
        or before == "cada"
        or (form in ("mananita", "tardecita", "nochecita") and before not in ("la", "de", "en", "por"))
        or is_occasion(words, at)
        or form_at(words, at - 2) in ("todas", "todos", "cada")
        or is_gone_by(words, at)
    ):
        return
    late = before == "ya" and form_at(words, at - 2) in DAYS
    if form in ("tarde", "noche") and before not in ("la", "en", "por", "las", "de") and not late:
        return
    if form in _EARLY and not _is_early(words, at):
        return
    if before == "my" and form in ("morning", "afternoon", "evening") and form_at(words, at + 1) not in ("is", "s"):
        return
    if form == "lunch" and before not in ("after", "before"):
        return
    if form in ("morning", "afternoon", "evening") and before in ("every", "yesterday", "since", "all", "whole"):
        return
    if (before in ("la", "el") and form_at(words, at - 2) in ("toda", "todo", "todas")) or before in (
        "toda",
        "y",
        "dia",
    ):
        return
    if before == "de" and form_at(words, at - 2) in ("ni", "y", "o", "dia"):
        return
    draft.part = "morning" if form == "lunch" and before == "before" else other_part(part, words, at)
    draft.saw(words, at, at)
