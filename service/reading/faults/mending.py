"""Faults that somebody mended or not, or that went by themselves: “you fixed the leak”, “se quitó solo el ruido”."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

Told = tuple[Literal["denied", "present"], str]
_MENDED: Told = ("denied", "it is said to have been mended")
_NOT_MENDED: Told = ("present", "it is said not to have been mended")

_EN = frozenset(("fixed", "cured", "solved", "repaired", "quieted", "silenced"))
_ES = frozenset((
    "arreglaron", "arreglo", "arreglamos", "quito", "quitaron", "compuso", "compusieron", "repararon", "reparo", "solucionaron",
    "soluciono",
))  # fmt: skip
_BASE = frozenset(("fix", "cure", "solve", "repair"))
"""So they stand behind a “didn't”."""
_BETWEEN = frozenset((
    "the", "my", "that", "this", "our", "all", "of", "down", "up", "right", "up", "el", "la", "los", "las", "mi", "ese", "esa",
    "solo", "sola", "solito", "solita", "todo", "toda", "ya", "por", "fin", "tambien", "lo", "de", "del", "bien", "feo", "fea",
    "big", "little", "loud", "awful",
))  # fmt: skip
_MOST_BETWEEN = 4
_NO_VERB = frozenset(("un", "el", "del", "de", "este", "su", "to", "be", "get", "gets", "getting", "need", "want"))
"""Before a word that is no verb then, or only wished for: “un arreglo”, “to be fixed”."""
_NO = frozenset(("no", "not", "never", "nunca", "didnt", "hasnt", "havent", "tampoco", "wasnt", "nobody", "nadie"))
_NOT_FAR = 3
_COMES_BACK = frozenset((
    "again", "back", "still", "sigue", "siguen", "otra", "volvio", "vuelve", "returned", "nuevo", "igual", "todavia", "worse",
    "peor", "supposedly", "dizque", "supuestamente", "same", "mismo", "duro", "lasted",
))  # fmt: skip
"""With one of these behind it the fault may be there again."""


def mended_before(words: Sequence[Word], hit: Hit) -> Told | None:
    """What right before the fault that *hit* names says of it, if it says that it was mended or not: verdict and reason."""
    at = hit.start - 1
    while at >= 0 and hit.start - at <= _MOST_BETWEEN and words[at].form in _BETWEEN and not words[at + 1].brk:
        at -= 1
    if at < 0 or words[at + 1].brk:
        return None
    form, before = words[at].form, words[at - 1].form if at else ""
    negated = any(word.form in _NO or word.en == "not" for word in words[max(0, at - _NOT_FAR) : at])
    if form in _BASE:
        return _NOT_MENDED if negated else None
    if form not in _EN | _ES or before in _NO_VERB:
        return None
    if negated:
        return _NOT_MENDED
    behind = [word.form for word in words[hit.end :]]
    return None if not _COMES_BACK.isdisjoint(behind) else _MENDED


_WISHED = frozenset(
    ("need", "needs", "want", "wants", "ocupo", "necesito", "can", "could", "please", "pls", "how", "hope", "wish")
)


def is_wished(words: Sequence[Word]) -> bool:
    """Whether what is told in *words* to be gone is only wished so: “need the leak fixed”."""
    return any(word.form in _WISHED for word in words)
