"""
Whether the subject of a verb is nothing: “nothing in it gets cold”, “nada se enfría” tell the fault, “nothing thawed”
denies it.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word

_NOTHING = frozenset(["nothing", "none", "nada", "ninguno", "ninguna"])
_WHERE = frozenset((
    "in", "inside", "it", "there", "here", "the", "my", "of", "them", "on", "at", "all", "i", "we", "you", "put", "really",
    "ever", "even", "what", "that", "de", "lo", "que", "hay", "adentro", "dentro", "ahi", "se", "del", "en", "el", "la", "los",
    "me", "le", "fridge", "refrigerator", "freezer", "cooler", "refri", "congelador", "dryer", "washer", "dishwasher",
    "door", "drawer", "drawers", "bottom", "top", "shelf", "shelves",
))  # fmt: skip
"""What may stand between a "nothing" and its verb: where it is, and who put it there."""
_NOTHING_WITHIN = 7
_BEFORE_NOTHING = frozenset((
    "and", "but", "so", "now", "that", "because", "since", "cause", "like", "today", "then", "yet", "when", "y", "pero", "ya",
    "porque", "que", "ahora",
))  # fmt: skip
_NOT_NOTHING = frozenset(["but", "like", "wrong", "else", "fancy", "special", "mas", "que"])
"""Behind “it heats nothing”: then it is no nothing."""


def does_nothing(words: Sequence[Word], start: int, end: int) -> bool:
    """“nothing in it gets cold”, “heats nothing”: the subject or object of the verb from *start* to *end* is nothing."""
    if end < len(words) and words[end].form in ("nothing", "nada") and not words[end].brk:
        return end + 1 >= len(words) or words[end + 1].brk > 0 or words[end + 1].form not in _NOT_NOTHING
    return _of_nothing(words, start)


def _of_nothing(words: Sequence[Word], start: int) -> bool:
    """“none of them light”, “nada se enfría”: the subject of the verb at *start* is nothing."""
    for at in range(start - 1, max(-1, start - 1 - _NOTHING_WITHIN), -1):
        if words[at + 1].brk:
            return False
        if words[at].form in _NOTHING:
            return at == 0 or words[at].brk > 0 or words[at - 1].form in _BEFORE_NOTHING
        if words[at].form not in _WHERE:
            return False
    return False


def befalls_nothing(words: Sequence[Word], start: int, end: int) -> bool:
    """“nothing thawed”, “nothing burning nothing leaking”, “nada se descongeló”: what the fault would befall is nothing."""
    at = start - 1 if start and words[start - 1].form != "se" else start - 2
    if at < 0 or words[at].form not in ("nothing", "nada") or any(word.brk for word in words[at + 1 : start + 1]):
        return False
    if _of_nothing(words, start):
        return True
    return (
        words[at].form == "nothing"
        and end - start == 1
        and words[start].form.endswith(("ing", "ed"))
        and (words[at - 1].form not in _DOING)
    )


_DOING = frozenset(["do", "does", "doing", "did", "doesnt", "is", "but"])
"""What takes the "nothing" for itself: “does nothing, leaking”, “nothing but leaking”."""
