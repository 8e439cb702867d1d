"""The name of whoever takes a window, in small letters before or behind what is taken: “the first one, priya n”."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator

_LEAD = (
    r"(?P<lead>(?:(?:put|book) (?:it|me) )?(?:i'?m|it'?s|it is|i am|this is|my name is|my name'?s|name is|name'?s|name|under|"
    r"for|soy|es|para|a nombre de|me llamo|nombre|mrs?|ms|miss|sra?|srta|don|dona|senora?)[.:]?\s+"
    r"(?:(?:the name(?: of)?|la|el|mrs?|ms|sra?|srta|don|dona|senora?)\.?\s+)?)?"
)
_NAME = r"(?P<name>[^\W\d_][\w'’\-]*(?: [^\W\d_][\w'’\-]*\.?){0,2}?)"
_PLACE = (
    r"(?:(?:ok|okay|si|yes|yeah|sure)[,. ]+)?(?:the |la |el |option |opcion |number |numero |#)*"
    r"(?:\d|first|second|third|last|1st|2nd|3rd|primera|primero|segunda|segundo|tercera|tercero|ultima)"
    r"(?: one| option| opcion)?(?: please| pls| porfa| por favor)?"
)
_ENDS = r"(?:,?\s+(?:here|aqui|please|pls|thanks|thx|gracias))*\s*[.!]*\s*$"
_BEHIND = (
    re.compile(rf"^\W*{_PLACE}\s*[-–—,.:;\s]\s*{_LEAD}{_NAME}{_ENDS}"),
    re.compile(rf"(?:[,.;!\n]\s*|\s[-–—]\s*){_LEAD}{_NAME}{_ENDS}"),
)
_BEFORE = re.compile(rf"^\W*{_LEAD}{_NAME}\s*[-–—,.:;]\s*{_PLACE}\W*$")
_NO_NAMES = frozenset(
    ("one", "option", "opcion", "please", "pls", "porfa", "thanks", "gracias", "ok", "or", "and", "y", "o")
)


def name_in_small(
    text: str,
    folded: str,
    is_word: Callable[[str], bool],
    everyday: Collection[str],
    given: Collection[str],
    family: Collection[str],
) -> str | None:
    """
    The name beside a window that *text* takes: a first name that is no everyday word, or words that nobody knows.

    is_word tells words and their slips; *given* and *family* are names, some of them *everyday* words too. What introduces
    it ("soy"), or a second name, is enough for a first name that is such a word.
    """
    for found in _told(folded):
        parts = [part.strip(".") for part in found.group("name").split()]
        first, rest, led = parts[0], parts[1:], found.group("lead") is not None
        if len(first) <= 1 or _NO_NAMES & {*parts}:
            continue
        behind = all(len(part) == 1 or part in given or part in family or not is_word(part) for part in rest)
        sure = first in given and (led or bool(rest) or first not in everyday)
        if behind and (sure or ((led or rest) and not is_word(first))):
            return text[found.start("name") : found.end("name")].strip()
    return None


def _told(folded: str) -> Iterator[re.Match[str]]:
    """Where a name may stand."""
    for found in (*(pattern.search(folded) for pattern in _BEHIND), _BEFORE.match(folded)):
        if found is not None:
            yield found
