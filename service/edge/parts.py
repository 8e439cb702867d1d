"""
Long texts that a gateway hands over piece by piece: which belong together, how they read, and when they are read.

The pieces are messages of their own, stored as they come. They are held until all are there, or one has stayed away too
long; then a turn takes them as one text.
"""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import pairwise

from sqlalchemy import Connection

from service.edge.inbound import Inbound
from service.edge.parse import LONGEST_TEXT
from service.reading.aims.consent import MISSING
from service.reading.words.masking import mask_cards
from service.storage import messages, parts, wakes
from service.storage.engine import new_id
from service.storage.messages import Waiting
from service.storage.parts import HELD, LEFT_OUT, Piece, Place
from service.storage.threads import ThreadRow

log = logging.getLogger("plainfault.exchange")

TOGETHER = timedelta(minutes=10)
"""Pieces further apart are of two texts: a phone counts its long texts with a byte, and begins anew after 256."""

PARTS = "parts"
"""The kind of wake that ends the waiting for pieces."""

GAP = f" {MISSING} "
"""Stands where a piece is missing."""


@dataclass(frozen=True, slots=True)
class Gathered:
    """
    A piece that came, with those of the same text that came before. until: so long the others are waited for. repeated: it
    is one of them, with another id.
    """

    place: Place
    before: tuple[Piece, ...]
    until: datetime
    repeated: bool = False

    @property
    def complete(self) -> bool:
        """Whether the text is whole with this piece."""
        return len({piece.number for piece in self.before} | {self.place.number}) == self.place.of

    @property
    def flooded(self) -> bool:
        """Whether pieces that came before were too much for us: then this one is, too."""
        return any(piece.turn in LEFT_OUT for piece in self.before)


def gathered(connection: Connection, row: ThreadRow, inbound: Inbound, text: str, now: datetime) -> Gathered | None:
    """
    What *inbound* is a piece of; None for a text that is whole.

    Pieces belong together by number, gateway, reference and count. A place that is taken by other words is of an earlier
    text with the same reference.
    """
    part = inbound.part
    if part is None:
        return None
    until = now + timedelta(seconds=part.wait_s)
    told = f"{inbound.gateway}\x1f{part.reference}\x1f{part.of}"
    begins = hashlib.sha256(told.encode()).hexdigest()[:24] + "."
    found = parts.pieces_since(connection, row.shop, row.id, begins, now - TOGETHER)
    wholes: dict[str, list[Piece]] = {}
    for piece in found:
        wholes[piece.whole] = [*wholes.pop(piece.whole, ()), piece]  # the one that grew last stands last
    for whole, pieces in reversed(wholes.items()):
        same = [piece for piece in pieces if piece.number == part.number]
        if not same or same[0].text == text:
            return Gathered(Place(whole, part.number, part.of), tuple(pieces), until, repeated=bool(same))
    return Gathered(Place(begins + new_id(), part.number, part.of), (), until)


def wake_key(thread: str, whole: str) -> str:
    """The key of the wake that ends the waiting for the pieces of *whole*."""
    return f"{thread}:{PARTS}:{whole}"


def hold(connection: Connection, row: ThreadRow, those: Gathered, identity: str) -> None:
    """Let the piece wait for the others."""
    messages.mark_turn(connection, [identity], HELD)
    key = wake_key(row.id, those.place.whole)
    wakes.set_wake(connection, shop=row.shop, thread=row.id, kind=PARTS, key=key, due=those.until)


def let_go(connection: Connection, row: ThreadRow, place: Place, now: datetime) -> None:
    """Let the next turn take all pieces that are there."""
    parts.let_go(connection, row.shop, row.id, place.whole, left_out=True)
    wakes.clear(connection, row.shop, [wake_key(row.id, place.whole)], "not waited for any more", now)


def to_read(connection: Connection, row: ThreadRow, those: Gathered, identity: str, text: str, now: datetime) -> str:
    """
    What a turn would read if it were taken now: this piece and those that no turn has taken, joined.

    A card number that one piece begins and the next one ends is masked in both.
    """
    new = Piece(identity, those.place.whole, those.place.number, text, now, None)
    pieces = sorted((*those.before, new), key=lambda piece: piece.number)
    for first, second in pairwise(pieces):
        if second.number == first.number + 1:
            pieces = _masked(connection, row, pieces, first.number)
    return joined([(p.number, p.text) for p in pieces if p.turn in (None, HELD, *LEFT_OUT)], those.place.of)


def _masked(connection: Connection, row: ThreadRow, pieces: Sequence[Piece], number: int) -> list[Piece]:
    """*pieces* without a card number that stands across the piece of that number and the next; masking keeps lengths."""
    changed = list(pieces)
    place = next(place for place, piece in enumerate(changed) if piece.number == number)
    first, second = changed[place : place + 2]
    both = mask_cards(first.text + second.text)
    for at, piece, text in ((place, first, both[: len(first.text)]), (place + 1, second, both[len(first.text) :])):
        if text != piece.text:
            parts.rewrite(connection, row.shop, piece.id, text)
            changed[at] = replace(piece, text=text)
    return changed


def joined(pieces: Iterable[tuple[int, str]], of: int = 0) -> str:
    """
    The text of numbered pieces in their order, with a sign where some are missing; at its ends too, where it is said how
    many they should be.
    """
    words, last, gaps = "", None, 0
    told = sorted(pieces)
    for number, text in told:
        gap = last is not None and number > last + 1
        words, last, gaps = words + GAP * gap + text, number, gaps + gap
    if gaps or len(told) >= of or not told:
        return words
    # Some count from 0: what is missing beside a number 1 may stand before it or after it.
    return GAP.lstrip() + words if told[0][0] > 1 else words + GAP.rstrip()


def as_texts(waiting: Sequence[Waiting]) -> tuple[Waiting, ...]:
    """*waiting* with the pieces of each long text made one: in the place and under the id of the first."""
    wholes: dict[str, list[Waiting]] = {}
    for one in waiting:
        if one.whole is not None:
            wholes.setdefault(one.whole, []).append(one)
    texts: list[Waiting] = []
    for one in waiting:
        if one.whole is None:
            texts.append(one)
        elif wholes[one.whole][0] is one:
            texts.append(_one_text(wholes[one.whole]))
    return tuple(texts)


def _one_text(pieces: Sequence[Waiting]) -> Waiting:
    text = joined([(piece.part or 0, piece.text) for piece in pieces], pieces[0].of or 0)
    if len(text) > LONGEST_TEXT:
        log.warning("a text of parts is longer than any is read, and its end was left out", extra={"length": len(text)})
    return replace(pieces[0], text=text[:LONGEST_TEXT], media=sum(piece.media for piece in pieces))
