"""
Teaching of the second opinion: from texts and the codes each tells to what every word and pair of words says for each code.

One linear support vector machine per code against the rest (Fan et al. 2008, LIBLINEAR; the library is scikit-learn) over
words and pairs weighed by tf-idf, and where it is worth their price over pieces of words, which tell "humea" and "smokin"
from "humo" and "smoke" (cf. Cavnar and Trenkle 1994 on character n-grams).
What was learned is kept beside the rules, so that the same texts are learned from once.
"""

from __future__ import annotations

import hashlib
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import cache, lru_cache
from itertools import pairwise
from math import log, sqrt
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.reading.opinion.keeping import Learned, keep_as, kept_as
from service.reading.words.normalising import NEGATIONS, fold
from service.reading.words.stemming import NEGATIVE_AUXILIARIES, stem_en, stem_es

NOTHING = ""
"""The class of texts that tell none of the codes."""

LOOSENESS = 1.0
"""How far a text may stand on the wrong side (the machine's C); 0.3 to 3 were as good on texts held apart."""

SEEN_IN = 2
"""A pair of words that one text alone has teaches nothing that its words do not; without those half the rows are left."""

OF_MACHINE = "|"
"""Stands between a machine and a word that is said of it: "open" is one thing of a dryer's door and another of a valve."""

PIECES = (3, 4)
"""How many letters a piece of a word has, its ends marked."""

STEM, NEGATED = "$", "!"
"""Stand before what many forms of a word have in common, and before a word that comes soon after a negation."""

REACH = 3
"""So many words after a negation are counted as said in it: “wont even spin”."""

_NEGATIONS = NEGATIVE_AUXILIARIES | NEGATIONS | {"nada"}
_PIECE = "~"
_WORD = re.compile(r"\w\w+")


class Taught(NamedTuple):
    """A text, a code that it tells or NOTHING, and the machine it is said of, if of one."""

    text: str
    code: str
    machine: str = ""


def of_words(words: Iterable[str]) -> list[str]:
    """The words of two letters and more."""
    return [word for word in words if len(word) > 1]


def grams(words: Sequence[str], *machines: str) -> list[str]:
    """
    The words of two letters and more, the pairs of them that stand side by side, and each of them as said of *machines*
    (cf. Daumé 2007 on a copy of every feature for each domain).
    """
    long = of_words(words)
    of_machines = [f"{machine}{OF_MACHINE}{word}" for machine in machines if machine for word in long]
    return [*with_pairs(tuple(long)), *of_machines]


@lru_cache(maxsize=16)
def with_pairs(long: tuple[str, ...]) -> list[str]:
    """The words *long* and their pairs; remembered, for more than one opinion is asked of the words of a text."""
    return [*long, *[f"{one} {next_}" for one, next_ in pairwise(long)]]


def deeper(words: Sequence[str]) -> list[str]:
    """
    What the words of two letters and more have in common with their other forms, and each that comes soon after a negation:
    “not spinning” is told by "spin" and by "not". On texts of writers from whom nothing was learned both told more.
    """
    long = of_words(words)
    found = list(map(root, long))  # nearly always remembered
    if _NEGATIONS.isdisjoint(long):
        return found
    left = 0
    for word in long:
        if word in _NEGATIONS:
            left = REACH
        elif left:
            found.append(NEGATED + word)
            left -= 1
    return found


@lru_cache(maxsize=20_000)
def root(word: str) -> str:
    """What the English and Spanish forms of *word* have in common, marked as that."""
    return STEM + stem_es(stem_en(word))


def pieces(word: str) -> Counter[str]:
    """The pieces of *word*, told from whole words by a sign before them, and how often each stands in it."""
    marked = f"<{word}>" if len(word) > 1 else ""
    return Counter(_PIECE + marked[at : at + many] for many in PIECES for at in range(len(marked) - many + 1))


def learned_from(
    pairs: Sequence[Taught],
    sealed: str,
    kept_in: Path | None = None,
    *,
    in_pieces: bool = False,
    in_depth: bool = False,
) -> Learned:
    """
    What *pairs* (sorted, each once) teach; kept in the folder *kept_in*, and taken from there where it is whole.

    sealed: their ``seal``. in_pieces: learn from pieces of words as well. in_depth: from stems and what is negated.
    """
    if kept_in is None:
        return _learn(pairs, in_pieces, in_depth)
    known = kept_as(sealed, kept_in)
    if known is None:
        known = _learn(pairs, in_pieces, in_depth)
        keep_as(sealed, kept_in, known)
    return known


def seal(pairs: Sequence[Taught], *, in_pieces: bool, in_depth: bool) -> str:
    """What decides what is learned of *pairs* (sorted, each once), in one number (SHA-256, hex)."""
    total = hashlib.sha256(code_of())
    told = ("\x1f".join(pair) for pair in pairs)  # no text has these signs, and JSON takes five times as long
    total.update("\x1e".join([f"{in_pieces} {in_depth}", *told]).encode())
    return total.hexdigest()


def _learn(taught: Sequence[Taught], in_pieces: bool, in_depth: bool) -> Learned:
    told: dict[str, set[str]] = {}
    said_of: dict[str, set[str]] = {}
    for text, code, machine in taught:
        told.setdefault(text, set()).add(code)
        said_of.setdefault(text, set()).add(machine)
    codes = tuple(sorted({one.code for one in taught}))
    texts = [_words(text) for text in told]
    every = dict.fromkeys(word for words in texts for word in words)
    apart = {word: pieces(word) for word in every} if in_pieces else {}
    grammed = [grams(words, *sorted(said_of[text])) for text, words in zip(told, texts, strict=True)]
    if in_depth:
        for own, words in zip(grammed, texts, strict=True):
            own += deeper(words)
    seen_in = Counter(gram for own in grammed for gram in set(own))
    seen_in.update(piece for words in texts for piece in {piece for word in words for piece in apart.get(word, ())})
    worth = sorted(gram for gram, many in seen_in.items() if many >= SEEN_IN or not _is_joined(gram))
    places = {gram: place for place, gram in enumerate(worth)}
    rarity = np.array([log((1 + len(told)) / (1 + seen_in[gram])) + 1 for gram in places], dtype=np.float32)
    weights = np.zeros((len(places), len(codes)), dtype=np.float32)
    bias = np.zeros(len(codes), dtype=np.float32)
    if len(codes) > 1:
        # Not imported above: that takes longer than the rest of a start, and most starts find what was learned.
        from scipy.sparse import csr_matrix
        from sklearn.svm import LinearSVC

        often_told: list[float] = rarity.tolist()
        parted = {word: np.array(weighed_pieces(counted, places, often_told)) for word, counted in apart.items()}
        rows = [_row(own, words, parted, places, often_told) for own, words in zip(grammed, texts, strict=True)]
        ends = np.cumsum([0, *(len(row) for row in rows)])
        flat = np.concatenate(rows)
        table = csr_matrix((flat[:, 1].copy(), flat[:, 0].astype(np.int32), ends), (len(rows), len(places)))
        table.sum_duplicates()
        for column, code in enumerate(codes):
            tells = [code in told[text] and (code != NOTHING or len(told[text]) == 1) for text in told]
            if any(tells) and not all(tells):
                machine = LinearSVC(C=LOOSENESS, random_state=0).fit(table, tells)
                weights[:, column], bias[column] = machine.coef_[0], machine.intercept_[0]
    return Learned(codes, places, rarity, weights, bias)


def _is_joined(gram: str) -> bool:
    return " " in gram or OF_MACHINE in gram or gram[0] == NEGATED


def _row(
    told: Sequence[str],
    words: Sequence[str],
    parted: Mapping[str, NDArray[np.float64]],
    places: Mapping[str, int],
    rarity: Sequence[float],
) -> NDArray[np.float64]:
    """
    Places and weights of what a text *told* and of the pieces that its *words* are *parted* into: a line each,
    a place in several lines where several words have the piece.
    """
    counted = placed(told, places)
    of_words = np.array(list(zip(counted, weighed(counted, rarity), strict=True))).reshape(-1, 2)
    in_pieces = [pieced for word in dict.fromkeys(words) if len(pieced := parted.get(word, ()))]
    if not in_pieces:
        return of_words
    of_pieces = np.concatenate(in_pieces)
    of_pieces[:, 1] /= sqrt(float((of_pieces[:, 1] ** 2).sum()))
    return np.concatenate([of_words, of_pieces])


def placed(told: Sequence[str], places: Mapping[str, int]) -> dict[int, int]:
    """The places of the words and pairs *told* that have one, in order, and how often each was told."""
    counted: dict[int, int] = {}
    for gram in told:
        place = places.get(gram)  # looked up once: among so many the look is what costs
        if place is not None:
            counted[place] = counted.get(place, 0) + 1
    return counted


def weighed(counted: Mapping[int, int], rarity: Sequence[float]) -> list[float]:
    """tf-idf of unit length (Manning, Raghavan and Schütze 2008, chapter 6) of words and pairs, *counted* by their places."""
    shares = [rarity[place] * often(times) for place, times in counted.items()]
    length = sqrt(sum(share * share for share in shares))
    return [share / length for share in shares]


def often(times: int) -> float:
    """What is told several times weighs so much more than once."""
    return 1 + log(times) if times > 1 else 1.0


def weighed_pieces(
    counted: Mapping[str, int], places: Mapping[str, int], rarity: Sequence[float]
) -> list[tuple[int, float]]:
    """
    The weights of one word's pieces that have a place. All words of a text together are brought to unit length, each by
    itself: so a word's share can be kept, whatever text it comes in.
    """
    return [(places[piece], times * rarity[places[piece]]) for piece, times in counted.items() if piece in places]


def _words(text: str) -> list[str]:
    return _WORD.findall(fold(text).replace("'", "").replace("’", ""))


@cache
def code_of(*besides: Path) -> bytes:
    """What else decides what is learned: this file, how words are folded and stemmed, and the files *besides*."""
    here = Path(__file__)
    words = (here.parents[1] / "words" / name for name in ("normalising.py", "stemming.py"))
    return b"".join(file.read_bytes() for file in (here, *words, *besides))
