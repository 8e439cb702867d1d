"""Where the phrases of dangers stand in a text, and which of them are held back by a wording that is no danger."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.words.lexicon import LANGUAGES, Lexicon
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word


def _hits(lexicon: Lexicon, words: Sequence[Word]) -> list[Hit]:
    """Hazard phrases over the whole text, sentence ends ignored: what people break off they still mean."""
    return [hit for language in LANGUAGES for hit in lexicon.hazard_trees[language].hits(words, joined=True)]


def danger_hits(lexicon: Lexicon, normal: Normal, typed: Sequence[Word]) -> list[Hit]:
    """Hazard phrases in the words as corrected and as typed, all placed among the corrected ones."""
    hits = _hits(lexicon, normal.words)
    if normal.corrected:
        placed = (_placed(hit, typed, normal.words) for hit in _hits(lexicon, typed))
        hits += [hit for hit in placed if hit not in hits]
    return hits


def _placed(hit: Hit, typed: Sequence[Word], words: Sequence[Word]) -> Hit:
    """*hit* in *typed*, where the same letters stand in *words*: a correction may part a word or join two."""
    if len(typed) == len(words):
        return hit
    first, last = typed[hit.start].start, typed[hit.end - 1].end
    inside = [at for at, word in enumerate(words) if word.start < last and first < word.end]
    if not inside:
        return Hit(0, len(words), hit.payload, 0)
    return Hit(inside[0], inside[-1] + 1, hit.payload, hit.skipped, hit.negated)


def runs_over_a_stop(hit: Hit, normal: Normal) -> bool:
    """
    Whether a wording with a gap takes its words from two written sentences: “it cracked. my burnt thumb has healed”. One
    without a gap, or over two texts or lines, is meant together; of gas only a question parts it.
    """
    if not hit.skipped:
        return False
    words, goes_on = normal.words, _NO_QUESTION if hit.payload.code == "gas_smell" else _NO_STOP
    return any(
        words[at].brk == _STOP and not goes_on.search(normal.text[words[at - 1].end : words[at].start])
        for at in range(hit.start + 1, hit.end)
    )


_STOP = 2
_NO_STOP = re.compile(r"\n|\.\.|^[^.!?]*$")
"""Between two words: another line, dots, or nothing that ends a sentence."""
_NO_QUESTION = re.compile(r"^[^?]*$")


def is_innocent(hit: Hit, innocent: Sequence[Hit], words: Sequence[Word]) -> bool:
    """Whether a wording among *innocent* explains *hit*."""
    return any(
        i.payload.code == hit.payload.code
        and ((i.start <= hit.start and hit.end <= i.end) or (_mostly(i, hit) and not _goes_on(i, hit, words)))
        for i in innocent
    )


def _mostly(innocent: Hit, hit: Hit) -> bool:
    """An innocent wording that overlaps more than a third of the sign, what it skips counted, and is longer explains it."""
    overlap = min(innocent.end, hit.end) - max(innocent.start, hit.start)
    return overlap > 0 and innocent.length > hit.length and overlap * 3 > hit.end - hit.start


def _goes_on(innocent: Hit, hit: Hit, words: Sequence[Word]) -> bool:
    """“smells like dryer sheets and burning”: what is added behind the innocent wording is not explained by it."""
    return any(word.form in _ADDING for word in words[innocent.end : hit.end])


_ADDING = frozenset(["and", "but", "plus", "also", "then", "y", "pero", "tambien", "luego"])
