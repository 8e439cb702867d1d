"""
Teaching of the second opinion: from texts and the codes each tells to what every word and pair of words says for each code.

One linear support vector machine per code against the rest (Fan et al. 2008, LIBLINEAR; the library is scikit-learn) over
words and pairs weighed by tf-idf, and where it is worth their price over pieces of words, which tell "humea" and "smokin"
from "humo" and "smoke" (cf. Cavnar and Trenkle 1994 on character n-grams).
What was learned is kept beside the rules, so that the same texts are learned from once.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import zipfile
from collections import Counter
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import pairwise
from math import log
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.reading.normalising import fold

NOTHING = ""
"""The class of texts that tell none of the codes."""

LOOSENESS = 1.0
"""How far a text may stand on the wrong side (the machine's C); 0.3 to 3 were as good on texts held apart."""

MOST_KEPT = 6
"""Kept files in one folder; the ones not written for longest go first."""

PIECES = (3, 4)
"""How many letters a piece of a word has, its ends marked."""

_PIECE = "~"
_WORD = re.compile(r"\w\w+")
Floats = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class Learned:
    """
    What texts taught. places: each word, pair or piece and its row. rarity: its weight, by row. weights: what it says for
    each of *codes*, row by code; bias: what is so before a word.
    """

    codes: tuple[str, ...]
    places: dict[str, int]
    rarity: Floats
    weights: Floats
    bias: Floats


def grams(words: Sequence[str]) -> list[str]:
    """The words of two letters and more, and the pairs of them that stand side by side."""
    long = [word for word in words if len(word) > 1]
    return [*long, *(f"{one} {next_}" for one, next_ in pairwise(long))]


@lru_cache(maxsize=20_000)  # a language has so many words that come again
def pieces(word: str) -> tuple[str, ...]:
    """The pieces of *word*, told from whole words by a sign before them."""
    marked = f"<{word}>" if len(word) > 1 else ""
    return tuple(_PIECE + marked[at : at + many] for many in PIECES for at in range(len(marked) - many + 1))


def learned_from(taught: Iterable[tuple[str, str]], kept_in: Path | None = None, *, in_pieces: bool = False) -> Learned:
    """
    What *taught* (text, code) teaches; kept in the folder *kept_in*, and taken from there where it is whole.

    in_pieces: learn from pieces of words as well.
    """
    pairs = sorted(set(taught))
    if kept_in is None:
        return _learn(pairs, in_pieces)
    total = hashlib.sha256(_code())
    total.update(json.dumps([in_pieces, pairs]).encode())
    file = kept_in / f"{total.hexdigest()}.npz"
    known = _kept(file)
    if known is None:
        known = _learn(pairs, in_pieces)
        _keep(file, known)
    return known


def _learn(pairs: Sequence[tuple[str, str]], in_pieces: bool) -> Learned:
    told: dict[str, set[str]] = {}
    for text, code in pairs:
        told.setdefault(text, set()).add(code)
    codes = tuple(sorted({code for _, code in pairs}))
    counted = [_counted(_words(text), in_pieces) for text in told]
    seen_in = Counter(gram for text in counted for block in text for gram in block)
    places = {gram: place for place, gram in enumerate(sorted(seen_in))}
    rarity = np.array([log((1 + len(told)) / (1 + seen_in[gram])) + 1 for gram in places], dtype=np.float32)
    weights = np.zeros((len(places), len(codes)), dtype=np.float32)
    bias = np.zeros(len(codes), dtype=np.float32)
    if len(codes) > 1:
        # Not imported above: that takes longer than the rest of a start, and most starts find what was learned.
        from scipy.sparse import csr_matrix
        from sklearn.svm import LinearSVC

        where = [np.array([places[g] for g in block], dtype=np.int32) for text in counted for block in text]
        times = [np.array(list(block.values())) for text in counted for block in text]
        shares = [weighed(at, many, rarity) for at, many in zip(where, times, strict=True)]
        ends = np.cumsum([0, *(sum(map(len, text)) for text in counted)])
        table = csr_matrix((np.concatenate(shares), np.concatenate(where), ends), (len(counted), len(places)))
        for column, code in enumerate(codes):
            tells = [code in told[text] and (code != NOTHING or len(told[text]) == 1) for text in told]
            if any(tells) and not all(tells):
                machine = LinearSVC(C=LOOSENESS, random_state=0).fit(table, tells)
                weights[:, column], bias[column] = machine.coef_[0], machine.intercept_[0]
    return Learned(codes, places, rarity, weights, bias)


def _counted(words: Sequence[str], in_pieces: bool) -> tuple[Counter[str], ...]:
    """Words and pairs, and pieces if wanted: each by itself, for each is weighed to unit length."""
    whole = Counter(grams(words))
    return (whole, Counter(piece for word in words for piece in pieces(word))) if in_pieces else (whole,)


def weighed(places: NDArray[np.int32], counts: NDArray[np.int_], rarity: Floats) -> Floats:
    """tf-idf of unit length (Manning, Raghavan and Schütze 2008, chapter 6): what stands at *places*, *counts* times."""
    share = ((1 + np.log(counts)) * rarity[places]).astype(np.float32)
    length = float(np.sqrt((share**2).sum()))
    return share / np.float32(length) if length else share


def _kept(file: Path) -> Learned | None:
    try:
        with np.load(file, allow_pickle=False) as held:
            codes, words = json.loads(held["words"].tobytes())
            known = Learned(
                tuple(codes), {w: n for n, w in enumerate(words)}, held["rarity"], held["weights"], held["bias"]
            )
    except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile):
        return None  # not kept, or not whole: it is learned again
    return known if known.weights.shape == (len(words), len(codes)) else None


def _keep(file: Path, learned: Learned) -> None:
    words = np.frombuffer(json.dumps([learned.codes, list(learned.places)]).encode(), dtype=np.uint8)
    with suppress(OSError):
        file.parent.mkdir(exist_ok=True)
        draft = file.with_suffix(f".{os.getpid()}")
        with draft.open("wb") as out:
            np.savez(out, words=words, rarity=learned.rarity, weights=learned.weights, bias=learned.bias)
        draft.replace(file)  # whole or not at all: another process may be reading
        for old in sorted(file.parent.glob("*.npz"), key=lambda path: path.stat().st_mtime)[:-MOST_KEPT]:
            old.unlink(missing_ok=True)


def _words(text: str) -> list[str]:
    return _WORD.findall(fold(text).replace("'", "").replace("’", ""))


@cache
def _code() -> bytes:
    """What else decides what is learned: this file, and how words are folded."""
    here = Path(__file__)
    return here.read_bytes() + here.with_name("normalising.py").read_bytes()
