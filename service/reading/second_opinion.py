"""
A second opinion, for texts in which no phrase of the rules is heard: what customers mostly told in such words.

Multinomial naive Bayes over word weights of unit length (tf-idf; Manning, Raghavan and Schütze 2008, chapters 6 and 13),
learned when the rules are loaded. It chooses among the codes that are possible, or none, and says by which words.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from math import log, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.reading.normalising import fold

NOTHING = ""
"""The class of texts that tell none of the codes."""

SMOOTHING = 0.02
"""Added to every word's weight in every class; chosen on texts that were held apart from the learning."""

LEAST_WORDS = 3
"""Fewer words that are known tell nothing."""

SHOWN = 3
_WORD = re.compile(r"\w\w+")
Vector = NDArray[np.float64]


class Opinion(NamedTuple):
    """
    The likeliest code, its share among those that are possible and NOTHING, the words that speak most for it, and all shares.
    """

    code: str
    share: float
    because: tuple[str, ...]
    shares: Mapping[str, float]


class _Possible(NamedTuple):
    """The classes one machine can have: their codes, each word's log-likelihoods in them, their log-shares beforehand."""

    names: tuple[str, ...]
    by_word: Vector
    before: Vector


class SecondOpinion:
    """What texts teach that each tell one code, or NOTHING. Pure once made."""

    def __init__(self, taught: Iterable[tuple[str, str]]) -> None:
        texts = [(_words(text), code) for text, code in taught]
        self._classes = {code: place for place, code in enumerate(sorted({code for _, code in texts}))}
        spread: Counter[str] = Counter()
        for words, _ in texts:
            spread.update(set(words))
        self._known: dict[str, int] = {word: place for place, word in enumerate(spread)}
        seen_in = np.array(list(spread.values()), dtype=np.float64)
        self._rarity: Vector = np.log((1 + len(texts)) / (1 + seen_in)) + 1
        weight = np.zeros((len(self._classes), len(self._known)))
        often = np.zeros(len(self._classes))
        for words, code in texts:
            places, share = self._weighed(words)
            weight[self._classes[code], places] += share
            often[self._classes[code]] += 1
        weight += SMOOTHING
        self._by_word: Vector = np.ascontiguousarray(np.log(weight / weight.sum(axis=1, keepdims=True)).T)
        self._by_codes: dict[tuple[str, ...], _Possible] = {}
        self._before: Vector = np.log(often / max(often.sum(), 1))
        self._gains: dict[str, tuple[float, float]] = {}
        self._most: float | None = None
        self._bound()

    def of(self, words: Sequence[str], codes: tuple[str, ...], without: Collection[str] = ()) -> Opinion | None:
        """
        What *words* (folded, in order) tell, of *codes* but those *without*; None if there is too little to go by.
        """
        places, share = self._weighed(words)
        if len(places) < LEAST_WORDS:
            return None
        possible = self._possible(codes)
        spoken = possible.by_word[places]
        total = share @ spoken + possible.before
        for code in without:
            if code in possible.names:
                total[possible.names.index(code)] = -np.inf
        chances = np.exp(total - total.max())
        chances /= chances.sum()
        coded = len(possible.names) - (NOTHING in possible.names)
        if not coded:
            return None
        best = int(chances[:coded].argmax())
        code = possible.names[best]
        speaks = share * (spoken[:, best] - spoken.mean(axis=1))
        told = {place: word for word in words if (place := self._known.get(word)) is not None}
        strongest = [told[int(places[n])] for n in np.argsort(-speaks)[:SHOWN]]
        shares = dict(zip(possible.names, chances.tolist(), strict=True))
        return Opinion(code, float(chances[best]), tuple(strongest), shares)

    def may_tell(self, words: Sequence[str], least: float) -> bool:
        """Whether any code can have a share of *least* of *words*: a bound that costs little, for texts that tell none."""
        if self._most is None:
            return True
        gained, squares, counted = 0.0, 0.0, set[str]()
        for word in words:
            gain, square = self._gains.get(word, (0.0, 0.0))
            gained += gain
            if word not in counted:
                counted.add(word)
                squares += square
        return squares > 0 and gained / sqrt(squares) + self._most >= log(least / (1 - least))

    def _bound(self) -> None:
        """For ``may_tell``: what each word says at most for any code against NOTHING, and what is so before a word."""
        nothing = self._classes.get(NOTHING)
        coded = [place for code, place in self._classes.items() if code != NOTHING]
        if nothing is None or not coded:
            return
        against = self._by_word[:, coded] - self._by_word[:, [nothing]]
        gains = np.maximum(against.max(axis=1), 0) * self._rarity
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

    def _weighed(self, words: Sequence[str]) -> tuple[NDArray[np.intp], Vector]:
        """The places of the known *words* and their weights, of unit length together."""
        counted = Counter(place for word in words if (place := self._known.get(word)) is not None)
        places = np.fromiter(counted.keys(), dtype=np.intp, count=len(counted))
        weight = (1 + np.log(np.fromiter(counted.values(), dtype=np.float64, count=len(counted)))) * self._rarity[
            places
        ]
        length = float(np.sqrt((weight**2).sum()))
        return places, weight / length if length else weight


def _words(text: str) -> list[str]:
    return _WORD.findall(fold(text).replace("'", "").replace("’", ""))
