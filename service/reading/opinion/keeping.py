"""What was learned, kept as files beside the rules: taken whole or not at all."""

from __future__ import annotations

import io
import json
import os
import zipfile
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]

MOST_KEPT = 14
"""Kept files in one folder; the ones not written for longest go first."""


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


def kept_as(sealed: str, kept_in: Path) -> Learned | None:
    """What is kept in the folder *kept_in* under that seal; None where it is not kept whole."""
    try:
        with np.load(kept_in / f"{sealed}.npz", allow_pickle=False) as held:
            codes, words = json.loads(held["words"].tobytes())
            known = Learned(
                tuple(codes), {w: n for n, w in enumerate(words)}, held["rarity"], held["weights"], held["bias"]
            )
    except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile):
        return None  # not kept, or not whole: it is learned again
    return known if known.weights.shape == (len(words), len(codes)) else None


def keep_as(sealed: str, kept_in: Path, learned: Learned) -> None:
    """Keep what was *learned* in the folder *kept_in* under that seal."""
    words = np.frombuffer(json.dumps([learned.codes, list(learned.places)]).encode(), dtype=np.uint8)
    out = io.BytesIO()
    np.savez(out, words=words, rarity=learned.rarity, weights=learned.weights, bias=learned.bias)
    write_whole(kept_in / f"{sealed}.npz", out.getbuffer(), MOST_KEPT)


def write_whole(file: Path, what: bytes | memoryview, most: int) -> None:
    """Keep *what* in *file*, of whose kind *most* stay in its folder; nothing happens where that cannot be written."""
    with suppress(OSError):
        file.parent.mkdir(exist_ok=True)
        draft = file.with_suffix(f".{os.getpid()}")
        draft.write_bytes(what)
        draft.replace(file)  # whole or not at all: another process may be reading
        for old in sorted(file.parent.glob(f"*{file.suffix}"), key=lambda path: path.stat().st_mtime)[:-most]:
            old.unlink(missing_ok=True)
