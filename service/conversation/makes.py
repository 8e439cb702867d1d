"""Whether the shop works on a make: answered from its own list, and left to the office where that does not say."""

from __future__ import annotations

from rapidfuzz import fuzz, process

from service.conversation.fit import ALIKE, refused_brand
from service.conversation.matters import named
from service.conversation.office_questions import asks
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.rulebook.model import Rulebook


def asked_make(turn: Turn, reading: Reading) -> str | None:
    """The make of which *reading* asks whether the shop works on it; one that it refuses is said to be not ours instead."""
    make = reading.facts.get("brand")
    if not isinstance(make, str) or not asks(reading.text) or named(turn.rulebook, "works_on", reading.text) is None:
        return None
    return make if refused_brand(turn.rulebook, make) is None else None


def is_served(turn: Turn, make: str) -> bool:
    """Say that the shop works on *make*; False where its file does not say so."""
    served = served_brand(turn.rulebook, make)
    if served is None:
        return False
    turn.tell("answer.make", value=served)
    turn.because("told", f"They ask whether {served} is worked on: the shop's file says so.", "shop.brands.serves")
    return True


def served_brand(rulebook: Rulebook, make: str) -> str | None:
    """The shop's own name for *make* as written, if it is on its list; *make* itself where the shop lists none."""
    listed = rulebook.shop.brands.serves
    if not listed:
        return make
    spellings = {spelling.lower(): name for name, known in listed.items() for spelling in (name, *known)}
    best = process.extractOne(make.lower(), list(spellings), scorer=fuzz.ratio, score_cutoff=ALIKE)
    return spellings[best[0]] if best is not None else None
