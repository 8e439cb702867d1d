"""
The second opinions of a rulebook, without gathering what teaches them where that was done before.

What was learned lies under the seal of everything it was learned from, and to find the seal fifty thousand texts are gathered
and sorted: two seconds of every start. Which seal an edition's teaching has is therefore noted beside what was learned.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import cache
from pathlib import Path

from service.reading.opinion import told_texts
from service.reading.opinion.keeping import write_whole
from service.reading.opinion.second_opinion import SecondOpinion, known_opinion, opinion_of_pairs
from service.reading.opinion.teaching import Taught, code_of, seal
from service.rulebook import edition
from service.rulebook.model import Rulebook

MOST_NOTES = 60
"""Notes kept in one folder: six to an edition."""


def opinion_of(
    rulebook: Rulebook,
    teaches: Callable[[Rulebook], Iterable[Taught]],
    *,
    in_pieces: bool = False,
    in_depth: bool = False,
) -> SecondOpinion:
    """What *rulebook* teaches by *teaches*, one of those of ``told_texts``; in_pieces, in_depth: as for ``SecondOpinion``."""
    kept_in = rulebook.kept_in
    note = _note(kept_in, rulebook, teaches, in_pieces, in_depth)
    if kept_in is not None and note is not None and (sealed := _read(note)):
        found = known_opinion(sealed, kept_in, in_pieces=in_pieces, in_depth=in_depth)
        if found is not None:
            return found
    pairs = sorted(set(teaches(rulebook)))
    sealed = seal(pairs, in_pieces=in_pieces, in_depth=in_depth)
    found = opinion_of_pairs(pairs, sealed, kept_in, in_pieces=in_pieces, in_depth=in_depth)
    if note is not None:
        write_whole(note, sealed.encode(), MOST_NOTES)
    return found


def _note(
    kept_in: Path | None,
    rulebook: Rulebook,
    teaches: Callable[[Rulebook], Iterable[Taught]],
    in_pieces: bool,
    in_depth: bool,
) -> Path | None:
    """Where the seal is noted; None where nothing is kept, or for teaching whose code is not among what is digested."""
    if kept_in is None or teaches.__module__ != told_texts.__name__:
        return None
    heard = rulebook.heard_as or rulebook.fingerprint
    name = f"{teaches.__name__} {in_pieces} {in_depth} {heard} {_code()}"
    return kept_in / f"{hashlib.sha256(name.encode()).hexdigest()}.seal"


def _read(note: Path) -> str | None:
    with suppress(OSError, UnicodeDecodeError):
        return note.read_text("ascii")
    return None


@cache
def _code() -> str:
    """What else decides what an edition teaches: the code that gathers it, and that makes a rulebook of its source."""
    total = hashlib.sha256(code_of(Path(told_texts.__file__)))
    for file in sorted(Path(edition.__file__).parent.rglob("*.py")):
        total.update(file.read_bytes())
    return total.hexdigest()
