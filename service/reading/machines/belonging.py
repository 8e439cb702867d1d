"""Which machines named are parts of larger ones: the freezer of the refrigerator, or the one that stands in the garage."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from service.reading.words.normalising import Word

if TYPE_CHECKING:
    from service.reading.machines.mentions import Mention

PART_OF = {
    "freezer": ("refrigerator",),
    "ice_maker": ("refrigerator", "freezer"),
    "wall_oven": ("range",),
    "cooktop": ("range",),
}
"""Named briefly beside the larger machine, the smaller one is a part of it (vocabulary, "How the codes are used").

An oven of which nobody says that it is in the wall is a range's: most are (common practice, no source)."""

ARTICLES = frozenset((
    "the", "my", "our", "a", "an", "that", "this", "her", "his", "their", "your", "el", "la", "los", "las", "mi",
    "nuestra", "nuestro", "un", "una", "de", "del",
))  # fmt: skip


_BUILT_IN = frozenset(["wall", "wallmount", "pared", "empotrado", "empotrada", "empotrados"])
_WALL = _BUILT_IN | {"built", "double", "doble", "dobles"}
"""A range may be double or built in, and is not in the wall."""

_STOVE = frozenset(["stove", "stovetop", "range"])
"""“Stove top”, told beside an oven that is not in the wall: the top of the range it belongs to."""


def _says(mention: Mention, words: Sequence[Word], of: frozenset[str]) -> bool:
    behind = 1 + (mention.end < len(words) and words[mention.end].form == "in")  # “our oven. in wall.”
    return any(word.form in of for word in words[mention.start : mention.end + behind])


def joined_parts(named: list[Mention], words: Sequence[Word], about: str | None) -> list[Mention]:
    """*named* with each part told as the larger machine's, where that is spoken of and the part is not said to stand alone."""
    named = _without_denied(named, words)
    whole = {m.appliance for m in named} | ({about} if about else set())
    walled = about == "wall_oven" or any(m.appliance == "wall_oven" and _says(m, words, _WALL) for m in named)
    oven = "wall_oven" in whole and not walled
    alone = {
        m.appliance for m in named if m.appliance in PART_OF and m.appliance != "wall_oven" and not _is_brief(m, words)
    }
    joined = []
    for mention in named:
        larger = next((w for w in PART_OF.get(mention.appliance, ()) if w in whole), None)
        brief = mention.appliance not in alone and _is_brief(mention, words)
        if mention.appliance == "wall_oven" and not _says(mention, words, _WALL):
            larger, brief = ("range", True) if not walled or "range" in whole else (None, False)
        elif mention.appliance == "wall_oven" and _says(mention, words, _BUILT_IN):
            brief = False
        elif mention.appliance == "cooktop" and oven and words[mention.start].form in _STOVE:
            larger, brief = "range", True
        joined.append(replace(mention, appliance=larger) if larger and brief else mention)
    return joined


def _is_brief(mention: Mention, words: Sequence[Word]) -> bool:
    """Whether a name is as short as that of a part; a longer one is that of a machine by itself, wherever it is named."""
    if mention.appliance == "cooktop" and mention.end == len(words) and words[0].form in _SETS_RIGHT:
        return False
    start = mention.start + (words[mention.start].form in ARTICLES)
    brief = mention.end - start <= (2 if mention.appliance in ("ice_maker", "wall_oven") else 1)
    return brief and not _stands_alone(mention, words)


_SETS_RIGHT = frozenset(("actually", "nvm", "nevermind", "sorry", "oops", "perdon", "digo", "correction"))
"""“actually its the cooktop”: no top of the range that was spoken of."""
_OF_THE_WHOLE = frozenset((
    "one", "in", "inside", "of", "from", "on", "part", "it", "is", "es", "esta", "que", "q", "en", "lo", "dentro",
))  # fmt: skip


def _without_denied(named: list[Mention], words: Sequence[Word]) -> list[Mention]:
    """*named* without a larger machine that only says whose part it is not: “the ice maker, not the one in the fridge”."""
    parts = {whole for m in named for whole in PART_OF.get(m.appliance, ())}
    return [m for m in named if m.appliance not in parts or not _is_denied(m, words)] if parts else named


def _is_denied(mention: Mention, words: Sequence[Word]) -> bool:
    at = mention.start - 1
    while at >= 0 and not words[at + 1].brk and (words[at].form in ARTICLES or words[at].form in _OF_THE_WHOLE):
        at -= 1
    if at < 0 or words[at + 1].brk:
        return False
    # "no the fridge" answers; "no la del refri" denies
    return words[at].en == "not" or (words[at].form == "no" and words[at + 1].form in ("la", "el", "es", "del", "lo"))


_ALONE = frozenset(["aparte", "separate", "separado", "separada"])
_BY_ITSELF = frozenset((
    ("va", "sola"), ("va", "solo"), ("esta", "sola"), ("esta", "solita"), ("its", "own"), ("one", "alone"), ("va", "solita"),
))  # fmt: skip
_SAID_WITHIN = 8
"""How far behind a name it may be said that the machine stands alone, in words."""


def _stands_alone(mention: Mention, words: Sequence[Word]) -> bool:
    """“la máquina de hielo, la que va sola”, “the ice maker thats on its own”."""
    after = words[mention.end : mention.end + _SAID_WITHIN]
    forms = [word.form for word in after[: next((n for n, word in enumerate(after) if word.brk == 2), len(after))]]
    one_by_itself = any(forms[n : n + 3] == ["one", "by", "itself"] for n in range(len(forms)))
    return one_by_itself or not _ALONE.isdisjoint(forms) or not _BY_ITSELF.isdisjoint(pairwise(forms))
