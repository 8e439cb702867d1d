"""The days and hours that words name, gathered into a draft of a wish."""

from __future__ import annotations

from collections.abc import Container, Sequence

from service.reading.times.clock import HOURS, may_be_hour
from service.reading.times.day_words import is_no_day
from service.reading.times.wish_days import DAY_WORDS, day_named, nth_named
from service.reading.times.wish_draft import Draft
from service.reading.times.wish_hours import hour_named
from service.reading.times.wish_parts import PARTS, part_of_day
from service.reading.words.normalising import Word

_TIMES = frozenset(DAY_WORDS) | frozenset(PARTS) | HOURS | {"manana"}
"""What may tell a time and is no figure: looked for first, for few words of a text do."""


def gathered(text: str, words: Sequence[Word], skipped: Container[int]) -> Draft:
    """The days and hours that the words name, but for those *skipped*."""
    draft = Draft(text=text)
    for at, word in enumerate(words):
        if at in skipped:
            continue
        said = word.was or word.form
        if not (said in _TIMES or word.form in _TIMES or word.form[0].isdigit()):
            continue
        if said in DAY_WORDS and not is_no_day(words, at, said):
            day_named(draft, words, at, said)
        if word.form in PARTS or word.form == "manana":
            part_of_day(draft, words, at)
        if may_be_hour(word.form):
            hour_named(draft, words, at)
            nth_named(draft, words, at)
    return draft
