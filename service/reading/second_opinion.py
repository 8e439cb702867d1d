"""
A second opinion, for texts in which no phrase of the rules is heard: which symptom customers told in such words.

Multinomial naive Bayes over word weights of unit length (tf-idf; Manning, Raghavan and Schütze 2008, chapters 6 and 13),
learned when the rules are loaded from their examples, signs and told texts. It chooses among the symptoms the machine can
have, or none, says by which words, and never speaks against a phrase.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.reading.model import Found
from service.reading.normalising import fold
from service.reading.stated import Statements
from service.reading.symptoms import VAGUE
from service.rulebook.model import Rulebook

NOTHING = ""
"""The class of texts that tell no symptom."""

SMOOTHING = 0.02
"""Added to every word's weight in every class; chosen on texts that were held apart from the learning."""

LEAST_WORDS = 3
"""Fewer words that are known tell nothing."""

ENOUGH = 0.4
"""The share from which an opinion counts."""

ENOUGH_OVER_VAGUE = 0.75
"""The share from which it says more than a phrase that heard a vague complaint, or something that is not so."""

ENOUGH_BESIDE = 0.9
"""The share from which it is added to symptoms that were heard, where all of those are DOUBTED."""

DOUBTED = 0.05
"""A share below which the words as a whole do not tell what one of them was heard as."""

MANY_WORDS = 4
"""A phrase with so many gaps between its words leaves no room for doubt."""

SHOWN = 3
_WORD = re.compile(r"\w\w+")
_SIGNS = re.compile(r"[\[\]()|=*]")
Vector = NDArray[np.float64]


class Opinion(NamedTuple):
    """The likeliest symptom, its share among those that are possible, the words that speak most for it, and all shares."""

    code: str
    share: float
    because: tuple[str, ...]
    shares: Mapping[str, float]


class _Possible(NamedTuple):
    """The classes one machine can have: their codes, each word's log-likelihoods in them, their log-shares beforehand."""

    names: tuple[str, ...]
    by_word: Vector
    before: Vector


def leant_on(opinion: Opinion | None, stated: Statements, appliance: str, text: str) -> Statements:
    """*stated* with the symptom of *opinion*, if it is sure enough; it takes the place of a vague complaint."""
    if opinion is None or opinion.share < _needed(opinion, stated):
        return stated
    words = text.strip()
    start = text.find(words)
    score = round(0.3 + 0.4 * opinion.share, 2)
    found = Found(appliance, opinion.code, score, words, start, start + len(words), "told texts")
    carried = ", ".join(f"“{word}”" for word in opinion.because)
    note = f"Most like what is told of {opinion.code} of {appliance} ({opinion.share:.0%}), for {carried}."
    kept = tuple(f for f in stated.symptoms if f.code != VAGUE)
    return replace(stated, symptoms=(*kept, found), notes=(*stated.notes, note))


def _needed(opinion: Opinion, stated: Statements) -> float:
    """How sure an opinion must be to count beside what phrases told; never, where they told something likely."""
    told = [f.code for f in stated.symptoms if f.code != VAGUE]
    if not told:
        return ENOUGH_OVER_VAGUE if stated.symptoms or stated.denied or stated.dismissed else ENOUGH
    doubted = all(opinion.shares.get(code, 0.0) < DOUBTED for code in told)
    return ENOUGH_BESIDE if doubted else 2.0


class SecondOpinion:
    """What the texts of one rulebook teach. Pure once made."""

    def __init__(self, rulebook: Rulebook) -> None:
        texts = [(_words(text), code) for text, code in _taught(rulebook)]
        self._classes = {code: place for place, code in enumerate(sorted({code for _, code in texts}))}
        self._known: dict[str, int] = {}
        spread: Counter[str] = Counter()
        for words, _ in texts:
            spread.update(set(words))
        self._known = {word: place for place, word in enumerate(spread)}
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

    def of(self, words: Sequence[str], codes: tuple[str, ...], without: Collection[str] = ()) -> Opinion | None:
        """
        What *words* (folded, in order) tell, of the symptoms *codes* but those *without*; None if nothing, or if there is
        too little to go by.
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
        best = int(chances.argmax())
        code = possible.names[best]
        if code == NOTHING:
            return None
        speaks = share * (spoken[:, best] - spoken.mean(axis=1))
        told = {place: word for word in words if (place := self._known.get(word)) is not None}
        strongest = [told[int(places[n])] for n in np.argsort(-speaks)[:SHOWN]]
        shares = dict(zip(possible.names, chances.tolist(), strict=True))
        return Opinion(code, float(chances[best]), tuple(strongest), shares)

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


def _taught(rulebook: Rulebook) -> Iterator[tuple[str, str]]:
    for appliance in rulebook.appliances.values():
        for symptom in appliance.symptoms.values():
            if symptom.code == VAGUE:
                continue
            for example in symptom.examples:
                if symptom.code in example.means:
                    yield example.says, symptom.code
            for phrase in (*symptom.signs.en, *symptom.signs.es):
                yield _SIGNS.sub(" ", phrase), symptom.code
        for code, texts in appliance.told.items():
            for text in texts:
                yield text, code
    for text in rulebook.nothing_told:
        yield text, NOTHING


def _words(text: str) -> list[str]:
    return _WORD.findall(fold(text).replace("'", "").replace("’", ""))
