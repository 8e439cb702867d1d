"""A word of joy that is a statement by itself: “worked! you're a genius”, “ok did that. worked!”, “Success”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import CONTRASTS, Word

_HAILED = frozenset((
    "success", "worked", "bingo", "solved", "fixed", "hallelujah", "aleluya", "hooray", "hurray", "yay", "yahoo", "eureka",
    "exito", "arreglado", "arreglada", "arregladisimo", "arregladisima", "listo", "resuelto", "solucionado",
))  # fmt: skip
_TAKES_BACK = CONTRASTS | frozenset((
    "then", "until", "till", "hasta", "luego", "first", "except", "unless", "not", "no", "if", "when", "again", "still",
))  # fmt: skip


def hails(words: Sequence[Word]) -> bool:
    """Whether one of the statements of *words* is such a word, and nothing in the text takes it back."""
    if not _TAKES_BACK.isdisjoint(word.form for word in words):
        return False
    ends = [at == len(words) or words[at].brk > 0 for at in range(1, len(words) + 1)]
    return any(word.form in _HAILED and (at == 0 or word.brk > 0) and ends[at] for at, word in enumerate(words))
