"""Which language the line answers in: the one they write, but a street, a name or a number is of no language."""

from __future__ import annotations

import re

from service.conversation import passing
from service.conversation.underway import Turn
from service.reading.model import Reading

NAMING = ("address", "name", "postal_code", "brand", "model", "serial", "code", "phone")
_WORD = re.compile(r"[^\W\d_]{2,}")
_A_PLACE = re.compile(r"\b(?:apt|unit|ste|suite|bldg|building|lot|space|spc|trailer|gate|code)\b[ #.]*\w*\d", re.I)
"""“Apt 4B”: where something is, told in words of either language."""
SURE_WORDS = 3
"""Fewer words than this keep the conversation's language: "1", "no" and a name are of every language."""
PLACES = {"address", "name", "access", "email"}
"""What is told in words that are of no language: a street, a name, a gate."""
NAMES = 7
"""Answers that name something, up to this many words, say nothing of the language they are in."""


def follow(turn: Turn, reading: Reading) -> None:
    """Answer in the language they write; a street or a name in the other one changes nothing."""
    asked = turn.state.asked
    if passing.other_language(turn, reading.text) or reading.language not in ("en", "es"):
        return
    if turn.state.introduced and len(_WORD.findall(_besides(reading))) < SURE_WORDS + bool(PLACES & set(reading.facts)):
        return
    short = len(reading.text.split()) <= NAMES
    if short and ((asked is not None and asked.kind in NAMING) or PLACES & set(reading.facts)):
        return
    if short and turn.state.introduced and _A_PLACE.search(reading.text):
        return
    turn.put(language=reading.language)


def _besides(reading: Reading) -> str:
    """The words of *reading* beside the address, the name and the like that it tells."""
    text = reading.text
    for name in PLACES & set(reading.facts):
        told = reading.facts[name]
        for value in (told,) if isinstance(told, str) else told if isinstance(told, tuple | list) else ():
            text = text.replace(str(value), " ")
    return text
