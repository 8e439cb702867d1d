"""When somebody is to come, as the text says it, and where it says "as soon as possible"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.reading.model import Wish
from service.reading.times.wishes import read_wish
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal


def wish_of(normal: Normal, talk: Sequence[Hit], facts: Mapping[str, object], *, offered: bool) -> Wish | None:
    """The wish of a text; what it says of since when is none. *offered*: it answers windows."""
    since = str(facts.get("since", ""))
    return read_wish(normal.text, normal.folded, normal.words, soonest_said(talk), offered=offered, since=since)


def soonest_said(talk: Sequence[Hit]) -> list[tuple[int, int]]:
    """Where a text says "as soon as possible": not the "as soon as" of "trips as soon as i hit start"."""
    soonest = [h for h in talk if h.payload.code == "wish=soonest"]
    innocent = [h for h in soonest if h.payload.role == "innocent"]
    return [
        (h.start, h.end)
        for h in soonest
        if h.payload.role == "sign" and not any(i.start < h.end and h.start < i.end for i in innocent)
    ]
