"""Hours told as a limit, "not before 11", "only home after 4": for the windows offered and the visit that stands."""

from __future__ import annotations

from service.conversation.matters import bare_words, named
from service.conversation.underway import Turn
from service.reading import model
from service.reading.model import Reading, Wish
from service.scheduling.wishes import binds

_BEHIND = 4
"""As many words of a limit are read by themselves where the whole text tells no time."""


def limit_told(turn: Turn, reading: Reading, window: str) -> Wish | None:
    """
    The hours that *reading* sets as a limit to when somebody is home or we may come; None where it sets none.

    window: the window that is talked about, in words. A limit is heard whatever was asked: "i cant do before 11 actually".
    """
    limit = named(turn.rulebook, "limits_hours", reading.text)
    if limit is None or named(turn.rulebook, "when_home", reading.text) is None:
        return None
    if _has_hours(reading.wish):
        return reading.wish
    asked = model.Asked("offer", offers=(window,))
    words, bare = bare_words(reading.text), bare_words(limit)
    at = next(n for n in range(len(words)) if words[n : n + len(bare)] == bare)
    for text in (reading.text, " ".join(words[at : at + len(bare) + _BEHIND])):
        wish = turn.reader.read(text, asked=asked).wish
        if _has_hours(wish):
            return wish
    return None


def is_limit(turn: Turn, reading: Reading) -> bool:
    """Whether the time of *reading* is told with a word that sets a limit: "monday after 4"."""
    return _has_hours(reading.wish) and named(turn.rulebook, "limits_hours", reading.text) is not None


def _has_hours(wish: Wish | None) -> bool:
    return wish is not None and binds(wish) and not wish.point and (wish.start is not None or wish.end is not None)
