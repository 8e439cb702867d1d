"""A breaker that people switched themselves, which does not trip: “i flipped it anyway”, “ya le bajé al breaker”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.faults.undertaken import words_behind
from service.reading.words.normalising import Word

_LOWERED = frozenset(("baje", "bajamos"))
_BREAKER = frozenset(("breaker", "breakers", "braker", "breker", "breiker", "pastilla", "pastillas"))


def lowered_by_hand(words: Sequence[Word]) -> list[tuple[int, int, str]]:
    """
    Where they switched a breaker themselves (“ya le bajé al breaker”, “i flipped it anyway”, “popped the breaker for a
    min”), and what that does not tell: that it trips; not “se baje”, “it popped the breaker”.
    """
    breakers = [at for at, word in enumerate(words) if word.form in _BREAKER]
    if not breakers:
        return []
    own = [(at, at + 1) for at in range(len(words)) if _lowers(at, words)]
    for at, word in enumerate(words):
        if (word.form in _FLIPPED and _by_self(at, words)) or (word.form in _POPPED and _for_a_while(at, words)):
            named = next((b for b in breakers if _is_meant(b, at, words)), None)
            if named is not None:
                own.append((min(at, named), max(at, named) + 1))
    return [(first, end, code) for first, end in own for code in ("trips_breaker", "breaker_tripped")]


def surely_by_hand(words: Sequence[Word]) -> bool:
    """Whether nothing says that it went off again: “flipped it back on and it's off again” may be told of one that trips."""
    return not any(word.form in _AGAIN for word in words)


_AGAIN = frozenset(("again", "back", "vez", "vuelve", "nuevo"))


def _is_meant(breaker: int, at: int, words: Sequence[Word]) -> bool:
    """Whether the verb at *at* is said of *breaker*, in its sentence, with no other such verb: “it trips, i flip it”."""
    if not at - _NAMED_BEFORE <= breaker <= at + _NAMED_BEHIND:
        return False
    first, last = min(breaker, at), max(breaker, at)
    if any(words[n].brk > 1 for n in range(first + 1, last + 1)):
        return False
    return breaker > at or not any(words[n].form in _POPPED for n in range(max(0, breaker - 2), at))


def _lowers(at: int, words: Sequence[Word]) -> bool:
    if words[at].form not in _LOWERED or (at > 0 and words[at - 1].form == "se"):
        return False
    return any(word.form in _BREAKER for word in words_behind(words, at, 3))


_NAMED_BEFORE, _NAMED_BEHIND = 6, 4
_FLIPPED = frozenset(("flipped", "flip", "threw", "throw", "switched", "cut", "killed"))
_POPPED = frozenset(("popped", "tripped", "pop", "trip", *_FLIPPED))
_ADVERBS = frozenset(
    ("just", "already", "even", "then", "also", "finally", "have", "only", "to", "had", "went", "and", "gotta")
)
_HANDS = frozenset(("i", "we", "ive", "weve", "id"))


def _by_self(at: int, words: Sequence[Word]) -> bool:
    """“i just flipped”, “we had to throw”."""
    while at > 0 and words[at - 1].form in _ADVERBS and not words[at].brk:
        at -= 1
    return at > 0 and not words[at].brk and words[at - 1].form in _HANDS


def _for_a_while(at: int, words: Sequence[Word]) -> bool:
    """“… the breaker myself”, “… it off and on”, “… for a min”: so no breaker goes by itself."""
    behind = [word.form for word in words_behind(words, at, 6)]
    return "myself" in behind or not _WHILE.isdisjoint(zip(behind, behind[1:], behind[2:], strict=False))


_WHILE = frozenset((
    ("off", "and", "on"), ("on", "and", "off"), ("for", "a", "min"), ("for", "a", "minute"), ("for", "a", "bit"),
    ("for", "a", "sec"), ("for", "a", "while"), ("off", "then", "on"),
))  # fmt: skip
