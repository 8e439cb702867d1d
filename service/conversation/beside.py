"""Words of two lists that stand beside each other in one sentence, with nothing between that says it is not so."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from service.conversation.matters import bare_words, named, phrases_of
from service.rulebook.model import Rulebook

BETWEEN = 3
"""As many words may stand between the two."""
BEFORE = 3
"""As many words before them are looked at for a "not"."""

_ENDS = re.compile(r"(?<=[.!?;\n])\s*")
_Span = tuple[int, int]


def told_sentences(rulebook: Rulebook, text: str) -> list[str]:
    """The sentences of *text* that tell something: no question, and of one that ends in "can we ..." what stands before."""
    told = [part for part in _ENDS.split(text) if part.strip() and not part.rstrip().endswith("?")]
    return [kept for part in told if (kept := _before_asking(rulebook, part))]


def _before_asking(rulebook: Rulebook, part: str) -> str:
    asking = named(rulebook, "may_i", part)
    words = " ".join(bare_words(part))
    return words if asking is None else f" {words} ".partition(f" {' '.join(bare_words(asking))} ")[0].strip()


def told_beside(
    rulebook: Rulebook, sentence: str, who: str, does: str, *, not_so: Sequence[str], filler: str | None = None
) -> bool:
    """
    Whether *sentence* has a phrase of the list *does* behind one of the list *who*, or before it where Spanish has it so.

    not_so: lists whose phrases, between the two or right before them, say otherwise. filler: the only list whose words may
    stand between.
    """
    words = bare_words(sentence)
    first, second = list(_spans(rulebook, who, words)), list(_spans(rulebook, does, words))
    turned = list(_spans(rulebook, does, words, spanish=True))
    pairs = [*((a, b) for a in first for b in second), *((b, a) for a in first for b in turned)]
    return any(_goes(rulebook, words, a, b, not_so, filler) for a, b in pairs)


def _goes(rulebook: Rulebook, words: list[str], a: _Span, b: _Span, not_so: Sequence[str], filler: str | None) -> bool:
    between = words[a[1] : b[0]]
    if b[0] < a[1] or len(between) > BETWEEN:
        return False
    if filler is not None and any(named(rulebook, filler, word) is None for word in between):
        return False
    near = " ".join([*words[max(0, a[0] - BEFORE) : a[0]], ".", *between, ".", *words[b[1] : b[1] + 1]])
    return all(named(rulebook, matter, part) is None for part in near.split(".") for matter in not_so)


def _spans(rulebook: Rulebook, matter: str, words: list[str], *, spanish: bool = False) -> Iterator[_Span]:
    """Where phrases of the list *matter* stand in *words*."""
    for phrase in phrases_of(rulebook, matter, spanish=spanish):
        size = len(phrase)
        yield from ((at, at + size) for at in range(len(words) - size + 1) if tuple(words[at : at + size]) == phrase)
