"""
A second opinion, for texts in which no phrase of the rules is heard: what customers mostly told in such words.

It chooses among the codes that are possible, or none, by what was learned from told texts (``teaching``), and says by which
words.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import exp, sqrt
from pathlib import Path
from threading import Lock
from typing import NamedTuple
from weakref import WeakValueDictionary

import numpy as np
from numpy.typing import NDArray

from service.reading.opinion.keeping import Floats, Learned, kept_as
from service.reading.opinion.teaching import (
    NEGATED,
    NOTHING,
    OF_MACHINE,
    Taught,
    deeper,
    grams,
    learned_from,
    of_words,
    often,
    pieces,
    root,
    seal,
    weighed_pieces,
)

__all__ = ["NOTHING", "Opinion", "SecondOpinion", "Taught"]

SHARPNESS = 4.0
"""What a step of one margin does to the odds, as a power of e; chosen on texts held apart from the learning."""

LEAST_WORDS = 3
"""Fewer words that are known tell nothing."""

SHOWN = 3
MOST_WORDS = 20_000
"""So many words' pieces are remembered."""


@dataclass(frozen=True, slots=True)
class Opinion:
    """
    The likeliest code, and by how much the words stand on the side of each possible code and NOTHING (above 0) or off it.
    ``says``: works out what each known word or pair says for a code.
    """

    code: str
    margins: Mapping[str, float]
    says: Callable[[str], Mapping[str, float]] = field(default=lambda _: {}, compare=False, repr=False)

    @property
    def shares(self) -> Mapping[str, float]:
        """What each is worth among all that are possible, as chances that add up to 1."""
        most = max(self.margins.values())
        odds = {code: exp(SHARPNESS * (margin - most)) for code, margin in self.margins.items()}
        total = sum(odds.values())
        return {code: one / total for code, one in odds.items()}

    @property
    def share(self) -> float:
        """The share of the likeliest code."""
        return self.shares[self.code]

    def because(self, code: str) -> tuple[str, ...]:
        """The words and pairs that speak most for *code*."""
        said = self.says(code)
        return tuple(sorted(said, key=said.__getitem__, reverse=True)[:SHOWN])


class _Possible(NamedTuple):
    """
    The classes one machine can have. names: their codes, NOTHING last; coded: how many are codes. before: what is so before
    a word. which: their places among all.
    """

    names: tuple[str, ...]
    coded: int
    before: Floats
    which: NDArray[np.intp]


@dataclass(slots=True)
class _Remembered:
    """
    What the pieces of words say: ``rows`` the row of each word in ``said`` (for each class) and ``squares`` (its squared
    length). It only grows, under the lock; a full one is put away whole, for another text may just be read by it.
    """

    said: Floats
    squares: list[float]
    rows: dict[str, int] = field(default_factory=dict)


class SecondOpinion:
    """
    What texts teach of codes, or NOTHING. *kept_in*: where what was learned is kept. *in_pieces*: by pieces of words too;
    *in_depth*: by stems and what is negated. *learned*: what it was taught already, in the place of *taught*.

    The same words always give the same opinion; only what a word's pieces say is remembered.
    """

    def __init__(
        self,
        taught: Iterable[Taught] = (),
        kept_in: Path | None = None,
        *,
        in_pieces: bool = False,
        in_depth: bool = False,
        learned: Learned | None = None,
    ) -> None:
        if learned is None:
            pairs = sorted(set(taught))
            sealed = seal(pairs, in_pieces=in_pieces, in_depth=in_depth)
            learned = learned_from(pairs, sealed, kept_in, in_pieces=in_pieces, in_depth=in_depth)
        self._classes = {code: place for place, code in enumerate(learned.codes)}
        self._known, self._in_pieces, self._in_depth = learned.places, in_pieces, in_depth
        self._rarity: list[float] = learned.rarity.tolist()
        rarity = learned.rarity[:, None]
        # What a word says for each class by its weight, and that weight squared in the last column. One table for all
        # machines: a few columns summed too many cost nothing, a table for each machine's classes a hundred megabytes.
        self._by_word: Floats = np.hstack([learned.weights * rarity, rarity**2])
        self._before: Floats = learned.bias
        self._by_codes: dict[tuple[str, ...], _Possible] = {}
        self._remembered = self._nothing_yet()
        self._lock = Lock()

    def of(self, words: Sequence[str], codes: tuple[str, ...], machine: str = "") -> Opinion | None:
        """What *words* (folded, in order) tell of *codes*, said of *machine*; None if there is too little to go by."""
        possible = self._possible(codes)
        long = of_words(words)
        told = grams(long, machine)
        if self._in_depth:
            told += deeper(long)
        found = list(map(self._known.get, told))  # in one go: among so many the look is what costs
        single = set(found[: len(long)])  # the words themselves stand first
        if not possible.coded or len(single) - (None in single) < LEAST_WORDS:
            return None
        rows = [place for place in found if place is not None]
        counted = dict.fromkeys(rows, 1)
        spoken = self._by_word.take(list(counted), axis=0)
        if len(counted) < len(rows):
            _repeat(spoken, Counter(rows))
        whole = np.add.reduce(spoken, axis=0, dtype=np.float64)
        unit = sqrt(whole[-1])
        total = whole[possible.which] / unit + possible.before
        apart, length, pieced = self._apart(words)
        if length:
            total += np.add.reduce(pieced.take(list(apart.values()), axis=0))[possible.which] / length
        best = int(total[: possible.coded].argmax())
        margins = dict(zip(possible.names, total.tolist(), strict=True))

        def says(code: str) -> Mapping[str, float]:
            column = possible.names.index(code)
            own = spoken[:, possible.which]
            speaks = (own[:, column] - own.mean(axis=1)) / unit
            by_place = dict(zip(counted, speaks.tolist(), strict=True))
            said: dict[str, float] = {}
            forms = {root(word): word for word in words} if self._in_depth else {}
            for gram in (gram for gram in dict.fromkeys(told) if gram in self._known):
                word = forms.get(gram) or gram.rpartition(OF_MACHINE)[2].replace(NEGATED, "not ")
                said[word] = said.get(word, 0.0) + by_place[self._known[gram]]
            for word, row in apart.items() if length else ():
                by_pieces = pieced[row, possible.which] / length
                said[word] = said.get(word, 0.0) + float(by_pieces[column] - by_pieces.mean())
            return said

        return Opinion(possible.names[best], margins, says)

    def _apart(self, words: Sequence[str]) -> tuple[dict[str, int], float, Floats]:
        """
        The row of what the pieces of each word say, the length that brings all words together to unit length, and what
        the rows say.
        """
        remembered = self._remembered
        if not self._in_pieces:
            return {}, 0.0, remembered.said
        if not all(word in remembered.rows for word in words):
            remembered = self._learned(words)
        told = {word: remembered.rows[word] for word in words}
        return told, sqrt(sum([remembered.squares[row] for row in told.values()])), remembered.said

    def _nothing_yet(self) -> _Remembered:
        most = MOST_WORDS if self._in_pieces else 0
        return _Remembered(np.zeros((most, len(self._before)), dtype=np.float32), [0.0] * most)

    def _learned(self, words: Sequence[str]) -> _Remembered:
        """What is remembered, with all of *words*; several threads read, and one at a time adds."""
        with self._lock:
            remembered = self._remembered
            if len(remembered.rows) + len(words) > MOST_WORDS:
                remembered = self._remembered = self._nothing_yet()
            for word in words:
                if word not in remembered.rows:
                    self._add(word, remembered)
            return remembered

    def _add(self, word: str, remembered: _Remembered) -> None:
        row = len(remembered.rows)
        told = weighed_pieces(pieces(word), self._known, self._rarity)
        weights = np.array([weight for _, weight in told], dtype=np.float32)
        if told:
            places = [place for place, _ in told]
            often_told = weights / np.array([self._rarity[place] for place in places], dtype=np.float32)
            remembered.said[row] = often_told @ self._by_word[places, :-1]
        remembered.squares[row] = float((weights**2).sum())
        remembered.rows[word] = row  # last: whoever finds the word finds what it says

    def _possible(self, codes: tuple[str, ...]) -> _Possible:
        kept = self._by_codes.get(codes)
        if kept is None:
            names = (
                *(code for code in codes if code in self._classes),
                *((NOTHING,) if NOTHING in self._classes else ()),
            )
            which = np.array([self._classes[name] for name in names], dtype=np.intp)
            coded = len(names) - (NOTHING in names)
            kept = self._by_codes[codes] = _Possible(names, coded, self._before[which], which)
        return kept


def _repeat(spoken: Floats, counted: Mapping[int, int]) -> None:
    """Let the rows of words that are told several times count for more; the square of a weight grows by the square."""
    for row, times in enumerate(counted.values()):
        if times > 1:
            factor = often(times)
            spoken[row] *= factor
            spoken[row, -1] *= factor


_ALIVE: WeakValueDictionary[str, SecondOpinion] = WeakValueDictionary()


def opinion_of_pairs(
    pairs: Sequence[Taught], sealed: str, kept_in: Path | None, *, in_pieces: bool, in_depth: bool
) -> SecondOpinion:
    """
    What *pairs* (sorted, each once) with that seal teach: one for all that learned the same and live at a time, shops that
    share their rules and editions of one.
    """
    found = _ALIVE.get(sealed)
    if found is None:
        learned = learned_from(pairs, sealed, kept_in, in_pieces=in_pieces, in_depth=in_depth)
        found = _ALIVE[sealed] = SecondOpinion(learned=learned, in_pieces=in_pieces, in_depth=in_depth)
    return found


def known_opinion(sealed: str, kept_in: Path, *, in_pieces: bool, in_depth: bool) -> SecondOpinion | None:
    """The SecondOpinion that was learned under that seal, if one lives or what it learned is kept whole."""
    found = _ALIVE.get(sealed)
    if found is None and (learned := kept_as(sealed, kept_in)) is not None:
        found = _ALIVE[sealed] = SecondOpinion(learned=learned, in_pieces=in_pieces, in_depth=in_depth)
    return found
