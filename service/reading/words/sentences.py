"""Where the sentence around a phrase begins and ends."""

from __future__ import annotations

from collections.abc import Sequence

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
