"""A smell denied beside smoke, sparks or a hot plug denied too is that of burning: “no smoke no smell”, “no huele ni humea”."""

from __future__ import annotations

import re
from dataclasses import replace

from service.reading.dangers.hazards import Screened
from service.reading.model import HazardFound
from service.reading.words.normalising import Normal

_BURNING = "burning_smell"
_KIN = frozenset(("smoke", "sparks", "fire", "hot_wiring", "shock"))
"""Dangers beside which a smell would be that of something burning."""
_NO_SMELL = re.compile(
    r"\b(?:no|sin|ni|not|nor|or|tampoco|nothing|doesn'?t|without) (?:se )?(?:smells?|odors?|olor(?:es)?|huele|olia)\b"
    r"(?! (?:gas|feo|mal|bad|weird|rar[oa]|like|a (?!nada|quem|chamus)|of (?!burn)))"
)
_GAS = re.compile(r"\bgas\b|propan|butan|pilot|freon|refriger(?:ant|ante)\b|\bhiss")


def with_no_smell(screened: Screened, normal: Normal) -> Screened:
    """*screened* with a smell of burning denied where *normal* denies any smell beside other signs of fire."""
    known = {found.code for found in (*screened.raised, *screened.denied, *screened.doubted)}
    if _BURNING in known or _KIN.isdisjoint(screened.cleared) or _GAS.search(normal.folded):
        return screened
    told = _NO_SMELL.search(normal.folded)
    if told is None:
        return screened
    first, last = told.span()
    found = HazardFound(_BURNING, normal.text[first:last], first, last, "dangers.burning_smell")
    at = [n for n, word in enumerate(normal.words) if first <= word.start < last]
    own = (*screened.own_words, (at[0], at[-1] + 1)) if at else screened.own_words
    note = f"“{found.words}” denies {_BURNING}, beside what else is denied."
    return replace(screened, denied=(*screened.denied, found), own_words=own, notes=(*screened.notes, note))
