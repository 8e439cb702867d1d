"""Which machines a text names only to take them back: “la secadora, digo, la lavadora”, “not the washer, the dryer”."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from service.reading.machines.belonging import ARTICLES
from service.reading.words.normalising import Word

if TYPE_CHECKING:
    from service.reading.machines.mentions import Mention

_SLIPS = frozenset((
    "digo", "perdon", "disculpe", "miento", "corrijo", "decir", "dicho", "ay", "uy", "sorry", "oops", "ups", "wait", "mean",
    "meant", "correction", "pardon", "excuse", "perdone", "perdoneme",
))  # fmt: skip
"""Said between two names, the first was a slip."""

_LAUGHS = frozenset(["lol", "haha", "ha", "oh", "uh", "um", "er", "ah", "jaja", "jajaja", "este", "eh"])
"""With a "no" behind it, the first was a slip: “dryer lol no the washer”."""

_BESIDES = frozenset(["and", "also", "plus", "y", "e", "tambien", "ademas", "or", "o", "ni", "nor"])
_SLIP_WITHIN = 6
_SLIP_BEFORE = 3
_IS = frozenset(["is", "its", "it's", "thats", "es", "era", "fue", "was", "isnt", "wasnt"])
_NOT = frozenset(["no", "not", "isnt", "wasnt"])
_THOUGHT = frozenset(
    ["thought", "pense", "creia", "crei", "pensaba", "penso", "said", "dije", "puse", "wrote", "typed", "escribi"]
)
_THOUGHT_WITHIN = 5
_PASSING = ARTICLES | {"en", "in", "on", "con", "que", "por", "about"}


def without_slips(named: list[Mention], words: Sequence[Word]) -> list[Mention]:
    """*named* without those that are taken back for another one named beside them."""
    if len({m.appliance for m in named}) < 2:
        return named
    kept = list(named)
    for first, second in pairwise(named):
        if first.appliance == second.appliance:
            continue
        if _took_back(first, second, words) and second in kept:
            kept = [m for m in kept if m is not first]
        elif _only_told_from(first, second, words):
            kept = [m for m in kept if m is not second]
    return kept or named


def _took_back(first: Mention, second: Mention, words: Sequence[Word]) -> bool:
    between = [word.form for word in words[first.end : second.start]]
    leading = [form for form in between if form not in _PASSING and form not in _IS]
    if len(leading) > 1 and leading[-1] in ("no", "me"):
        leading.pop()
        if leading[-1] in _LAUGHS:
            return len(leading) == 1
    if len(between) <= _SLIP_WITHIN and leading and leading[-1] in _SLIPS and _BESIDES.isdisjoint(between):
        return True
    if [form for form in between if form not in _PASSING] == ["no"] and _opens(first, words):
        return True
    before = _before(first, words)
    if len(before) > 1 and before[-1] in _IS and (before[-2] in _NOT or before[-1] in _NOT):
        return _is_pointed_at(second, words)
    supposed = before[-_THOUGHT_WITHIN:]
    return not _THOUGHT.isdisjoint(supposed) and _is_pointed_at(second, words)


def _only_told_from(first: Mention, second: Mention, words: Sequence[Word]) -> bool:
    """“es el horno, no la estufa”: the second is named only to tell the first from it."""
    between = [w.form for w in words[first.end : second.start] if w.form not in _PASSING and w.form not in _IS]
    if between == ["not"] and (_opens(first, words) or words[first.start].brk == _STOP):
        behind = words[second.end : second.end + 1]
        return not behind or behind[0].brk > 0 or behind[0].form in _SLIPS or behind[0].form in _FOR
    return between in (["no"], ["not"]) and _is_pointed_at(first, words)


_STOP = 2
_FOR = frozenset(["because", "cause", "cuz", "cus", "since", "bc", "porque"])
"""Behind “washer, not dryer” comes why they know."""


def _opens(mention: Mention, words: Sequence[Word]) -> bool:
    return not _before(mention, words)


def _is_pointed_at(mention: Mention, words: Sequence[Word]) -> bool:
    before = _before(mention, words)
    return bool(before) and (
        before[-1] in _IS or before[-2:] == ["is", "for"] or not _SLIPS.isdisjoint(before[-_SLIP_BEFORE:])
    )


def _before(mention: Mention, words: Sequence[Word]) -> list[str]:
    """The words before *mention*, without the article and the like that belong to it."""
    at = mention.start
    while at > 0 and words[at - 1].form in _PASSING:
        at -= 1
    return [word.form for word in words[max(0, at - 8) : at]]


_OPENERS = _SLIPS | {"no", "nope", "nah", "actually", "i", "it", "oh", "sea", "nvm", "nevermind", "never", "mind"}
_MOST_BEFORE = 5


def names_another(mentions: Sequence[Mention], words: Sequence[Word], about: str) -> bool:
    """
    Whether a text about one machine begins by naming another in its place: “no its the dryer”, “wait no washer”, “perdón,
    la secadora”, “washer not dishwasher”; not “no the dryer is fine”, nor “no dryer”.
    """
    for mention in mentions:
        if mention.appliance == about or mention.start > _MOST_BEFORE:
            continue
        before = [word.form for word in words[: mention.start]]
        bare = before == ["no"] and words[mention.start].brk == 0
        apart = mention.end == len(words) or words[mention.end].brk > 0
        told_from = mention.end < len(words) and words[mention.end].form in _NOT and mention.end + 1 < len(words)
        opens = (
            bool(before) and before[0] in _OPENERS and all(f in _OPENERS or f in _IS or f in _PASSING for f in before)
        )
        if (opens and apart and not bare) or (told_from and (opens or not before)):
            return True
    return False
