"""
Machines named only as where it shows: “water under the fridge but it's coming from the dishwasher” is told of the dishwasher.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from service.reading.machines.belonging import ARTICLES, PART_OF
from service.reading.words.normalising import Word

if TYPE_CHECKING:
    from service.reading.machines.mentions import Mention

_COMES = frozenset((
    "coming", "comes", "came", "come", "leaking", "leaks", "dripping", "drips", "running", "runs", "is", "its", "out", "was",
))  # fmt: skip
_FROM = frozenset(("from",))
_COMES_FROM = frozenset(("viene", "vienen", "venia", "sale", "salia", "salen", "saliendo", "proviene", "viniendo"))
_WHERE = frozenset((
    "under", "underneath", "beneath", "behind", "below", "beside", "by", "near", "around", "abajo", "debajo", "atras",
    "detras", "enfrente", "lado", "junto", "cerca", "alrededor",
))  # fmt: skip
_BETWEEN = 2
"""So many words may stand between what comes and its “from”."""


def without_where(named: list[Mention], words: Sequence[Word]) -> list[Mention]:
    """*named* without what is only the place of what is said, behind it, to come from another."""
    if len(named) < 2:
        return named
    sources = [m for m in named if _is_source(m, words)]
    if not sources:
        return named
    last, source = sources[-1].start, sources[-1].appliance
    of_it = (source, *PART_OF.get(source, ()))  # "behind the fridge, it comes from the ice maker"
    kept = [m for m in named if m.start >= last or m.appliance in of_it or not _is_where(m, words)]
    return kept if any(m.appliance == source for m in kept) else named


def _before(mention: Mention, words: Sequence[Word]) -> int:
    at = mention.start - 1
    while at >= 0 and words[at].form in ARTICLES and not words[at + 1].brk:
        at -= 1
    return at if at >= 0 and not words[at + 1].brk else -1


def _is_source(mention: Mention, words: Sequence[Word]) -> bool:
    """“coming from the dishwasher”, “viene de la lavadora”; what does “not come from” it does not."""
    at = _before(mention, words)
    if at < 1:
        return False
    negated = any(word.en == "not" or word.form in ("no", "not") for word in words[max(0, at - 4) : at])
    if words[at].form in _COMES_FROM:
        return not negated and any(word.form in ("de", "del") for word in words[at + 1 : mention.start])
    if words[at].form not in _FROM or negated:
        return False
    return any(word.form in _COMES for word in words[max(0, at - _BETWEEN) : at])


def _is_where(mention: Mention, words: Sequence[Word]) -> bool:
    at = _before(mention, words)
    if at >= 0 and words[at].form == "of" and words[at - 1].form in ("front", "side", "back"):
        return True
    return at >= 0 and words[at].form in _WHERE
