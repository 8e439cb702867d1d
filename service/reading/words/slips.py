"""“no wait”, “oh wait”, “no espere”: what stands before is put right by what follows; the "no" denies nothing."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word

_OPENS = frozenset(("no", "nope", "nah", "oh", "oops", "ay", "hey", "well", "ok", "actually"))
_WAITS = frozenset(("wait", "sorry", "actually", "espere", "espera", "esperate", "esperese", "perdon", "disculpe"))


def is_slip(words: Sequence[Word], at: int) -> bool:
    """Whether “no wait” or the like begins at word *at*."""
    return at + 1 < len(words) and words[at].form in _OPENS and words[at + 1].form in _WAITS and words[at + 1].brk < 2


def behind_slip(words: Sequence[Word], first: int, last: int) -> int:
    """The word behind the last “no wait” between *first* and *last*; *first* where there is none."""
    return next((at + 2 for at in range(last - 2, first - 1, -1) if is_slip(words, at)), first)
