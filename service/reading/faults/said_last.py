"""What stands last in a statement and turns it: “ruido no”, “charco nada”, “calor sí”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word

NAUGHT = frozenset(["no", "nope", "nah", "nada", "nothing"])


def ends_with(at: int, words: Sequence[Word]) -> bool:
    """Whether the statement ends with word *at*."""
    return at + 1 == len(words) or words[at + 1].brk > 0 or words[at + 1].form in CONTRASTS


def denied_last(hit: Hit, words: Sequence[Word], negators: Sequence[tuple[int, int]]) -> bool:
    """“ruido no”, “charco nada”: a fault that is named, and then denied; “gotea, ¿no?” asks."""
    at = hit.end
    if at >= len(words) or words[at].brk or words[at].asks or not ends_with(at, words):
        return False
    if hit.negated or any(hit.start <= a < at for a, _ in negators):
        return False
    return words[at].form in NAUGHT


_BARE = frozenset(["calor", "frio", "aire", "vueltas", "arriba", "abajo"])
"""What a machine gives, of which only a "yes" or "no" right behind it tells: “calor sí”, not “con este calor todo bien”."""


def is_bare(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is one such word."""
    return hit.end - hit.start == 1 and words[hit.start].form in _BARE


def is_so(at: int, words: Sequence[Word]) -> bool:
    """“calor sí”, “frío sí da”: a "yes" right behind, and no more than its verb."""
    if at >= len(words) or words[at].brk or words[at].form not in SURE:
        return False
    return ends_with(at, words) or (surely_does(at + 1, words) and not spoiled(at + 1, words))


SPOILS = frozenset((
    "slow", "slowly", "weak", "weakly", "loud", "loudly", "barely", "hardly", "sometimes", "when", "if", "until", "till",
    "only", "like", "then", "constantly", "nonstop", "intermittently", "halfway", "less", "lento", "despacio", "poco",
    "apenas", "veces", "ratos", "mal", "cuando", "hasta", "medio", "against", "overtime", "hard", "for", "apaga",
    "apagan", "or", "solo", "sola", "solito", "solita", "rato", "ratito", "tarda", "until",
))  # fmt: skip
"""Words behind "works" that say how badly or when it does."""


SURE = frozenset(["yes", "si", "yep", "yeah"])


def surely_does(at: int, words: Sequence[Word]) -> bool:
    """“el agua sí sale”, “el motor sí se oye”: any verb of the present behind a “sí”."""
    while at < len(words) and words[at].form in CLITICS:
        at += 1
    if at >= len(words) or words[at].brk:
        return False
    form = words[at].form
    return form != words[at].es and form.endswith(("a", "e", "an", "en")) and form not in _NO_VERBS


CLITICS = frozenset(["se", "le", "lo", "la", "los", "las", "me", "nos", "te", "les"])
_NO_VERBS = frozenset(["que", "de", "cuando", "porque", "tambien", "donde", "una", "esta", "casi"])


def spoiled(at: int, words: Sequence[Word]) -> bool:
    """Whether what follows takes the praise back: “works but slow”, “works only on high”, “fine until it gets hot”."""
    behind = words[at + 1 : at + 4]
    for word in behind:
        if word.brk == 2:
            return False
        if word.form in SPOILS:
            return True
    return False
