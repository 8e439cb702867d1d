"""
A second opinion, for texts in which no phrase of the rules is heard: what customers mostly told in such words.

It chooses among the codes that are possible, or none, by what was learned from told texts (``teaching``), and says by which
words.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import log, sqrt
from pathlib import Path
from typing import NamedTuple

import numpy as np

from service.reading.teaching import NOTHING, Floats, grams, learned_from, pieces

__all__ = ["NOTHING", "Opinion", "SecondOpinion"]

SHARPNESS = 4.0
"""What a step of one margin does to the odds, as a power of e; chosen on texts held apart from the learning."""

LEAST_WORDS = 3
"""Fewer words that are known tell nothing."""

SHOWN = 3
ROUNDING = 1e-3
"""Sums of single precision may differ by less than this from the bound's."""


@dataclass(frozen=True, slots=True)
class Opinion:
    """
    The likeliest code, its share among those that are possible and NOTHING, and all shares. ``says``: works out what each
    known word or pair says for the code.
    """

    code: str
    share: float
    shares: Mapping[str, float]
    says: Callable[[], Mapping[str, float]] = field(default=dict, compare=False, repr=False)

    @property
    def because(self) -> tuple[str, ...]:
        """The words and pairs that speak most for it."""
        said = self.says()
        return tuple(sorted(said, key=said.__getitem__, reverse=True)[:SHOWN])


class _Possible(NamedTuple):
    """The classes one machine can have: their codes, what each word says for them, what is so before a word."""

    names: tuple[str, ...]
    by_word: Floats
    before: Floats


class SecondOpinion:
    """What texts teach of codes, or NOTHING. Pure once made; *kept_in*: where what was learned is kept."""

    def __init__(
        self, taught: Iterable[tuple[str, str]], kept_in: Path | None = None, *, in_pieces: bool = False
    ) -> None:
        learned = learned_from(taught, kept_in, in_pieces=in_pieces)
        self._classes = {code: place for place, code in enumerate(learned.codes)}
        self._known, self._rarity, self._in_pieces = learned.places, learned.rarity, in_pieces
        self._rarities: list[float] = learned.rarity.tolist()
        self._by_word: Floats = learned.weights * np.float32(SHARPNESS)
        self._before: Floats = learned.bias * np.float32(SHARPNESS)
        self._by_codes: dict[tuple[str, ...], _Possible] = {}
        self._gains: dict[str, tuple[float, float]] = {}
        self._most: float | None = None
        self._bound()

    def of(self, words: Sequence[str], codes: tuple[str, ...], without: Collection[str] = ()) -> Opinion | None:
        """
        What *words* (folded, in order) tell, of *codes* but those *without*; None if there is too little to go by.
        """
        possible = self._possible(codes)
        coded = len(possible.names) - (NOTHING in possible.names)
        counted = self._counted(grams(words))
        if not coded or sum(" " not in gram for gram in counted) < LEAST_WORDS:
            return None
        places, shares = self._weighed(counted)
        if self._in_pieces:
            parts = self._weighed(self._counted(piece for word in words for piece in pieces(word)))
            places, shares = places + parts[0], shares + parts[1]
        share, spoken = np.array(shares, dtype=np.float32), possible.by_word[places]
        total = (share @ spoken + possible.before).astype(np.float64)
        for code in without:
            if code in possible.names:
                total[possible.names.index(code)] = -np.inf
        chances = np.exp(total - total.max())
        chances /= chances.sum()
        best = int(chances[:coded].argmax())
        code = possible.names[best]
        by_name = dict(zip(possible.names, chances.tolist(), strict=True))

        def says() -> Mapping[str, float]:
            speaks = share * (spoken[:, best] - spoken.sum(axis=1) / np.float32(len(possible.names)))
            return self._by_whole_words(words, counted, dict(zip(places, speaks.tolist(), strict=True)))

        return Opinion(code, by_name[code], by_name, says)

    def _by_whole_words(
        self, words: Sequence[str], counted: Mapping[str, int], speaks: Mapping[int, float]
    ) -> Mapping[str, float]:
        """What *speaks* at each place, told of words and pairs: what its pieces say, a word says."""
        said = {gram: speaks[self._known[gram]] for gram in counted}
        for word in dict.fromkeys(words) if self._in_pieces else ():
            known = (speaks.get(self._known[piece], 0.0) for piece in pieces(word) if piece in self._known)
            said[word] = said.get(word, 0.0) + sum(known)
        return said

    def _counted(self, grams: Iterable[str]) -> dict[str, int]:
        """How often each of *grams* comes, of those that are known."""
        known, counted = self._known, dict[str, int]()
        for gram in grams:
            if gram in known:
                counted[gram] = counted.get(gram, 0) + 1
        return counted

    def may_tell(self, words: Sequence[str], least: float) -> bool:
        """Whether any code can have a share of *least* of *words*: a bound that costs little, for texts that tell none."""
        if self._most is None:
            return True
        gained = self._gained(grams(words))
        if self._in_pieces:
            gained += self._gained(piece for word in words for piece in pieces(word))
        return gained > 0 and gained + self._most >= log(least / (1 - least)) - ROUNDING

    def _gained(self, grams: Iterable[str]) -> float:
        """What *grams* say at most for any code against NOTHING."""
        gained, squares, seen = 0.0, 0.0, set[str]()
        for gram in grams:
            gain, square = self._gains.get(gram, (0.0, 0.0))
            gained += gain
            if gram not in seen:
                seen.add(gram)
                squares += square
        return gained / sqrt(squares) if squares > 0 else 0.0

    def _bound(self) -> None:
        """For ``may_tell``: what each word says at most for any code against NOTHING, and what is so before a word."""
        nothing = self._classes.get(NOTHING)
        coded = [place for code, place in self._classes.items() if code != NOTHING]
        if nothing is None or not coded:
            return
        against = self._by_word[:, coded].max(axis=1) - self._by_word[:, nothing]
        gains = np.maximum(against, 0) * self._rarity
        self._gains = dict(zip(self._known, zip(gains.tolist(), (self._rarity**2).tolist(), strict=True), strict=True))
        self._most = float(self._before[coded].max() - self._before[nothing])

    def _possible(self, codes: tuple[str, ...]) -> _Possible:
        kept = self._by_codes.get(codes)
        if kept is None:
            names = (
                *(code for code in codes if code in self._classes),
                *((NOTHING,) if NOTHING in self._classes else ()),
            )
            which = [self._classes[name] for name in names]
            by_word = np.ascontiguousarray(self._by_word[:, which])
            kept = self._by_codes[codes] = _Possible(names, by_word, self._before[which])
        return kept

    def _weighed(self, counted: Mapping[str, int]) -> tuple[list[int], list[float]]:
        """The places of known words and their weights as ``teaching.weighed``; a few dozen are sooner done one by one."""
        places = [self._known[gram] for gram in counted]
        shares = [
            self._rarities[place] * (1 + log(times)) for place, times in zip(places, counted.values(), strict=True)
        ]
        length = sqrt(sum(share * share for share in shares))
        return places, [share / length for share in shares] if length else shares
