"""Danger words that are somebody's name: “Mrs. Bernadine Sparks”, “I named my robot Sparky”, “se llama Humo”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word

_TITLES = frozenset((
    "mr", "mrs", "ms", "miss", "dr", "don", "dona", "senor", "senora", "sr", "sra", "named", "called", "llama", "name",
    "nombre", "apellido", "familia", "dog", "cat", "puppy", "perro", "perra", "gato",
))  # fmt: skip
_BE = frozenset(["is", "s", "es"])
_NAMED = frozenset(["named", "nicknamed", "llama", "llamamos", "apodo"])
_NO_ENDING = 3
"""So many letters more than the danger's word make another word: “Sparkwell”."""


def is_a_name(hit: Hit, normal: Normal) -> bool:
    """“Mrs. Bernadine Sparks”, “the dog is Sparky”: one word with a capital, and what names somebody before it."""
    words, text = normal.words, normal.text
    word = words[hit.start]
    if hit.end - hit.start > 1 or not text[word.start : word.start + 1].isupper():
        return False
    if text[word.start : word.end].isupper():
        return False  # who shouts names nobody
    was = word.was or word.form
    if was != word.form and was.startswith(word.form) and len(was) - len(word.form) >= _NO_ENDING:
        return True
    if _was_named(hit.start, words):
        return True
    at = hit.start - 1
    while at >= 0 and at >= hit.start - 3:
        if words[at].form in _TITLES:
            return True
        if words[at].form not in _BE and not text[words[at].start : words[at].start + 1].isupper():
            return False
        at -= 1
    return False


def _was_named(at: int, words: Sequence[Word]) -> bool:
    """“I named my robot Sparky”, “se llama Humo”: in one breath."""
    for before in range(at - 1, max(-1, at - 6), -1):
        if words[before + 1].brk or words[before].form in ("and", "y", "because", "porque", "but", "pero", "que"):
            return False
        if words[before].form in _NAMED:
            return True
    return False
