"""Words of danger that are somebody's name: “Brandon Sparks”, in the answer to who it is."""

from __future__ import annotations

from dataclasses import replace

from service.reading.dangers.hazards import Screened
from service.reading.model import Asked, HazardFound
from service.reading.words.normalising import Normal

_MOST_WORDS = 6
"""A longer answer tells more than a name."""

_NO_FIRST_NAME = frozenset((
    "it", "its", "the", "a", "i", "we", "saw", "see", "big", "blue", "some", "there", "theres", "many", "more", "lots", "still",
    "now", "help", "and", "hay", "vi", "veo", "unas", "muchas", "salen", "saca", "echa", "tiene", "la", "las", "el", "los",
    "mas",
))  # fmt: skip
"""What stands before a danger that is meant."""


def without_names(screened: Screened, normal: Normal, asked: Asked | None) -> Screened:
    """*screened* without what is only a surname, where a name was *asked* for."""
    if asked is None or asked.kind != "name" or not screened.raised or len(normal.words) > _MOST_WORDS:
        return screened
    raised = tuple(found for found in screened.raised if not _is_surname(found, normal))
    return screened if len(raised) == len(screened.raised) else replace(screened, raised=raised)


def _is_surname(found: HazardFound, normal: Normal) -> bool:
    """Whether one word tells the danger, behind a word that may be a first name and like it in its capitals."""
    words = normal.words
    at = next((n for n, word in enumerate(words) if word.start <= found.start < word.end), 0)
    if at == 0 or words[at].end < found.end or words[at].brk:
        return False
    first, last = (normal.text[word.start : word.end] for word in (words[at - 1], words[at]))
    if words[at - 1].form in _NO_FIRST_NAME:
        return False
    if last[:1].isupper() and first[:1].isupper():
        return not normal.text.isupper() or len(words) == 2
    return at == 1 and len(words) == 2 and first.isalpha() and first[:1].isupper() == last[:1].isupper()
