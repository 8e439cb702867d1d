"""When somebody is to come, as the text says it, and where it says "as soon as possible"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.reading.model import Wish
from service.reading.times.wish_apart import with_hours_apart
from service.reading.times.wishes import read_wish
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word


def wish_of(normal: Normal, talk: Sequence[Hit], facts: Mapping[str, object], *, offered: bool) -> Wish | None:
    """The wish of a text; what it says of since when is none. *offered*: it answers windows."""
    since = str(facts.get("since", ""))
    whole = read_wish(normal.text, normal.folded, normal.words, soonest_said(talk), offered=offered, since=since)
    return with_hours_apart(whole, normal.words, lambda piece: _of_piece(normal, piece))


def _of_piece(normal: Normal, piece: Sequence[Word]) -> Wish | None:
    """The wish of some words of a text, the rest of which is blank to it."""
    first, last = piece[0].start, piece[-1].end
    folded = " " * first + normal.folded[first:last]
    return read_wish(normal.text[:last], folded, piece, (), offered=True)


def soonest_said(talk: Sequence[Hit]) -> list[tuple[int, int]]:
    """Where a text says "as soon as possible": not the "as soon as" of "trips as soon as i hit start"."""
    soonest = [h for h in talk if h.payload.code == "wish=soonest"]
    innocent = [h for h in soonest if h.payload.role == "innocent"]
    return [
        (h.start, h.end)
        for h in soonest
        if h.payload.role == "sign" and not any(i.start < h.end and h.start < i.end for i in innocent)
    ]
