"""
What is told of a machine as it should be, or as it always was: “it clicks and lights like it should”, “siempre ha sonado
así, no es queja”. It is no fault.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.marks import Marks
from service.reading.words.normalising import CONTRASTS, Word

REACH = 10
"""How far behind what is told such words may stand."""

_STOP = 2
_BUT = CONTRASTS | {"now", "lately", "today", "ahora", "ya", "hoy", "last"}
"""Words behind which something else is told, or told of another day."""

_SOUNDS = ("hum", "buzz", "click", "tick", "whir", "zumb", "clic", "ronron", "suen", "son", "noise", "ruid")
"""How words begin that tell of a sound."""
_LIKE = frozenset(
    ("like", "as", "just", "all", "at", "its", "como", "de", "lo", "muy", "pretty", "perfectly", "igual", "que")
)
_USUAL = frozenset(
    ("normal", "normally", "usual", "usually", "ever", "always", "before", "normalmente", "siempre", "antes")
)
"""What right behind a sound says that it is the one it always makes: “hums normal”, “zumba como siempre”."""
_BARE_USUAL = frozenset(("normal", "normally", "normalmente"))
"""Those that say so without a word of likeness: “always hums” is no more than often."""


def is_as_ever(words: Sequence[Word], marks: Marks, told: tuple[int, int]) -> bool:
    """Whether what stands at *told* is said to be as it should be: in its sentence, or by what opens the next one."""
    if _sounds_normal(words, *told):
        return True
    places = marks.at("as_ever")
    if not places:
        return False
    first, end = told
    denied = {a for a, _ in marks.at("negators")}
    for begins, _ in places:
        if not first < begins <= end + REACH:
            continue
        between = words[
            first + 1 : begins - (words[begins - 1].form in CONTRASTS)
        ]  # "está caliente, pero como siempre"
        stops = [at for at in range(first + 1, begins + 1) if words[at].brk == _STOP]
        if stops and (len(stops) > 1 or begins - stops[0] > 1):
            continue
        if not denied & set(range(max(0, first - 3), begins)) and not any(word.form in _BUT for word in between):
            return True
    return False


def _sounds_normal(words: Sequence[Word], first: int, end: int) -> bool:
    """“it hums normal”, “zumba como siempre”: a sound, and right behind it that it is the usual one."""
    if not any(word.form.startswith(_SOUNDS) for word in words[first:end]):
        return False
    at = end
    while at < len(words) and words[at].form in _LIKE and not words[at].brk:
        at += 1
    if at >= len(words) or words[at].brk == _STOP:
        return False
    return words[at].form in (_USUAL if at > end else _BARE_USUAL)
