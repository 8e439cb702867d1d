"""The phrase notation: brackets that close, choices that are choices, gaps between words that must be there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

from service.rulebook.checking.codes import Path
from service.rulebook.folder import Page
from service.rulebook.problems import Problem
from service.rulebook.yaml_text import Plain

_PIECE = re.compile(r"[\[\]()|*]|[^\s\[\]()|*]+")
_SIGNS = re.compile(r"[\[\]()|*=]|^\s*$")
_PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
_BRACE = re.compile(r"[{}]")
_CLOSES = {"]": "[", ")": "("}
_WORDS = r"(?>\s*=?[^\s\[\]()|*=][^\s\[\]()|*]*+(?:\s++=?[^\s\[\]()|*=][^\s\[\]()|*]*+)*+\s*+)"
_FLAT = re.compile(rf"(?>\s*+(?:{_WORDS}|\[{_WORDS}(?:\|{_WORDS})*+\]|\({_WORDS}(?:\|{_WORDS})*+\))\s*+)*+")
_OPTIONAL = re.compile(r"\([^)]*\)")
"""Phrases of words and single brackets, as most are: found sound at a glance if more than what may be missing is there."""
_EDGES_FREE = re.compile(r"[(*].*|.*[)*]|.*(?:[\[(|]\s*\*|\*\s*[\])|]).*", re.S)
"""Phrases that begin or end with what may be missing, or in which a bracket begins or ends with a gap."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """A sentence and where it stands."""

    page: Page[Any]
    path: Path
    sentence: str


def phrase_problems(page: Page[Any]) -> Iterator[Problem]:
    """Every phrase of the file that does not follow the notation."""
    for path, value in page.written.speaking():
        if value.keys() <= {"en", "es"}:
            for language, phrases in value.items():
                if isinstance(phrases, list):
                    yield from _phrases(page, (*path, language), phrases)


def placeholder_problems(page: Page[Any]) -> Iterator[Problem]:
    """Every text of the file whose languages do not have the same placeholders."""
    for path, value in page.written.speaking():
        if value.keys() == {"en", "es"}:
            english, spanish = value["en"], value["es"]
            if isinstance(english, str) and isinstance(spanish, str) and _BRACE.search(english + spanish):
                there = Spoken(page, (*path, "en"), english), Spoken(page, (*path, "es"), spanish)
                yield from same_placeholders(*there)


def same_placeholders(english: Spoken, spanish: Spoken) -> Iterator[Problem]:
    """A problem if the two sentences do not have the same placeholders, or one has a brace that stands alone."""
    sound = True
    for spoken in (english, spanish):
        if placeholders(spoken.sentence) is None:
            sound = False
            remedy = "A placeholder is written {name}."
            yield spoken.page.problem(spoken.path, "A brace { or } stands alone.", remedy=remedy)
    wanted, found = placeholders(english.sentence), placeholders(spanish.sentence)
    if sound and wanted != found:
        told = f"The English has {_named(wanted)}, the Spanish {_named(found)}."
        yield spanish.page.problem(spanish.path, told, remedy="Both languages need the same placeholders.")


def placeholders(text: str) -> frozenset[str] | None:
    """The names in braces in *text*; None if a brace stands alone or is empty."""
    if "{" not in text and "}" not in text:
        return frozenset()
    names = _PLACEHOLDER.findall(text)
    rest = _PLACEHOLDER.sub("", text)
    if "{" in rest or "}" in rest or not all(name.isidentifier() for name in names):
        return None
    return frozenset(names)


def _named(names: frozenset[str] | None) -> str:
    return ", ".join(f"{{{name}}}" for name in sorted(names or ())) or "none"


def _phrases(page: Page[Any], path: Path, phrases: list[Plain]) -> Iterator[Problem]:
    written = [phrase for phrase in phrases if isinstance(phrase, str)]
    if (
        len(set(written)) == len(written)
        and not any(map(phrase_mistake, written))
        and not any(map(loose_edge, written))
    ):
        return
    seen: set[str] = set()
    for place, phrase in enumerate(phrases):
        if not isinstance(phrase, str):
            continue
        if phrase in seen:
            yield page.problem(
                (*path, place), f'"{phrase}" stands here twice.', remedy="Keep one of them.", blocks=False
            )
        seen.add(phrase)
        mistake = phrase_mistake(phrase)
        if mistake:
            yield page.problem((*path, place), f'"{phrase}": {mistake[0]}.', remedy=f"{mistake[1]}.")
        elif "*" in phrase and loose_edge(phrase):
            found = f'"{phrase}": with what may be missing, a gap * stands at its edge.'
            remedy = "Write [a|b] for (a|b) where one of them must be there."
            yield page.problem((*path, place), found, remedy=remedy, blocks=False)


@lru_cache(maxsize=32_768)
def phrase_mistake(phrase: str) -> tuple[str, str] | None:
    """What is wrong with *phrase* and its remedy, or None."""
    if phrase and not _SIGNS.search(phrase):
        return None
    if "*" not in phrase:
        if _FLAT.fullmatch(phrase) and _OPTIONAL.sub("", phrase).strip():
            return None
    elif not _EDGES_FREE.fullmatch(phrase) and _FLAT.fullmatch(phrase.replace("*", " ")):
        return None
    pieces = _PIECE.findall(phrase)
    if not pieces:
        return "nothing is written", "Write a word, or delete the line"
    return _brackets(pieces) or _signs(pieces) or _edges(pieces)


def _brackets(pieces: list[str]) -> tuple[str, str] | None:
    stack: list[str] = []
    for piece in pieces:
        if piece in "[(":
            stack.append(piece)
        elif piece in _CLOSES:
            if not stack or stack.pop() != _CLOSES[piece]:
                return f"{piece} closes nothing", f"Write {_CLOSES[piece]} before it, or take it out"
        elif piece == "|" and not stack:
            return "| stands only between brackets", "Write [a|b]"
    if stack:
        return f"{stack[-1]} is never closed", "Close it"
    return None


def _signs(pieces: list[str]) -> tuple[str, str] | None:
    for before, piece in zip(["", *pieces], [*pieces, ""], strict=True):
        if (before in ("[", "(", "|") and piece in ("]", ")", "|")) and before:
            return "a choice is empty", "What may be missing is written (a)"
        if piece == "=":
            return "= stands alone", "Write it before a word, without a space: =drain"
    return None


def _edges(pieces: list[str]) -> tuple[str, str] | None:
    """Whether nothing need be there, or a gap stands at an edge for certain."""
    shape = _shape(pieces)
    if shape.may_be_empty:
        return "everything in it may be missing", "One word must be there; (a|b) may be missing, [a|b] may not"
    if pieces[0] == "*" or pieces[-1] == "*":
        return "a gap * stands at its edge", "A phrase begins and ends with a word"
    return None


@lru_cache(maxsize=32_768)
def loose_edge(phrase: str) -> bool:
    """Whether a gap of a sound *phrase* stands at its edge when what may be missing is missing: ``dishes * (dirty)``."""
    if "*" not in phrase or not _EDGES_FREE.fullmatch(phrase):
        return False
    shape = _shape(_PIECE.findall(phrase))
    return shape.gap_first or shape.gap_last


class _Shape(NamedTuple):
    """How the wordings of a piece may be: one empty, one that begins with a gap, one that ends with a gap."""

    may_be_empty: bool
    gap_first: bool = False
    gap_last: bool = False

    def then(self, other: _Shape) -> _Shape:
        return _Shape(
            self.may_be_empty and other.may_be_empty,
            self.gap_first or (self.may_be_empty and other.gap_first),
            other.gap_last or (other.may_be_empty and self.gap_last),
        )

    def either(self, other: _Shape | None) -> _Shape:
        if other is None:
            return self
        empty = self.may_be_empty or other.may_be_empty
        return _Shape(empty, self.gap_first or other.gap_first, self.gap_last or other.gap_last)


_NOTHING = _Shape(may_be_empty=True)
_WORD = _Shape(may_be_empty=False)
_GAP = _Shape(may_be_empty=True, gap_first=True, gap_last=True)


def _shape(pieces: list[str]) -> _Shape:
    """The shape of a phrase whose brackets match."""
    stack: list[tuple[_Shape | None, _Shape]] = []
    done: _Shape | None = None
    current = _NOTHING
    for piece in pieces:
        if piece in "[(":
            stack.append((done, current))
            done, current = None, _NOTHING
        elif piece == "|":
            done, current = current.either(done), _NOTHING
        elif piece in _CLOSES:
            inner = current.either(done)
            inner = inner.either(_NOTHING) if piece == ")" else inner
            done, current = stack.pop()
            current = current.then(inner)
        else:
            current = current.then(_GAP if piece == "*" else _WORD)
    return current
