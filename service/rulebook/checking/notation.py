"""The phrase notation: brackets that close, choices that are choices, gaps between words that must be there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from service.rulebook.checking.codes import Path
from service.rulebook.folder import Page
from service.rulebook.problems import Problem
from service.rulebook.yaml_text import Plain

MOST_WORDINGS = 400
"""A phrase that stands for more wordings than this is refused; the reader refuses it too."""

_PIECE = re.compile(r"[\[\]()|*]|[^\s\[\]()|*]+")
_SIGNS = re.compile(r"[\[\]()|*=]|^\s*$")
_PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
_CLOSES = {"]": "[", ")": "("}


def phrase_problems(page: Page[Any]) -> Iterator[Problem]:
    """Every phrase of the file that does not follow the notation."""
    for path, value in page.written.mappings():
        if value and value.keys() <= {"en", "es"}:
            for language, phrases in value.items():
                if isinstance(phrases, list):
                    yield from _phrases(page, (*path, language), phrases)


def placeholder_problems(page: Page[Any]) -> Iterator[Problem]:
    """Every text of the file whose languages do not have the same placeholders."""
    for path, value in page.written.mappings():
        if value.keys() == {"en", "es"}:
            english, spanish = value["en"], value["es"]
            if isinstance(english, str) and isinstance(spanish, str):
                yield from same_placeholders(page, (*path, "es"), english, page, spanish)


def same_placeholders(page: Page[Any], path: Path, english: str, other: Page[Any], spanish: str) -> Iterator[Problem]:
    """A problem at *path* of *other* if *spanish* does not have the placeholders of *english*, which *page* holds."""
    wanted, found = placeholders(english), placeholders(spanish)
    if wanted is None or found is None:
        at = path if found is None else (*path[:-1], "en")
        where = other if found is None else page
        yield where.problem(at, "A brace { or } stands alone.", remedy="A placeholder is written {name}.")
    elif wanted != found:
        told = f"The English has {_named(wanted)}, the Spanish {_named(found)}."
        yield other.problem(path, told, remedy="Both languages need the same placeholders.")


def placeholders(text: str) -> frozenset[str] | None:
    """The names in braces in *text*; None if a brace stands alone or is empty."""
    names = _PLACEHOLDER.findall(text)
    rest = _PLACEHOLDER.sub("", text)
    if "{" in rest or "}" in rest or not all(name.isidentifier() for name in names):
        return None
    return frozenset(names)


def _named(names: frozenset[str]) -> str:
    return ", ".join(f"{{{name}}}" for name in sorted(names)) or "none"


def _phrases(page: Page[Any], path: Path, phrases: list[Plain]) -> Iterator[Problem]:
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
            yield page.problem((*path, place), f'"{phrase}": {mistake[0]}.', remedy=f"{mistake[1]}.", blocks=False)


def phrase_mistake(phrase: str) -> tuple[str, str] | None:
    """What is wrong with *phrase* and its remedy, or None."""
    if phrase and not _SIGNS.search(phrase):
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
    """Whether a phrase can be empty, begin or end with a gap, or stand for too many wordings."""
    count, can_be_empty, gap_first, gap_last = _shape(pieces)
    if can_be_empty:
        return "everything in it may be missing", "One word must be there"
    if gap_first or gap_last:
        return "a gap * stands at its edge", "A phrase begins and ends with a word that must be there"
    if count > MOST_WORDINGS:
        return f"it stands for {count} wordings", f"Write it as several phrases, {MOST_WORDINGS} wordings at most each"
    return None


Shape = tuple[int, bool, bool, bool]
"""What the wordings of a piece have in common: how many, whether one is empty, begins with a gap, ends with a gap."""

_NOTHING: Shape = (1, True, False, False)
_WORD: Shape = (1, False, False, False)
_GAP: Shape = (1, False, True, True)


def _shape(pieces: list[str]) -> Shape:
    """The shape of a phrase whose brackets match."""
    stack: list[tuple[Shape | None, Shape]] = []
    done: Shape | None = None
    current = _NOTHING
    for piece in pieces:
        if piece in "[(":
            stack.append((done, current))
            done, current = None, _NOTHING
        elif piece == "|":
            done, current = _either(done, current), _NOTHING
        elif piece in _CLOSES:
            inner = _either(done, current)
            inner = _either(inner, _NOTHING) if piece == ")" else inner
            done, current = stack.pop()
            current = _then(current, inner)
        else:
            current = _then(current, _GAP if piece == "*" else _WORD)
    return current


def _then(before: Shape, after: Shape) -> Shape:
    return (
        before[0] * after[0],
        before[1] and after[1],
        before[2] or (before[1] and after[2]),
        after[3] or (after[1] and before[3]),
    )


def _either(one: Shape | None, other: Shape) -> Shape:
    if one is None:
        return other
    return one[0] + other[0], one[1] or other[1], one[2] or other[2], one[3] or other[3]
