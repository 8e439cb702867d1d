"""Where the sentences and the parts of a text begin and end, and the sentence around a phrase."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from service.reading.words.matching import Hit
from service.reading.words.normalising import Word


def sentence_of(hit: Hit, words: Sequence[Word], reach: int) -> tuple[int, int]:
    """Where the sentence of *hit* begins and ends, no more than *reach* words away."""
    first = hit.start
    while first > max(0, hit.start - reach) and words[first].brk != 2:
        first -= 1
    last = hit.end
    while last < min(len(words), hit.end + reach) and words[last].brk != 2:
        last += 1
    return first, last


def sentences(words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Where each sentence of a text begins and ends."""
    return pairwise(_bounds(words))


def pairs_of_sentences(words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Where each sentence begins and the next one ends: “Same breaker. 20 minutes and pop.”"""
    bounds = _bounds(words)
    return zip(bounds, bounds[2:], strict=False)


def _bounds(words: Sequence[Word]) -> list[int]:
    return [*(n for n, word in enumerate(words) if n == 0 or word.brk == _STOP), len(words)]


def parts(words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Where each part of a text begins and ends: at a stop, a comma, an "and" or a "but"."""
    begins = [n for n, word in enumerate(words) if n == 0 or word.brk or word.form in _JOINS]
    return pairwise([*begins, len(words)])


_STOP = 2
_JOINS = frozenset(["and", "but", "plus", "also", "y", "pero", "tambien", "ademas"])
