"""
Consent words: who wants no more texts, who wants them again, who wants help. Sources T1, T8, T10, T11 and table T-A.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from service.reading.lexicon import LANGUAGES, Lexicon
from service.reading.matching import Hit
from service.reading.normalising import Word, Words

Consent = Literal["out", "in", "help"]
_CODES: dict[str, Consent] = {"opt_out": "out", "opt_in": "in", "help_word": "help"}


MISSING = "[…]"
"""Stands in a text where a piece of it never came: its last word alone is then not all that somebody wrote."""


def consent_of(lexicon: Lexicon, typed: Words, text: str) -> Consent | None:
    """
    What *text*, its words as *typed*, says about texting itself: ``out``, ``in``, ``help``, or None.

    A listed word counts only when it is the whole text, whatever its case, punctuation or repetition; longer wordings count
    when they speak of messages. Spelling is never corrected into one. Of a text with a piece missing, no word is the whole.
    """
    if not any(lexicon.consent_trees[language].may_hit(typed) for language in LANGUAGES):
        return None
    words = _bare(typed)
    if not words:
        return None
    hits = [hit for language in LANGUAGES for hit in lexicon.consent_trees[language].hits(words, joined=True)]
    if not hits:
        return None
    alone = [hit for hit in hits if hit.payload.role == "alone" and hit.start == 0 and hit.end == len(words)]
    whole = alone if MISSING not in text else []
    for code, meant in _CODES.items():
        if any(hit.payload.code == code for hit in whole):
            return meant
    innocent = [hit for hit in hits if hit.payload.role == "innocent"]
    for code, meant in _CODES.items():
        signs = [hit for hit in hits if hit.payload.code == code and hit.payload.role == "sign"]
        if any(not _inside(hit, innocent) for hit in signs):
            return meant
    return None


def _bare(typed: Words) -> Words:
    """The words without emoji and immediate repetitions."""
    if all(word.form != after.form and not word.emoji for word, after in pairwise(typed)) and not typed[-1].emoji:
        return typed
    bare: list[Word] = []
    for word in typed:
        if not (word.emoji or (bare and bare[-1].form == word.form)):
            bare.append(word)
    return Words(bare)


def _inside(hit: Hit, innocent: Sequence[Hit]) -> bool:
    return any(i.payload.code == hit.payload.code and i.start < hit.end and hit.start < i.end for i in innocent)
