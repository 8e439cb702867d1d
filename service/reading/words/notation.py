"""The phrase notation of the rule files, taken apart: words, gaps, and groups of which one stands or none."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from service.reading.words.normalising import APOSTROPHES, AUXILIARIES, WORD, fold, merged_negation

_PIECE = re.compile(r"\[[^\[\]()]*\]|\([^\[\]()]*\)|[\[\]()|*]|[^\s\[\]()|*]+")
_SIGNS = frozenset("[]()|*")
_EVERYDAY = re.compile(r"(?!.*\bnot\b)[a-z |]+")
"""Choices of words that stand as they are written."""


class PhraseMistaken(ValueError):
    """A phrase that does not follow the notation; the message says what is wrong and how to mend it."""


@dataclass(frozen=True, slots=True)
class Plain:
    """One word. exact: this very form only."""

    form: str
    exact: bool = False


@dataclass(frozen=True, slots=True)
class Gap:
    """A ``*``: up to three words that are not looked at."""


@dataclass(frozen=True, slots=True)
class Group:
    """Alternatives, of which one stands; optional: or none."""

    options: tuple[Phrase, ...]
    optional: bool


Phrase = tuple[Plain | Gap | Group, ...]
_GAP = Gap()


@lru_cache(maxsize=65_536)
def parse(phrase: str) -> Phrase:
    """
    *phrase* taken apart, its words cut as a text's words are.

    Raises PhraseMistaken for brackets that do not match, a phrase that may be empty, and one that begins or ends with a gap.
    """
    pieces = _PIECE.findall(phrase)
    parts, read = _sequence(pieces, 0, phrase, closing=None)
    if read < len(pieces) or len(parts) != 1:
        raise PhraseMistaken(f"“{phrase}”: “|” stands only between brackets, and every bracket needs its partner")
    found = parts[0]
    if _may_be_empty(found):
        raise PhraseMistaken(f"“{phrase}”: every word of it may be missing; (a|b) is optional, [a|b] is not")
    if isinstance(found[0], Gap) or isinstance(found[-1], Gap):
        raise PhraseMistaken(f"“{phrase}”: a phrase begins and ends with a word")
    return found


def _sequence(pieces: list[str], at: int, phrase: str, closing: str | None) -> tuple[list[Phrase], int]:
    """The alternatives from piece *at* up to *closing*, and the place of the piece after it."""
    done: list[Phrase] = []
    current: list[Plain | Gap | Group] = []
    while at < len(pieces):
        piece = pieces[at]
        at += 1
        if piece not in _SIGNS:
            plain = _plain(piece)
            if plain is not None:
                current.append(plain)
            elif piece[0] in "[(":
                current.append(_group(piece))
            else:
                _add_words(current, piece)
        elif piece == closing:
            return [*done, tuple(current)], at
        elif piece in ")]":
            raise PhraseMistaken(f"“{phrase}”: “{piece}” closes nothing")
        elif piece == "|":
            done.append(tuple(current))
            current = []
        elif piece == "*":
            current.append(_GAP)
        else:
            options, at = _sequence(pieces, at, phrase, "]" if piece == "[" else ")")
            current.append(Group(tuple(options), piece == "("))
    if closing is not None:
        raise PhraseMistaken(f"“{phrase}”: “{closing}” is missing")
    return [*done, tuple(current)], at


_everyday = lru_cache(maxsize=32_768)(Plain)


@lru_cache(maxsize=32_768)
def _group(written: str) -> Group:
    """Brackets that hold none, the same group for every phrase that has them: half of all are written twice or more."""
    inner, optional = written[1:-1], written[0] == "("
    if _EVERYDAY.fullmatch(inner):
        words = (tuple(map(_everyday, option.split())) for option in inner.split("|"))
        return Group(tuple(words), optional)
    options, _ = _sequence(_PIECE.findall(inner), 0, written, closing=None)
    return Group(tuple(options), optional)


@lru_cache(maxsize=32_768)
def _plain(written: str) -> Plain | None:
    """An everyday word as it stands; the same one for every phrase that has it. None for one to look into."""
    return (
        Plain(written) if written.isascii() and written.isalpha() and written.islower() and written != "not" else None
    )


def _add_words(current: list[Plain | Gap | Group], written: str) -> None:
    exact = written.startswith("=")
    for part in WORD.findall(fold(written)):
        if not part[0].isalnum():
            continue
        form = part.translate(APOSTROPHES)
        if form == "not" and current and not exact:
            form = _merge(current)
        current.append(Plain(form, exact))


def _merge(current: list[Plain | Gap | Group]) -> str:
    """“does not” is one word in a text; what a group offers before “not” goes the same way."""
    last = current[-1]
    if isinstance(last, Plain) and last.form in AUXILIARIES:
        current.pop()
        return merged_negation(last.form)
    if isinstance(last, Group):
        kept = tuple(
            o for o in last.options if not (len(o) == 1 and isinstance(o[0], Plain) and o[0].form in AUXILIARIES)
        )
        if len(kept) < len(last.options):
            current.pop()
            if kept:
                current.append(Group(kept, optional=True))
    return "not"


def _may_be_empty(phrase: Phrase) -> bool:
    return not (phrase and isinstance(phrase[0], Plain)) and all(
        isinstance(part, Gap)
        or (isinstance(part, Group) and (part.optional or any(_may_be_empty(o) for o in part.options)))
        for part in phrase
    )
