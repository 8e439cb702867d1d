"""Pieces into texts: one where the budget allows, cut between pieces or sentences where not."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from service.conversation.underway import Said
from service.wording.segments import count

BUDGET = 2
"""Segments of one reply. A first text may take two more; accented Spanish, at 67 characters a segment, one more."""
FIRST_TEXT = 2
ACCENTED = 1


@dataclass(frozen=True, slots=True)
class Composed:
    """One text and the ids of the sentences it was made of."""

    text: str
    wording: tuple[str, ...]


def fits(text: str, language: str, *, first: bool = False) -> bool:
    """Whether *text* stays within its budget of segments."""
    counted = count(text)
    allowed = BUDGET + (FIRST_TEXT if first else 0)
    if language == "es" and counted.encoding == "UCS-2":
        allowed += ACCENTED
    return counted.number <= allowed


_FOR_A_PERSON = frozenset((
    "person.asked", "person.asked_again", "person.takes", "person.complaint", "unread.person", "danger.office_still",
))  # fmt: skip
"""Sentences that all say that a person reads this."""


def once(pieces: Sequence[Said]) -> list[Said]:
    """*pieces* without what says the same a second time; a check's own words, which may repeat a caution, stay."""
    kept: list[Said] = []
    for piece in pieces:
        same = piece.text and any(piece.text == before.text and piece.id == before.id for before in kept)
        to_a_person = piece.id in _FOR_A_PERSON and any(before.id in _FOR_A_PERSON for before in kept)
        if not (same or to_a_person) or piece.id.startswith("check."):
            kept.append(piece)
    return kept


def compose(pieces: Sequence[Said], language: str, *, first: bool = False) -> tuple[Composed, ...]:
    """
    The texts that say *pieces* in order.

    Spare pieces are left out where that saves a text, the last ones first. A piece too long for a text of its own is cut
    between its sentences; a single sentence longer than the budget goes out whole, since half a caution is none.
    """
    texts: list[Composed] = []
    for group in _cut(pieces, soft=False):
        first_one = first and not texts
        texts.extend(_fewest(group, language, first_one))
    return tuple(texts)


def _fewest(group: list[Said], language: str, first: bool) -> list[Composed]:
    """As few texts as can be, with as many of the spare pieces as that allows; the last ones go first."""
    spare = [n for n, p in enumerate(group) if p.spare and not p.alone]
    tried = []
    for keep in range(len(spare), -1, -1):
        gone = set(spare[keep:])
        tried.append(_texts_of([p for n, p in enumerate(group) if n not in gone], language, first))
    return min(tried, key=len)


def _texts_of(group: Sequence[Said], language: str, first: bool) -> list[Composed]:
    """One text if that is enough, else cut at the soft marks, unless texts filled to the brim are fewer."""
    filled = _packed([p for p in group if not p.alone], language, first=first)
    if len(filled) == 1:
        return filled
    texts: list[Composed] = []
    for part in _cut(group, soft=True):
        texts.extend(_packed(part, language, first=first and not texts))
    return min(texts, filled, key=len)


def _cut(pieces: Sequence[Said], *, soft: bool) -> Iterable[list[Said]]:
    """Pieces between the marks that start a new text; *soft* ones too where one text is not enough."""
    group: list[Said] = []
    for piece in pieces:
        if piece.alone and (soft or not piece.spare):
            if group:
                yield group
            group = []
        elif piece.alone or piece.text:
            group.append(piece)
    if group:
        yield group


def _fit(group: Sequence[Said], language: str, first: bool) -> bool:
    return fits(_joined([p.text for p in group]), language, first=first)


def _packed(group: Sequence[Said], language: str, *, first: bool) -> list[Composed]:
    """As few texts as take the pieces whole, in order."""
    packed: list[Composed] = []
    held: list[Said] = []
    for piece in _whole(group, language):
        if held and not _fit([*held, piece], language, first and not packed):
            packed.append(_composed(held))
            held = []
        held.append(piece)
    if held:
        packed.append(_composed(held))
    return packed


def _whole(group: Sequence[Said], language: str) -> Iterable[Said]:
    """The pieces, those too long for any text cut between sentences."""
    for piece in group:
        if fits(piece.text, language):
            yield piece
            continue
        for sentence in re.split(r"(?<=[.?:])\s+(?=[A-ZÁÉÍÓÚÑ¿0-9])|\n", piece.text):
            if sentence.strip():
                yield Said(piece.id, sentence.strip(), piece.spare)


def _composed(pieces: Sequence[Said]) -> Composed:
    return Composed(_joined([p.text for p in pieces]), tuple(dict.fromkeys(p.id for p in pieces)))


def _joined(texts: Sequence[str]) -> str:
    """Texts side by side; a list of numbered choices keeps its own lines."""
    said = ""
    for text in texts:
        gap = (
            "" if not said else "\n" if "\n" in said.rsplit(". ", 1)[-1] and re.search(r"\n\d+ [^\n]*$", said) else " "
        )
        said += gap + text
    return said
