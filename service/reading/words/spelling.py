"""Correcting slips toward words the rulebook knows, and no others: a word that is right already stays as it is."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping

from rapidfuzz import process
from rapidfuzz.distance import OSA

from service.reading.words.spanish_slips import meant_by_ear
from service.reading.words.stemming import stem_en, stem_es

LEAST_LETTERS = 5

TWO_SLIPS_FROM = 8
NEVER_MEANT = frozenset(["fire", "burn", "burnt", "shock", "smoke", "sick", "dead"])
"""Short words no slip of four letters is taken for: they name a danger. Consent is heard in the words as typed."""

SOUNDS_WITHIN = 0.34
"""How much of a word may be other letters where only its sound is right: “kiere” means "cierre", “science” no "skunk"."""

MOST_CORRECTED = 40
"""Unknown words of one text that are looked up; a text with more is not language."""

LEAST_STEM = 4
"""Letters of the stem that another form of a word must share with one that phrases have, to be meant by ear."""

MOST_APART = 2
"""Letters by which a word that sounds like another but begins otherwise may differ: “kleen”, not “amariya” for “hammer”."""

_PHONETIC = (("ph", "f"), ("gh", "g"), ("ck", "k"), ("qu", "k"))
_LETTERS = str.maketrans("czvy", "ksbi", "h")
_VOWELS = str.maketrans("", "", "aeiou")
_REPEATED = re.compile(r"(.)\1+")


class Speller:
    """
    Corrections for one rulebook. ``known``: words that are never touched; ``targets``: words that may be meant;
    ``stems``: any form of these is a word too.
    """

    def __init__(
        self, known: Iterable[str], targets: Mapping[str, int], stems: Mapping[str, frozenset[str]] | None = None
    ) -> None:
        self._known = frozenset(known) | frozenset(targets)
        self._stems = stems or {"en": frozenset(), "es": frozenset()}
        self._rank = dict(targets)
        self._buckets: dict[tuple[str, int], list[str]] = defaultdict(list)
        self._sounds: dict[str, list[str]] = defaultdict(list)
        self._cache: dict[str, tuple[str, ...] | None] = {}
        for target in sorted(targets):  # of words that are as near the same one is taken, always
            if len(target) >= LEAST_LETTERS - 1:
                self._buckets[(target[0], len(target))].append(target)
            if len(target) >= LEAST_LETTERS:
                self._sounds[_sound(target)].append(target)

    def knows(self, word: str) -> bool:
        """Whether *word* is right as it stands."""
        return word in self._known or not word.isalpha() or self._is_form(word)

    def means(self, word: str) -> bool:
        """Whether *word* is one that may be meant: the rules listen for it, or it is an everyday word."""
        return word in self._rank or self._is_form(word)

    def _is_form(self, word: str) -> bool:
        return stem_en(word) in self._stems["en"] or stem_es(word) in self._stems["es"]

    def correct(self, word: str) -> tuple[str, ...] | None:
        """The word, or the two words run together, that *word* should be; None when it is right or cannot be told."""
        if len(word) < LEAST_LETTERS - 1 or len(word) > 24 or self.knows(word):
            return None
        if word not in self._cache:
            if len(self._cache) > 20_000:
                self._cache.clear()
            self._cache[word] = self._look_up(word)
        return self._cache[word]

    def _look_up(self, word: str) -> tuple[str, ...] | None:
        if word.endswith("s") and word[:-1] in self._known:
            return None
        once = self._undoubled(word)
        if len(word) < LEAST_LETTERS:
            short = once or self._by_ear(word)
            return (short,) if short and short not in NEVER_MEANT else self._swapped(word)
        once = once or self._by_ear(word)
        if once:
            return (once,)
        allowed = 1 if len(word) < TWO_SLIPS_FROM else 2
        best = self._nearest(word, allowed)
        sounding = self._sounding(word)
        if sounding and (best is None or OSA.distance(word, sounding) <= OSA.distance(word, best)):
            best = sounding
        return (best,) if best else self._split(word)

    def _undoubled(self, word: str) -> str | None:
        """“quitt”, “goess”: a known word with one letter typed twice."""
        for at in range(len(word) - 1):
            if word[at] == word[at + 1]:
                once = word[:at] + word[at + 1 :]
                if once in self._rank:
                    return once
        return None

    def _by_ear(self, word: str) -> str | None:
        """The Spanish word that sounds the same: one that phrases or everyday speech have, else another form of a long one."""
        ways = [way for way in meant_by_ear(word) if len(way) >= LEAST_LETTERS - 1]
        known = next((way for way in ways if way in self._rank), None)
        if known is not None or len(word) < LEAST_LETTERS + 1:
            return known
        return next(
            (way for way in ways if len(stem_es(way)) >= LEAST_STEM and stem_es(way) in self._stems["es"]), None
        )

    def _sounding(self, word: str) -> str | None:
        """The word nearest in letters among those that sound the same; few of its letters are others than typed."""
        most = min(3 if len(word) > TWO_SLIPS_FROM else 2, int(SOUNDS_WITHIN * len(word)))
        alike = [w for w in self._sounds.get(_sound(word), []) if OSA.distance(word, w, score_cutoff=most) <= most]
        alike = [w for w in alike if w[0] == word[0] or OSA.distance(word, w) <= MOST_APART]
        return min(alike, key=lambda w: (OSA.distance(word, w), -self._rank.get(w, 0), w)) if alike else None

    def _swapped(self, word: str) -> tuple[str, ...] | None:
        """A four-letter word with two neighbours swapped; never one that names a danger."""
        swaps = {word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(len(word) - 1)}
        found = sorted(swaps & self._rank.keys() - NEVER_MEANT)
        return (found[0],) if len(found) == 1 else None

    def _nearest(self, word: str, allowed: int) -> str | None:
        firsts = {word[0]} | ({word[1]} if len(word) > 1 else set())
        found: list[tuple[float, int, int, str]] = []
        for first in firsts:
            for length in range(len(word) - allowed, len(word) + allowed + 1):
                bucket = self._buckets.get((first, length))
                if not bucket:
                    continue
                for target, distance, _ in process.extract(
                    word, bucket, scorer=OSA.distance, score_cutoff=allowed, limit=3
                ):
                    if first == word[0] or (target[0] == word[1] and target[1] == word[0]):
                        found.append((distance, -self._rank.get(target, 0), -len(target), target))
        return min(found)[3] if found else None

    def _split(self, word: str) -> tuple[str, ...] | None:
        for cut in range(3, len(word) - 2):
            head, tail = word[:cut], word[cut:]
            if head in self._rank and tail in self._rank and (len(head) > 3 or head in _SHORT_HEADS) and len(tail) > 3:
                return (head, tail)
        return None


_SHORT_HEADS = frozenset(["not", "its", "the", "and", "but", "gas"])


def _sound(word: str) -> str:
    for written, heard in _PHONETIC:
        word = word.replace(written, heard)
    letters = _REPEATED.sub(r"\1", word.translate(_LETTERS))
    return letters[:1] + letters[1:].translate(_VOWELS)


def inflected(form: str) -> tuple[str, ...]:
    """The regular English forms of *form*, so that a slip in any of them is mended."""
    if len(form) < 4 or not form.isalpha() or form.endswith(("ing", "ed", "s", "ly")):
        return ()
    stem = form[:-1] if form.endswith("e") else form
    doubled = stem + stem[-1] if len(form) <= 5 and _doubles(form) else stem
    return (form + "s", doubled + "ing", doubled + "ed")


def _doubles(form: str) -> bool:
    return form[-1] not in "aeiouwxyhlkcs" and form[-2] in "aeiou" and form[-3] not in "aeiou"
