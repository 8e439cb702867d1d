"""What a short part of a text adds to the rest: a hint that stands by itself there, and that longer words do not belie."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.faults.said_last import ends_with
from service.reading.model import Found
from service.reading.words.normalising import Word
from service.reading.words.sentences import parts


def stands_by_itself(found: Found, words: Sequence[Word]) -> bool:
    """Whether *found* is more than a word or two of a longer statement, whatever the text tells besides."""
    return is_said_alone(found, words) or is_added(found, words)


def is_said_alone(found: Found, words: Sequence[Word]) -> bool:
    """
    Whether *found* is a statement of its own, “chorrea y truena”, “si congela y tira agua”, or named and denied, “hornilla no”:
    in a longer one its words may be anything.
    """
    first = next((n for n, word in enumerate(words) if word.start >= found.start), 0)
    end = next((n for n, word in enumerate(words) if word.start >= found.end), len(words))
    if end < len(words) and words[end].form == "no" and not words[end].brk:
        return ends_with(end, words)
    while end < len(words) and words[end].form in _HOW and not words[end].brk:
        end += 1
    if first > 1 and words[first - 1].form in _CLITICS and not words[first].brk:
        first -= 1
    joined = first > 0 and not words[first].brk and words[first - 1].form in _JOINS
    ended = end == len(words) or words[end].brk > 0 or words[end].form in _JOINS
    return joined and ended and found.words.lower().startswith(_HEARD_OR_SEEN)


_JOINS = frozenset(["y", "e", "pero", "ademas", "aparte"])
_HOW = frozenset(["horrible", "feo", "fuerte", "mucho", "recio", "bastante", "demasiado", "bien"])
_CLITICS = frozenset(["se", "le", "me"])
_HEARD_OR_SEEN = (
    "truena",
    "tronan",
    "rechin",
    "chilla",
    "rezumba",
    "traquet",
    "golpe",
    "gotea",
    "chorrea",
    "tira agua",
    "cruje",
)
"""How verbs begin that tell a fault wherever they stand alone; what pita or zumba may only tell the fault beside it."""

_BEGINS_MORE = frozenset(["also", "plus", "tambien", "ademas"])
_TOO = frozenset(["too", "also", "tambien"])
_WORDS_ADDED = 3
"""How long what is added may be: “rumbles too”, “y tira agua”."""


_OF_ALL = frozenset(["dead", "no_start", "stops_midcycle", "wont_stop"])
"""What is no more than the state of the whole: “y todo apagado”."""


def is_added(found: Found, words: Sequence[Word]) -> bool:
    """Whether *found* is all that a short part adds to what the others tell: “quits after 8 min, rumbles too”."""
    if found.code in _OF_ALL:
        return False
    for first, end in parts(words):
        if words[first].start <= found.start < words[end - 1].end:
            own = words[first:end]
            adds = first > 0 and (own[0].form in _BEGINS_MORE or any(word.form in _TOO for word in own))
            return adds and len(own) <= _WORDS_ADDED
    return False
